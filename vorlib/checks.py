"""Arguments checked at the door: an error names the argument, the value and what is allowed."""

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]


def first(values: NDArray[Any], wrong: NDArray[np.bool_]) -> str:
    """Return the first wrong value as words, with its index when there are several values."""
    if values.ndim == 0:
        return f"{values[()]:g}"
    index = tuple(int(i) for i in np.argwhere(wrong)[0])
    return f"{values[index]:g} at index {index[0] if len(index) == 1 else index}"


def finite(name: str, value: ArrayLike) -> FloatArray:
    """Return *value* as a float array, or raise ValueError when a number is missing or not finite.

    >>> finite("course_deg", 40)
    array(40.)
    """
    try:
        array = np.asarray(value, dtype=np.float64)
    except (TypeError, ValueError):
        raise ValueError(f"{name} must be a number or an array of numbers, got {value!r}") from None
    good = np.isfinite(array)
    if not good.all():
        raise ValueError(f"{name} must be finite, got {first(array, ~good)}")
    return array


def within(name: str, value: ArrayLike, low: float, high: float, unit: str) -> FloatArray:
    """Return *value* as a float array, or raise ValueError when it is outside [low, high]."""
    array = finite(name, value)
    wrong = (array < low) | (array > high)
    if wrong.any():
        raise ValueError(
            f"{name} must be from {low:g} to {high:g} {unit}, got {first(array, wrong)}"
        )
    return array


def not_negative(name: str, value: ArrayLike, unit: str) -> FloatArray:
    """Return *value* as a float array, or raise ValueError when it is below zero."""
    array = finite(name, value)
    wrong = array < 0.0
    if wrong.any():
        raise ValueError(f"{name} must be 0 {unit} or more, got {first(array, wrong)}")
    return array


def positive(name: str, value: ArrayLike, unit: str) -> FloatArray:
    """Return *value* as a float array, or raise ValueError when it is zero or below."""
    array = finite(name, value)
    wrong = array <= 0.0
    if wrong.any():
        raise ValueError(f"{name} must be more than 0 {unit}, got {first(array, wrong)}")
    return array


def broadcast_shape(**arrays: NDArray[Any]) -> tuple[int, ...]:
    """Return the common shape of named arrays, or raise ValueError that names every shape."""
    try:
        return np.broadcast_shapes(*(array.shape for array in arrays.values()))
    except ValueError:
        shapes = ", ".join(f"{name} {array.shape}" for name, array in arrays.items())
        raise ValueError(f"shapes do not broadcast together: {shapes}") from None
