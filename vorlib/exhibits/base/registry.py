"""The names that notebooks call: each module of `vorlib.exhibits` registers its own.

import vorlib as v
from vorlib import exhibits as x

x.intercept("TSX", radial_deg=95)                     # the exhibit
x.intercept.case("TSX", radial_deg=95).plan.steps     # its numbers only, no widgets
"""

import pkgutil
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from importlib import import_module
from types import MappingProxyType
from typing import Any, ParamSpec, Protocol, TypeVar, cast

__all__ = ["ExhibitEntry", "ExhibitFunction", "all_exhibits", "exhibit", "find_names", "offered"]

P = ParamSpec("P")  # what the exhibit takes
Q = ParamSpec("Q")  # what its state takes
E_co = TypeVar("E_co", covariant=True)
S = TypeVar("S")
F = TypeVar("F", bound=Callable[..., Any])


class ExhibitFunction(Protocol[P, E_co, Q, S]):
    """A function that makes an exhibit, with one that makes no more than its state.

    Attributes
    ----------
    case
        Takes what the function takes and returns the state that the exhibit would start from.
    """

    __name__: str
    case: Callable[Q, S]

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> E_co:
        """Return the exhibit."""
        ...


@dataclass(frozen=True)
class ExhibitEntry:
    """An exhibit: its name, the notebook that introduces it, and the function that makes it."""

    name: str
    lesson: str
    function: ExhibitFunction[..., Any, ..., Any]


_exhibits: dict[str, ExhibitEntry] = {}
_names: dict[str, Callable[..., Any]] = {}


def exhibit(
    *, lesson: str, state: Callable[Q, S]
) -> Callable[[Callable[P, E_co]], ExhibitFunction[P, E_co, Q, S]]:
    """Register the decorated function, which makes an exhibit, under its own name.

    Parameters
    ----------
    lesson
        The notebook that introduces it: a lesson's number, such as "05", or the name of one of
        the instructor's, such as "prepare".
    state
        Makes the state from the arguments of the function, usually the state's class; it becomes
        `case` of the function.
    """

    def register(function: Callable[P, E_co]) -> ExhibitFunction[P, E_co, Q, S]:
        made = cast(ExhibitFunction[P, E_co, Q, S], offered(function))
        made.case = state
        _exhibits[made.__name__] = ExhibitEntry(made.__name__, lesson, made)
        return made

    return register


def offered(function: F) -> F:
    """Register a function that notebooks call and that is no exhibit, under its own name.

    Raises
    ------
    ValueError
        If there is another function of that name.
    """
    name = function.__name__
    if _names.get(name, function) is not function:
        raise ValueError(f"name for notebooks must be registered once, got {name!r} again")
    _names[name] = function
    return function


def find_names(package: str, path: Iterable[str]) -> Mapping[str, Callable[..., Any]]:
    """Import every module of a package and return what they registered, in order of names."""
    for module in pkgutil.walk_packages(path, f"{package}."):
        import_module(module.name)
    return MappingProxyType(dict(sorted(_names.items())))


def all_exhibits() -> Mapping[str, ExhibitEntry]:
    """Return every exhibit by name, in order of names."""
    import_module("vorlib.exhibits")
    return MappingProxyType(dict(sorted(_exhibits.items())))
