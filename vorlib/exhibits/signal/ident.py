"""Idents to listen to: sounds with their words, and an exercise that names the letter confused."""

from __future__ import annotations

from html import escape
from typing import Any

import ipywidgets as widgets
import numpy as np
from IPython.display import Audio

from vorlib.core.arguments import FloatArray
from vorlib.exhibits.base.plain import plain
from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.base.saved import widget_view
from vorlib.exhibits.learner.practice import Practice
from vorlib.exhibits.learner.recording import RecordKeeper, this_session
from vorlib.morse import SOUND_RATE_HZ, encode, slip, sound, spoken
from vorlib.practice.kinds.receiver.ident_heard import IN_WORDS
from vorlib.practice.learning.session import PracticeSet
from vorlib.practice.questions.idents import MISSING
from vorlib.practice.questions.question import Marking
from vorlib.views.sentence import in_lines

__all__ = ["IdentPractice", "Sound", "ident", "listen", "player", "sounded"]

LOUDNESS, HISS = 0.5, 0.01
SILENT_S = 4.0  # of hiss alone, where an ident is missing


def _samples(text: str) -> FloatArray:
    """Return what a receiver's loudspeaker gives: the ident, if any, and a faint hiss."""
    silence = np.zeros(round(SILENT_S * SOUND_RATE_HZ))
    tone = LOUDNESS * sound(text) if text else silence
    hissing: FloatArray = tone + HISS * np.random.default_rng(0).standard_normal(tone.size)
    return hissing


def player(text: str, label: str, *, at_once: bool = False) -> str:
    """Return a sound to play in a page, with a name for screen readers."""
    audio: Any = Audio  # IPython gives it no types
    source = audio(data=_samples(text), rate=SOUND_RATE_HZ, normalize=False).src_attr()
    how = 'controls preload="auto" autoplay' if at_once else 'controls preload="auto"'
    return f'<audio {how} aria-label="{escape(label)}" src="{source}"></audio>'


def _in_words(text: str) -> str:
    return f"{text.upper()} is {spoken(text)}, in signs {encode(text)}"


def sounded(text: str, *, at_once: bool = False) -> str:
    """Return an ident to play and its signs in words, as HTML.

    Parameters
    ----------
    text
        What is sent.
    at_once
        Whether the page plays it as soon as it shows it.
    """
    words = f'<div class="vorlib-sentence">{escape(_in_words(text))}</div>'
    return player(text, f"{text.upper()} in Morse", at_once=at_once) + words


class Sound:
    """An ident to play, with its signs in words for a page without sound.

    Parameters
    ----------
    text
        What is sent.
    """

    def __init__(self, text: str) -> None:
        self.sentence = _in_words(text)
        self.widget = plain(widgets.HTML, sounded(text))

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {"text/plain": in_lines(self.sentence), **widget_view(self.widget)}


@offered
def listen(text: str) -> Sound:
    """Return a text to hear in Morse, at the speed and the tone of a VOR.

    Raises
    ------
    ValueError
        If there is nothing to send, or something else than letters and figures.
    """
    return Sound(text)


class IdentPractice(Practice):
    """Listening exercise: what is sent is heard, and the letters typed are marked.

    The first hint shows the dots and dashes, so that it can be done without sound.
    """

    def __init__(self, questions: PracticeSet, recording: RecordKeeper) -> None:
        self.player = plain(widgets.HTML)
        super().__init__(questions, recording)
        self._page = plain(widgets.VBox, [self.player, self.widget])

    @property
    def _prompt(self) -> str:
        """Which listening of how many this is, and what to do, without what there is to hear."""
        words = super()._prompt.partition(IN_WORDS)[0]
        return f"{words} The first hint shows the dots and dashes."

    def check(self, text: str, name: str = "") -> Marking | None:
        """Mark the letters typed; when several are wrong, say of each how it was confused."""
        marking = super().check(text, name)
        if marking and marking.verdict == "wrong" and marking.misconception is None:
            self.widget.feedback = self._letters_confused(self.question.form.parse(text))
        return marking

    def _letters_confused(self, written: Any) -> str:
        sent = str(self.question.answer)
        if sent == MISSING:
            return "Not yet. Listen again: is there a tone at all, or the hiss alone?"
        if len(written) != len(sent):
            return f"Not yet. {len(sent)} letters are sent, and you wrote {len(written)}."
        wrong = [
            f"Letter {number}: {slip(right, letter).words}."
            for number, (right, letter) in enumerate(zip(sent, written, strict=True), start=1)
            if right != letter
        ]
        return " ".join(["Not yet.", *wrong])

    def _ask(self) -> None:
        super()._ask()
        sent = str(self.question.answer)
        text = "" if sent == MISSING else sent
        self.player.value = player(text, f"Sound of listening {self._number + 1}")

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {"text/plain": in_lines(self.sentence), **widget_view(self._page)}


@offered
def ident(count: int = 5, seed: int = 77) -> IdentPractice:
    """Return the listening exercise.

    Parameters
    ----------
    count
        How many listenings.
    seed
        Another seed gives others; that of the default brings up every case within five.
    """
    return IdentPractice(PracticeSet(("ident_heard",), count, seed), this_session())
