"""The ident that is heard, and whether the station may be used."""

from collections.abc import Iterator
from random import Random
from string import ascii_uppercase

from vorlib.morse import MAINTENANCE, encode, slip, spoken, use_of_ident
from vorlib.practice.questions.idents import HEARD, MISSING
from vorlib.practice.questions.question import Misconception, Question
from vorlib.practice.questions.registry import question_kind
from vorlib.practice.questions.scenes import any_station
from vorlib.practice.questions.standards import SIGNAL_LOSS
from vorlib.vor.station import Station

IN_WORDS = " You hear: "  # what comes after it stands for the sound


@question_kind("ident_heard", lessons=("12",))
def make(chance: Random) -> Question:
    """Ask for the letters of an ident, which is not always the one on the chart."""
    station = any_station(chance)
    sent = _sent(station, chance)
    sound = spoken(sent) if sent else "a faint hiss and no tone"
    return Question(
        kind="ident_heard",
        prompt=f"You tune {station.name} on {station.frequency_mhz:.2f} MHz and listen. "
        f"Which letters? Write missing if there are none.{IN_WORDS}{sound}.",
        form=HEARD,
        answer=sent or MISSING,
        tolerance=0.0,
        tolerance_why="An ident is right in every letter, or it is another one.",
        hints=_hints(sent),
        worked=f"{f'The signs ({encode(sent)}) are {sent}' if sent else 'No signs: missing'}. "
        f"{use_of_ident(sent, station.ident)}",
        element=SIGNAL_LOSS,
        level="application",
        misconceptions=tuple(_mistakes(sent, station.ident)),
    )


def _sent(station: Station, chance: Random) -> str:
    """Return what is sent: the ident, TEST, nothing, or an ident with one letter changed."""
    draw = chance.random()
    if draw < 0.2:
        return station.ident
    if draw < 0.35:
        return MAINTENANCE
    if draw < 0.5:
        return ""
    place = chance.randrange(len(station.ident))
    letter = chance.choice([c for c in ascii_uppercase if c != station.ident[place]])
    return station.ident[:place] + letter + station.ident[place + 1 :]


def _hints(sent: str) -> tuple[str, str, str]:
    if not sent:
        return (
            "In signs: there are none.",
            "Turn the volume up: is there a tone at all, or the hiss alone?",
            "A station that sends no letters has no ident.",
        )
    return (
        f"The signs are ({encode(sent)}).",  # in brackets: a stop would be one more dot
        f"There are {len(sent)} letters, and the first is {sent[0]}.",
        f"All but the last letter: {sent[:-1]}.",
    )


def _mistakes(sent: str, expected: str) -> Iterator[Misconception]:
    answered = {sent or MISSING}
    if sent != expected:
        answered.add(expected)
        yield Misconception(
            "the chart's ident taken for what is heard",
            expected,
            "You know what ought to come, and the ear is quick to agree.",
            "Write down sign by sign what you hear, then look at the chart.",
        )
    if not sent:
        return
    yield Misconception(
        "an ident not heard",
        MISSING,
        "The tone is faint beside other noises.",
        "Turn the volume up, or take a hint to see the signs.",
    )
    for place, right in enumerate(sent):
        for letter in ascii_uppercase:
            wrong = sent[:place] + letter + sent[place + 1 :]
            if wrong not in answered:
                answered.add(wrong)
                yield _letter_mistake(place + 1, right, letter, wrong)


def _letter_mistake(number: int, right: str, letter: str, would_answer: str) -> Misconception:
    made = slip(right, letter)
    return Misconception(
        made.name,
        would_answer,
        f"In letter {number} {made.words}.",
        f"Listen to letter {number} alone, and say it aloud.",
    )
