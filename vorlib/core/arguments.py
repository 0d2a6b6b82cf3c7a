"""Arguments checked at the door: an error names the argument, the value and what is allowed.

A single number passes as a plain float, several as an array; both do the same arithmetic.
"""

import math
from typing import Any, cast

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]


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


def first(values: FloatArray, wrong: NDArray[np.bool_]) -> str:
    """Return the first wrong value as words, with its index when there are several values."""
    if isinstance(values, float):
        return f"{values:g}"
    index = tuple(int(i) for i in np.argwhere(wrong)[0])
    return f"{values[index]:g} at index {index[0] if len(index) == 1 else index}"


def finite(name: str, value: ArrayLike) -> FloatArray:
    """Return *value* as a float or a float array, or raise ArgumentError when it is not finite.

    >>> finite("course_deg", 40), finite("course_deg", [40, 50])
    (40.0, array([40., 50.]))
    """
    if isinstance(value, float) and math.isfinite(value):  # np.float64 is a float too
        return cast(FloatArray, float(value))
    try:
        array = np.asarray(value, dtype=np.float64)
    except (TypeError, ValueError):
        raise ArgumentError(
            f"{name} must be a number or an array of numbers, got {value!r}", argument=name
        ) from None
    good = np.isfinite(array)
    if not good.all():
        raise ArgumentError(
            f"{name} must be finite, got {first(_lowered(array), ~good)}", argument=name
        )
    return _lowered(array)


def within(name: str, value: ArrayLike, low: float, high: float, unit: str) -> FloatArray:
    """Return *value* or raise ArgumentError when it is outside [low, high]."""
    array = finite(name, value)
    wrong = (array < low) | (array > high)
    if _any(wrong):
        raise ArgumentError(
            f"{name} must be from {low:g} to {high:g} {unit}, got {first(array, wrong)}",
            argument=name,
        )
    return array


def not_negative(name: str, value: ArrayLike, unit: str) -> FloatArray:
    """Return *value* or raise ArgumentError when it is below zero."""
    array = finite(name, value)
    wrong = array < 0.0
    if _any(wrong):
        raise ArgumentError(
            f"{name} must be 0 {unit} or more, got {first(array, wrong)}", argument=name
        )
    return array


def positive(name: str, value: ArrayLike, unit: str) -> FloatArray:
    """Return *value* or raise ArgumentError when it is zero or below."""
    array = finite(name, value)
    wrong = array <= 0.0
    if _any(wrong):
        raise ArgumentError(
            f"{name} must be more than 0 {unit}, got {first(array, wrong)}", argument=name
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


def _any(wrong: Any) -> bool:
    """Whether any is true, without numpy's overhead for a single answer."""
    return wrong if isinstance(wrong, bool) else bool(np.any(wrong))


def _lowered(array: FloatArray) -> FloatArray:
    """A plain float for a single number."""
    return array if array.ndim else cast(FloatArray, float(array))
