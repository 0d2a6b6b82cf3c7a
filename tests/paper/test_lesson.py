"""The printed lesson card: answers for the instructor, none for the learner."""

import itertools
import math
from dataclasses import replace

import pytest
from briefing.test_card import CARD, lesson
from briefing.test_ground import grid
from paper.test_page import texts

from vorlib.briefing.card import lesson_card
from vorlib.briefing.facts import lesson_code
from vorlib.briefing.scene import start_of
from vorlib.briefing.tasks import lesson_tasks
from vorlib.core.caution import CAUTION
from vorlib.earth.geodesic import Position
from vorlib.paper.area_plan import area_plan, points_per_nm, round_scale
from vorlib.paper.lesson import lesson_sheets, save_lesson
from vorlib.paper.page import A4, LETTER
from vorlib.stations import archipelago, listed
from vorlib.views.drawing.layout import extent
from vorlib.views.drawing.picture import Group, Polygon
from vorlib.views.plan.projection import SIZE
from vorlib.vor.station import Station


def words(pages):
    return [word for page in pages for word in texts(page)]


@pytest.mark.parametrize("size", [A4, LETTER], ids=["A4", "Letter"])
def test_a_card_says_all_that_the_tasks_expect(size):
    shown = " ".join(words(lesson_sheets(CARD, size)))
    for task in lesson_tasks(CARD):
        assert all(answer.expected.split()[0] in shown for answer in task.answers)


def test_the_learners_sheet_has_every_question_and_no_answer():
    shown = words(lesson_sheets(CARD, answers=False))
    together = " ".join(shown)
    for task in lesson_tasks(CARD):
        for answer in task.answers:
            assert answer.question in together
            assert answer.expected not in shown
    morse = {notes.signs for notes in CARD.stations}
    assert not any(signs in word for signs in morse for word in shown)
    assert morse <= set(words(lesson_sheets(CARD)))


def test_a_learner_is_asked_about_the_nearest_stations_whether_received_or_not():
    shown = words(lesson_sheets(CARD, answers=False))
    assert "reliable?" in shown
    assert "none to rely on" not in shown
    for place in CARD.fields:
        assert shown.count(place.name) == 3 + 1 + 1  # on the plan too, and among the fixes
    strand = next(place for place in CARD.fields if len(place.received) == 1)
    assert words(lesson_sheets(CARD)).count(strand.name) == 1 + 1 + 1


def crowded():
    """A lesson with as many stations and fields as it may have, restricted, over high ground."""
    around = CARD.lesson.stations[0].station
    stations = [
        Station(
            ident, around.position_on(n * 60.0, 22.0), -9.0, 110.2 + n, f"{ident} Station", "H",
            on_the_air=n != 1,
        )
        for n, ident in enumerate(("AAA", "BBB", "CCC", "DDD", "EEE", "FFF"))
    ]  # fmt: skip
    listed_stations = tuple(
        replace(one, status="operational restricted")
        for one in listed(stations, "a list", "VORTAC").stations
    )
    fields = tuple(
        archipelago.Airfield(f"F{n}", f"Long Name Airfield {n}", around.position_on(n * 45.0, 18.0))
        for n in range(8)
    )
    remarks = ("AAA, BBB, CCC: the list says 'operational restricted', read the notes.",) * 2
    high = grid(low=1400, south=44.0, west=-32.0, rows=240, columns=240)
    return lesson_card(
        lesson(stations=listed_stations, fields=fields, remarks=remarks, elevation=high)
    )


@pytest.mark.parametrize(("size", "answers"), [*itertools.product([A4, LETTER], [True, False])])
def test_the_fullest_lesson_takes_three_pages_and_none_begins_in_the_middle_of_a_paragraph(
    size, answers
):
    card = crowded()
    assert len(card.stations) * len(card.fields) == 48
    pages = lesson_sheets(card, size, answers=answers)
    assert len(pages) <= 3
    assert len(lesson_sheets(CARD, size, answers=answers)) <= 3
    said = " ".join(words(pages))
    assert "shows no obstacles or airspace" in said
    assert "operational restricted: read its notes" in " ".join(texts(pages[0]))
    assert "is NOT above it." in said
    last = [word for word in texts(pages[-1]) if word not in texts(pages[0])]
    assert any(word.startswith(("4. ", "5. ", "3. ")) for word in last)  # no cautions alone


def test_a_cone_of_no_height_and_a_station_underneath_are_said_in_words():
    over = CARD.lesson.stations[0].station
    below = replace(over, position=Position(over.position.lat_deg, over.position.lon_deg, 5000.0))
    stations = (*listed([below], "a list").stations, *CARD.lesson.stations[1:])
    card = lesson_card(lesson(center=over.position, stations=stations))
    shown = " ".join(words(lesson_sheets(card)))
    assert "none: not above it" in shown
    assert "overhead" in shown
    assert "0.0 NM" not in shown
    assert "The planned 4,500 ft is NOT above the antenna of Quillon, 5,000 ft." in shown


def test_a_station_that_the_plan_does_not_reach_is_named_with_its_distance():
    near = CARD.lesson.stations[0].station
    far = Station("FAR", near.position_on(90.0, 80.0), -9.0, 112.4, "Farther", "H")
    stations = (*CARD.lesson.stations[:2], *listed([far], "a list").stations)
    shown = " ".join(words(lesson_sheets(lesson_card(lesson(stations=stations)))))
    assert "Beyond the plan: Farther (7" in shown
    assert "Beyond the plan" not in " ".join(words(lesson_sheets(CARD)))


def test_card_and_handout_carry_the_same_code_and_another_lesson_another():
    def code(card, **options):
        return next(w for w in words(lesson_sheets(card, **options)) if w.startswith("2026-"))

    assert code(CARD) == code(CARD, answers=False)
    assert code(CARD) != code(lesson_card(lesson(altitude_ft=3000.0)))


@pytest.mark.parametrize(("size", "answers"), [*itertools.product([A4, LETTER], [True, False])])
def test_every_page_carries_the_caution_and_keeps_its_margins(size, answers):
    for page in lesson_sheets(CARD, size, answers=answers, coasts=archipelago.ISLANDS):
        assert CAUTION in " ".join(texts(page))
        for item in page.items:
            left, _, right, bottom = extent(item)
            assert left >= 39.0
            assert right <= size.width - 39.0
            assert bottom <= size.height - 25.0


def test_the_plan_is_to_the_scale_that_it_names():
    # 1 NM is 1,852 m: 1.852 mm at 1 : 1,000,000
    assert points_per_nm(1_000_000) / 72.0 * 25.4 == pytest.approx(1.852)
    assert round_scale(24.0, 515.0) == 500_000
    assert round_scale(25.0, 515.0) == 1_000_000
    plan = area_plan(CARD, start_of(CARD), 420.0)
    assert "scale 1 : 1,500,000" in " ".join(texts(plan))
    first, second = stations_on(plan)[:2]  # nearest first, as on the card
    one, other = (notes.listed.station for notes in CARD.stations[:2])
    printed = math.dist(first, second) * 420.0 / SIZE
    expected = one.distance_nm(other.position) * points_per_nm(1_500_000)
    assert printed == pytest.approx(expected, rel=1e-3)


def stations_on(plan):
    """Return where a plan has the hexagons of stations, in their order."""
    marks = [part for item in plan.items if isinstance(item, Group) for part in item.items]
    return [
        (mark.x, mark.y)
        for mark in marks
        if isinstance(mark, Group)
        and isinstance(mark.items[0], Polygon)
        and len(mark.items[0].points) == 6
    ]


def test_a_field_beside_its_station_is_drawn_all_the_same_with_a_line_to_its_name():
    station = CARD.lesson.stations[0].station
    home = archipelago.Airfield("HOM", "Home", station.position_on(90.0, 0.3))
    card = lesson_card(lesson(fields=(home, *CARD.lesson.fields)))
    plan = area_plan(card, start_of(card), 420.0)
    assert "Home" in texts(plan)
    assert "practice area, 45 NM" in texts(plan)
    assert not [words for words in texts(plan) if "no room" in words]
    crowd = [listed([replace(station, ident="TWN", name="Twin" * 40)], "a twin").stations[0]]
    card = lesson_card(lesson(stations=(*CARD.lesson.stations, *crowd)))
    assert "no room for the names of: TWN" in texts(area_plan(card, start_of(card), 420.0))


def test_a_card_is_written_whole_and_the_same_each_time(tmp_path):
    first = save_lesson(tmp_path / "one.pdf", CARD, coasts=archipelago.ISLANDS).read_bytes()
    second = save_lesson(tmp_path / "two.pdf", CARD, coasts=archipelago.ISLANDS).read_bytes()
    assert first == second
    assert sorted(p.name for p in tmp_path.iterdir()) == ["one.pdf", "two.pdf"]


def test_pages_of_an_area_where_nothing_is_received_say_what_to_do():
    away = lesson_card(lesson(center=Position(40.0, -30.0), fields=()))
    shown = " ".join(words(lesson_sheets(away)))
    assert "no station is received in the practice area at the planned altitude" in shown


def test_lessons_with_other_fields_have_other_codes():
    assert lesson_code(CARD.lesson) != lesson_code(lesson(fields=()))


def test_the_age_of_the_data_stands_on_the_first_page_of_card_and_handout():
    old = "The data took effect on 2026-01-01, 151 days before 2026-06-01: it is out of date."
    card = lesson_card(lesson(sources=(old,)))
    for answers in (True, False):
        assert "out of date" in " ".join(texts(lesson_sheets(card, answers=answers)[0]))


def test_no_file_is_left_when_there_is_nothing_to_receive(tmp_path):
    away = lesson_card(lesson(center=Position(40.0, -30.0), fields=()))
    with pytest.raises(ValueError, match="no station is received"):
        save_lesson(tmp_path / "card.pdf", away)
    assert not list(tmp_path.iterdir())
