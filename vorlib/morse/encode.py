"""Encode idents in Morse: their signs, their timing and their sound; and read signs back.

Timing is that of ITU-R M.1677-1, part I, 2: a dash lasts three dots, the space inside a letter one,
between letters three, between words seven (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from vorlib.core.arguments import ArgumentError, FloatArray, finite, positive, quoted

WORDS_PER_MINUTE = 7.0  # about this speed: ICAO Annex 10, volume I, 3.3.6 (from memory)
DOT_SECONDS_AT_1_WPM = 1.2  # the word PARIS, with the space after it, lasts 50 dots
DASH, SPACE_IN_LETTER, SPACE_BETWEEN_LETTERS, SPACE_BETWEEN_WORDS = 3, 1, 3, 7  # in dots

IDENT_TONE_HZ = 1020.0  # ICAO Annex 10, volume I, attachment E 1.7 (read in a copy)
EDGE_S = 0.005  # a sign rises and falls this softly, so that it does not click; common practice
SOUND_RATE_HZ = 8000
SILENCE_S = 0.3  # before and after the sound of an ident

MAINTENANCE = "TEST"  # sent in place of the ident, or nothing: AIM 1-1-3 c (read in a copy)

CODE = {
    "A": ".-", "B": "-...", "C": "-.-.", "D": "-..", "E": ".", "F": "..-.", "G": "--.",
    "H": "....", "I": "..", "J": ".---", "K": "-.-", "L": ".-..", "M": "--", "N": "-.",
    "O": "---", "P": ".--.", "Q": "--.-", "R": ".-.", "S": "...", "T": "-", "U": "..-",
    "V": "...-", "W": ".--", "X": "-..-", "Y": "-.--", "Z": "--..",
    "0": "-----", "1": ".----", "2": "..---", "3": "...--", "4": "....-",
    "5": ".....", "6": "-....", "7": "--...", "8": "---..", "9": "----.",
}  # fmt: skip
LETTERS = {signs: letter for letter, signs in CODE.items()}


@dataclass(frozen=True)
class KeyDown:
    """One sign: the key goes down at `start` and up at `end`, in dots or in seconds."""

    start: float
    end: float


def encode(text: str) -> str:
    """Return dots and dashes: letters apart by a space, words by a stroke.

    Raises
    ------
    ValueError
        If there is nothing to send, or something else than letters A to Z and figures.

    >>> encode("QLN"), encode("qln test")
    ('--.- .-.. -.', '--.- .-.. -. / - . ... -')
    """
    words = text.upper().split()
    for letter in "".join(words):
        if letter not in CODE:
            raise ArgumentError(
                f"text must be letters A to Z and figures, got {letter!r} in {text!r}",
                argument="text",
            )
    if not words:
        raise ArgumentError(f"text must hold at least one letter, got {text!r}", argument="text")
    return " / ".join(" ".join(CODE[letter] for letter in word) for word in words)


def decode(signs: str) -> str:
    """Return the text of dots and dashes written as `encode` writes them.

    Raises
    ------
    ValueError
        If a group of signs is no letter and no figure.

    >>> decode("--.- .-.. -.")
    'QLN'
    """
    words = [word.split() for word in signs.split("/")]
    for group in (group for word in words for group in word):
        if group not in LETTERS:
            raise ArgumentError(
                f"signs must be letters or figures in Morse, got {quoted(group)}", argument="signs"
            )
    return " ".join("".join(LETTERS[group] for group in word) for word in words if word)


def spoken(text: str) -> str:
    """Return a text as signs are said aloud: dah for a dash, di for a dot and dit for a last one.

    >>> spoken("QLN")
    'dah-dah-di-dah, di-dah-di-dit, dah-dit'
    """
    letters = []
    for group in encode(text).replace("/", " ").split():
        sounds = ["dah" if sign == "-" else "di" for sign in group]
        letters.append("-".join([*sounds[:-1], "dah" if group[-1] == "-" else "dit"]))
    return ", ".join(letters)


def key_downs_dots(text: str) -> tuple[KeyDown, ...]:
    """Return the signs of a text with their times in dots, the first at 0.

    >>> key_downs_dots("A")
    (KeyDown(start=0, end=1), KeyDown(start=2, end=5))
    """
    downs: list[KeyDown] = []
    at = 0
    for sign in encode(text).replace(" / ", "/"):
        if sign == "/":
            at += SPACE_BETWEEN_WORDS - SPACE_IN_LETTER
        elif sign == " ":
            at += SPACE_BETWEEN_LETTERS - SPACE_IN_LETTER
        else:
            end = at + (DASH if sign == "-" else 1)
            downs.append(KeyDown(at, end))
            at = end + SPACE_IN_LETTER
    return tuple(downs)


def length_dots(text: str) -> int:
    """Return how many dots a text lasts, from its first sign to the end of its last.

    >>> length_dots("LON"), length_dots("PARIS") + SPACE_BETWEEN_WORDS
    (31, 50)
    """
    return int(key_downs_dots(text)[-1].end)


def dot_seconds(words_per_minute: float = WORDS_PER_MINUTE) -> float:
    """Return how long a dot lasts at a speed in words of 50 dots a minute.

    >>> round(dot_seconds(), 4)
    0.1714
    """
    speed = positive("words_per_minute", words_per_minute, "words a minute")
    return DOT_SECONDS_AT_1_WPM / float(speed)


def key_downs_seconds(text: str, words_per_minute: float = WORDS_PER_MINUTE) -> tuple[KeyDown, ...]:
    """Return the signs of a text with their times in seconds, the first at 0."""
    dot = dot_seconds(words_per_minute)
    return tuple(KeyDown(down.start * dot, down.end * dot) for down in key_downs_dots(text))


def keying(time_s: FloatArray, key_downs: Sequence[KeyDown]) -> FloatArray:
    """Return the strength of the tone, 0 to 1, at each time, with soft edges inside each sign."""
    strength = np.zeros(np.shape(time_s))
    for down in key_downs:
        first, last = np.searchsorted(time_s, (down.start, down.end))
        inside = np.minimum(time_s[first:last] - down.start, down.end - time_s[first:last])
        strength[first:last] = 0.5 - 0.5 * np.cos(np.pi * np.minimum(inside / EDGE_S, 1.0))
    return strength


def sound(text: str, rate_hz: int = SOUND_RATE_HZ) -> FloatArray:
    """Return an ident as samples between -1 and 1, with a short silence before and after.

    Parameters
    ----------
    text
        What is sent.
    rate_hz
        Samples a second, at least four for each turn of the tone.

    Raises
    ------
    ValueError
        If the text cannot be sent or the rate is too low.
    """
    if finite("rate_hz", rate_hz) < 4.0 * IDENT_TONE_HZ:
        raise ArgumentError(
            f"rate_hz must be {4.0 * IDENT_TONE_HZ:g} or more, got {rate_hz:g}", argument="rate_hz"
        )
    downs = key_downs_seconds(text)
    time_s = np.arange(math.ceil((downs[-1].end + 2.0 * SILENCE_S) * rate_hz)) / rate_hz - SILENCE_S
    samples: FloatArray = keying(time_s, downs) * np.sin(2.0 * np.pi * IDENT_TONE_HZ * time_s)
    return samples
