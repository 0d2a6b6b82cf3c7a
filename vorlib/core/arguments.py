"""Arguments checked at the door: an error names the argument, the value and what is allowed.

A single number passes as a plain float, several as an array; both do the same arithmetic.
"""

import math
import reprlib
from numbers import Real
from typing import TYPE_CHECKING, Any, overload

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int_]
BoolArray = NDArray[np.bool_]

# One float, or an array of floats: a function returns the kind it was given. Without a type
# argument a generic type means the single one.
if TYPE_CHECKING:
    from typing_extensions import TypeVar  # for the default, which typing has from Python 3.13

    N = TypeVar("N", float, FloatArray, default=float)
else:
    from typing import TypeVar

    N = TypeVar("N", float, FloatArray)


# No quantity of navigation is larger, and none that must be more than 0 is smaller, in any unit:
# within these bounds squares and quotients stay finite.
SMALLEST, LARGEST = 1e-12, 1e12


LONGEST_QUOTED = 40  # characters; an error has to fit on the screen


class ArgumentError(ValueError):
    """An argument cannot be used.

    Attributes
    ----------
    argument
        The name of the one to change, empty if it is none of them alone.
    """

    def __init__(self, message: str, argument: str = "") -> None:
        super().__init__(message)
        self.argument = argument


def quoted(words: str) -> str:
    """Return what was typed in quotes, without its middle if that is long.

    >>> quoted("25O/20")
    "'25O/20'"
    """
    half = LONGEST_QUOTED // 2
    return repr(words if len(words) <= LONGEST_QUOTED else f"{words[:half]} ... {words[-half:]}")


def first(values: float | FloatArray, wrong: Any) -> str:
    """Return the first wrong value as words, with its index when there are several values."""
    if isinstance(values, float):
        return f"{values:g}"
    index = tuple(int(i) for i in np.argwhere(wrong)[0])
    return f"{values[index]:g} at index {index[0] if len(index) == 1 else index}"


@overload
def finite(name: str, value: float) -> float: ...
@overload
def finite(name: str, value: ArrayLike) -> FloatArray: ...
def finite(name: str, value: ArrayLike) -> float | FloatArray:
    """Return *value* as a float or a float array, or raise ArgumentError when it is not finite.

    Words, dates, truth values, complex numbers and masked values are no numbers here.

    >>> finite("course_deg", 40), finite("course_deg", [40, 50])
    (40.0, array([40., 50.]))
    """
    if isinstance(value, float) and math.isfinite(value):  # np.float64 is a float too
        return float(value)
    array = _numbers(name, value)
    good = np.isfinite(array)
    if not good.all():
        raise ArgumentError(
            f"{name} must be finite, got {first(_lowered(array), ~good)}", argument=name
        )
    return _lowered(array)


# What Python or numpy takes for a number, but is never a quantity here.
NO_NUMBER = (bool, np.bool_, np.timedelta64)


def _numbers(name: str, value: ArrayLike) -> FloatArray:
    """Return numbers as a float array, or raise ArgumentError when there is anything else."""
    try:
        array = np.asarray(value)
        plain = array.dtype.kind in "iuf" or (
            array.dtype.kind == "O" and all(isinstance(one, Real) for one in array.flat)
        )
        if array.dtype.kind == "O" or isinstance(value, list | tuple):
            # As floats, True would be 1 and a time its ticks.
            plain &= not any(isinstance(one, NO_NUMBER) for one in np.asarray(value, object).flat)
        if plain and not np.ma.is_masked(value):
            with np.errstate(over="ignore"):  # overflow is refused as infinite
                return array.astype(np.float64, copy=False)
    except OverflowError:
        raise ArgumentError(
            f"{name} must be a number that a float can hold, got {reprlib.repr(value)}",
            argument=name,
        ) from None
    except (TypeError, ValueError):
        pass
    raise ArgumentError(
        f"{name} must be a number or an array of numbers, got {reprlib.repr(value)}", argument=name
    )


@overload
def within(name: str, value: float, low: float, high: float, unit: str) -> float: ...
@overload
def within(name: str, value: ArrayLike, low: float, high: float, unit: str) -> FloatArray: ...
def within(name: str, value: ArrayLike, low: float, high: float, unit: str) -> float | FloatArray:
    """Return *value* or raise ArgumentError when it is outside [low, high]."""
    array = finite(name, value)
    wrong = (array < low) | (array > high)
    if any_true(wrong):
        raise ArgumentError(
            f"{name} must be from {low:g} to {high:g} {unit}, got {first(array, wrong)}",
            argument=name,
        )
    return array


@overload
def not_negative(name: str, value: float, unit: str) -> float: ...
@overload
def not_negative(name: str, value: ArrayLike, unit: str) -> FloatArray: ...
def not_negative(name: str, value: ArrayLike, unit: str) -> float | FloatArray:
    """Return *value* or raise ArgumentError when it is below zero, or beyond `LARGEST`."""
    array = _bounded(name, finite(name, value), 0.0, unit)
    wrong = array < 0.0
    if any_true(wrong):
        raise ArgumentError(
            f"{name} must be 0 {unit} or more, got {first(array, wrong)}", argument=name
        )
    return array


@overload
def positive(name: str, value: float, unit: str) -> float: ...
@overload
def positive(name: str, value: ArrayLike, unit: str) -> FloatArray: ...
def positive(name: str, value: ArrayLike, unit: str) -> float | FloatArray:
    """Return *value* or raise ArgumentError when it is zero or below.

    So it does below `SMALLEST` and beyond `LARGEST`.
    """
    array = _bounded(name, finite(name, value), SMALLEST, unit)
    wrong = array <= 0.0
    if any_true(wrong):
        raise ArgumentError(
            f"{name} must be more than 0 {unit}, got {first(array, wrong)}", argument=name
        )
    return array


@overload
def bounded(name: str, value: float, unit: str) -> float: ...
@overload
def bounded(name: str, value: ArrayLike, unit: str) -> FloatArray: ...
def bounded(name: str, value: ArrayLike, unit: str) -> float | FloatArray:
    """Return *value*, of either sign, or raise ArgumentError when it is beyond `LARGEST`."""
    return _bounded(name, finite(name, value), 0.0, unit)


def _bounded(name: str, array: N, low: float, unit: str) -> N:
    """Return numbers unless one is too large, or too small without being 0."""
    size: Any = abs(array)
    wrong = (size > LARGEST) | ((size < low) & (array > 0.0))
    if any_true(wrong):
        raise ArgumentError(
            f"{name} must be a size that occurs, from {low:g} to {LARGEST:g} {unit}, "
            f"got {first(array, wrong)}",
            argument=name,
        )
    return array


def broadcast_shape(**arrays: Any) -> tuple[int, ...]:
    """Return the common shape of named numbers, or raise ArgumentError that names every shape."""
    shapes = [() if isinstance(array, float) else np.shape(array) for array in arrays.values()]
    if not any(shapes):
        return ()
    try:
        return np.broadcast_shapes(*shapes)
    except ValueError:
        named = ", ".join(f"{n} {shape}" for n, shape in zip(arrays, shapes, strict=True))
        first_shaped = next(n for n, shape in zip(arrays, shapes, strict=True) if shape)
        raise ArgumentError(
            f"shapes do not broadcast together: {named}", argument=first_shaped
        ) from None


def in_one_shape(**arrays: Any) -> Any:
    """Return named numbers as they are if all are single, else as arrays of their common shape."""
    shape = broadcast_shape(**arrays)
    if shape == ():
        return arrays.values()
    return [a if np.shape(a) == shape else np.broadcast_to(a, shape) for a in arrays.values()]


def any_true(wrong: Any) -> bool:
    """Whether any is true, without numpy's overhead for a single answer."""
    return wrong if isinstance(wrong, bool) else bool(np.any(wrong))


def _lowered(array: FloatArray) -> float | FloatArray:
    """Return a plain float for a single number."""
    return array if array.ndim else float(array)
