"""Idents to listen to: what is played, and the letter that was confused by name."""

import base64
import io
import re
import wave

import numpy as np
import pytest

from vorlib.exhibits import ident, listen
from vorlib.morse import read_samples, slip
from vorlib.stations.archipelago import STATIONS

COUNT = 20  # enough for every case to come up


def played(html):
    """Return the samples of the player in a page, and their rate."""
    (source,) = re.findall(r'src="data:audio/wav;base64,([^"]+)"', html)
    with wave.open(io.BytesIO(base64.b64decode(source))) as sound:
        assert sound.getsampwidth() == 2
        rate_hz, frames = sound.getframerate(), sound.readframes(sound.getnframes())
    return np.frombuffer(frames, dtype="<i2") / 32767.0, rate_hz


@pytest.fixture
def exercise():
    return ident(count=COUNT)


def go_to(exercise, wanted):
    """Go on to a listening, the first whose answer is as wanted, and return its answer."""
    for _ in range(COUNT):
        if wanted(answer := str(exercise.question.answer)):
            return answer
        exercise.next()
    raise AssertionError("no such listening comes up")


def letters(answer):
    return answer not in ("missing", "TEST")


def missing(answer):
    return answer == "missing"


def chart_ident(exercise):
    """Return the ident on the chart for the station that is tuned."""
    (station,) = (s for s in STATIONS.values() if s.name in exercise.sentence)
    return station.ident


def test_what_is_played_is_what_is_to_be_typed(exercise):
    for _ in range(COUNT):
        answer = exercise.question.answer
        heard = read_samples(*played(exercise.player.value))
        assert heard == ("" if answer == "missing" else answer)
        assert exercise.check(answer).verdict == "right"
        exercise.next()
    assert exercise.widget.tally.startswith(f"{COUNT} of {COUNT} right")


def test_five_listenings_bring_up_every_case_and_begin_with_the_charts_ident():
    exercise = ident()
    cases = []
    for _ in range(5):
        answer, chart = exercise.question.answer, chart_ident(exercise)
        cases.append(answer if not letters(answer) else "chart" if answer == chart else "another")
        exercise.next()
    assert set(cases) == {"chart", "another", "TEST", "missing"}
    assert cases[0] == "chart"


def test_the_sound_is_neither_silent_nor_overdriven(exercise):
    samples, _ = played(exercise.player.value)
    assert 0.4 < np.abs(samples).max() < 0.7


def test_where_nothing_is_sent_a_hiss_shows_that_the_sound_works(exercise):
    go_to(exercise, missing)
    samples, rate_hz = played(exercise.player.value)
    assert 0.005 < np.std(samples) < 0.02
    assert samples.size > 3 * rate_hz


def test_the_player_has_a_name_for_screen_readers_and_keyboard_controls(exercise):
    assert re.search(
        r'<audio controls [^>]*aria-label="Sound of listening 1"', exercise.player.value
    )


def test_the_page_does_not_say_what_is_played(exercise):
    for _ in range(COUNT):
        assert "dah" not in exercise.sentence
        assert str(exercise.question.answer) not in exercise.sentence.replace("Write missing", "")
        exercise.next()


def test_without_sound_the_first_hint_shows_dots_and_dashes(exercise):
    assert "The first hint shows the dots and dashes." in exercise.widget.prompt
    go_to(exercise, letters)
    exercise.hint()
    assert re.fullmatch(r"Hint 1: The signs are \([-. ]+\)\.", exercise.widget.hints)


def other_letter(text, number):
    return next(letter for letter in "EK" if letter != text[number - 1])


def test_one_letter_confused_is_named(exercise):
    answer = go_to(exercise, lambda heard: heard == chart_ident(exercise))
    letter = other_letter(answer, 2)
    exercise.check(answer[0] + letter + answer[2])
    made = slip(answer[1], letter)
    assert f"In letter 2 {made.words}." in exercise.widget.feedback
    assert f"{made.name} (1)" in exercise.widget.tally


def test_several_letters_confused_are_named_one_by_one(exercise):
    answer = go_to(exercise, letters)
    first, second = other_letter(answer, 1), other_letter(answer, 2)
    exercise.check(first + second + answer[2])
    said = exercise.widget.feedback
    assert f"Letter 1: you wrote {first}" in said
    assert f"Letter 2: you wrote {second}" in said
    assert "Letter 3" not in said


def test_too_few_letters_are_counted(exercise):
    answer = go_to(exercise, letters)
    exercise.check(answer[:2])
    assert exercise.widget.feedback == "Not yet. 3 letters are sent, and you wrote 2."


def test_letters_where_nothing_is_sent_are_answered_with_a_question(exercise):
    go_to(exercise, missing)
    exercise.check("ABC")
    assert "is there a tone at all" in exercise.widget.feedback


@pytest.mark.parametrize("answer", ["missing", "TEST"])
def test_test_and_a_missing_ident_mean_do_not_use(exercise, answer):
    go_to(exercise, lambda heard: heard == answer)
    exercise.check(answer.lower())
    assert "Do not use it." in exercise.widget.feedback


def test_an_ident_that_differs_from_the_chart_in_one_letter_means_do_not_use(exercise):
    sent = go_to(exercise, lambda heard: letters(heard) and heard != chart_ident(exercise))
    chart = chart_ident(exercise)
    exercise.check(chart)
    assert "the chart's ident taken for what is heard" in exercise.widget.feedback
    exercise.check(sent)
    assert f"{sent} is not {chart}" in exercise.widget.feedback


def test_nonsense_is_answered_beside_the_box(exercise):
    exercise.check("?!")
    assert exercise.widget.message.startswith("I need the letters you hear")
    assert exercise.widget.feedback == ""


def test_saved_without_a_kernel_it_is_the_task_in_words(exercise):
    bundle = exercise._repr_mimebundle_()
    assert bundle["text/plain"].split() == exercise.sentence.split()
    assert "audio" not in str(bundle["text/plain"])


def test_an_ident_to_listen_to_is_also_there_in_words():
    sound = listen("qln")
    words = "QLN is dah-dah-di-dah, di-dah-di-dit, dah-dit, in signs --.- .-.. -."
    assert sound._repr_mimebundle_()["text/plain"] == words
    assert words in sound.widget.value
    assert read_samples(*played(sound.widget.value)) == "QLN"


def test_what_cannot_be_sent_cannot_be_listened_to():
    with pytest.raises(ValueError, match="letters A to Z"):
        listen("Q!")
