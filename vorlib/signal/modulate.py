"""Make the composite signal that leaves a receiver's detector, sample by sample."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from vorlib.core.arguments import ArgumentError, FloatArray, finite, within
from vorlib.morse import IDENT_TONE_HZ, KeyDown, encode, key_downs_seconds, keying

TONE_HZ = 30.0  # ICAO Annex 10, volume I, 3.3.5 (from memory)
SUBCARRIER_HZ = 9960.0  # ICAO Annex 10, volume I, attachment E 1.6 (read in a copy)
FM_RATIO = 16.0  # deviation over tone: the same (read in a copy)
FM_SWING_HZ = FM_RATIO * TONE_HZ
AM_DEPTH = FM_DEPTH = 0.30  # shares of the carrier: a test set's manual (read in a copy)
IDENT_DEPTH = 0.10  # about: ICAO Annex 10, volume I, attachment E 1.7 (read in a copy)
# At least once in 30 s, or three times with voice: ICAO Annex 10, volume I, 3.3.6 (from memory).
IDENT_EVERY_S = 10.0
IDENT_FROM_S = 0.2  # so that samples begin in silence

# Chosen for this library. The rate is a whole number of samples for each turn of the 30 Hz tones
# and more than twice the highest frequency; the bandwidth passes the subcarrier on both sides.
SAMPLE_RATE_HZ = 48_000
SAMPLES_PER_TURN = round(SAMPLE_RATE_HZ / TONE_HZ)
RECEIVER_BANDWIDTH_HZ = 25_000.0
LEAST_SECONDS, MOST_SECONDS = 0.1, 60.0
MOST_CARRIER_TO_NOISE_DB = 300.0  # far below the rounding of a sample
LEAST_CARRIER_TO_NOISE_DB = -20.0


class StationKind(StrEnum):
    """How a station makes its two tones; a receiver need not know."""

    CONVENTIONAL = "conventional"
    DOPPLER = "doppler"


def noise_deviation(carrier_to_noise_db: float) -> float:
    """Return the standard deviation of the noise in one sample, for a carrier of 1.

    White noise of density N0 about a carrier of amplitude 1 and power 1/2 comes out of a
    synchronous detector with the density 2 N0, from zero to half the rate of the samples.
    """
    limits = LEAST_CARRIER_TO_NOISE_DB, MOST_CARRIER_TO_NOISE_DB
    level_db = within("carrier_to_noise_db", carrier_to_noise_db, *limits, "dB")
    density = 0.5 / (10.0 ** (level_db / 10.0) * RECEIVER_BANDWIDTH_HZ)
    return math.sqrt(density * SAMPLE_RATE_HZ)


@dataclass(frozen=True)
class CompositeSignal:
    """What a station's signal is on one radial.

    Attributes
    ----------
    radial_deg
        The radial, by the station's own north: any finite number.
    kind
        Conventional or doppler, or just the word; `vorlib.signal` says what differs, and the sign.
    carrier_to_noise_db
        Carrier over noise in a receiver's bandwidth of 25 kHz, -20 to 300 dB; None for no noise.
    ident
        What is sent in Morse; empty for none.
    am_depth, fm_depth
        Depths of the AM tone and of the subcarrier, as shares of the carrier; 0 switches one off.

    Raises
    ------
    ValueError
        If a number is not finite or out of range, the kind is unknown, or the ident cannot be sent.
    """

    radial_deg: float
    kind: StationKind = StationKind.CONVENTIONAL
    carrier_to_noise_db: float | None = None
    ident: str = ""
    am_depth: float = AM_DEPTH
    fm_depth: float = FM_DEPTH

    def __post_init__(self) -> None:
        finite("radial_deg", self.radial_deg)
        if self.kind not in tuple(StationKind):
            raise ArgumentError(
                f"kind must be one of {', '.join(StationKind)}, got {self.kind!r}", argument="kind"
            )
        within("am_depth", self.am_depth, 0.0, 0.5, "of the carrier")
        within("fm_depth", self.fm_depth, 0.0, 0.5, "of the carrier")
        if self.carrier_to_noise_db is not None:
            noise_deviation(self.carrier_to_noise_db)
        if self.ident:
            encode(self.ident)

    @property
    def lags_deg(self) -> tuple[float, float]:
        """How far the AM tone and the FM tone lag the station's own clock."""
        conventional = self.kind == StationKind.CONVENTIONAL
        return (self.radial_deg, 0.0) if conventional else (0.0, -self.radial_deg)

    def samples(self, seconds: float = 1.0, seed: int = 0) -> FloatArray:
        """Return the detected signal, 48,000 samples a second, with a carrier of 1.

        Parameters
        ----------
        seconds
            How long, from 0.1 to 60.
        seed
            Decides the noise; the same seed gives the same noise.
        """
        length_s = within("seconds", seconds, LEAST_SECONDS, MOST_SECONDS, "seconds")
        count = round(float(length_s) * SAMPLE_RATE_HZ)
        signal = np.resize(self._one_turn(), count)  # the same again, turn after turn
        if self.ident:
            time_s = np.arange(count) / SAMPLE_RATE_HZ
            tone = np.sin(2.0 * np.pi * IDENT_TONE_HZ * time_s)
            signal += IDENT_DEPTH * keying(time_s, self._key_downs(float(length_s))) * tone
        if self.carrier_to_noise_db is not None:
            noise = np.random.default_rng(seed).standard_normal(count)
            signal += noise_deviation(self.carrier_to_noise_db) * noise
        return signal

    def _one_turn(self) -> FloatArray:
        """Carrier and tones over one turn of 30 Hz: all their frequencies are multiples of it."""
        am_lag, fm_lag = (math.radians(lag) for lag in self.lags_deg)
        turn = 2.0 * np.pi * np.arange(SAMPLES_PER_TURN) / SAMPLES_PER_TURN
        swing = FM_RATIO * np.sin(turn - fm_lag)  # highest frequency where the cosine has its crest
        subcarrier = np.cos(SUBCARRIER_HZ / TONE_HZ * turn + swing)
        one: FloatArray = 1.0 + self.am_depth * np.cos(turn - am_lag) + self.fm_depth * subcarrier
        return one

    def _key_downs(self, seconds: float) -> list[KeyDown]:
        """Signs of the ident, repeated."""
        starts = np.arange(IDENT_FROM_S, seconds, IDENT_EVERY_S)
        signs = key_downs_seconds(self.ident)
        return [KeyDown(s.start + at, s.end + at) for at in starts for s in signs]
