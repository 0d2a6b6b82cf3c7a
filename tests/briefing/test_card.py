"""What an instructor knows before a lesson: stations, fields, fixes and tasks, in numbers."""

import io
import math
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from geographiclib.geodesic import Geodesic

from vorlib.aircraft.flight import Aircraft
from vorlib.aircraft.wind import Wind
from vorlib.briefing.card import lesson_card
from vorlib.briefing.files import place_from_words, plan_lesson, wind_from_words
from vorlib.briefing.lesson import (
    MOST_FIELDS,
    MOST_STATIONS,
    Lesson,
    nearest_fields,
    nearest_stations,
)
from vorlib.briefing.scene import start_of
from vorlib.briefing.tasks import lesson_tasks
from vorlib.core.angles import difference_deg, format_direction
from vorlib.core.units import NO_BREAK
from vorlib.earth.geodesic import Position
from vorlib.io.text import FileError
from vorlib.morse import decode
from vorlib.procedures.fixing import fix_from_radials
from vorlib.stations import archipelago, listed, load_stations
from vorlib.stations.fields_csv import read_fields
from vorlib.stations.own_csv import COLUMNS
from vorlib.vor.coverage import cone_radius_nm
from vorlib.vor.receiver import Flag, Reason, Receiver
from vorlib.vor.station import Station

CENTER = Position(46.0, -30.0)
STATIONS = listed(archipelago.STATIONS, "the archipelago", "VOR/DME")


def lesson(**changes):
    plan = Lesson(
        stations=nearest_stations(STATIONS, CENTER),
        fields=nearest_fields(archipelago.AIRFIELDS.values(), CENTER, 60.0),
        center=CENTER,
        radius_nm=45.0,
        altitude_ft=4500.0,
        on=archipelago.TODAY,
        wind=Wind(250.0, 20.0),
    )
    return replace(plan, **changes)


CARD = lesson_card(lesson())


def answers(card):
    """Return what each task expects, by title and question."""
    return {t.title: {a.question: a.expected for a in t.answers} for t in lesson_tasks(card)}


# --- stations and fields --------------------------------------------------------------------------


def test_stations_and_fields_come_nearest_first_and_not_too_many():
    away = [notes.at_center.distance_nm for notes in CARD.stations]
    assert away == sorted(away)
    assert len(away) <= MOST_STATIONS
    fields = [*archipelago.AIRFIELDS.values()]
    near = nearest_fields(fields, CENTER, 10.0)
    assert [field.name for field in near] == ["Marrow Sound"]
    assert len(nearest_fields(fields * 3, CENTER, 60.0)) == MOST_FIELDS
    assert nearest_fields(archipelago.AIRFIELDS.values(), CENTER, 0.5) == ()


def test_a_field_shows_the_course_that_centers_the_needle_with_from_and_with_to():
    for place in CARD.fields:
        for one in place.received:
            for course, flag in ((one.from_deg, Flag.FROM), (one.to_deg, Flag.TO)):
                reading = Receiver(course).read(one.station, place.position)
                assert reading.flag == flag
                assert abs(reading.deviation_deg) <= 0.5


def test_a_station_is_received_at_a_field_only_inside_its_volume_and_above_the_horizon():
    hathery = next(place for place in CARD.fields if place.name == "Hathery Common")
    assert [one.station.ident for one in hathery.received] == ["HTX"]
    low = lesson_card(lesson(altitude_ft=600.0))
    reasons = {one.station.ident: one.caveat for one in low.fields[-1].seen}
    assert str(Reason.LINE_OF_SIGHT) in reasons.values()


def test_the_cone_is_as_wide_and_lasts_as_long_as_height_and_speed_make_it():
    quillon = CARD.stations[0]
    width = 2.0 * cone_radius_nm(4500.0 - 640.0)
    assert quillon.cone_nm == pytest.approx(width)
    assert quillon.cone_s == pytest.approx(width / 100.0 * 3600.0)
    twice = lesson_card(lesson(aircraft=Aircraft(200.0))).stations[0]
    assert twice.cone_s == pytest.approx(quillon.cone_s / 2.0)


def test_an_aircraft_below_the_antenna_meets_no_cone():
    low = lesson_card(lesson(altitude_ft=600.0))
    assert low.stations[0].cone_nm == 0.0  # Quillon's antenna is at 640 ft


def test_an_ident_in_morse_reads_back_as_the_ident():
    assert all(decode(n.morse) == n.listed.station.ident for n in CARD.stations)
    quillon = CARD.stations[0].signs.replace("\N{EN DASH}", "-").replace("\N{BULLET}", ".")
    assert quillon.split() == ["--.-", ".-..", "-."]


def test_the_best_pair_fixes_the_place_within_the_rounding_of_its_radials():
    pair = CARD.center.pair
    lines = [(s, s.radial_deg(CARD.center.position)) for s in pair.stations]
    place = fix_from_radials(lines)
    assert place.lat_deg == pytest.approx(46.0, abs=1e-6)
    assert pair.cut_deg > 30.0


# --- tasks ----------------------------------------------------------------------------------------


def test_a_lesson_goes_from_orientation_to_a_cross_check():
    assert [task.title for task in lesson_tasks(CARD)] == [
        "Orientation",
        "Intercept inbound",
        "Station passage",
        "Outbound to a field",
        "Cross-check",
    ]
    assert all(task.answers for task in lesson_tasks(CARD))


def test_headings_are_by_the_compass_of_the_day_not_by_the_stations_north():
    calm = lesson_card(lesson(wind=Wind(360.0, 0.0)))
    station = start_of(calm).received[0].station
    expected = answers(calm)["Orientation"]
    true_deg = float(station.inverse(calm.center.position).true_azimuth_end_deg) + 180.0
    today_deg = station.declination_deg - station.declination_drift_deg(archipelago.TODAY)
    heading = float(expected["heading"].split()[0])
    assert abs(difference_deg(heading, true_deg - today_deg)) <= 1.1  # two roundings


def test_a_wind_from_the_left_of_a_course_makes_the_heading_smaller():
    seen = start_of(CARD).received[0]
    calm, windy = (
        float(answers(lesson_card(lesson(wind=wind)))["Orientation"]["heading"].split()[0])
        for wind in (Wind(360.0, 0.0), Wind(seen.to_deg - 90.0 - 9.0, 20.0))
    )
    assert 10.0 < difference_deg(calm, windy) < 13.0  # asin(20 / 100) is 11.5 degrees


def test_an_intercept_inbound_selects_the_reciprocal_of_the_radial_with_to():
    task = next(t for t in lesson_tasks(CARD) if t.title == "Intercept inbound")
    selected = answers(CARD)["Intercept inbound"]["course to select, flag"]
    course, flag = selected.split(", ")
    assert flag == "TO"
    assert f"the {format_direction(float(course) + 180.0)} radial" in task.brief


def test_a_lesson_over_a_station_starts_off_it():
    quillon = archipelago.STATIONS["QLN"].position
    card = lesson_card(lesson(center=Position(quillon.lat_deg, quillon.lon_deg), radius_nm=20.0))
    begin = start_of(card)
    assert begin.received[0].distance_nm > 5.0
    assert lesson_tasks(card)[0].answers


def test_a_lesson_over_a_station_that_does_not_reach_far_starts_nearer_to_it():
    hathery = archipelago.STATIONS["HTX"]  # a terminal volume: 25 NM
    alone = listed([hathery], "one station").stations
    card = lesson_card(lesson(center=hathery.position, stations=alone, fields=()))
    assert 5.0 <= start_of(card).received[0].distance_nm <= 25.0


def test_a_wind_that_no_heading_holds_against_is_said_in_place_of_numbers():
    storm = lesson_card(lesson(wind=Wind(200.0, 150.0)))
    refused = [task for task in lesson_tasks(storm) if not task.answers]
    assert refused
    assert all("Not to be flown as planned: " in task.brief for task in refused)


def test_a_leg_to_a_field_is_ten_miles_or_more_where_there_is_such_a_field():
    def leg_nm(fields):
        card = lesson_card(lesson(fields=tuple(fields)))
        return float(answers(card)["Outbound to a field"]["distance"].split()[0])

    quillon = archipelago.STATIONS["QLN"]
    fields = [
        archipelago.Airfield(f"F{nm}", f"Field {nm}", quillon.position_on(90.0, nm))
        for nm in (6.0, 7.0, 14.0, 22.0)
    ]
    assert leg_nm(fields) == 14.0
    assert leg_nm(fields[:2]) == 6.0


def test_an_area_where_nothing_is_received_is_refused_with_what_to_do():
    away = lesson_card(lesson(center=Position(40.0, -30.0), fields=()))
    with pytest.raises(ValueError, match=r"no station is received.*higher altitude"):
        lesson_tasks(away)


def test_a_lesson_below_its_station_is_refused_with_the_height_of_the_station():
    high = replace(STATIONS.one("QLN").station, position=Position(46.0, -30.0, 5000.0))
    low = lesson_card(lesson(stations=listed({"QLN": high}, "a test").stations, altitude_ft=4500.0))
    with pytest.raises(ValueError, match=r"Quillon stands at 5,000 ft, above the 4,500 planned"):
        lesson_tasks(low)


def test_the_intercept_angle_is_twice_the_radials_to_go_as_a_pilot_counts_them():
    for center in (CENTER, Position(46.1, -30.4), Position(45.8, -29.8)):
        expected = answers(lesson_card(lesson(center=center)))["Intercept inbound"]
        angle = float(expected["angle, heading"].partition(",")[0])
        assert angle == 2.0 * float(expected["radials to go"])


def test_stations_chosen_by_ident_bring_the_area_to_the_first_of_them():
    stations = load_stations(NAV_BASE)
    plan = plan_lesson(stations, idents=["BJC", "DVV"], altitude_ft=9500.0)
    assert plan.center is stations.one("BJC").station.position


def test_a_lesson_with_one_station_and_no_field_has_what_one_station_allows():
    alone = lesson_card(lesson(stations=nearest_stations(STATIONS, CENTER)[:1], fields=()))
    assert [task.title for task in lesson_tasks(alone)] == [
        "Orientation",
        "Intercept inbound",
        "Station passage",
    ]
    assert alone.center.pair is None


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"radius_nm": 0.0}, "radius_nm must be from 1 to 300 NM"),
        ({"altitude_ft": -1.0}, "altitude_ft must be from 100 to 60000 ft"),
        ({"stations": ()}, "at least one station"),
        ({"center": Position([46.0, 47.0], -30.0)}, "center must be one place"),
    ],
)
def test_a_lesson_that_cannot_be_is_refused(change, words):
    with pytest.raises(ValueError, match=words):
        lesson(**change)


# --- fields from a file ---------------------------------------------------------------------------

HEADER = "ident,name,lat_deg,lon_deg,elevation_ft\n"


def test_fields_are_read_from_a_file():
    (field,) = read_fields(io.StringIO(HEADER + "9QUI,Quillon Field,45.9667,-30.3115,310\n"))
    assert (field.ident, field.name, field.position.altitude_ft) == ("9QUI", "Quillon Field", 310.0)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", r"line 1: .*an empty file"),
        ("a,b\n", r"line 1: the columns.*ident, name.*got a, b"),
        (",".join("abcdefghijkl"), r"got a, b, c, d, e, f, g, h and 4 more$"),
        (HEADER, "no airfield"),
        (HEADER + "X,Y,95,-30,0\n", r"row 2: lat_deg must be from -90.*swapped"),
        (HEADER + "X,Y,5,-30\n", "row 2: there must be 5 cells"),
        (HEADER + "X,=Y,5,-30,0\n", "row 2: name must not begin with '='"),
        (HEADER + ",Y,5,-30,0\n", "row 2: ident must not be empty"),
    ],
)
def test_a_file_of_fields_that_is_wrong_says_where(text, words):
    with pytest.raises(FileError, match=words):
        read_fields(io.StringIO(text))


# --- from files -----------------------------------------------------------------------------------

NAV_BASE = Path(__file__).parents[1] / "data" / "faa_nav_base.csv"


def test_without_files_a_lesson_is_in_the_invented_islands_on_their_own_day():
    plan = plan_lesson()
    assert plan.on == archipelago.TODAY
    assert {s.station.ident for s in plan.stations} == set(archipelago.STATIONS)
    assert {f.ident for f in plan.fields} <= set(archipelago.AIRFIELDS)
    assert len(plan.fields) >= 5
    assert plan.sources[0] == "All places and stations are invented."
    assert plan.remarks == ()
    years = {s.station.ident: s.declination_year for s in plan.stations}
    assert years == archipelago.DECLINATION_YEARS


def test_fields_that_are_not_used_are_told_with_the_reason():
    assert plan_lesson().sources[1] == (
        "Of 7 fields 6 are used: the nearest, at most 8, within 60.8 NM of the middle of the "
        "area. Left out: Ombrell West (61.2 NM)."
    )
    assert len(plan_lesson(radius_nm=200.0).sources) == 1


def test_a_lesson_with_real_stations_says_how_old_they_are_and_what_is_restricted():
    stations = load_stations(NAV_BASE)
    plan = plan_lesson(stations, center=Position(40.0, -104.8), on=date(2026, 8, 1))
    assert "out of date" in plan.sources[0]
    restricted = next(words for words in plan.remarks if "operational restricted" in words)
    assert "BJC" in restricted
    assert plan.stations[0].station.ident == "DVV"


@pytest.mark.parametrize(("declination", "odd"), [("-9", False), ("9", True), ("-18", False)])
def test_a_declination_far_from_the_variation_of_the_day_is_remarked_on(declination, odd):
    own = f"{','.join(COLUMNS)}\nQLN,Quillon,46.0167,-30.1439,640,{declination},113.4,L\n"
    plan = plan_lesson(load_stations(io.StringIO(own)), center=CENTER, on=archipelago.TODAY)
    remarks = " ".join(plan.remarks)
    # the variation there is 9.3 degrees west
    assert ("QLN: the declination lies 18 degrees from the day's variation" in remarks) == odd


@pytest.mark.parametrize("ident", ["AKO", "BJC", "DVV"])
@pytest.mark.parametrize(
    "place", [(40.0394, -105.2258), (40.4374, -104.6332), (39.5701, -104.8493)]
)
def test_radials_and_distances_are_those_of_geographiclib_and_the_published_declination(
    ident, place
):
    published = {"AKO": 13.0, "BJC": 11.0, "DVV": 8.0}[ident]  # NAV_BASE.csv, all to the east
    stations = load_stations(NAV_BASE)
    field = archipelago.Airfield("F1", "A field", Position(*place, 5000.0))
    plan = plan_lesson(
        stations, [field], Position(40.1, -104.8), idents=[ident], altitude_ft=9500.0
    )
    (seen,) = lesson_card(plan).fields[0].seen
    at = seen.station.position
    line = Geodesic.WGS84.Inverse(at.lat_deg, at.lon_deg, *place)
    assert abs(difference_deg(seen.radial_deg, line["azi1"] - published)) < 1e-6
    assert seen.distance_nm == pytest.approx(line["s12"] / 1852.0, abs=1e-6)
    height_m = (9500.0 - at.altitude_ft) * 0.3048
    assert seen.dme_nm == pytest.approx(math.hypot(line["s12"], height_m) / 1852.0, rel=1e-4)


def test_the_outbound_task_holds_the_wind_triangle_worked_by_hand():
    # 249 radial by the 13 degrees east of the station: 262 true; wind 250 true at 20 kt, 110 kt
    # true airspeed: correction asin(20 / 110 sin(250 - 262)) = -2.2, 90.4 kt over the ground;
    # 21.2 NM take 14.1 min; 259.8 true is 252.5 by the day's 7.3 degrees east
    station = Station("ABC", Position(40.5, -104.55, 4920.0), 13.0, 114.2, "A station")
    field = archipelago.Airfield("F1", "A field", station.position_on(249.0, 21.2))
    plan = lesson(
        stations=listed([station], "a list", "VOR/DME").stations,
        fields=(field,),
        center=Position(40.3, -104.7),
        altitude_ft=9500.0,
        on=date(2026, 8, 1),
        aircraft=Aircraft(110.0),
        wind=Wind(250.0, 20.0),
    )
    task = answers(lesson_card(plan))["Outbound to a field"]
    assert task["course to select, flag"] == "249, FROM"
    assert task["wind correction"] == "2 degrees left"
    assert task["heading"].replace(NO_BREAK, " ") == "253 (249 - 2 wind = 247; + 6 north)"
    assert task["time"] == "14.1 min at 90 kt over the ground"


def test_stations_can_be_chosen_by_their_idents():
    stations = load_stations(NAV_BASE)
    plan = plan_lesson(
        stations, center=Position(40.0, -104.8), idents=["ako", "BJC"], on=archipelago.TODAY
    )
    assert [s.station.ident for s in plan.stations] == ["BJC", "AKO"]


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: plan_lesson(load_stations(NAV_BASE)), "choose a center"),
        (lambda: plan_lesson(fields=[]), "fields need stations"),
        (lambda: plan_lesson(radius_nm=-1.0), "radius_nm must be from 1 to 300 NM"),
        (lambda: plan_lesson(idents=["ZZZ"]), "no station has the ident 'ZZZ'"),
        (lambda: place_from_words("46"), "latitude,longitude"),
        (lambda: place_from_words("x,y"), "latitude must be a number"),
        (lambda: place_from_words("-104.8,40"), "swapped"),
        (lambda: wind_from_words("250"), "true degrees, 0 to 360, and knots"),
        (lambda: wind_from_words("250/-5"), "true degrees, 0 to 360, and knots"),
    ],
)
def test_what_cannot_be_planned_is_refused_in_words(call, words):
    with pytest.raises(ValueError, match=words):
        call()
