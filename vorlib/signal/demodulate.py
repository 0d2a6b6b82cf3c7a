"""Measure the radial in the samples of a composite signal.

All that a station sends is a multiple of 30 Hz. So whole turns of 30 Hz can be laid over each other
without losing anything of the radial, and in the spectrum of whole turns only every so-manyth line
holds signal: the first multiple is the AM tone, those about the 332nd are the subcarrier with the
FM tone. The frequencies are taken as exact; a station may be off by 1 percent (ICAO Annex 10,
volume I, 3.3.5, from memory), which a receiver has to follow and this one does not: far off, it
reports a tone as lost.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import IntEnum
from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from vorlib.core.angles import wrap_360
from vorlib.core.arguments import ArgumentError, FloatArray, finite
from vorlib.signal.cramer_rao import phase_bounds_rad
from vorlib.signal.modulate import (
    FM_RATIO,
    LEAST_SECONDS,
    SAMPLE_RATE_HZ,
    SAMPLES_PER_TURN,
    SUBCARRIER_HZ,
    TONE_HZ,
)

ComplexArray = NDArray[np.complex128]

SUBCARRIER_LINE = round(SUBCARRIER_HZ / TONE_HZ)
SIDE_LINES = 24  # either side of the subcarrier; beyond the 24th there is less than 0.4 percent
AM_LINES = 8  # of the AM tone as it is shown
QUIET_HZ = (3000.0, 8000.0)  # between ident and subcarrier, where there is noise alone

LEAST_DEPTH = 0.15  # half of what a station sends: chosen for this library
STANDS_OUT = 6.0  # amplitude over its standard error; noise alone does so once in a million
CLIPPED_SHARE = 0.0025  # samples at the very top or bottom: four in each turn of 1600

PHASES = 1024  # tried for the FM tone, ten to the width of the peak that is looked for
REFINEMENTS = 3  # Newton steps; each doubles the number of right figures


class Loss(IntEnum):
    """Why a signal gives no radial; its string is the reason in words."""

    NONE = 0
    CARRIER = 1
    AM_TONE = 2
    FM_TONE = 3
    BOTH_TONES = 4

    def __str__(self) -> str:
        return _LOSSES[self]


_LOSSES = {
    Loss.NONE: "nothing is lost",
    Loss.CARRIER: "there is no carrier",
    Loss.AM_TONE: "the AM tone is lost",
    Loss.FM_TONE: "the subcarrier with the FM tone is lost",
    Loss.BOTH_TONES: "both tones are lost",
}


@dataclass(frozen=True)
class SignalReading:
    """What a receiver makes of a composite signal.

    Attributes
    ----------
    radial_deg
        The radial, in (0, 360]; None when a tone is lost.
    uncertainty_deg
        One standard error of the radial, from the noise found in the signal; None with the radial.
    am_depth, fm_depth
        Depths of the AM tone and of the subcarrier, as shares of the carrier.
    loss
        Why there is no radial.
    """

    radial_deg: float | None
    uncertainty_deg: float | None
    am_depth: float
    fm_depth: float
    loss: Loss


@dataclass(frozen=True)
class Tones:
    """The two tones as detected, over one turn, averaged over all turns observed.

    Attributes
    ----------
    am, fm
        The AM tone as a share of the carrier, the FM tone as hertz above the subcarrier.
    """

    am: FloatArray
    fm: FloatArray


def measure_radial(samples: ArrayLike) -> SignalReading:
    """Return the radial that the samples of a composite signal hold, or why they hold none.

    Parameters
    ----------
    samples
        The detected signal, carrier included, in a row of 48,000 a second, 0.1 s or more. What is
        left over after the last whole turn of 30 Hz is not used. Any gain will do.

    Raises
    ------
    ValueError
        If the samples are no such row: too short, not finite, or clipped.

    Notes
    -----
    For white noise this is the estimate of greatest likelihood. Its error comes down to the bound
    of `vorlib.signal.cramer_rao` as long as both tones stand out of the noise; when one does not,
    there is no radial.
    """
    values = _whole_turns(samples)
    spectrum: ComplexArray = np.fft.rfft(values) / values.size
    noise = _noise(spectrum, values.size)
    lines = spectrum[:: values.size // SAMPLES_PER_TURN]
    carrier = float(lines[0].real)
    least = STANDS_OUT * noise * math.sqrt(2.0 / values.size)
    if carrier <= max(least, 1e-9 * float(np.abs(values).max())):
        return SignalReading(None, None, 0.0, 0.0, Loss.CARRIER)
    am_lag, am_amplitude = _am_tone(lines)
    fm_lag, fm_amplitude = _fm_tone(lines)
    depths = am_amplitude / carrier, fm_amplitude / carrier
    loss = _loss(*(a < max(least, LEAST_DEPTH * carrier) for a in (am_amplitude, fm_amplitude)))
    if loss != Loss.NONE:
        return SignalReading(None, None, *depths, loss)
    _refuse_clipped(values)
    errors = phase_bounds_rad(noise, values.size, am_amplitude, fm_amplitude)
    radial = float(wrap_360(math.degrees(am_lag - fm_lag)))
    return SignalReading(radial, math.degrees(math.hypot(*errors)), *depths, loss)


def detected_tones(samples: ArrayLike) -> Tones:
    """Return the two tones as a receiver detects them, over one turn of 30 Hz.

    Raises
    ------
    ValueError
        As `measure_radial` does; with no carrier there is nothing to detect.
    """
    values = _whole_turns(samples)
    turn = values.reshape(-1, SAMPLES_PER_TURN).mean(axis=0)
    lines: ComplexArray = np.fft.rfft(turn) / SAMPLES_PER_TURN
    carrier = float(lines[0].real)
    if carrier <= 0.0:
        raise ArgumentError(
            f"samples must hold a carrier above 0, got a mean of {carrier:g}", argument="samples"
        )
    low = np.where(np.arange(lines.size) <= AM_LINES, lines, 0.0)
    low[0] = 0.0
    am: FloatArray = np.fft.irfft(low, SAMPLES_PER_TURN) * SAMPLES_PER_TURN / carrier
    # The subcarrier alone, turned back to stand still: how fast it still turns is the FM tone.
    still = np.zeros(SAMPLES_PER_TURN, dtype=np.complex128)
    numbers = np.arange(-SIDE_LINES, SIDE_LINES + 1)
    still[numbers] = lines[SUBCARRIER_LINE + numbers]
    vector = np.fft.ifft(still)
    turned = np.angle(vector * np.conj(np.roll(vector, 1)))
    fm: FloatArray = turned * SAMPLE_RATE_HZ / (2.0 * np.pi)
    return Tones(am, fm)


def _whole_turns(samples: ArrayLike) -> FloatArray:
    """Return the samples that fill whole turns of 30 Hz."""
    values = np.asarray(finite("samples", samples))
    if values.ndim != 1:
        raise ArgumentError(
            f"samples must be one row of numbers, got shape {values.shape}", argument="samples"
        )
    if values.size < LEAST_SECONDS * SAMPLE_RATE_HZ:
        raise ArgumentError(
            f"samples must be {LEAST_SECONDS * SAMPLE_RATE_HZ:.0f} or more ({LEAST_SECONDS:g} s), "
            f"got {values.size}",
            argument="samples",
        )
    return values[: values.size - values.size % SAMPLES_PER_TURN]


def _refuse_clipped(values: FloatArray) -> None:
    """Raise ValueError when many samples stand at one level: the tones are distorted then."""
    for level in (values.max(), values.min()):
        share = float(np.mean(values == level))
        if share > CLIPPED_SHARE:
            raise ArgumentError(
                f"samples must not be clipped, got {100.0 * share:.1f} percent of them at "
                f"{level:g}; reduce the gain",
                argument="samples",
            )


def _noise(spectrum: ComplexArray, count: int) -> float:
    """Return the standard deviation of the noise in one sample."""
    first, last = (round(hz * count / SAMPLE_RATE_HZ) for hz in QUIET_HZ)
    return math.sqrt(count * float(np.mean(np.abs(spectrum[first:last]) ** 2)))


def _loss(am_is_lost: bool, fm_is_lost: bool) -> Loss:
    if am_is_lost and fm_is_lost:
        return Loss.BOTH_TONES
    if am_is_lost:
        return Loss.AM_TONE
    return Loss.FM_TONE if fm_is_lost else Loss.NONE


def _am_tone(lines: ComplexArray) -> tuple[float, float]:
    """Return lag in radians and amplitude of the tone on the carrier."""
    return -float(np.angle(lines[1])), 2.0 * float(np.abs(lines[1]))


def _fm_tone(lines: ComplexArray) -> tuple[float, float]:
    """Return lag in radians and amplitude of the subcarrier that fits best.

    A subcarrier swung with lag p has its n-th side line at J_n exp(-i n p), J_n a Bessel function.
    Summing the lines with these weights, turned back by a lag that is tried, gives most where the
    lag is right: that is the estimate of greatest likelihood, whatever the subcarrier's own phase.
    """
    numbers = np.arange(-SIDE_LINES, SIDE_LINES + 1)
    weighted = _side_weights() * lines[SUBCARRIER_LINE + numbers]
    padded = np.zeros(PHASES, dtype=np.complex128)
    padded[numbers] = weighted
    tried = np.abs(np.fft.ifft(padded))  # the sum for lags of 0, 1/PHASES, .. of a turn
    lag = 2.0 * math.pi * int(tried.argmax()) / PHASES
    for _ in range(REFINEMENTS):
        turned = weighted * np.exp(1j * numbers * lag)
        total, slope, bend = turned.sum(), (1j * numbers * turned).sum(), -(numbers**2 @ turned)
        rise = (slope * total.conjugate()).real
        fall = (bend * total.conjugate()).real + abs(slope) ** 2
        if fall >= 0.0:
            break  # no peak to climb, as there is no subcarrier
        lag -= rise / fall
    return lag, 2.0 * float(abs((weighted * np.exp(1j * numbers * lag)).sum()))


@cache
def _side_weights() -> FloatArray:
    """Return the Bessel functions J_n of the FM ratio for each side line, by their integral."""
    turn = 2.0 * np.pi * np.arange(256) / 256
    lines = np.fft.fft(np.exp(1j * FM_RATIO * np.sin(turn))) / 256
    weights: FloatArray = lines[np.arange(-SIDE_LINES, SIDE_LINES + 1)].real
    return weights
