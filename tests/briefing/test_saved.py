"""A lesson saved beside its card, and read again: the same numbers, or a refusal in words."""

import json
from datetime import date
from pathlib import Path

import pytest

from vorlib.aircraft.wind import Wind
from vorlib.briefing.card import lesson_card
from vorlib.briefing.facts import lesson_code
from vorlib.briefing.files import plan_lesson
from vorlib.briefing.legs import card_legs
from vorlib.briefing.saved import lesson_from_json, lesson_json, read_lesson
from vorlib.briefing.tasks import lesson_tasks
from vorlib.core.angles import format_direction
from vorlib.io.text import FileError
from vorlib.stations import load_stations

LESSON = plan_lesson(wind=Wind(250.0, 20.0))
CARD = lesson_card(LESSON)
NAV_BASE = Path(__file__).parents[1] / "data" / "faa_nav_base.csv"


def test_a_saved_lesson_gives_the_same_card_and_the_same_tasks():
    published = load_stations(NAV_BASE)
    real = plan_lesson(
        published, center=published.stations[0].station.position, on=date(2026, 6, 1),
        altitude_ft=9500.0,
    )  # fmt: skip
    for saved in (LESSON, real):
        read = lesson_from_json(lesson_json(saved))
        assert lesson_code(read) == lesson_code(saved)
        tasks = lesson_tasks(lesson_card(saved))
        assert [one.answers for one in lesson_tasks(lesson_card(read))] == [
            one.answers for one in tasks
        ]
        assert read.remarks == saved.remarks


def test_the_courses_in_numbers_are_those_on_the_card():
    answers = {t.title: {a.question: a.expected for a in t.answers} for t in lesson_tasks(CARD)}
    direct, inbound, outbound = card_legs(CARD)
    assert answers["Orientation"]["course, TO"] == format_direction(direct.course_deg)
    assert answers["Orientation"]["heading"].startswith(format_direction(direct.heading_deg))
    intercept = answers["Intercept inbound"]
    assert intercept["course to select, flag"] == f"{format_direction(inbound.course_deg)}, TO"
    assert f", {format_direction(inbound.intercept_deg)} (" in intercept["angle, heading"]
    assert intercept["heading that holds"].startswith(format_direction(inbound.heading_deg))
    cone = answers["Station passage"]["cone, in the wind"]
    assert cone.endswith(f"{inbound.off_s:.0f} s across")
    assert answers["Outbound to a field"]["heading"].startswith(
        format_direction(outbound.heading_deg)
    )
    other = outbound.check.other
    assert answers["Cross-check"][f"radial of {other.station.name}"] == format_direction(
        other.radial_deg
    )


def damaged(**changes):
    """Return a saved lesson with something else in it; what is "gone" is left out."""
    content = json.loads(lesson_json(LESSON)) | changes
    return json.dumps({name: value for name, value in content.items() if value != "gone"})


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "cut short, damaged or not a plan"),
        (lesson_json(LESSON)[:900], "cut short, damaged or not a plan"),
        ("[" * 100_000, "cut short, damaged or not a plan"),
        ("[1]", "not the plan of a lesson: choose the file .plan.json"),
        ('{"format": "vorlib record"}', "not the plan of a lesson"),
        (damaged(version=2), "version 2 of a plan is not known"),
        (damaged(altitude_ft="gone"), "'altitude_ft' is missing"),
        (damaged(altitude_ft=-99999), "altitude_ft must be from"),
        (damaged(altitude_ft="high"), "altitude_ft must be a number"),
        (damaged(true_airspeed_kt=[100]), "true_airspeed_kt must be one number"),
        (damaged(radius_nm=True), "radius_nm must be a number"),
        (damaged(wind_kt=10**400), "wind_kt must be a number"),
        (damaged().replace('"radius_nm": 45.0', '"radius_nm": NaN'), "NaN is not a number"),
        (damaged(on="2036-06-01"), "2029"),
        (damaged(on="June"), "on must be a day such as 2026-06-01, got 'June'"),
        (damaged(stations={}), "stations must be a list"),
        (damaged(stations=[]), "at least one station"),
        (damaged(stations=[7]), "stations, entry 1: stations must be an object"),
        (damaged(fields=[{"ident": "A"}]), "fields, entry 1: 'name' is missing"),
        (damaged(fields=[{}] * 300), "fields must be a list of at most 200"),
        (damaged(sources=["x" * 5000]), "sources must be words, at most 2,000 letters"),
        (damaged(center={"lat_deg": 95, "lon_deg": 0, "elevation_ft": 0}), "lat_deg must be"),
    ],
)
def test_a_plan_that_cannot_be_used_is_refused_in_words(text, words):
    with pytest.raises(FileError, match=words.replace(".", r"\.")):
        lesson_from_json(text)


def test_a_plan_of_more_than_a_megabyte_is_not_even_read(tmp_path):
    path = tmp_path / "card.plan.json"
    path.write_text(" " * 1_000_001)
    with pytest.raises(FileError, match="larger than 1 MB"):
        read_lesson(path)


def test_signs_that_no_page_can_show_are_replaced():
    read = lesson_from_json(damaged(sources=["a\x00b\nc"]))
    assert read.sources == ("a?b?c",)
