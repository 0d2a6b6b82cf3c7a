"""A learner's name makes one file, on every system, and an odd one is answered in words."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.practice.record.learner import LONGEST_NAME, file_name, tidy_name
from vorlib.practice.record.record import Record

NAMES = ["Wenna", "Åsa O'Brae", "Mor-Lenn d. Ä.", "青木", "अमृता", "con", "7", "T. Askerel"]
ODD = ["../boss", "a/b", "a\\b", "x:y", "who?", "a*", "=1+1", "a\x00b", "A|B", "a_b", "smile 🙂"]


@pytest.mark.parametrize("name", NAMES)
def test_a_name_as_people_have_it_makes_a_file_that_every_system_takes(name, tmp_path):
    assert tidy_name(name) == name
    made = file_name(name)
    assert re.fullmatch(r"learner-[^\s/\\:*?\"<>|\x00-\x1f]+\.sqlite3", made)
    assert len(made.encode()) <= 255
    assert Record(name, tmp_path).path.parent == tmp_path


@pytest.mark.parametrize("name", ODD)
def test_a_name_with_odd_characters_is_told_which_and_what_is_allowed(name):
    with pytest.raises(ValueError, match=r"may have letters, digits, spaces.*got '"):
        Record(name)


@pytest.mark.parametrize("name", ["", "   ", "...", "-'"])
def test_a_name_without_a_letter_or_digit_is_refused(name):
    with pytest.raises(ValueError, match="must have a letter or a digit"):
        tidy_name(name)


def test_a_name_that_is_too_long_is_told_the_limit():
    with pytest.raises(ValueError, match=f"may have {LONGEST_NAME} characters, got 41"):
        tidy_name("a" * 41)


@pytest.mark.parametrize("other", ["WENNA DORRICK", " wenna  dorrick ", "\uff37enna Dorrick"])
def test_capitals_spaces_and_wide_letters_make_no_other_learner(other):
    assert file_name(other) == file_name("Wenna Dorrick")


def test_an_accent_written_as_one_character_or_two_makes_one_learner():
    assert file_name("\u00c5sa") == file_name("A\u030asa")


def test_different_names_have_different_files():
    assert len({file_name(name) for name in [*NAMES, "Asa O'Brae", "Wen na", "Wen-na"]}) == 11


@given(st.text(max_size=60))
def test_any_text_is_a_name_with_a_file_inside_the_folder_or_refused_in_words(text):
    try:
        made = file_name(text)
    except ValueError:
        with pytest.raises(ValueError, match="learner's name"):
            tidy_name(text)
    else:
        assert not set("/\\:\x00") & set(made)
        assert len(made.encode()) <= 255
        assert file_name(tidy_name(text)) == made
