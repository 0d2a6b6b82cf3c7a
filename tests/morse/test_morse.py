"""Morse idents: their letters, their timing, and reading them back from times and from sound.

Letters and timing: ITU-R M.1677-1, part I (from memory). The lengths of LON, DVR and PARIS are
counted out by hand from that timing, sign by sign, and PARIS is the usual word of 50.
"""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from vorlib.morse import (
    CODE,
    KeyDown,
    decode,
    encode,
    find_key_downs,
    key_downs_dots,
    key_downs_seconds,
    length_dots,
    read_key_downs,
    read_samples,
    slip,
    sound,
    spoken,
    use_of_ident,
)
from vorlib.signal import SAMPLE_RATE_HZ, CompositeSignal
from vorlib.stations.archipelago import STATIONS

TEXTS = st.text(st.sampled_from(sorted(CODE)), min_size=1, max_size=5)


@pytest.mark.parametrize(
    ("text", "dots"),
    [
        # L 9, O 11, N 5 and two spaces of 3
        ("LON", 31),
        # D 7, V 9, R 7 and two spaces of 3
        ("DVR", 29),
        # T 3, E 1, S 5, T 3 and three spaces of 3
        ("TEST", 21),
        # P 11, A 5, R 7, I 3, S 5 and four spaces of 3; with the 7 after the word it is 50
        ("PARIS", 43),
        ("E", 1),
        ("T", 3),
        # the space between words is 7
        ("E E", 9),
    ],
)
def test_a_word_lasts_as_many_dots_as_its_signs_and_spaces(text, dots):
    assert length_dots(text) == dots


def test_a_dash_is_three_dots_and_spaces_are_one_three_and_seven():
    downs = key_downs_dots("AN T")
    lengths = [d.end - d.start for d in downs]
    spaces = [b.start - a.end for a, b in pairwise(downs)]
    assert lengths == [1, 3, 3, 1, 3]
    assert spaces == [1, 3, 1, 7]


def test_at_seven_words_a_minute_paris_and_its_space_take_a_seventh_of_a_minute():
    dot = key_downs_seconds("E")[0].end
    assert 50 * dot == pytest.approx(60 / 7, rel=1e-12)
    assert key_downs_seconds("LON")[-1].end == pytest.approx(5.314, abs=5e-4)


def test_distress_is_sent_as_everyone_knows():
    assert encode("SOS") == "... --- ..."


def test_signs_are_said_as_pilots_say_them():
    assert spoken("E") == "dit"
    assert spoken("TEST QL") == "dah, dit, di-di-dit, dah, dah-dah-di-dah, di-dah-di-dit"


def test_no_two_letters_share_their_signs():
    assert len(set(CODE.values())) == len(CODE) == 36


@given(TEXTS)
def test_what_is_sent_is_read_as_it_was_meant(text):
    assert decode(encode(text)) == text
    assert read_key_downs(key_downs_seconds(text)) == text


@given(TEXTS, st.floats(0.7, 1.4), st.floats(-0.2, 0.2))
def test_a_hand_that_is_fast_slow_or_uneven_is_still_read(text, speed, unevenness):
    # every second sign a little longer, the others a little shorter
    dot = 1.2 / 7 / speed
    downs = [
        KeyDown(d.start * dot, (d.end + (-1) ** i * unevenness) * dot)
        for i, d in enumerate(key_downs_dots(text))
    ]
    assert read_key_downs(downs) == text


@settings(max_examples=30, deadline=None)
@given(TEXTS)
def test_an_ident_is_read_back_from_its_sound(text):
    assert read_samples(sound(text), 8000) == text


@pytest.mark.parametrize("ident", [*STATIONS, "TEST"])
def test_an_ident_is_read_out_of_the_composite_signal_in_noise(ident):
    samples = CompositeSignal(118, carrier_to_noise_db=15, ident=ident).samples(9.0, seed=3)
    assert read_samples(samples, SAMPLE_RATE_HZ) == ident


def test_an_ident_sent_again_is_read_as_two_words():
    samples = CompositeSignal(118, ident="QLN").samples(19.0)
    assert read_samples(samples, SAMPLE_RATE_HZ) == "QLN QLN"


def test_where_no_ident_is_sent_none_is_read():
    for level in (None, 0, 20):
        samples = CompositeSignal(118, carrier_to_noise_db=level).samples(5.0, seed=7)
        assert read_samples(samples, SAMPLE_RATE_HZ) == ""
    assert read_samples(np.zeros(8000), 8000) == ""


def test_the_sound_is_a_tone_of_1020_hz_that_does_not_click():
    samples = sound("LON")
    spectrum = np.abs(np.fft.rfft(samples)) ** 2
    hz = np.fft.rfftfreq(samples.size, 1 / 8000)
    assert hz[spectrum.argmax()] == pytest.approx(1020, abs=5)
    far = spectrum[np.abs(hz - 1020) > 400].sum() / spectrum.sum()
    assert far < 1e-5
    hard = np.where(samples == 0.0, 0.0, np.sin(2 * np.pi * 1020 * np.arange(samples.size) / 8000))
    clicks = np.abs(np.fft.rfft(hard)) ** 2
    assert clicks[np.abs(hz - 1020) > 400].sum() / clicks.sum() > 100 * far
    assert samples[0] == samples[-1] == 0.0
    assert np.abs(samples).max() <= 1.0


def test_the_sound_lasts_as_long_as_the_signs():
    downs = find_key_downs(sound("LON"), 8000)
    expected = key_downs_seconds("LON")
    for heard, sent in zip(downs, expected, strict=True):
        # a twentieth of a dot, for soft edges and for noise that must not chop them
        assert heard.start - 0.3 == pytest.approx(sent.start, abs=0.0085)
        assert heard.end - 0.3 == pytest.approx(sent.end, abs=0.0085)


@pytest.mark.parametrize(
    ("heard", "words"),
    [
        ("", "No ident is heard"),
        ("  ", "No ident is heard"),
        ("TEST", "TEST is sent"),
        ("t e s t", "TEST is sent"),
        ("TEST QLN", "TEST is sent"),
        ("OBL", "OBL is not QLN"),
    ],
)
def test_a_missing_ident_test_and_another_ident_mean_do_not_use(heard, words):
    said = use_of_ident(heard, "QLN")
    assert said.startswith(words)
    assert said.endswith("Do not use it.")


@pytest.mark.parametrize("heard", ["QLN", "qln", "Q L N", "QLN QLN"])
def test_the_right_ident_means_the_station_may_be_used_as_long_as_it_is_heard(heard):
    said = use_of_ident(heard, "QLN")
    assert "may be used" in said
    assert "as long as you hear it" in said
    assert "not" not in said


@pytest.mark.parametrize(
    ("sent", "written", "words"),
    [
        ("L", "F", "backwards"),
        ("Q", "Y", "backwards"),
        ("K", "R", "the other way round"),
        ("S", "H", "3 signs were sent, and you have 4"),
        ("E", "I", "1 sign was sent, and you have 2"),
        ("L", "P", "listen again to sign 3 of 4"),
    ],
)
def test_a_slip_is_named_without_giving_the_letter_away(sent, written, words):
    said = slip(sent, written).words
    assert words in said
    assert f" {sent} " not in f" {said} "


@pytest.mark.parametrize("text", ["", " ", "Q-N", "Ä", "QLN!"])
def test_what_cannot_be_sent_is_refused_with_what_can(text):
    with pytest.raises(ValueError, match="text must"):
        encode(text)


def test_signs_that_are_no_letter_are_named():
    with pytest.raises(ValueError, match=r"got '\.\.--'"):
        decode("--.- ..--")


def test_a_steady_tone_is_no_morse():
    with pytest.raises(ValueError, match=r"one of 5\.00 s; a dash lasts 0\.51 s"):
        read_key_downs([KeyDown(0.0, 5.0)])


@pytest.mark.parametrize(
    "downs",
    [
        [KeyDown(0.0, 0.2), KeyDown(0.1, 0.3)],
        [KeyDown(0.3, 0.2)],
        [KeyDown(0.0, math.nan)],
    ],
    ids=["overlap", "backwards", "nan"],
)
def test_signs_out_of_order_are_refused(downs):
    with pytest.raises(ValueError, match="key_downs must"):
        read_key_downs(downs)


def test_a_recording_that_begins_in_the_middle_of_a_sign_is_refused_not_misread():
    samples = sound("QLN")
    with pytest.raises(ValueError, match="middle of a sign"):
        read_samples(samples[int(0.5 * 8000) :], 8000)


@pytest.mark.parametrize("samples", [np.full(8000, np.nan), np.zeros((10, 800)), np.zeros(10)])
def test_what_is_no_recording_is_refused(samples):
    with pytest.raises(ValueError, match="samples must be"):
        read_samples(samples, 8000)


def test_a_rate_too_low_for_the_tone_is_refused():
    with pytest.raises(ValueError, match="rate_hz must be 4080 or more, got 2000"):
        sound("QLN", 2000)


def test_a_speed_of_nothing_is_refused():
    with pytest.raises(ValueError, match="words_per_minute must be more than 0"):
        key_downs_seconds("QLN", 0.0)
