"""A recorded flight debriefed: one time for all that is shown, what is said, what is refused."""

import csv
import re
from dataclasses import replace
from html import unescape

import numpy as np
import pytest
from sight import is_away
from tracks.written import gpx, north, row, table

from vorlib.aircraft.wind import Wind
from vorlib.briefing.facts import lesson_code
from vorlib.briefing.files import plan_lesson
from vorlib.briefing.saved import lesson_json
from vorlib.core.caution import CAUTION
from vorlib.exhibits import debrief_flight
from vorlib.exhibits.base.inputs import Opened
from vorlib.exhibits.debrief.picture import draw, scrubbed_s
from vorlib.exhibits.debrief.state import DebriefState
from vorlib.stations import load_stations
from vorlib.stations.archipelago import STATIONS
from vorlib.tracks import Columns
from vorlib.tracks.example import example_flight
from vorlib.views.drawing.picture import Group, Polyline, Text
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.drawing.thinning import DRAWN_WITHIN
from vorlib.views.flight.timeline import timeline
from vorlib.views.flight.timeline_scene import layout_of
from vorlib.vor.receiver import Flag, Receiver

PASSAGE_S = 526.0  # over Quillon on the example flight
GAP_S = (840.0, 910.0)
OWN = """ident,name,lat_deg,lon_deg,elevation_ft,declination_deg,frequency_mhz,service
ZED,Zeddar,46.2,-30.0,100,-12,112.30,L
"""


@pytest.fixture
def exhibit():
    return debrief_flight()


@pytest.fixture
def own(tmp_path):
    """Return a function that writes a file: its path."""

    def write(text, name="flight.gpx"):
        path = tmp_path / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return str(path)

    return write


def control(exhibit, field, kind=None):
    return next(
        c
        for c in exhibit.controls
        if c.field == field and (kind is None or type(c).__name__ == kind)
    )


def button(exhibit, words):
    return next(
        c.button
        for c in exhibit.controls
        if getattr(getattr(c, "button", None), "description", "") == words
    )


def plain(html):
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html))


def parts(items):
    for item in items:
        yield item
        if isinstance(item, Group):
            yield from parts(item.items)


def texts(picture):
    return [item.text for item in parts(picture.items) if isinstance(item, Text)]


# ---- one time


def test_at_each_moment_the_indicator_shows_what_a_receiver_there_must_have_shown(exhibit):
    recording, selections = example_flight()
    for i in (0, 300, 700, 1500, 2400):
        time_s = float(recording.flight.time_s[i])
        exhibit.set(time_s=time_s)
        place = recording.flight.position
        selected = [one for one in selections if one.time_s <= time_s][-1]
        there = type(place)(place.lat_deg[i], place.lon_deg[i], place.altitude_ft[i])
        reading = Receiver(selected.course_deg).read(selected.station, there)
        assert exhibit.state.moment.reading == reading
        assert f"the flag reads {Flag(reading.flag).name}" in exhibit.sentence


def test_between_two_recorded_moments_the_aircraft_is_between_their_places():
    points = table(*(row(*point) for point in north(step_s=10.0)))
    rows = "time,station,course\n0,QLN,360"
    state = DebriefState(track=Opened("a", points), selections=rows, time_s=5.0)
    lat = state.debrief.flight.position.lat_deg
    assert state.moment.position.lat_deg == pytest.approx((lat[0] + lat[1]) / 2, abs=1e-9)


def test_north_is_360_on_the_strip_and_in_the_list_of_phases():
    case = DebriefState(selections="time,station,course\n0,QLN,0.2\n1200,PLX,180").case
    assert {bar.name for bar in case.strip.selections} == {"QLN 360", "PLX 180"}
    assert not any(phase.words.split()[-1] == "000" for phase in case.phases)


def test_the_scrubber_follows_the_hand_on_the_strip(exhibit):
    layout = layout_of(exhibit.state.duration_s)
    x = float(layout.x(1200.0))
    exhibit.drag("time", (300.0, 600.0), (x, 610.0))
    assert exhibit.state.time_s == 1200.0
    exhibit.drag("time", (300.0, 600.0), (-50.0, 610.0))
    assert exhibit.state.time_s == 0.0
    exhibit.drag("time", (300.0, 600.0), (5000.0, 610.0))
    assert exhibit.state.time_s == pytest.approx(exhibit.state.duration_s, abs=0.5)


@pytest.mark.parametrize("theme", [SCREEN, PROJECTOR])
def test_the_place_pressed_is_the_moment_shown_in_either_size(theme):
    state = DebriefState()
    for time_s in (0.0, 777.0, state.duration_s):
        x = float(layout_of(state.duration_s, theme).x(time_s))
        assert scrubbed_s(state, x, theme) == pytest.approx(time_s, abs=0.5)


def test_keys_step_by_a_second_and_never_out_of_the_flight(exhibit):
    exhibit.step("time", 1)
    exhibit.step("time", 0, 60)
    assert exhibit.state.time_s == 61.0
    exhibit.step("time", 0, -300)
    assert exhibit.state.time_s == 0.0
    exhibit.step("time", 10_000)
    assert exhibit.state.time_s == exhibit.state.duration_s


def test_the_slider_the_strip_and_the_sentence_tell_one_time(exhibit):
    clock = control(exhibit, "time_s", "TimeSlider")
    clock.slider.value = 600
    assert exhibit.sentence.startswith("After 10 min (09:22:00 UTC)")
    strip = next(g for g in parts(draw(exhibit.state, SCREEN).items) if getattr(g, "grab", ""))
    assert strip.label == "Time, 10 min of 42 min 4 s"
    exhibit.step("time", 5)
    assert clock.slider.value == 605


def test_findings_are_reached_one_after_the_other_and_back(exhibit):
    on, back = button(exhibit, "Next finding"), button(exhibit, "Previous finding")
    assert back.disabled
    seen = []
    while not on.disabled:
        on.click()
        seen.append(exhibit.state.finding.number)
    assert seen == [finding.number for finding in exhibit.state.case.findings]
    back.click()
    assert exhibit.state.finding.number == seen[-2]


def test_a_phase_chosen_from_the_list_is_shown_from_its_beginning(exhibit):
    phases = control(exhibit, "time_s", "Phases")
    i = next(i for i, p in enumerate(exhibit.state.case.phases) if p.words.startswith("passage"))
    phases.list.value = i
    assert exhibit.state.time_s == round(exhibit.state.case.phases[i].begin_s)
    assert ", passage." in exhibit.sentence
    assert phases.list.value == i


def test_a_step_draws_the_map_and_the_strip_of_before(exhibit):
    exhibit.set(time_s=1500.0)
    before = {
        id(item) for item in parts(draw(exhibit.state, SCREEN).items) if isinstance(item, Group)
    }
    exhibit.set(time_s=1501.0)
    after = [item for item in parts(draw(exhibit.state, SCREEN).items) if isinstance(item, Group)]
    old = [item for item in after if id(item) in before]
    assert sum(len(list(parts(item.items))) for item in old) > 150


# ---- what is shown and said


def test_in_a_silence_of_the_recorder_nothing_is_made_up(exhibit):
    exhibit.set(time_s=sum(GAP_S) / 2)
    assert "Nothing was recorded here" in exhibit.sentence
    picture = draw(exhibit.state, SCREEN)
    assert "Nothing was" in " ".join(texts(picture))
    assert "The aircraft is" not in picture.description


def test_no_line_bridges_a_silence(exhibit):
    strip = exhibit.state.case.strip
    layout = layout_of(strip.end_s)
    a, b = (float(layout.x(t)) for t in GAP_S)
    for item in parts(timeline(strip, 0.0, "0 s").items):
        if isinstance(item, Polyline):
            x = np.array([p[0] for p in item.points])
            assert not np.any((x[:-1] < (a + b) / 2) & (x[1:] > (a + b) / 2))


def test_the_needle_drawn_is_thin_and_stays_at_the_needle(exhibit):
    strip = exhibit.state.case.strip
    layout = layout_of(strip.end_s)
    lines = [i for i in parts(timeline(strip, 0.0, "0 s").items) if isinstance(i, Polyline)]
    points = np.array([p for line in lines for p in line.points])
    assert len(points) < 200
    for line in lines:
        x, y = np.array(line.points).T
        inside = (layout.x(strip.time_s) >= x[0]) & (layout.x(strip.time_s) <= x[-1])
        drawn = np.interp(layout.x(strip.time_s[inside]), x, y)
        steep = np.abs(np.gradient(layout.y(strip.dots[inside]))) > 2.0
        off = np.abs(drawn - layout.y(strip.dots[inside]))[~steep]
        assert off.max() < 3 * DRAWN_WITHIN


def test_a_station_passed_is_told_at_the_moment_and_numbered_on_map_and_strip(exhibit):
    exhibit.set(time_s=PASSAGE_S)
    assert "Finding 2:" in exhibit.sentence
    assert "you passed Quillon, over the station" in exhibit.sentence
    numbers = texts(draw(exhibit.state, SCREEN))
    assert numbers.count("2") == 2


def test_findings_are_facts_with_their_source_and_no_verdict(exhibit):
    words = plain(exhibit.page.html("below"))
    assert "overshot it by 1.5 dots, 2.9 degrees, 0.38 NM" in words
    assert "for information, not a verdict" in words
    assert "Instrument Rating ACS" in words
    assert "Wind estimated from the track: from 240 true at 20 kt" in words
    assert CAUTION in words
    for verdict in ("pass ", "fail", "unsatisfactory", "bad", "poor", "mistake", "should have"):
        assert verdict not in words.lower()


def test_a_time_of_tracking_has_its_row_with_dots_degrees_and_miles(exhibit):
    rows = re.findall(r"<tr>(.*?)</tr>", exhibit.page.html("below"))
    assert len(rows) == 1 + len(exhibit.debrief.found.phases)
    cells = [cell.replace("\xa0", " ") for cell in re.findall(r"<td>(.*?)</td>", rows[1])]
    assert cells[:4] == ["4:39", "8:12", "Quillon 210 inbound", "209"]
    assert cells[5] == "1.5 dots, 2.9°, 0.38 NM"
    assert cells[-1] == "7° left (wind: 7° left)"


def test_every_picture_of_the_flight_is_small_enough_to_send_25_times_a_second(exhibit):
    for projector in (False, True):
        for time_s in np.linspace(0.0, exhibit.state.duration_s, 9):
            exhibit.set(time_s=float(time_s), projector=projector)
            assert len(exhibit.picture.svg) < 45_000


def test_a_map_of_no_such_range_is_refused_in_words():
    with pytest.raises(ValueError, match=r"range_nm must be one of 2\.5, 5, .* got 12"):
        debrief_flight(range_nm=12.0)


def test_the_caution_stands_where_stations_can_be_loaded(exhibit):
    assert CAUTION in plain(control(exhibit, "stations").note.html)


# ---- flights of one's own


def test_on_a_flight_of_ones_own_what_was_selected_is_estimated_at_first(exhibit, own):
    pelladine = STATIONS["PLX"].position
    lat, lon = float(pelladine.lat_deg), float(pelladine.lon_deg)
    points = [(t, lat + 0.2 + t * 120.0 / 3600.0 / 60.0, lon, 1200.0) for t in range(600)]
    exhibit.set(track=own(gpx(points)))
    assert exhibit.state.selections is None
    assert "Estimated from the track" in plain(control(exhibit, "selections").note.html)
    assert {one.station.ident for one in exhibit.debrief.selections} == {"PLX"}
    assert "What was selected is estimated from the track" in plain(exhibit.page.html("below"))
    assert "600 points" in plain(control(exhibit, "track").note.html)


def test_a_flight_can_be_named_in_code_as_well(own):
    points = [(t, 46.3 + t / 1800.0, -30.1439, 1200.0) for t in range(600)]
    exhibit = debrief_flight(track=own(gpx(points)), time_s=60)
    assert {one.station.ident for one in exhibit.debrief.selections} == {"QLN"}
    assert exhibit.sentence.startswith("After 1 min")
    with pytest.raises(ValueError, match="there is no file"):
        debrief_flight(track="nowhere.gpx")


def test_where_nothing_can_be_estimated_the_rows_are_asked_for(exhibit, own):
    exhibit.set(track=own(gpx(north(60))))
    assert "so enter it" in control(exhibit, "selections").message


def test_rows_typed_are_what_was_selected(exhibit):
    exhibit.set(selections="time,station,course\n0,QLN,045\n09:30,PLX,180")
    first, second = exhibit.debrief.selections
    assert (first.station.ident, first.course_deg) == ("QLN", 45.0)
    assert (second.station.ident, second.time_s) == ("PLX", 18 * 60.0)


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ("time,station,course\n0,QLN,030\n300,XXX,040", "line 3: station must be one of"),
        ("time,station,course\n0,QLN,400", "line 2: course must be from 0 to 360"),
        ("time,station,course\nnoon,QLN,040", "line 2: time must be"),
        ("0,QLN,040", "line 1: the header must be time,station,course"),
        ("", "the header must be time,station,course"),
        ("time,station,course\n=1+1,QLN,040", "must not begin with '='"),
    ],
)
def test_a_wrong_row_is_named_beside_the_rows_and_kept_to_be_mended(exhibit, rows, told):
    exhibit.set(selections=rows)
    assert told in control(exhibit, "selections").message
    assert control(exhibit, "selections").box.value == rows
    assert told in exhibit.sentence
    exhibit.set(selections="time,station,course\n0,QLN,030")
    assert control(exhibit, "selections").message == ""
    assert "the flag reads" in exhibit.sentence


def test_the_estimate_stands_in_the_rows_to_be_typed_over(exhibit):
    control(exhibit, "selections", "Rows").estimate.click()
    rows = control(exhibit, "selections").box.value.splitlines()
    assert rows[0] == "time,station,course"
    assert len(rows) >= 4
    assert {row_.split(",")[1] for row_ in rows[1:]} <= {*STATIONS, "off"}
    estimated = exhibit.debrief.selections
    exhibit.set(selections="\n".join(rows))
    for typed, guessed in zip(exhibit.debrief.selections, estimated, strict=True):
        assert typed.course_deg == guessed.course_deg
        assert typed.time_s == pytest.approx(guessed.time_s, abs=0.5)


def test_a_missing_altitude_is_asked_for_beside_its_control_and_then_used(exhibit, own):
    points = [(t, lat, lon, None) for t, lat, lon, _ in north(60)]
    exhibit.set(track=own(gpx(points)), selections="time,station,course\n0,QLN,360")
    assert "no altitude was recorded" in control(exhibit, "altitude_ft").message
    assert control(exhibit, "track").message == ""
    assert "No flight is shown" in exhibit.sentence
    exhibit.set(altitude_ft=3500)
    assert control(exhibit, "altitude_ft").message == ""
    assert exhibit.state.moment.position.altitude_ft == 3500.0


def test_one_of_several_flights_is_asked_for_beside_its_control(exhibit, own):
    exhibit.set(track=own(gpx(north(60), north(90, begin_s=9000.0))))
    exhibit.set(selections="time,station,course\n0,QLN,360")
    message = control(exhibit, "number").message
    assert "2 flights" in message
    assert "2: from 2026-06-01 11:30" in message
    exhibit.set(number=2, selections="time,station,course\n0,QLN,360")
    assert control(exhibit, "number").message == ""
    assert exhibit.state.duration_s == 89.0
    exhibit.set(number=7)
    assert "there is no number 7" in control(exhibit, "number").message
    exhibit.set(number="1.5")
    assert "1.5 is not whole" in control(exhibit, "number").message


def test_columns_are_declared_beside_their_control(exhibit, own):
    lines = [row(*point) for point in north(60)]
    path = own(table(*lines, header="When,Lat,Lon,Height"), "flight.csv")
    exhibit.set(track=path, selections="time,station,course\n0,QLN,360")
    assert "there is no column" in control(exhibit, "columns").message
    exhibit.set(columns="time=When, lat_deg=Lat, lon_deg=Lon, altitude=Height")
    assert control(exhibit, "columns").message == ""
    assert exhibit.state.duration_s == 59.0
    words = control(exhibit, "columns").box.value
    assert words == "time=When, lat_deg=Lat, lon_deg=Lon, altitude=Height"


def test_each_column_is_chosen_in_a_list_that_says_what_was_found(exhibit, own):
    lists = control(exhibit, "columns", "ColumnLists")
    assert is_away(lists.widget)  # the example flight is no table
    lines = [f"{row(*point)},7" for point in north(60)]
    path = own(table(*lines, header="When,Lat,Longitude,Height (m),extra"), "flight.csv")
    exhibit.set(track=path, selections="time,station,course\n0,QLN,360")
    assert not is_away(lists.widget)
    assert "there is no column of time" in control(exhibit, "columns").message
    lists.lists["time"].value = "When"
    assert control(exhibit, "columns").message == ""
    assert exhibit.state.columns == Columns(time="When")
    assert lists.lists["lat_deg"].options[0] == ("as found: Lat", "")
    assert lists.lists["altitude_unit"].options[0] == ("as found: m", "")
    assert "altitude from 'Height (m)' in m" in unescape(control(exhibit, "track").note.html)
    lists.lists["altitude_unit"].value = "ft"
    assert "altitude from 'Height (m)' in ft" in unescape(control(exhibit, "track").note.html)
    lists.lists["altitude"].value = "extra"
    assert exhibit.state.columns == Columns(time="When", altitude="extra", altitude_unit="ft")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("Height", "columns must be declared such as lat_deg=Latitude"),
        ("height=Height", "with names from time, date, lat_deg"),
        ("zone=Nowhere/Land", "zone must be a time zone"),
        ("altitude_unit=miles", "altitude_unit must be 'ft' or 'm'"),
    ],
)
def test_columns_that_cannot_be_meant_are_refused(exhibit, words, told):
    exhibit.set(columns=words)
    assert told in control(exhibit, "columns").message
    assert "the flag reads" in exhibit.sentence


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "the file is empty"),
        (b"\x00\x01\x02", "not text"),
        ("Zeit;Länge\n".encode("latin-1"), "not UTF-8"),
        (gpx(north(60))[:900].encode(), "the file is cut off"),
        (b'<!DOCTYPE gpx [<!ENTITY a "b">]><gpx/>', "a document type is declared"),
        (gpx(north(1)).encode(), "a flight needs two"),
        (gpx([(t, lat, lon + 90.0, m) for t, lat, lon, m in north(60)]).encode(), "NM from the"),
    ],
)
def test_a_file_that_is_no_flight_is_refused_beside_what_can_mend_it(exhibit, own, data, told):
    exhibit.set(track=own(data))
    said = [c.message for c in exhibit.controls if c.message]
    assert len(said) == 1
    assert told in said[0]


def test_an_emptied_path_brings_the_example_back(exhibit, own):
    before = exhibit.sentence
    exhibit.set(track=own(gpx(north(60))))
    exhibit.set(track="")
    assert exhibit.sentence == before
    assert all(c.message == "" for c in exhibit.controls)


def test_stations_of_ones_own_are_those_that_can_be_selected(exhibit, own):
    exhibit.set(stations=own(OWN, "stations.csv"))
    exhibit.set(track=own(gpx(north(600))), selections="time,station,course\n0,ZED,360")
    assert "of Zeddar on its" in exhibit.sentence
    assert "The file does not say how old it is" in plain(control(exhibit, "stations").note.html)
    exhibit.set(selections="time,station,course\n0,QLN,360")
    assert "station must be one of ZED, got 'QLN'" in control(exhibit, "selections").message


def test_a_flight_can_be_debriefed_across_the_antimeridian(own):
    stations = OWN.replace("-30.0", "180.0")
    points = [(t, 46.0, 179.9 + t / 1000 - 360.0 * (t >= 100), m) for t, _, _, m in north(200)]
    state = DebriefState(
        track=Opened("a", gpx(points)), selections="time,station,course\n0,ZED,090"
    )
    path = own(stations, "stations.csv")
    state = DebriefState(
        track=state.track,
        stations=Opened("s", load_stations(path)),
        selections=state.selections,
        time_s=99.5,
    )
    assert state.case.problem == ""
    for time_s in (99.5, 100.25, 100.75):  # from 100 to 101 s the sign changes
        lon = replace(state, time_s=time_s).moment.position.lon_deg % 360.0
        assert lon == pytest.approx(179.9 + time_s / 1000.0, abs=1e-9)
    draw(state, SCREEN)


@pytest.mark.parametrize("path", ["~nobody here/x", "x" * 5000])
def test_a_path_that_leads_nowhere_is_said_beside_its_control(exhibit, path):
    exhibit.set(track=path, folder=path)
    assert control(exhibit, "track").message.startswith("Flight file: ")
    assert control(exhibit, "folder").message.startswith("Folder: there is no folder ")


# ---- files out


def test_the_page_and_the_table_are_written_whole_and_told_where(exhibit, tmp_path):
    printer = control(exhibit, "folder")
    exhibit.set(folder=str(tmp_path))
    for words in ("Write the debrief (PDF)", "Write second by second (CSV)"):
        printer.buttons[words].click()
        assert "debrief-2026-06-01-091200" in printer.note.html
    pdf, table_ = (
        tmp_path / "debrief-2026-06-01-091200.pdf",
        tmp_path / "debrief-2026-06-01-091200.csv",
    )
    assert pdf.read_bytes().startswith(b"%PDF")
    with table_.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) == exhibit.debrief.seen.time_s.size
    assert sorted(p.name for p in tmp_path.iterdir()) == [table_.name, pdf.name]


def test_the_page_has_what_the_instructor_enters_and_leaves_out_what_is_struck(exhibit, tmp_path):
    exhibit.set(folder=str(tmp_path), student="A. Learner", struck="1, 3", planned_wind="250/20")
    exhibit.set(planned_altitude_ft="3500", planned_airspeed_kt="100")
    assert exhibit.state.struck == frozenset({1, 3})
    assert control(exhibit, "struck").box.value == "1, 3"
    assert control(exhibit, "planned_wind").box.value == "250/20"
    printer = control(exhibit, "folder")
    printer.buttons["Write the debrief (PDF)"].click()
    assert "Written" in printer.note.html
    exhibit.set(struck="first")
    assert "enter the numbers of findings" in control(exhibit, "struck").message
    exhibit.set(planned_wind="gale")
    assert control(exhibit, "planned_wind").message
    exhibit.set(struck="99")
    printer.buttons["Write the debrief (PDF)"].click()
    assert "no finding 99 to leave out" in printer.message


def test_a_flight_that_is_kept_is_set_beside_the_next_one(exhibit, own, tmp_path):
    printer = control(exhibit, "folder")
    exhibit.set(folder=str(tmp_path))
    both = printer.buttons["Write two flights side by side (PDF)"]
    both.click()
    assert "press Keep this flight to compare" in printer.message
    button(exhibit, "Keep this flight to compare").click()
    exhibit.set(track=own(gpx(north(60))), selections="time,station,course\n0,QLN,360")
    both.click()
    assert [path.name for path in tmp_path.glob("*.pdf")] == ["two-debrief-2026-06-01-090000.pdf"]


def test_of_two_flights_in_one_file_each_is_chosen_kept_and_called_by_its_number(exhibit, own):
    exhibit.set(track=own(gpx(north(60), north(60, begin_s=7200.0))), number=1)
    exhibit.set(selections="time,station,course\n0,QLN,360")
    button(exhibit, "Keep this flight to compare").click()
    exhibit.set(number=2)
    exhibit.set(selections="time,station,course\n0,QLN,360")
    kept = exhibit.state.kept
    assert [kept.name.partition(" of ")[0], exhibit.state.name.partition(" of ")[0]] == [
        "flight 1",
        "flight 2",
    ]
    assert (exhibit.debrief.start - kept.debrief.start).total_seconds() == 7200.0


def test_a_lesson_card_that_was_saved_says_what_was_planned(exhibit, own, tmp_path):
    lesson = plan_lesson(wind=Wind(240.0, 20.0), altitude_ft=3500.0, true_airspeed_kt=105.0)
    exhibit.set(plan=own(lesson_json(lesson), "card.plan.json"), folder=str(tmp_path))
    assert control(exhibit, "planned_wind").box.value == "240/20"
    assert exhibit.state.planned_altitude_ft == 3500.0
    assert f"lesson card {lesson_code(lesson)} for 2026-06-01" in control(exhibit, "plan").note.html
    exhibit.set(plan=own("[]", "other.json"))
    assert (
        "not the plan of a lesson: choose the file .plan.json" in control(exhibit, "plan").message
    )
    assert exhibit.state.plan.name.endswith("card.plan.json")


def test_what_was_not_selected_is_not_shown():
    state = DebriefState(selections="time,station,course\n300,QLN,030\n600,off,\n900,PLX,180")
    for time_s, selected in ((100.0, False), (400.0, True), (700.0, False), (1000.0, True)):
        now = replace(state, time_s=time_s)
        assert now.moment.selected == selected
        shown = " ".join(texts(draw(now, SCREEN)))
        assert ("Nothing was selected here." in shown) != selected
    assert "Nothing is selected." in debrief_flight(selections=state.selections).sentence
    bars = [(bar.name, bar.begin_s, bar.end_s) for bar in state.case.strip.selections]
    assert bars[0] == ("QLN 030", 300.0, 600.0)
    strip = state.case.strip
    nothing = (strip.time_s < 300.0) | ((strip.time_s >= 600.0) & (strip.time_s < 900.0))
    np.testing.assert_array_equal(strip.flag < 0, nothing)


def test_without_a_folder_or_a_flight_nothing_is_written(exhibit, own, tmp_path):
    printer = control(exhibit, "folder")
    printer.buttons["Write the debrief (PDF)"].click()
    assert "name the folder" in printer.message
    exhibit.set(folder=str(tmp_path / "nowhere"))
    assert "there is no folder" in printer.message
    out = tmp_path / "out"
    out.mkdir()
    exhibit.set(folder=str(out), selections="")
    printer.buttons["Write second by second (CSV)"].click()
    assert "Nothing was written" in printer.message
    assert list(out.iterdir()) == []


def test_nothing_is_kept_for_comparison_where_there_is_no_debrief(caplog):
    exhibit = debrief_flight()
    exhibit.set(selections="nonsense")
    exhibit.control("kept").button.click()
    assert exhibit.state.kept is None
    assert "the header must be" in exhibit.state.case.problem
    assert not caplog.records  # as a widget logs what a press raises
