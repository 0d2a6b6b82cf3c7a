"""How an instrument follows in time: a needle that lags, a flag that waits."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from vorlib.core.arguments import ArgumentError, FloatArray, finite, not_negative


def lagged(time_s: ArrayLike, value: ArrayLike, time_constant_s: float) -> FloatArray:
    """Return what a first-order instrument shows of *value*, both along the last axis.

    It starts settled on the first value. Between samples the value is held, so the result is exact
    for a value that steps: after one time constant the needle has covered 63 percent of the step.

    Raises
    ------
    ValueError
        If times do not increase, or the time constant is negative.
    """
    times, shown = _increasing(time_s), np.array(finite("value", value))
    constant = float(not_negative("time_constant_s", time_constant_s, "s"))
    if constant == 0.0:
        return shown
    keep = np.exp(-np.diff(times) / constant)
    for i in range(1, times.size):
        shown[..., i] += keep[i - 1] * (shown[..., i - 1] - shown[..., i])
    return shown


def delayed(time_s: ArrayLike, state: ArrayLike, delay_s: float) -> NDArray[np.int_]:
    """Return what a flag shows that changes only when a new state has held for *delay_s*.

    Parameters
    ----------
    time_s
        Increasing times, shape (n,).
    state
        Flag values at those times, shape (n,); the flag starts on the first.
    delay_s
        Seconds a new state must last, 0 or more.
    """
    times, wanted = _increasing(time_s), np.asarray(state, dtype=np.int_)
    delay = float(not_negative("delay_s", delay_s, "s"))
    shown = wanted.copy()
    since = times[0] if times.size else 0.0
    for i in range(1, times.size):
        if wanted[i] != wanted[i - 1]:
            since = times[i]
        held = times[i] - since >= delay
        shown[i] = wanted[i] if held else shown[i - 1]
    return shown


def _increasing(time_s: ArrayLike) -> FloatArray:
    times = finite("time_s", time_s)
    if times.ndim != 1 or np.any(np.diff(times) <= 0.0):
        raise ArgumentError(
            "time_s must be one row of increasing times in seconds", argument="time_s"
        )
    return times
