"""The best any method could do: bounds on measuring a radial from a signal in noise."""

from __future__ import annotations

import math

from vorlib.core.arguments import ArgumentError, positive
from vorlib.signal.modulate import (
    AM_DEPTH,
    FM_DEPTH,
    FM_RATIO,
    SAMPLE_RATE_HZ,
    noise_deviation,
)


def phase_bounds_rad(
    noise: float, count: int, am_amplitude: float, fm_amplitude: float
) -> tuple[float, float]:
    """Return the least standard errors of the phases of the AM tone and of the FM tone.

    The Cramer-Rao bound for the phase of a tone of known frequency and amplitude A in `count`
    samples with white noise of deviation s: the variance is at least 2 s^2 / (A^2 count). S. M.
    Kay, *Fundamentals of Statistical Signal Processing: Estimation Theory*, section 3.4 (phase
    estimation, from memory).

    The same information for the tone that swings a subcarrier of amplitude A by m radians: the
    signal's slope is m cos(..) times as large, so the variance is at least 4 s^2 / (A^2 m^2 count).
    """
    am = noise * math.sqrt(2.0 / count) / am_amplitude
    fm = noise * math.sqrt(4.0 / count) / (FM_RATIO * fm_amplitude)
    return am, fm


def radial_bound_deg(
    carrier_to_noise_db: float,
    seconds: float,
    am_depth: float = AM_DEPTH,
    fm_depth: float = FM_DEPTH,
) -> float:
    """Return the least standard error of a measured radial, in degrees.

    The radial is the difference of two phases, so their variances add. The AM tone decides: with
    equal depths the FM tone is eleven times as exact.

    Raises
    ------
    ValueError
        If a quantity is not finite or out of range.
    """
    am_share = float(positive("am_depth", am_depth, "of the carrier"))
    fm_share = float(positive("fm_depth", fm_depth, "of the carrier"))
    count = round(float(positive("seconds", seconds, "seconds")) * SAMPLE_RATE_HZ)
    if not count:
        raise ArgumentError(
            f"seconds must hold a sample, 1/{SAMPLE_RATE_HZ} s, got {seconds:g}", argument="seconds"
        )
    am, fm = phase_bounds_rad(noise_deviation(carrier_to_noise_db), count, am_share, fm_share)
    return math.degrees(math.hypot(am, fm))
