"""A learner's name: taken from the hub, and whose record it continues."""

from datetime import UTC, datetime

import pytest

from vorlib.exhibits.learner.practice import PracticeWidget
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.record.learner import name_on_hub
from vorlib.practice.record.record import Record


@pytest.fixture(autouse=True)
def _own_records(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))


@pytest.mark.parametrize(
    ("user", "name"),
    [("wenna", "wenna"), ("wenna_d@school.example", "wenna d"), ("@", ""), ("x" * 60, "")],
)
def test_the_name_on_the_hub_is_the_learners_where_it_can_be_one(monkeypatch, user, name):
    monkeypatch.setenv("JUPYTERHUB_USER", user)
    assert name_on_hub() == name


def test_a_name_says_whose_record_it_continues_before_it_does(monkeypatch):
    at = datetime(2026, 5, 3, tzinfo=UTC)
    Record("Wenna").add(Attempt("reciprocal", 1, "right", answered_at=at, taken_s=2.0, key="a"))
    monkeypatch.setenv("JUPYTERHUB_USER", "wenna")
    widget = PracticeWidget()
    assert widget.typed_name == "wenna"
    assert "record of wenna: 1 answer, the last on May 3, 2026" in widget.continues
    widget.typed_name = "Wenna D"
    assert widget.continues == ""
