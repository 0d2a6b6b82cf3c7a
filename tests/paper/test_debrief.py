"""The printed debrief: as many pages as needed, to scale, with the limit and the caution."""

import itertools
import math
import re
from dataclasses import replace
from functools import lru_cache

import pytest
from debrief.test_recorded import example, made
from flights import flown_with_noise
from paper.test_page import texts

from vorlib.aircraft.wind import Wind
from vorlib.core.angles import format_tenths
from vorlib.core.caution import CAUTION
from vorlib.debrief.phases import FlightPhase
from vorlib.debrief.recorded import debrief_recording
from vorlib.debrief.report.in_order import findings_of
from vorlib.debrief.report.planned import Plan, planned_against_flown
from vorlib.debrief.report.side_by_side import side_by_side
from vorlib.paper.area_plan import points_per_nm
from vorlib.paper.debrief import Notes, debrief_pdf, debrief_sheets, save_debrief
from vorlib.paper.page import A4, LETTER, PRINT
from vorlib.paper.track_plan import track_plan
from vorlib.paper.two_flights import two_flights_sheets
from vorlib.stations import archipelago
from vorlib.tracks.selections import Selection
from vorlib.views.drawing.layout import extent
from vorlib.views.drawing.picture import Circle, Group, Polygon, Polyline, Text
from vorlib.views.instrument.deviation_strip import LOOKS, block, deviation_strip
from vorlib.views.plan.projection import SIZE

SIZES = pytest.mark.parametrize("size", [A4, LETTER], ids=["A4", "Letter"])


def words(pages):
    return " ".join(word for page in pages for word in texts(page))


MANY = [Selection(120.0 * n, s, 40.0) for n, s in enumerate([*archipelago.STATIONS.values()] * 5)]


@lru_cache
def much():
    """Return a debrief of which there is more to say than a page holds."""
    notes = ["A long remark about the recording that goes on and on."] * 30
    return debrief_recording(flown_with_noise().flight, MANY, notes=notes)


@SIZES
def test_the_pages_carry_the_caution_and_keep_their_margins(size):
    for flight in (example(), much()):
        pages = debrief_sheets(flight, size, coasts=archipelago.ISLANDS)
        for number, page in enumerate(pages, 1):
            assert f"page {number} of {len(pages)}" in words([page])
            assert CAUTION in words([page])
            for item in page.items:
                left, top, right, bottom = extent(item)
                assert left >= 39.0
                assert top >= 39.0
                assert right <= size.width - 39.0
                assert bottom <= size.height - 25.0
            foot = size.height - 80.0 + 4.0
            contents = [item for item in page.items if extent(item)[3] < size.height - 75.0]
            assert max(extent(item)[3] for item in contents) <= foot


def flat(pages):
    """Return the words of pages without the breaks of their lines."""
    return "".join(words(pages).split())


@SIZES
def test_nothing_is_dropped_however_much_there_is(size):
    for flight in (example(), much()):
        shown = flat(debrief_sheets(flight, size))
        for finding in findings_of(flight):
            assert "".join(finding.words.split()) in shown
        for note in (flight.wind.words, *flight.notes):
            assert "".join(note.split()) in shown
        for one in flight.selections:
            assert "".join(one.words.split()) in shown
        assert shown.count("Alongremark") == flight.notes.count(much().notes[-1])


def test_the_summary_is_on_the_first_page_and_the_findings_are_in_order_of_time():
    first, *_ = debrief_sheets(example())
    assert "established on a selected course" in words([first])
    shown = flat(debrief_sheets(example()))
    places = [shown.index("".join(one.words.split())) for one in findings_of(example())]
    assert places == sorted(places)
    times = [one.time_s for one in findings_of(example())]
    assert times == sorted(times)


def test_who_flew_stands_at_the_head_and_what_is_not_known_is_left_to_write():
    notes = Notes(student="A. Learner", lesson="05 Intercepting")
    shown = words(debrief_sheets(example(), notes=notes))
    assert "A. Learner" in shown
    assert "05 Intercepting" in shown
    for name in ("student", "instructor", "aircraft", "lesson", "remarks"):
        assert name in shown


def test_a_finding_that_is_struck_is_not_printed_and_the_others_keep_their_numbers():
    first, second, *_ = findings_of(example())
    shown = flat(debrief_sheets(example(), notes=Notes(struck=frozenset({first.number}))))
    assert "".join(first.words.split()) not in shown
    assert "".join(second.words.split()) in shown
    with pytest.raises(ValueError, match="there is no finding 99 to leave out"):
        debrief_sheets(example(), notes=Notes(struck=frozenset({99})))


def test_what_was_planned_stands_beside_what_was_flown_with_the_difference():
    plan = Plan(Wind(250.0, 15.0), 3500.0, 100.0, tuple(archipelago.AIRFIELDS.values()))
    rows = {row.what: row for row in planned_against_flown(example(), plan)}
    wind = rows["wind, true"]
    assert wind.planned == "250 at 15 kt"
    assert wind.flown.startswith("24")
    assert wind.difference.endswith("kt")
    assert rows["true airspeed"].planned == "100 kt"
    assert rows["true airspeed"].difference == "+5 kt"
    (radial,) = [row for row in rows.values() if row.what == "4 min 39 s: Quillon inbound, radial"]
    assert radial.planned == "210"
    # the heading that holds 030 in the forecast wind and the one held, in the wind there was
    (heading,) = [r for r in rows.values() if r.what == "4 min 39 s: Quillon inbound, heading"]
    assert 10 < int(heading.planned) < 30
    assert re.fullmatch(r"\d degrees (left|right)|none", heading.difference)
    assert any("OFF over Quillon" in what for what in rows)
    shown = flat(debrief_sheets(example(), plan=plan))
    assert all("".join(row.difference.split()) in shown for row in rows.values())
    assert planned_against_flown(example(), Plan())[0].what.endswith("radial")


def test_two_flights_stand_side_by_side_in_the_same_numbers():
    rows = side_by_side(example(), made())
    assert [row.what for row in rows][:2] == ["in the air", "wind and airspeed"]
    pages = two_flights_sheets(("one.gpx", example()), ("two.gpx", made()))
    shown = flat(pages)
    for row in rows:
        assert "".join(row.first.split()) in shown
        assert "".join(row.second.split()) in shown
    for flight in (example(), made()):
        for finding in findings_of(flight):
            assert "".join(finding.words.split()) in shown


def test_the_table_holds_every_phase_of_tracking():
    shown = words(debrief_sheets(example()))
    for phase in example().found.phases:
        assert f"{phase.begin_s / 60:.1f} to {phase.end_s / 60:.1f}" in shown
        assert format_tenths(phase.mean_radial_deg) in shown


def test_the_limit_has_its_document_and_is_no_verdict():
    shown = words(debrief_sheets(example()))
    assert "for information, not a verdict" in shown
    assert "area V, task A" in shown


def test_the_same_flight_gives_the_same_bytes():
    assert debrief_pdf(example()) == debrief_pdf(example())
    assert words(debrief_sheets(example())) != words(debrief_sheets(made()))


def test_a_page_that_cannot_be_written_leaves_nothing(tmp_path):
    with pytest.raises(FileNotFoundError):
        save_debrief(tmp_path / "none" / "debrief.pdf", example())
    assert not list(tmp_path.iterdir())
    assert save_debrief(tmp_path / "debrief.pdf", example()).read_bytes().startswith(b"%PDF-")


@pytest.mark.parametrize("name", ["W" * 230 + ".gpx", "of two\nlines.gpx", "no text \udcff.gpx"])
def test_a_flight_may_have_any_name_that_a_file_may_have(name):
    page = debrief_sheets(example(), name=name)[0]
    heads = [item for item in page.items if isinstance(item, Text)]
    title = next(text for text in heads if text.text == "Debrief of a flight")
    shown = next(text for text in heads if text.text.endswith(".gpx"))
    assert extent(shown)[0] > extent(title)[2]
    assert shown.text.isprintable()
    assert debrief_pdf(example(), name=name)


# ---- the plan


def test_the_plan_is_to_the_scale_it_names():
    width = 240.0
    plan = track_plan(example(), width)
    scale = int(plan.description.split("1 to ")[1].rstrip(".").replace(",", ""))
    circles = [item for item in plan.items if isinstance(item, Circle)]
    start, end = circles[:2]
    place = example().flight.position
    from vorlib.earth.geodesic import inverse

    nm = float(
        inverse(
            place.lat_deg[0], place.lon_deg[0], place.lat_deg[-1], place.lon_deg[-1]
        ).distance_nm
    )
    drawn = math.dist((start.x, start.y), (end.x, end.y)) * width / SIZE
    assert drawn == pytest.approx(nm * points_per_nm(scale), rel=0.002)


def test_the_whole_track_is_on_the_plan_and_no_line_crosses_a_silence():
    lines = [item for item in track_plan(example(), 240.0).items if isinstance(item, Polyline)]
    for line in lines:
        for x, y in line.points:
            assert 0.0 <= x <= SIZE
            assert 0.0 <= y <= SIZE
    looks = {(line.width, line.dash) for line in lines}
    for phase in (
        FlightPhase.TRACKING,
        FlightPhase.INTERCEPTING,
        FlightPhase.TURN,
        FlightPhase.PASSAGE,
    ):
        assert (LOOKS[phase].width, LOOKS[phase].dash) in looks
    # 70 s at 100 kt is 2 NM, longer than any other straight segment between two points would be
    tracked = [line for line in lines if line.width == LOOKS[FlightPhase.TRACKING].width]
    assert len(tracked) == len([s for s in example().spans if s.phase is FlightPhase.TRACKING])


# ---- the strip


def test_the_band_of_three_quarters_lies_at_three_quarters_of_full_scale():
    strip = deviation_strip(example(), replace(PRINT, small_size=7.0))
    band = next(item for item in strip.items if isinstance(item, Polygon))
    (_, top, _, bottom) = extent(band)
    needle = [item for item in strip.items if isinstance(item, Polyline)]
    pegged = min(y for line in needle for _, y in line.points)
    middle = (top + bottom) / 2.0
    assert (middle - top) / (middle - pegged) == pytest.approx(0.75, abs=0.001)


def test_the_needle_is_not_drawn_with_the_flag_off_or_across_a_silence():
    strip = deviation_strip(example(), PRINT, 1000.0)
    needle = [item for item in strip.items if isinstance(item, Polyline)]
    steps = [b[0] - a[0] for line in needle for a, b in itertools.pairwise(line.points)]
    minute = 1000.0 / (example().seen.time_s[-1] / 60.0)
    assert max(steps) < minute / 10.0


def test_every_phase_has_a_pattern_of_its_own():
    looks = [(look.dash, look.width) for look in LOOKS.values()]
    assert len(set(looks)) == len(FlightPhase)
    blocks = [tuple(map(repr, block(0.0, 0.0, 30.0, 8.0, phase, PRINT))) for phase in FlightPhase]
    assert len(set(blocks)) == len(FlightPhase)


def test_the_strip_says_in_words_what_was_done():
    strip = deviation_strip(made(), PRINT)
    assert "tracking for" in strip.description
    assert not any(isinstance(item, Group) for item in strip.items)
