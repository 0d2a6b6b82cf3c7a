"""The kinds of question there are: each module of `vorlib.practice.kinds` registers its own."""

import pkgutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from random import Random
from types import MappingProxyType

from vorlib.practice.questions.question import Question

SEEDS = 10**9
MAXIMUM_DRAWS = 100  # every kind so far is unambiguous and new in every other draw or more often

Make = Callable[[Random], Question]


@dataclass(frozen=True)
class Kind:
    """A kind of question: its name, the lessons it belongs to and what makes one."""

    name: str
    lessons: tuple[str, ...]
    make: Make


_registered: dict[str, Kind] = {}


def question_kind(name: str, *, lessons: tuple[str, ...]) -> Callable[[Make], Make]:
    """Register the decorated function, which makes a question from a source of chance.

    Parameters
    ----------
    name
        The kind's name, once only.
    lessons
        Numbers of the lessons it belongs to, such as "01".
    """

    def register(make: Make) -> Make:
        if name in _registered:
            raise ValueError(f"question kind must be registered once, got {name!r} again")
        _registered[name] = Kind(name, lessons, make)
        return make

    return register


@cache
def all_kinds() -> Mapping[str, Kind]:
    """Return every kind of question by name, in the order of their names."""
    package = import_module("vorlib.practice.kinds")
    for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
        import_module(module.name)
    return MappingProxyType(dict(sorted(_registered.items())))


def kinds_of_lesson(lesson: str) -> tuple[str, ...]:
    """Return the names of the kinds that belong to a lesson, such as "01"."""
    names = tuple(name for name, kind in all_kinds().items() if lesson in kind.lessons)
    if not names:
        lessons = sorted({lesson for kind in all_kinds().values() for lesson in kind.lessons})
        raise ValueError(f"lesson must be one of {', '.join(lessons)}, got {lesson!r}")
    return names


def kind_words(kind: str) -> str:
    """Return what a kind is called in words.

    Its name stands in records and behind the codes of sheets, and so keeps its first spelling.

    >>> kind_words("centred_radial")
    'centered radial'
    """
    return kind.replace("_", " ").replace("centred", "centered")  # codespell:ignore


def draw(kind: str, seed: int) -> Question:
    """Return a question of a kind: the same for the same seed, and never ambiguous.

    Raises
    ------
    ValueError
        If there is no such kind; the message lists those there are.
    """
    if kind not in all_kinds():
        raise ValueError(f"kind must be one of {', '.join(all_kinds())}, got {kind!r}")
    chance = Random(f"{kind}/{seed}")
    for _ in range(MAXIMUM_DRAWS):
        question = all_kinds()[kind].make(chance)
        if question.is_unambiguous:
            return question
    raise RuntimeError(f"{kind} made no unambiguous question in {MAXIMUM_DRAWS} draws")
