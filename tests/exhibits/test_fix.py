"""The fix exhibit: what it says of fixes, and when it says that there is none."""

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from sight import is_away

from vorlib.exhibits import fix, timing
from vorlib.exhibits.base.controls import Number
from vorlib.exhibits.position.fix import draw
from vorlib.exhibits.position.fix_state import FixState
from vorlib.exhibits.position.fix_words import sentence
from vorlib.stations.archipelago import STATIONS
from vorlib.views.drawing.theme import SCREEN

places = st.floats(-30.0, 30.0)


def told(exhibit, field):
    """Return what is said beside a control."""
    return exhibit.control(field).message


def state_or_none(**fields):
    try:
        return FixState(**fields)
    except ValueError:
        return None


@given(east=places, north=places, third=st.sampled_from(["", "TSX", "OBL"]))
@settings(max_examples=60, deadline=None)
def test_radials_without_error_fix_the_aircraft(east, north, third):
    state = state_or_none(east_nm=east, north_nm=north, third=third)
    assume(state is not None)
    tuned = [STATIONS[ident] for ident in (state.first, state.second, third) if ident]
    assume(all(float(one.distance_nm(state.there)) > 0.5 for one in tuned))  # no radial overhead
    assert state.error_nm < 0.001
    assert max(abs(r) for r in state.residuals_deg) < 0.001


@given(east=places, north=places)
@settings(max_examples=40, deadline=None)
def test_radial_and_dme_fix_the_aircraft_whatever_its_height(east, north):
    state = state_or_none(east_nm=east, north_nm=north, method="dme", altitude_ft=15_000.0)
    assume(state is not None)
    assert state.error_nm < 0.05  # the slant triangle is drawn flat


def test_slant_range_matters_near_and_high_and_hardly_far_and_low():
    near = FixState(method="dme", east_nm=-8.0, north_nm=0.0, altitude_ft=15_000.0)
    far = FixState(method="dme", east_nm=25.0, north_nm=0.0, altitude_ft=4000.0)
    assert near.shown_nm - near.ground_nm > 0.8
    assert far.shown_nm - far.ground_nm < 0.01


def test_a_dme_that_shows_less_than_the_height_is_answered_beside_its_control():
    exhibit = fix(method="dme", altitude_ft=12_000.0)
    before = exhibit.state
    exhibit.set(dme_nm=1.5)
    assert "must be at least the height" in told(exhibit, "dme_nm")
    assert exhibit.state == before


def test_between_two_stations_the_radials_are_parallel_and_the_aircraft_is_not_moved_there():
    quillon, pelladine = FixState().stations
    line = quillon.inverse(pelladine.position)
    half = quillon.position_on(
        float(quillon.radial_of_azimuth_deg(line.true_azimuth_deg)), float(line.distance_nm) / 2
    )
    east = (float(half.lon_deg) + 30.0) * 60.0 * 0.6968  # cosine of the latitude there
    north = (float(half.lat_deg) - 46.0) * 60.0
    exhibit = fix()
    before = exhibit.state
    exhibit.set(east_nm=east, north_nm=north)
    assert "parallel" in told(exhibit, "east_nm")
    assert exhibit.state == before


def test_a_radial_read_across_the_other_leaves_them_to_meet_behind_its_station():
    exhibit = fix(east_nm=-30.0, north_nm=12.0)  # they cut at 8 degrees there
    before = exhibit.state
    exhibit.set(off_deg=15)
    assert "meet on the far side of Quillon" in told(exhibit, "off_deg")
    assert exhibit.state == before


def test_one_station_twice_gives_no_fix():
    exhibit = fix()
    exhibit.set(second="QLN")
    assert "Choose different stations" in told(exhibit, "second")


def test_two_radials_cannot_show_that_one_is_off_but_three_disagree():
    two = FixState(off_deg=6.0)
    assert two.error_nm > 1.0
    assert max(abs(r) for r in two.residuals_deg) < 0.001
    assert "two radials cannot show it" in sentence(two)
    three = FixState(third="HTX", off_deg=6.0)
    assert max(abs(r) for r in three.residuals_deg) > 1.0
    assert "Against the fix the radials read" in sentence(three)


def test_the_largest_disagreement_need_not_be_of_the_radial_that_is_off():
    state = FixState(third="HTX", off_deg=6.0)
    sizes = [abs(r) for r in state.residuals_deg]
    assert sizes.index(max(sizes)) != 0


def test_a_line_cuts_a_circle_twice_and_a_third_radial_tells_where():
    along = {"first": "OBL", "second": "QLN", "method": "other dme"}
    two = FixState(**along, east_nm=-10.0, north_nm=7.0)
    assert len(two.fixes) == 2
    assert "in two places" in sentence(two)
    told_apart = FixState(**along, third="HTX", east_nm=-10.0, north_nm=7.0)
    assert told_apart.error_nm < 0.1
    assert sum(f is told_apart.fix for f in told_apart.fixes) == 1


def test_the_sentence_gives_place_error_and_cut():
    words = sentence(FixState())
    assert "cut at 64 degrees" in words
    assert "12.7 NM southwest of Quillon" in words
    assert "at most 3.9 NM out" in words


def test_three_radials_leave_a_triangle_and_a_small_one_is_normal():
    agree = FixState("QLN", "PLX", "HTX")
    assert agree.triangle_nm < 0.001
    small = FixState("QLN", "PLX", "HTX", off_deg=6.0)
    lat, lon = small.triangle.lat_deg, small.triangle.lon_deg
    assert lat.shape == lon.shape == (3,)
    assert "a triangle 2.4 NM long" in sentence(small)
    assert "it shows no mistake by itself" in sentence(small)
    exact = replace(small, bound_deg=1.0)  # the same triangle, and better readings
    assert exact.triangle_nm == small.triangle_nm
    assert "so at least one is wrong" in sentence(exact)


def test_the_triangle_is_drawn_with_its_name_and_is_not_without_a_third_radial():
    for third, drawn in (("HTX", True), ("", False)):
        svg = fix("QLN", "PLX", third, off_deg=6.0).picture.svg
        assert ("triangle of the radials" in svg) is drawn


def test_no_ellipse_is_drawn_where_none_holds():
    narrow = fix("QLN", "PLX", east_nm=5.9, north_nm=-9.5)
    assert "no ellipse does" in narrow.sentence
    assert "95 % of fixes" not in narrow.picture.svg
    assert "95 % of fixes" in fix("QLN", "PLX").picture.svg


def test_what_is_said_beside_a_folded_control_unfolds_it():
    exhibit = fix("QLN", "PLX")
    assert not exhibit.page.fold.value
    exhibit.set(east_nm=2.5, north_nm=-6.0)  # on the line that joins the two
    assert "parallel" in told(exhibit, "east_nm")
    assert exhibit.page.fold.value


def test_within_wide_bounds_nearly_parallel_radials_bound_nothing():
    state = FixState(second="HTX", east_nm=-14.0, north_nm=-15.0, bound_deg=10.0)
    assert state.area is None
    assert "nothing bounds the fix" in sentence(state)


def test_twice_the_bound_is_twice_the_ellipse():
    small, large = FixState(bound_deg=2.0).ellipse, FixState(bound_deg=4.0).ellipse
    assert large.semi_major_nm == pytest.approx(2.0 * small.semi_major_nm)


def test_a_station_out_of_reach_is_named():
    words = sentence(FixState(second="HTX", east_nm=5.0, north_nm=10.0))  # 25 NM are promised there
    assert "In flight do not rely on Hathery here: outside the service volume" in words


def test_a_hand_moves_the_aircraft_to_scale_and_a_typed_dme_is_forgotten():
    exhibit = fix(method="dme", dme_nm=13.0)
    exhibit.drag("aircraft", (100.0, 100.0), (100.0, 100.0 - 480.0 / 88.0))
    assert exhibit.state.north_nm == -7.0  # the map is 88 NM high
    assert exhibit.state.dme_nm is None


def test_no_exhibit_begins_without_a_fix():
    with pytest.raises(ValueError, match="choose different stations"):
        fix("QLN", "QLN")
    with pytest.raises(ValueError, match="method must be one of"):
        fix(method="guess")


@pytest.mark.parametrize("exhibit", [fix(), timing()], ids=["fix", "timing"])
def test_a_hand_leaves_every_value_on_a_step_of_its_slider(exhibit):
    # a browser moves a slider to its nearest step, and the picture would follow it
    exhibit.drag("aircraft", (200.0, 200.0), (163.0, 127.0))
    for control in exhibit.controls:
        value = getattr(exhibit.state, control.field, None)
        if isinstance(control, Number) and value is not None:
            steps = (value - control.slider.min) / control.slider.step
            assert steps == pytest.approx(round(steps), abs=1e-6), control.field


def test_a_radial_with_its_own_dme_leaves_a_small_area_that_grows_with_distance():
    near, far = (FixState(method="dme", east_nm=e, north_nm=-1.0) for e in (-10.0, -30.0))
    for state in (near, far):
        across = float(state.dme.distance_nm(state.fix)) * math.sin(math.radians(state.bound_deg))
        assert state.worst_nm == pytest.approx(math.hypot(across, state.dme_bound_nm), rel=0.05)
        assert state.cut_deg == 90.0
    assert far.worst_nm > 2.0 * near.worst_nm
    assert "the DME to 0.31 NM it is at most" in sentence(near)


def test_a_better_dme_makes_the_area_narrower_but_not_shorter():
    poor, good = (FixState(method="dme", dme_good_to_nm=nm).ellipse for nm in (0.6, 0.1))
    assert good.semi_minor_nm == pytest.approx(poor.semi_minor_nm / 6.0)
    assert good.semi_major_nm == pytest.approx(poor.semi_major_nm)


def test_where_the_radial_only_touches_the_circle_nothing_bounds_the_fix():
    touching = FixState("OBL", "QLN", method="other dme", east_nm=-8.5, north_nm=15.8)
    assert touching.cut_deg < 30.0
    assert touching.area is None
    assert touching.ellipse_outline is None
    assert "nothing bounds the fix" in sentence(replace(touching, third="TSX"))


def test_over_the_station_the_area_reaches_the_station_and_the_picture_is_still_drawn():
    over = FixState(method="dme", east_nm=-6.0, north_nm=0.5, altitude_ft=15_000.0)
    assert over.ground_band_nm[0] == 0.0
    assert draw(over, SCREEN).items


def test_what_concerns_a_dme_is_offered_only_where_one_is_used():
    exhibit = fix()
    of_dme = [c for c in exhibit.controls if c.field in ("dme_nm", "dme_good_to_nm")]
    assert all(is_away(c.widget) for c in of_dme)
    exhibit.set(method="dme")
    assert not any(is_away(c.widget) for c in of_dme)
