"""A record can be taken out and in again, and a file is harmless to those who open it."""

import csv
import io
import json
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.practice.learning.attempt import SEPARATOR, Attempt
from vorlib.practice.record.exchange import (
    Export,
    as_csv,
    as_json,
    from_csv,
    from_json,
    read_export,
    write_export,
)
from vorlib.practice.record.record import Record

NOON = datetime(2026, 6, 1, 12, tzinfo=UTC)
SLIP = Attempt("reciprocal", 7, "wrong", "no turn at all", ("no turn at all",), 2, 12.5, NOON, "k1")
RIGHT = Attempt("sensing", 8, "right", answered_at=NOON, key="k2")
EXPORT = Export("Wenna Dorrick", (SLIP, RIGHT))
BOTH = pytest.mark.parametrize(
    ("write", "read"), [(as_json, from_json), (as_csv, from_csv)], ids=["json", "csv"]
)

names = st.text(max_size=12).filter(lambda text: text.isprintable() and SEPARATOR not in text)
attempts = st.builds(
    Attempt,
    kind=names.filter(bool),
    seed=st.integers(0, 2**63 - 1),
    verdict=st.sampled_from(["right", "close", "wrong"]),
    misconception=names,
    foreseen=st.lists(names.filter(bool), max_size=3, unique=True).map(tuple),
    hints=st.integers(0, 4),
    taken_s=st.floats(0, 1e6),
    answered_at=st.datetimes(datetime(2000, 1, 2), datetime(2999, 1, 1), timezones=st.just(UTC)),
    key=names.filter(bool),
)


@BOTH
@given(attempt=attempts)
def test_an_answer_comes_back_from_a_file_as_it_was(write, read, attempt):
    export = Export("Wenna Dorrick", (attempt, SLIP))
    assert read(write(export)) == export


@given(attempts)
def test_no_cell_is_a_formula_to_a_spreadsheet(attempt):
    for row in csv.reader(io.StringIO(as_csv(Export("Wenna", (attempt,))))):
        assert not any(cell.startswith(("=", "+", "-", "@")) for cell in row)


@pytest.mark.parametrize("name", ["=1+1", "+1", "-1", "@SUM(A1)"])
def test_a_cell_that_would_be_a_formula_has_an_apostrophe_before_it(name):
    text = as_csv(Export("Wenna", (Attempt(name, 1, "right", answered_at=NOON, key="k"),)))
    assert f",'{name}," in text
    assert from_csv(text).attempts[0].kind == name


def test_a_csv_file_saved_again_by_a_spreadsheet_is_still_read():
    lines = as_csv(EXPORT).replace("\n", "\r\n")
    assert from_csv("\N{BYTE ORDER MARK}" + lines) == EXPORT


@pytest.mark.parametrize("suffix", [".json", ".csv", ".CSV"])
def test_a_record_goes_out_to_a_file_and_into_an_empty_record(suffix, tmp_path):
    here, there = (Record("Wenna Dorrick", tmp_path / name) for name in ("here", "there"))
    here.add(SLIP, RIGHT)
    kept = Export(here.learner, tuple(here.attempts()))
    write_export(kept, tmp_path / f"wenna{suffix}")
    export = read_export(tmp_path / f"wenna{suffix}")
    assert there.bring_in(export) == 2
    assert there.attempts() == here.attempts() == [SLIP, RIGHT]
    assert there.bring_in(export) == 0  # and once more adds nothing


def test_the_answers_of_another_learner_are_refused(tmp_path):
    with pytest.raises(ValueError, match=r"must be T\. Askerel, got the answers of Wenna Dorrick"):
        Record("T. Askerel", tmp_path).bring_in(EXPORT)


def test_a_damaged_file_adds_nothing(tmp_path):
    record = Record("Wenna Dorrick", tmp_path)
    (tmp_path / "cut.json").write_text(as_json(EXPORT)[:-40])
    with pytest.raises(ValueError, match=r"^cut\.json: "):
        record.bring_in(read_export(tmp_path / "cut.json"))
    assert record.attempts() == []


CONTENT = json.loads(as_json(EXPORT))
DAMAGE = [
    ("verdict", "maybe", r"answer 1: verdict must be one of right, close, wrong"),
    ("seed", "many", r"answer 1: invalid literal"),
    ("seed", -1, r"answer 1: seed must be 0 or more"),
    ("hints", 9, r"answer 1: hints must be 0 to 4"),
    ("taken_s", float("nan"), r"answer 1: taken_s must be 0 or more"),
    ("answered_at", "2026-02-30T12:00:00+00:00", r"answer 1: "),
    ("answered_at", "2026-06-01T12:00:00", r"answer 1: answered_at must have a time zone"),
    ("answered_at", None, r"answer 1: "),
    ("foreseen", "one", r"answer 1: foreseen must be a list"),
    ("kind", "two\nlines", r"answer 1: a name must be one line"),
    ("key", "", r"answer 1: key must not be empty"),
]


@pytest.mark.parametrize(("field", "value", "words"), DAMAGE)
def test_a_damaged_answer_is_told_with_its_place(field, value, words):
    first, second = CONTENT["answers"]
    content = CONTENT | {"answers": [first | {field: value}, second]}
    with pytest.raises(ValueError, match=words):
        from_json(json.dumps(content))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "Expecting value"),
        ("[]", "not an export of a record"),
        ('{"format": "other"}', "not an export of a record"),
        ('{"format": "vorlib record", "version": 9}', "install a newer vorlib"),
        ('{"format": "vorlib record", "version": 1}', "no list of answers"),
        ('{"format": "vorlib record", "version": 1, "answers": [4]}', "answer 1: must be an obj"),
        ('{"format": "vorlib record", "version": 1, "answers": [{}]}', "'foreseen' is missing"),
        ('{"format": "vorlib record", "version": 1, "answers": []}', "learner's name"),
    ],
)
def test_a_file_of_another_sort_is_refused_in_words(text, words):
    with pytest.raises(ValueError, match=words):
        from_json(text)


def test_a_table_without_the_columns_or_of_two_learners_is_refused():
    with pytest.raises(ValueError, match="no column 'learner'"):
        from_csv("a,b\n1,2\n")
    two = as_csv(EXPORT) + as_csv(Export("T. Askerel", (RIGHT,))).splitlines()[1] + "\n"
    with pytest.raises(ValueError, match="of one learner, got 2"):
        from_csv(two)


def test_a_file_is_named_json_or_csv(tmp_path):
    with pytest.raises(ValueError, match=r"must end in \.json or \.csv, got 'wenna\.txt'"):
        write_export(EXPORT, tmp_path / "wenna.txt")
    with pytest.raises(ValueError, match=r"must end in \.json or \.csv"):
        read_export(tmp_path / "wenna")


def test_a_file_that_cannot_be_written_is_told_and_leaves_no_part(tmp_path):
    (tmp_path / "taken.json").mkdir()
    with pytest.raises(OSError, match=r"taken\.json"):
        write_export(EXPORT, tmp_path / "taken.json")
    assert [path.name for path in tmp_path.iterdir()] == ["taken.json"]
