"""The composite signal of a VOR, made sample by sample for a radial and measured back.

Two tones of 30 Hz ride on the carrier: the *AM tone* directly, as amplitude, and the *FM tone* as
the swing of a subcarrier of 9960 Hz. The radial is the phase by which the two differ.

The sign, said here and nowhere else: on the station's own magnetic north the crests of the two
tones agree, where the crest of the FM tone is the highest frequency of the subcarrier. On a radial
of so many degrees **the AM tone lags the FM tone by as many degrees**, clockwise. A conventional
station sends the FM tone the same to all sides, as the reference, and its AM tone lags more and
more as one goes round clockwise. A doppler station sends the AM tone the same to all sides, and its
FM tone leads. A receiver, which takes one phase from the other, need not know which kind it hears.

That the two agree at magnetic north is ICAO Annex 10, volume I, 3.3.1 (from memory). That the AM
tone is the one that lags follows from the pattern of a conventional station, which turns clockwise
(from memory); third parties disagree.

Phases are those of cosines: a tone that lags by `p` is ``cos(2 pi 30 t - p)``.
"""

from vorlib.signal.cramer_rao import radial_bound_deg
from vorlib.signal.demodulate import Loss, SignalReading, Tones, detected_tones, measure_radial
from vorlib.signal.modulate import (
    AM_DEPTH,
    FM_DEPTH,
    FM_SWING_HZ,
    LEAST_SECONDS,
    SAMPLE_RATE_HZ,
    SUBCARRIER_HZ,
    TONE_HZ,
    CompositeSignal,
    StationKind,
)

__all__ = [
    "AM_DEPTH",
    "FM_DEPTH",
    "FM_SWING_HZ",
    "LEAST_SECONDS",
    "SAMPLE_RATE_HZ",
    "SUBCARRIER_HZ",
    "TONE_HZ",
    "CompositeSignal",
    "Loss",
    "SignalReading",
    "StationKind",
    "Tones",
    "detected_tones",
    "measure_radial",
    "radial_bound_deg",
]
