"""The side view over the station, with a cone that is true to scale."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from views.drawn import grabbed, texts

from vorlib.views.drawing.layout import text_box
from vorlib.views.drawing.picture import Polyline
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.flight.profile import HEIGHT, WIDTH, ProfileScene, profile, profile_scale
from vorlib.vor.coverage import cone_radius_nm


@given(
    half_angle_deg=st.floats(10, 60),
    height_ft=st.floats(500, 9000),
    elevation_ft=st.floats(0, 900),
)
def test_the_side_of_the_cone_is_where_the_cone_radius_says(
    half_angle_deg, height_ft, elevation_ft
):
    scene = ProfileScene(-2.0, 4500.0, elevation_ft, half_angle_deg)
    scale = profile_scale(scene)
    (sides,) = [i for i in profile(scene).items if isinstance(i, Polyline)]
    _, apex, rim = sides.points
    share = height_ft * scale.units_per_ft / (apex[1] - rim[1])
    drawn_nm = share * (rim[0] - apex[0]) / scale.units_per_nm
    assert drawn_nm == pytest.approx(float(cone_radius_nm(height_ft, half_angle_deg)), rel=1e-6)


@given(offset_nm=st.floats(-3, 3), height_ft=st.floats(0, 9000), half_angle_deg=st.floats(10, 60))
def test_beside_the_station_the_cone_is_as_wide_as_the_flight_is_long_in_it(
    offset_nm, height_ft, half_angle_deg
):
    scene = ProfileScene(-2.0, 4500.0, 500.0, half_angle_deg, offset_nm=offset_nm)
    radius_nm = float(cone_radius_nm(height_ft, half_angle_deg))
    half_nm = scene.half_width_nm(500.0 + height_ft)
    if radius_nm <= abs(offset_nm):
        assert half_nm == 0.0
    else:
        assert math.hypot(half_nm, offset_nm) == pytest.approx(radius_nm)
        assert scene.altitude_at_ft(half_nm) == pytest.approx(500.0 + height_ft)


def test_an_aircraft_that_passes_outside_the_cone_is_not_drawn_flying_into_it():
    passing = ProfileScene(0.0, 4500.0, 640.0, offset_nm=1.0)  # the cone's radius is 0.8 NM there
    (sides,) = [i for i in profile(passing).items if isinstance(i, Polyline)]
    lowest_y = max(y for _, y in sides.points)
    assert grabbed(profile(passing), "aircraft").y > lowest_y
    assert "outside the cone" in profile(passing).description
    far = profile(ProfileScene(0.0, 4500.0, 640.0, offset_nm=3.0))
    assert not [i for i in far.items if isinstance(i, Polyline)]


@pytest.mark.parametrize("offset_nm", [1.0, -1.0, 3.0])
def test_the_picture_says_which_section_it_is(offset_nm):
    picture = profile(ProfileScene(-2.0, 4500.0, offset_nm=offset_nm))
    words = " ".join(text.text for text in texts(picture.items))
    assert f"section {abs(offset_nm):g} NM beside the station" in words
    assert f"section {abs(offset_nm):g} NM beside the station" in picture.description
    assert "section" not in profile(ProfileScene(-2.0, 4500.0)).description


@given(distance_nm=st.floats(-6, 6), altitude_ft=st.floats(0, 10000))
def test_a_drag_to_a_point_puts_the_aircraft_at_that_point(distance_nm, altitude_ft):
    scene = ProfileScene(distance_nm, altitude_ft)
    aircraft = grabbed(profile(scene), "aircraft")
    place = profile_scale(scene).to_distance_altitude(aircraft.x, aircraft.y)
    assert place == pytest.approx((distance_nm, altitude_ft), abs=1e-6)


def test_the_picture_states_how_many_times_too_tall_it_is():
    scene = ProfileScene(-2.0, 4500.0)
    scale = profile_scale(scene)
    x, y = scale.to_xy(1.0, 0.0), scale.to_xy(0.0, 1852.0 / 0.3048)  # a mile along, a mile up
    wide, tall = x[0] - scale.station_x, scale.sea_y - y[1]
    (words,) = [t.text for t in texts(profile(scene).items) if "too tall" in t.text]
    assert float(re.search(r"[\d.]+", words).group()) == pytest.approx(tall / wide, abs=0.051)


@pytest.mark.parametrize("theme", [SCREEN, PROJECTOR], ids=["screen", "projector"])
@pytest.mark.parametrize("range_nm", [2.0, 6.0, 12.0])
@pytest.mark.parametrize("half_angle_deg", [20.0, 50.0, 70.0])
@pytest.mark.parametrize("size", [(WIDTH, HEIGHT), (490.0, 480.0)], ids=["low", "tall"])
def test_words_stay_inside_the_picture(half_angle_deg, range_nm, theme, size):
    scene = ProfileScene(
        *(1.0, 4500.0, 640.0, half_angle_deg, range_nm),
        station_name="Varrow VAR",
        offset_nm=0.2,
        width=size[0],
        height=size[1],
    )
    for text in texts(profile(scene, theme).items):
        left, top, right, bottom = text_box(text)
        assert left >= 0, text.text
        assert right <= size[0], text.text
        assert top >= 0, text.text
        assert bottom <= size[1], text.text


def test_the_description_says_whether_the_aircraft_is_in_the_cone():
    radius = float(cone_radius_nm(4500.0))
    inside, outside = (profile(ProfileScene(d * radius, 4500.0)) for d in (0.9, -1.1))
    assert "beyond the station at 4,500 ft, inside the cone" in inside.description
    assert "before the station at 4,500 ft, outside the cone" in outside.description


def test_an_aircraft_out_of_the_picture_is_held_at_its_edge():
    aircraft = grabbed(profile(ProfileScene(50.0, 40000.0)), "aircraft")
    assert 0 <= aircraft.x <= WIDTH
    assert 0 <= aircraft.y <= HEIGHT


def test_a_cone_of_no_angle_is_not_drawn():
    picture = profile(ProfileScene(1.0, 4500.0, half_angle_deg=0.0))
    assert not [i for i in picture.items if isinstance(i, Polyline)]
    assert "cone of" not in {text.text for text in texts(picture.items)}


@pytest.mark.parametrize(
    ("argument", "value"),
    [("distance_nm", math.nan), ("half_angle_deg", 90.0), ("range_nm", 0.0), ("top_ft", -1.0)],
)
def test_a_scene_that_cannot_be_drawn_is_refused_by_name(argument, value):
    with pytest.raises(ValueError, match=argument):
        ProfileScene(**({"distance_nm": 1.0, "altitude_ft": 2000.0} | {argument: value}))
