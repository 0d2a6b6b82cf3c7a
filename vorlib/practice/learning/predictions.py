"""The predictions of the lessons: question, choices, reasons and answer, from a file a lesson."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, fields
from functools import cache
from importlib.resources import files

__all__ = [
    "PredictionError",
    "PredictionText",
    "lessons",
    "prediction_text",
    "prediction_texts",
    "read_predictions",
]

FOLDER = files("vorlib").joinpath("data", "predictions")
ID = re.compile(r"(\w+)-([1-9]\d*)")  # lesson, number


class PredictionError(ValueError):
    """A prediction breaks a rule; the message names it and says what is allowed."""


@dataclass(frozen=True)
class PredictionText:
    """What one prediction says.

    Attributes
    ----------
    id
        Lesson and number, such as "02-1".
    question
        What to predict.
    choices
        The answers offered, two or more.
    answer
        The right one of the choices.
    reasons
        Why one may think so, two or three: the right reason and common misconceptions.
    reason
        The right one of the reasons.
    because
        What explains the answer, in a few sentences.

    Raises
    ------
    PredictionError
        If a text is missing or blank, or answer or reason is not among those offered.
    """

    id: str
    question: str
    choices: tuple[str, ...]
    answer: str
    reasons: tuple[str, ...]
    reason: str
    because: str

    def __post_init__(self) -> None:
        texts = (self.id, self.question, self.because, *self.choices, *self.reasons)
        if not all(isinstance(text, str) and text.strip() for text in texts):
            raise PredictionError(f"prediction {self.id!r}: every text must be there, none blank")
        self._offers("choices", self.choices, "answer", self.answer)
        self._offers("reasons", self.reasons, "reason", self.reason)

    def _offers(self, several: str, offered: tuple[str, ...], one: str, right: str) -> None:
        """Refuse a prediction that leaves no choice, or leaves out the right answer."""
        if len(set(offered)) != len(offered) or len(offered) < 2:
            raise PredictionError(
                f"prediction {self.id!r}: {several} must be two or more that differ, "
                f"got {list(offered)}"
            )
        if right not in offered:
            raise PredictionError(
                f"prediction {self.id!r}: {one} must be one of {list(offered)}, got {right!r}"
            )


def read_predictions(text: str, lesson: str) -> dict[str, PredictionText]:
    """Return the predictions of a lesson by id, from the text of its TOML file.

    Raises
    ------
    PredictionError
        If it is not TOML, an entry lacks or exceeds the fields of `PredictionText`, or the ids do
        not count up from 1.
    """
    try:
        content = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise PredictionError(f"predictions of {lesson}: not TOML: {error}") from None
    entries = content.pop("prediction", [])
    if content or not entries:
        raise PredictionError(
            f"predictions of {lesson}: must be tables [[prediction]] and no other"
        )
    found = [_prediction(entry, lesson) for entry in entries]
    wanted = [f"{lesson}-{number}" for number in range(1, len(found) + 1)]
    if [one.id for one in found] != wanted:
        raise PredictionError(
            f"predictions of {lesson}: ids must be {', '.join(wanted)}, "
            f"got {', '.join(one.id for one in found)}"
        )
    return {one.id: one for one in found}


def _prediction(entry: dict[str, object], lesson: str) -> PredictionText:
    wanted, given = {field.name for field in fields(PredictionText)}, set(entry)
    which = f"prediction {entry.get('id', f'of {lesson} without id')!r}"
    if given != wanted:
        raise PredictionError(
            f"{which}: must have {', '.join(sorted(wanted))}, got {', '.join(sorted(given))}"
        )
    texts = dict(entry)
    for name in ("choices", "reasons"):
        offered = entry[name]
        if not isinstance(offered, list):
            raise PredictionError(f"{which}: {name} must be a list, got {offered!r}")
        texts[name] = tuple(offered)
    return PredictionText(**texts)  # type: ignore[arg-type]  # it refuses what is no text


def lessons() -> tuple[str, ...]:
    """Return the lessons that have predictions, such as "02", in order."""
    names = (path.name for path in FOLDER.iterdir())
    return tuple(sorted(name.removesuffix(".toml") for name in names if name.endswith(".toml")))


@cache
def _of_lesson(lesson: str) -> dict[str, PredictionText]:
    return read_predictions(FOLDER.joinpath(f"{lesson}.toml").read_text(encoding="utf-8"), lesson)


def prediction_texts(lesson: str) -> tuple[PredictionText, ...]:
    """Return the predictions of one of `lessons`, in order."""
    return tuple(_of_lesson(lesson).values())


def prediction_text(prediction_id: str) -> PredictionText:
    """Return a prediction by its id, such as "02-1".

    Raises
    ------
    PredictionError
        If there is none of that id; the message lists those of the lesson, or the lessons.
    """
    parts = ID.fullmatch(prediction_id)
    if parts is None or parts[1] not in lessons():
        raise PredictionError(
            'prediction id must be a lesson and a number, such as "02-1", the lesson one of '
            f"{', '.join(lessons())}; got {prediction_id!r}"
        )
    there = _of_lesson(parts[1])
    if prediction_id not in there:
        raise PredictionError(
            f"prediction id must be one of {', '.join(there)}, got {prediction_id!r}"
        )
    return there[prediction_id]
