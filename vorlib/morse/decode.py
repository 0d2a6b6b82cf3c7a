"""Decode Morse: samples to signs, signs to letters, and what an ident means."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from vorlib.core.arguments import ArgumentError, FloatArray, finite
from vorlib.morse.encode import (
    CODE,
    DASH,
    IDENT_TONE_HZ,
    MAINTENANCE,
    SPACE_BETWEEN_LETTERS,
    SPACE_BETWEEN_WORDS,
    SPACE_IN_LETTER,
    WORDS_PER_MINUTE,
    KeyDown,
    decode,
    dot_seconds,
)

# A length is taken for the one of two that is nearer in proportion, so that a speed may be off by
# up to 1.5 either way.
_DASH_FROM = math.sqrt(DASH)
_LETTER_FROM = math.sqrt(SPACE_IN_LETTER * SPACE_BETWEEN_LETTERS)
_WORD_FROM = math.sqrt(SPACE_BETWEEN_LETTERS * SPACE_BETWEEN_WORDS)
_TOO_LONG = DASH * _DASH_FROM  # a steady tone, not a dash

_SWAPPED = str.maketrans(".-", "-.")

AVERAGED_S = 0.04  # a quarter of a dot at 7 words a minute
QUIET_HZ = IDENT_TONE_HZ + 200.0  # where no part of the signal is, to hear the noise alone
KEY_DOWN, KEY_UP = 0.6, 0.4  # of the loudest: apart, so that noise does not chop a sign's edges
STANDS_OUT = 4.0  # a tone this many times the noise; noise alone does so once in 30,000 listenings


def read_key_downs(key_downs: Sequence[KeyDown], words_per_minute: float = WORDS_PER_MINUTE) -> str:
    """Return the text of signs with their times in seconds; empty when there is none.

    Parameters
    ----------
    key_downs
        The signs, in order.
    words_per_minute
        The speed, which may be off by half: the sign of "T" alone is a slow "E".

    Raises
    ------
    ValueError
        If signs overlap, one is far too long, or a group of them is no letter.
    """
    dot = dot_seconds(words_per_minute)
    return decode("".join(_signs(key_downs, dot)))


def _signs(key_downs: Sequence[KeyDown], dot: float) -> Iterator[str]:
    up_since = -math.inf
    for down in key_downs:
        length, silence = (down.end - down.start) / dot, (down.start - up_since) / dot
        if not (length > 0.0 and silence > 0.0):
            raise ArgumentError(
                f"key_downs must follow each other in time, got {down}", argument="key_downs"
            )
        if length > _TOO_LONG:
            raise ArgumentError(
                f"key_downs must be dots and dashes, got one of {down.end - down.start:.2f} s; "
                f"a dash lasts {DASH * dot:.2f} s",
                argument="key_downs",
            )
        if silence > _WORD_FROM:
            yield " / "
        elif silence > _LETTER_FROM:
            yield " "
        yield "-" if length > _DASH_FROM else "."
        up_since = down.end


def find_key_downs(samples: ArrayLike, rate_hz: float) -> tuple[KeyDown, ...]:
    """Return when a tone of 1020 Hz is heard in samples, in seconds; none in noise or silence.

    The samples may hold the sound alone or the whole composite signal.

    Raises
    ------
    ValueError
        If the samples are not finite numbers in a row, or begin or end in the middle of a sign.
    """
    values = np.asarray(finite("samples", samples))
    if values.ndim != 1 or values.size < 2.0 * AVERAGED_S * rate_hz:
        raise ArgumentError(
            f"samples must be a row of {2.0 * AVERAGED_S:g} s or more, got shape {values.shape}",
            argument="samples",
        )
    strength = _strength(values, rate_hz, IDENT_TONE_HZ)
    noise = math.sqrt(np.mean(_strength(values, rate_hz, QUIET_HZ) ** 2))
    loudest = float(strength.max())
    if loudest <= STANDS_OUT * noise or loudest < 1e-6 * np.abs(values).max():
        return ()
    down = _held(strength > KEY_DOWN * loudest, strength < KEY_UP * loudest)
    if down[0] or down[-1]:
        raise ArgumentError(
            "samples must begin and end in silence, got the middle of a sign", argument="samples"
        )
    turns = np.flatnonzero(np.diff(down)) + 1
    times = (turns + 0.5 * AVERAGED_S * rate_hz) / rate_hz
    return tuple(KeyDown(float(a), float(b)) for a, b in times.reshape(-1, 2))


def _held(down: NDArray[np.bool_], up: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Whether the key is down: between the two levels it stays as it was, up to begin with."""
    decided = np.where(down | up, np.arange(down.size), 0)
    return down[np.maximum.accumulate(decided)]


def _strength(values: FloatArray, rate_hz: float, tone_hz: float) -> FloatArray:
    """Amplitude of a tone, averaged over a short time that slides along the samples."""
    turning = np.exp(-2j * np.pi * tone_hz * np.arange(values.size) / rate_hz)
    summed = np.concatenate(([0.0], np.cumsum((values - values.mean()) * turning)))
    span = round(AVERAGED_S * rate_hz)
    strength: FloatArray = 2.0 * np.abs(summed[span:] - summed[:-span]) / span
    return strength


def read_samples(samples: ArrayLike, rate_hz: float) -> str:
    """Return the text that a tone of 1020 Hz sends in samples; empty when there is no ident.

    Raises
    ------
    ValueError
        As `find_key_downs` and `read_key_downs` do.
    """
    return read_key_downs(find_key_downs(samples, rate_hz))


def use_of_ident(heard: str, expected: str) -> str:
    """Return whether a station may be used, from the ident heard; an empty one is no ident.

    >>> use_of_ident("TEST", "QLN")
    'TEST is sent in place of the ident: the station is being worked on. Do not use it.'
    """
    expected = expected.upper()
    words = heard.upper().split()
    spelled = "".join(words)  # people may write the letters apart
    if not spelled:
        return "No ident is heard: the station may be off or being worked on. Do not use it."
    if MAINTENANCE in (*words, spelled):
        return "TEST is sent in place of the ident: the station is being worked on. Do not use it."
    if expected not in (*words, spelled):
        return f"{heard.upper()} is not {expected}: you hear another station. Do not use it."
    return f"{expected} is the ident you want: the station may be used, as long as you hear it."


@dataclass(frozen=True)
class DecodingSlip:
    """How one letter was mistaken for another: the kind of slip, and in words."""

    name: str
    words: str


def slip(sent: str, written: str) -> DecodingSlip:
    """Return how one letter was mistaken for another, without giving away the letter sent.

    >>> slip("L", "F").words
    'you wrote F, which is (..-.): you heard it backwards'
    """
    signs, heard = CODE[sent.upper()], CODE[written.upper()]
    wrote = f"you wrote {written.upper()}, which is ({heard})"
    if heard == signs[::-1]:
        return DecodingSlip("letter heard backwards", f"{wrote}: you heard it backwards")
    if heard == signs.translate(_SWAPPED):
        words = f"{wrote}: every dot and dash is the other way round"
        return DecodingSlip("dots taken for dashes", words)
    if len(heard) != len(signs):
        counted = f"{len(signs)} {'sign was' if len(signs) == 1 else 'signs were'} sent"
        return DecodingSlip("signs miscounted", f"{wrote}: {counted}, and you have {len(heard)}")
    wrong = [i for i, (a, b) in enumerate(zip(signs, heard, strict=True), start=1) if a != b]
    number = f"sign {wrong[0]}" if len(wrong) == 1 else f"signs {wrong[0]} to {wrong[-1]}"
    return DecodingSlip("sign misheard", f"{wrote}: listen again to {number} of {len(signs)}")
