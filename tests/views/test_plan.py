"""The plan view: distances and bearings from the station exact, and words that do not collide."""

import math
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from views.drawn import FIELDS, STATION, grabbed, groups, read, scene_at, texts

from vorlib.earth.geodesic import Position
from vorlib.views.drawing.layout import overlap, text_box
from vorlib.views.drawing.picture import Circle, Line, Polygon, Polyline, Segments
from vorlib.views.drawing.svg import to_svg
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.plan.course import course_overlays
from vorlib.views.plan.map import ring_step_nm
from vorlib.views.plan.plan import SIZE, Overlay, PlanScene, plan, projection
from vorlib.views.plan.projection import rose_radius
from vorlib.vor.receiver import Flag, Reason

directions = st.floats(0.1, 360.0)
distances = st.floats(0.1, 24.0)
themes = st.sampled_from([SCREEN, PROJECTOR])
CENTER = SIZE / 2


def words_of(picture) -> dict[str, object]:
    return {text.text: text for text in texts(picture.items)}


def true_bearing_deg(x: float, y: float) -> float:
    return math.degrees(math.atan2(x - CENTER, CENTER - y)) % 360


@given(bearing_deg=directions, distance_nm=st.floats(0.1, 60.0))
def test_distance_and_bearing_from_the_station_are_those_of_the_geodesic(bearing_deg, distance_nm):
    # truth: geographiclib, on WGS 84
    start = float(STATION.position.lat_deg), float(STATION.position.lon_deg)
    end = Geodesic.WGS84.Direct(*start, bearing_deg, distance_nm * 1852.0)
    layout = projection(scene_at(214, 12.4, 40))
    x, y = layout.to_xy(Position(end["lat2"], end["lon2"]))
    measured = math.hypot(x - CENTER, y - CENTER) / layout.units_per_nm
    assert measured == pytest.approx(distance_nm, abs=1e-6)
    off = (true_bearing_deg(x, y) - bearing_deg + 180) % 360 - 180
    assert abs(off) < 1e-5


@given(x=st.floats(0, SIZE), y=st.floats(0, SIZE))
def test_a_drag_to_a_point_puts_the_aircraft_at_that_point(x, y):
    layout = projection(scene_at(214, 12.4, 40))
    place = layout.to_position(x, y, 3000.0)
    assert layout.to_xy(place) == pytest.approx((x, y), abs=1e-5)
    assert place.altitude_ft == 3000.0


def test_north_is_up_and_east_is_right():
    layout = projection(scene_at(214, 12.4, 40))
    here = STATION.position
    x, y = layout.to_xy(Position(here.lat_deg + 0.1, here.lon_deg))
    assert x == pytest.approx(CENTER)
    assert y < CENTER
    x, _ = layout.to_xy(Position(here.lat_deg, here.lon_deg + 0.1))
    assert x > CENTER


@pytest.mark.parametrize("declination_deg", [-17.0, 0.0, 12.0])
def test_the_rose_is_turned_by_the_declination_of_the_station(declination_deg):
    scene = replace(
        scene_at(214, 12.4, 40), station=replace(STATION, declination_deg=declination_deg)
    )
    words = words_of(plan(scene))
    for degree in range(30, 390, 30):
        numeral = words[f"{degree:03d}"]
        off = true_bearing_deg(numeral.x, numeral.y) - degree - declination_deg
        assert (off + 180) % 360 - 180 == pytest.approx(0, abs=1e-6)
    assert "000" not in words
    assert "true N" in words


@given(distance_nm=st.floats(20.0, 40.0), radial_deg=directions, theme=themes)
def test_an_aircraft_at_the_rose_covers_none_of_its_numerals(distance_nm, radial_deg, theme):
    picture = plan(scene_at(radial_deg, distance_nm, 40), theme)
    aircraft = grabbed(picture, "aircraft")
    reach = 12.0 * theme.symbol
    box = (aircraft.x - reach, aircraft.y - reach, aircraft.x + reach, aircraft.y + reach)
    words = words_of(picture)
    for degree in range(30, 390, 30):
        assert not overlap(text_box(words[f"{degree:03d}"]), box)


@given(radial_deg=directions, theme=themes)
def test_the_line_of_the_radial_crosses_no_name_on_the_map(radial_deg, theme):
    picture = plan(scene_at(radial_deg, 24.0, 40), theme)
    names = [t for t in texts(picture.items) if t.text in ("DUN", *(f.name for f in FIELDS))]
    pieces = [i for i in picture.items if isinstance(i, Line) and i.stroke == theme.aircraft]
    for name, piece in ((name, piece) for name in names for piece in pieces):
        left, top, right, bottom = text_box(name)
        for share in np.linspace(0.0, 1.0, 50):
            x = piece.x1 + share * (piece.x2 - piece.x1)
            y = piece.y1 + share * (piece.y2 - piece.y1)
            inside = left + 1e-6 < x < right - 1e-6 and top + 1e-6 < y < bottom - 1e-6
            assert not inside, name.text


def test_true_north_and_the_station_north_have_different_marks():
    picture = plan(scene_at(214, 12.4, 40))
    heads = [i for g in groups(picture.items) for i in g.items if isinstance(i, Polygon)]
    at_top = [h for h in heads if h.points[0] == (0.0, -rose_radius())]
    assert {SCREEN.paper, SCREEN.rose} <= {h.fill for h in at_top}  # one open, one filled


@given(radial_deg=directions, heading_deg=directions)
def test_the_aircraft_points_along_its_true_heading(radial_deg, heading_deg):
    picture = plan(scene_at(radial_deg, 12.0, 40, heading_deg=heading_deg))
    aircraft = grabbed(picture, "aircraft")
    assert aircraft.rotate_deg == pytest.approx(heading_deg + STATION.declination_deg)
    layout = projection(scene_at(radial_deg, 12.0, 40))
    there = STATION.position_on(radial_deg, 12.0)
    assert (aircraft.x, aircraft.y) == pytest.approx(layout.to_xy(there))


@given(course_deg=directions)
def test_an_aircraft_on_the_radial_of_the_course_is_on_the_course_line(course_deg):
    assume(course_deg + STATION.declination_deg != 0.0)  # then nothing is turned
    picture = plan(scene_at(course_deg, 10.0, course_deg))
    aircraft = grabbed(picture, "aircraft")
    (turned,) = [g for g in groups(picture.items) if g.rotate_deg and not g.grab and g.x == CENTER]
    (course,) = [i for i in turned.items[0].items if isinstance(i, Line) and not i.dash]
    assert course.x1 == course.x2 == 0.0  # through the station, along the turned group's axis
    a = math.radians(turned.rotate_deg)
    along = (aircraft.x - CENTER) * math.sin(a) - (aircraft.y - CENTER) * math.cos(a)
    across = (aircraft.x - CENTER) * math.cos(a) + (aircraft.y - CENTER) * math.sin(a)
    assert across == pytest.approx(0, abs=1e-4)
    assert along > 0  # at its head


@given(radial_deg=directions, distance_nm=distances, course_deg=directions, theme=themes)
@settings(max_examples=60)
def test_the_words_to_and_from_stand_in_the_half_where_the_flag_reads_so(
    radial_deg, distance_nm, course_deg, theme
):
    scene = scene_at(radial_deg, distance_nm, course_deg)
    words, layout = words_of(plan(scene, theme)), projection(scene, theme)
    for word in ("TO", "FROM"):
        there = layout.to_position(words[word].x, words[word].y)
        radial = float(STATION.radial_deg(there))
        ahead = math.cos(math.radians(radial - course_deg)) > 0
        assert ahead == (word == "FROM")


def in_wedge(x: float, y: float, wedges: list[Polygon]) -> bool:
    def left_of_every_side(points) -> bool:
        sides = zip(points, (*points[1:], points[0]), strict=True)
        return all((bx - ax) * (y - ay) - (by - ay) * (x - ax) >= 0 for (ax, ay), (bx, by) in sides)

    return any(left_of_every_side(w.points) for w in wedges)


@given(radial_deg=directions, course_deg=directions, full_scale_deg=st.sampled_from([10.0, 12.0]))
def test_the_needle_is_off_its_stops_exactly_inside_the_wedge(
    radial_deg, course_deg, full_scale_deg
):
    deviation = math.degrees(math.asin(math.sin(math.radians(course_deg - radial_deg))))
    if abs(abs(deviation) - full_scale_deg) < 0.1:
        return  # the arc of the wedge is drawn in straight steps
    overlays = course_overlays(200.0, full_scale_deg, Overlay.WEDGE, SCREEN)
    wedges = [i for i in overlays.items if isinstance(i, Polygon)]
    a = math.radians(radial_deg - course_deg)
    inside = in_wedge(100 * math.sin(a), -100 * math.cos(a), wedges)
    assert inside == (abs(deviation) < full_scale_deg)
    if full_scale_deg == 10.0:
        _, reading = read(radial_deg, 12.0, course_deg)
        assert inside == (not reading.pegged)


def test_the_halves_differ_by_pattern_and_not_only_by_color():
    overlays = course_overlays(200.0, 10.0, Overlay.HALVES, SCREEN)
    to_half, from_half = (i for i in overlays.items if isinstance(i, Segments))
    assert to_half.dash == ()
    assert from_half.dash != ()
    assert all(y > 0 for _, y, _, _ in to_half.segments)  # behind the station
    assert all(y < 0 for _, y, _, _ in from_half.segments)


def test_course_abeam_and_radial_lines_differ_by_dash():
    picture = plan(scene_at(214, 12.4, 40))
    lines = [i for i in picture.items if isinstance(i, Line)]
    overlays = course_overlays(200.0, 10.0, Overlay.COURSE | Overlay.ABEAM, SCREEN)
    lines += [i for i in overlays.items if isinstance(i, Line)]
    assert len({line.dash for line in lines}) == len(lines) == 3


@pytest.mark.parametrize("range_nm", [5.0, 10.0, 25.0])
def test_the_cone_is_drawn_to_scale(range_nm):
    scene = scene_at(214, 4.0, 40, range_nm=range_nm, cone_radius_nm=1.1)
    (cone,) = [i for i in plan(scene).items if isinstance(i, Circle)]
    assert cone.radius / projection(scene).units_per_nm == pytest.approx(1.1)


def test_the_service_volume_is_a_dashed_circle_to_scale_with_its_name_where_the_map_holds_it():
    scene = scene_at(214, 4.0, 40, range_nm=50.0, service_nm=40.0)
    (volume,) = [i for i in plan(scene).items if isinstance(i, Circle) and not i.fill]
    assert volume.radius / projection(scene).units_per_nm == pytest.approx(40.0)
    assert "service volume 40 NM" in words_of(plan(scene))
    near = plan(scene_at(214, 4.0, 40, range_nm=25.0, service_nm=40.0))
    assert "service volume 40 NM" not in words_of(near)


@pytest.mark.parametrize(
    ("range_nm", "most", "step"), [(25, 5, 5), (25, 3, 10), (4, 5, 1), (40, 5, 10), (130, 5, 50)]
)
def test_range_rings_stand_at_round_distances(range_nm, most, step):
    assert ring_step_nm(range_nm, most) == step


def test_range_rings_are_named():
    words = words_of(plan(scene_at(214, 12.4, 40)))
    assert {"5 NM", "10 NM", "15 NM", "20 NM"} <= set(words)


MOVING = {"TO", "FROM", "abeam"}


@given(
    radial_deg=directions,
    distance_nm=distances,
    course_deg=directions,
    theme=themes,
    range_nm=st.sampled_from([10.0, 25.0]),
)
@settings(max_examples=150, deadline=None)
def test_words_do_not_collide_and_stay_inside(radial_deg, distance_nm, course_deg, theme, range_nm):
    scene = scene_at(radial_deg, distance_nm, course_deg, range_nm=range_nm)
    picture = plan(scene, theme)
    words = texts(picture.items)
    boxes = {text.text: text_box(text) for text in words}
    for box in boxes.values():
        assert min(box) >= 0
        assert max(box) <= SIZE
    for one, other in combinations(boxes, 2):
        if "true N" not in (one, other):  # a mark of the rose, which no label covers
            assert not overlap(boxes[one], boxes[other]), (one, other)
    aircraft = grabbed(picture, "aircraft")
    for text in words:
        if text.text in MOVING or "radial" in text.text or "course" in text.text:
            left, top, right, bottom = boxes[text.text]
            assert not (left < aircraft.x < right and top < aircraft.y < bottom)


def test_the_lesson_names_its_lines_and_places():
    names = set(words_of(plan(scene_at(214, 12.4, 40))))
    assert {"214 radial", "course 040", "abeam", "Varrow VAR", "DUN"} <= names
    assert {field.name for field in FIELDS} <= names


def test_a_hidden_position_is_not_given_away():
    picture = plan(replace(scene_at(214, 12.4, 40), position=None))
    assert not [g for g in groups(picture.items) if g.grab]
    assert "radial" not in to_svg(picture)
    assert not [word for word in words_of(picture) if "214" in word]


def test_a_plan_without_overlays_shows_the_map_alone():
    picture = plan(scene_at(214, 12.4, 40, overlays=Overlay.NONE))
    names = set(words_of(picture))
    assert names == {"Varrow VAR", "DUN", "Varrow Field", "Sallow Cove"}


def test_an_aircraft_beyond_the_map_is_held_hollow_at_its_edge():
    picture = plan(scene_at(214, 60.0, 40))
    aircraft = grabbed(picture, "aircraft")
    assert 0 < aircraft.x < SIZE
    assert 0 < aircraft.y < SIZE
    assert aircraft.items[0].fill == SCREEN.paper


def test_the_flown_track_is_drawn_and_cut_at_the_frame():
    flown = STATION.position_on(np.full(5, 214.0), np.array([40.0, 30.0, 20.0, 10.0, 5.0]))
    picture = plan(scene_at(214, 5.0, 40, track=flown))
    (track,) = [i for i in picture.items if isinstance(i, Polyline)]
    assert all(0 <= c <= SIZE for point in track.points for c in point)
    assert track.points[-1] == pytest.approx(projection(scene_at(214, 5.0, 40)).to_xy(
        STATION.position_on(214, 5.0)
    ))  # fmt: skip


def test_heading_plays_no_part_in_what_is_drawn_but_the_aircraft():
    one, other = (to_svg(plan(scene_at(214, 12.4, 40, heading_deg=h))) for h in (30.0, 200.0))
    assert one != other
    start = one.index('data-grab="aircraft"')
    assert one[: start - 60] == other[: start - 60]


@pytest.mark.parametrize(
    ("argument", "value"),
    [
        ("range_nm", 0.0),
        ("range_nm", float("nan")),
        ("full_scale_deg", 0.0),
        ("course_deg", float("inf")),
        ("heading_deg", float("nan")),
        ("cone_radius_nm", -1.0),
        ("service_nm", -1.0),
        ("position", Position([46.0, 46.1], -30.0)),
    ],
)
def test_a_scene_that_cannot_be_drawn_is_refused_by_name(argument, value):
    with pytest.raises(ValueError, match=argument):
        PlanScene(STATION, **{argument: value})


def test_the_readings_of_the_examples_are_what_they_say():
    _, reading = read(214, 12.4, 40)
    assert (reading.flag, reading.reason) == (Flag.TO, Reason.NONE)
