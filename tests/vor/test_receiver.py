"""What the indicator shows: needle, flag, and why the flag is OFF."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import vorlib as v
from vorlib.vor.receiver import ABEAM_HALF_WIDTH_DEG, DOTS_FULL_SCALE

QUILLON = v.Station("QLN", v.Position(46.0, -30.0), -9.0, 113.4, "Quillon", "L")
DIRECTION = st.floats(0.0, 360.0)
DISTANCE = st.floats(2.0, 39.0)


def on(radial: float, distance: float = 20.0, altitude: float = 5000.0) -> v.Position:
    """A place where Quillon is received, unless altitude or distance forbid it."""
    return QUILLON.position_on(radial, distance, altitude)


def read(course: float, there: v.Position, station: v.Station = QUILLON, **more) -> v.Reading:
    return v.Receiver(course, **more).read(station, there)


# Common practice, worked by hand: course, radial, deviation, flag.
READINGS = [
    (40.0, 40.0, 0.0, v.Flag.FROM, "on the radial, going out"),
    (40.0, 220.0, 0.0, v.Flag.TO, "on the reciprocal radial, going in"),
    (40.0, 34.0, 6.0, v.Flag.FROM, "northwest of the course line: it lies right"),
    (40.0, 46.0, -6.0, v.Flag.FROM, "southeast of the course line: it lies left"),
    (40.0, 214.0, -6.0, v.Flag.TO, "south of the inbound course: it lies left"),
    (40.0, 226.0, 6.0, v.Flag.TO, "west of the inbound course: it lies right"),
    (360.0, 5.0, -5.0, v.Flag.FROM, "across north"),
    (5.0, 360.0, 5.0, v.Flag.FROM, "across north the other way"),
]


@pytest.mark.parametrize(
    ("course", "radial", "deviation", "flag", "why"), READINGS, ids=[w for *_, w in READINGS]
)
def test_needle_and_flag_follow_course_and_radial(
    course: float, radial: float, deviation: float, flag: v.Flag, why: str
) -> None:
    reading = read(course, on(radial))
    assert reading.deviation_deg == pytest.approx(deviation, abs=1e-9)
    assert reading.dots == pytest.approx(deviation / 2.0, abs=1e-9)
    assert reading.flag is flag
    assert reading.radial_deg == pytest.approx(radial, abs=1e-9)


def test_tracking_350_with_the_wind_from_the_right_moves_the_needle_right() -> None:
    # Pilot's Handbook (FAA-H-8083-25C), chapter 16, tracking with VOR: 350 held toward the station,
    # a wind from the right drifts the aircraft left and the needle moves right.
    inbound = on(170.0)
    drifted = v.direct(inbound, 350.0 - 9.0 - 90.0, 1.0)
    drifted = v.Position(drifted.lat_deg, drifted.lon_deg, 5000.0)
    assert read(350.0, drifted).flag is v.Flag.TO
    assert read(350.0, drifted).dots > 0.5


@pytest.mark.parametrize(("course", "flag"), [(180.0, v.Flag.TO), (360.0, v.Flag.FROM)])
def test_a_test_signal_centers_with_0_from_and_180_to(course: float, flag: v.Flag) -> None:
    # AIM 1-1-4 b: a test facility is received as the radial of 360 wherever one is.
    reading = read(course, on(360.0))
    assert reading.deviation_deg == pytest.approx(0.0, abs=1e-9)
    assert reading.flag is flag


def test_ten_degrees_is_full_scale_and_five_dots() -> None:
    # A dot is 2 degrees: Pilot's Handbook (FAA-H-8083-25C), chapter 16; five of them from memory.
    assert read(40.0, on(30.001)).dots == pytest.approx(DOTS_FULL_SCALE, abs=1e-3)
    assert not read(40.0, on(30.001)).pegged
    beyond = read(40.0, on(25.0))
    assert beyond.dots == DOTS_FULL_SCALE
    assert beyond.pegged
    assert beyond.deviation_deg == pytest.approx(15.0)


def test_an_instrument_of_twelve_degrees_is_full_only_at_twelve() -> None:
    # Instrument Flying Handbook (FAA-H-8083-15B), chapter 9: full deflection at 12 degrees or more.
    assert not read(40.0, on(28.5), full_scale_deg=12.0).pegged
    assert read(40.0, on(27.5), full_scale_deg=12.0).pegged


@pytest.mark.parametrize("distance", [10.0, 20.0, 30.0, 38.0])
def test_a_dot_is_two_hundred_feet_for_each_mile(distance: float) -> None:
    # Common practice: 200 ft per dot per NM; exact 212.2 (2 degrees over 6,076 ft).
    reading = read(40.0, on(38.0, distance))
    off_course_ft = QUILLON.distance_nm(on(38.0, distance)) * np.tan(np.radians(2.0)) * 6076.12
    assert reading.dots == pytest.approx(1.0)
    assert off_course_ft / distance == pytest.approx(212.2, abs=0.1)
    assert off_course_ft / distance == pytest.approx(200.0, rel=0.065)


@given(DIRECTION, DIRECTION, DISTANCE)
def test_the_reading_is_the_model_word_for_word(
    course: float, radial: float, distance: float
) -> None:
    reading = read(course, on(radial, distance))
    apart = np.radians(course - radial)
    model = np.degrees(np.arcsin(np.clip(np.sin(apart), -1.0, 1.0)))
    assert reading.deviation_deg == pytest.approx(model, abs=1e-5)
    if abs(np.cos(apart)) > np.sin(np.radians(ABEAM_HALF_WIDTH_DEG)) + 1e-6:
        assert reading.flag == (v.Flag.FROM if np.cos(apart) > 0 else v.Flag.TO)


@given(DIRECTION, DIRECTION, DISTANCE)
def test_course_and_reciprocal_swap_flag_and_side(
    course: float, radial: float, distance: float
) -> None:
    there = on(radial, distance)
    one, other = read(course, there), read(course + 180.0, there)
    assume(one.reason is v.Reason.NONE and other.reason is v.Reason.NONE)
    assert {one.flag, other.flag} == {v.Flag.TO, v.Flag.FROM}
    assert other.deviation_deg == pytest.approx(-one.deviation_deg, abs=1e-9)


@given(DIRECTION, DIRECTION, DISTANCE, st.floats(-180.0, 180.0))
def test_rotating_the_world_rotates_the_radial_and_leaves_the_needle(
    course: float, radial: float, distance: float, turn: float
) -> None:
    here = read(course, on(radial, distance))
    turned = read(course + turn, on(radial + turn, distance))
    assert abs(v.difference_deg(turned.radial_deg, here.radial_deg + turn)) < 1e-6
    assert turned.deviation_deg == pytest.approx(here.deviation_deg, abs=1e-6)


@given(DIRECTION, DIRECTION, st.floats(1e-9, 0.01))
def test_the_needle_is_continuous_all_the_way_round(
    course: float, radial: float, step: float
) -> None:
    # On the geometry alone: fractions of a degree along a circle about the station.
    one, other = read(course, on(radial)), read(course, on(radial + step))
    assert abs(one.deviation_deg - other.deviation_deg) <= step + 1e-9


def test_a_station_passed_overhead_flips_to_from() -> None:
    inbound, outbound = on(220.0, 5.0), on(40.0, 5.0)
    assert read(40.0, inbound).flag is v.Flag.TO
    assert read(40.0, outbound).flag is v.Flag.FROM


def test_between_to_and_from_overhead_stands_off_in_the_cone() -> None:
    overhead = v.Position(46.0, -30.0, 6000.0)
    assert read(40.0, overhead).reason is v.Reason.CONE
    along = read(40.0, on(220.0, np.linspace(0.0, 3.0, 61), 6000.0))
    in_cone = along.reason == v.Reason.CONE
    radius = v.cone_radius_nm(6000.0)
    np.testing.assert_array_equal(in_cone, np.linspace(0.0, 3.0, 61) <= radius)
    assert np.all(along.flag[in_cone] == v.Flag.OFF)
    assert np.all(along.flag[~in_cone] == v.Flag.TO)


def test_abeam_the_station_the_flag_is_off() -> None:
    assert read(40.0, on(130.0)).reason is v.Reason.ABEAM
    assert read(40.0, on(310.0)).flag is v.Flag.OFF
    clear = ABEAM_HALF_WIDTH_DEG + 0.1
    assert read(40.0, on(130.0 - clear)).flag is v.Flag.FROM
    assert read(40.0, on(130.0 + clear)).flag is v.Flag.TO


def test_the_flag_holds_to_75_degrees_from_the_course() -> None:
    # A receiver manual's bench step: TO and FROM must hold to 75 degrees either side.
    offsets = np.linspace(-75.0, 75.0, 31)
    assert np.all(read(40.0, on(40.0 + offsets)).flag == v.Flag.FROM)
    assert np.all(read(40.0, on(220.0 + offsets)).flag == v.Flag.TO)


def test_low_and_far_the_station_is_below_the_horizon() -> None:
    reading = read(40.0, on(40.0, 30.0, altitude=400.0))
    assert reading.flag is v.Flag.OFF
    assert reading.reason is v.Reason.LINE_OF_SIGHT


def test_outside_the_service_volume_flag_and_needle_live_but_nobody_promises_them() -> None:
    inside, outside = (read(40.0, on(36.0, out, altitude=9000.0)) for out in (39.9, 40.1))
    assert (inside.flag, inside.reason, inside.assured) == (v.Flag.FROM, v.Reason.NONE, True)
    assert (outside.flag, outside.reason, outside.assured) == (v.Flag.FROM, v.Reason.NONE, False)
    assert outside.dots == pytest.approx(2.0)
    assert (inside.caveat, outside.caveat) == ("", "outside the service volume")


def test_above_the_ceiling_of_its_class_a_needle_lives_and_is_not_promised() -> None:
    terminal = v.Station("QLN", QUILLON.position, -9.0, 113.4, service="T")
    below, above = (read(40.0, on(40.0, 20.0, height), terminal) for height in (12000.0, 12001.0))
    assert (below.flag, below.assured) == (v.Flag.FROM, True)
    assert (above.flag, above.assured) == (v.Flag.FROM, False)


@pytest.mark.parametrize(
    ("course", "there", "reason", "assured"),
    [
        (40.0, on(40.0, 30.0, altitude=400.0), v.Reason.LINE_OF_SIGHT, False),
        (40.0, on(40.0, 0.5, altitude=6000.0), v.Reason.CONE, False),
        (40.0, on(130.0), v.Reason.ABEAM, True),
        (40.0, on(130.0, 45.0, altitude=9000.0), v.Reason.ABEAM, False),
    ],
)
def test_under_off_what_is_not_received_is_not_assured(course, there, reason, assured) -> None:
    reading = read(course, there)
    assert (reading.flag, reading.reason, reading.assured) == (v.Flag.OFF, reason, assured)
    assert reading.caveat == str(reason)


def test_many_places_are_assured_one_by_one_as_alone() -> None:
    out = np.array([0.1, 20.0, 40.5, 100.0, 300.0])
    many = read(40.0, on(40.0, out, 9000.0))
    assert many.assured.tolist() == [read(40.0, on(40.0, d, 9000.0)).assured for d in out.tolist()]
    assert many.assured.tolist() == [False, True, False, False, False]
    assert many.flag.tolist() == [v.Flag.OFF, v.Flag.FROM, v.Flag.FROM, v.Flag.FROM, v.Flag.OFF]


def test_a_station_off_the_air_is_off_everywhere_for_that_reason() -> None:
    silent = v.Station("QLN", QUILLON.position, -9.0, 113.4, on_the_air=False)
    for there in (on(40.0), on(130.0), on(40.0, 300.0), v.Position(46.0, -30.0, 6000.0)):
        assert read(40.0, there, silent).reason is v.Reason.OFF_THE_AIR


def test_a_reason_speaks_in_words_and_none_counts_as_false() -> None:
    assert str(v.Reason.CONE) == "inside the cone of confusion"
    assert not v.Reason.NONE
    assert all(str(reason) for reason in v.Reason if reason)


def test_exactly_over_the_station_on_the_ground_the_answer_is_off_in_the_cone() -> None:
    reading = read(40.0, v.Position(46.0, -30.0))
    assert (reading.flag, reading.reason) == (v.Flag.OFF, v.Reason.CONE)
    assert np.isfinite(reading.deviation_deg)


def test_needle_movement_nears_sixty_over_distance() -> None:
    # US Navy P-871, radials per NM: 60 NM 1, 30: 2, 20: 3, 15: 4, 12: 5, 10: 6, 9: 6.7.
    for distance, radials in [(60, 1), (30, 2), (20, 3), (15, 4), (12, 5), (10, 6), (9, 6.7)]:
        there = on(90.0, distance)
        crossing = v.Receiver(90.0).needle_rate_dots_s(QUILLON, there, 351.0, 3600.0)
        assert abs(crossing) * 2.0 == pytest.approx(radials, rel=0.05)


@given(DIRECTION, DISTANCE, DIRECTION, DIRECTION)
def test_the_needle_rate_is_what_two_readings_differ_by(
    radial: float, distance: float, course: float, track: float
) -> None:
    there = on(radial, distance)
    receiver = v.Receiver(course)
    assume(abs(abs(float(v.difference_deg(course, radial))) - 90.0) > 1.0)
    rate = float(receiver.needle_rate_dots_s(QUILLON, there, track, 3600.0))
    step_nm = 1e-3
    ends = [v.direct(there, heading, step_nm) for heading in (track, track + 180.0)]
    ahead, behind = (read(course, end).deviation_deg for end in ends)
    assert rate == pytest.approx((ahead - behind) / 2.0 / (2.0 * step_nm), abs=1e-3)


def test_the_needle_rate_has_no_limit_overhead_and_says_so() -> None:
    with pytest.raises(ValueError, match="off the station"):
        v.Receiver(40.0).needle_rate_dots_s(QUILLON, v.Position(46.0, -30.0, 3000.0), 90.0, 120.0)
    with pytest.raises(ValueError, match="groundspeed_kt must be 0 kt or more"):
        v.Receiver(40.0).needle_rate_dots_s(QUILLON, on(40.0), 90.0, -120.0)


def test_one_place_reads_many_courses_and_many_places_read_one() -> None:
    courses = v.Receiver(np.arange(1.0, 361.0)).read(QUILLON, on(214.0))
    assert courses.deviation_deg.shape == courses.flag.shape == courses.radial_deg.shape == (360,)
    assert courses.dots[213] == pytest.approx(0.0, abs=1e-9)
    assert courses.flag[213] == v.Flag.FROM
    assert courses.flag[33] == v.Flag.TO
    places = v.Receiver(40.0).read(QUILLON, on(np.linspace(1.0, 360.0, 12)))
    assert places.reason.shape == (12,)


def test_one_place_at_many_heights_is_off_in_the_cone_only_when_high() -> None:
    there = v.Position(on(220.0, 1.0).lat_deg, on(220.0, 1.0).lon_deg, [2000.0, 4000.0, 8000.0])
    reading = read(40.0, there)
    assert reading.flag.tolist() == [v.Flag.TO, v.Flag.TO, v.Flag.OFF]
    assert reading.dots.shape == (3,)


def test_no_places_give_an_empty_reading() -> None:
    reading = v.Receiver(40.0).read(QUILLON, v.Position([], []))
    assert reading.dots.shape == reading.flag.shape == (0,)


@pytest.mark.parametrize("course", [0.0, 360.0, 720.0, -360.0])
def test_north_may_be_selected_by_any_of_its_numbers(course: float) -> None:
    assert v.Receiver(course).course_deg == 360.0
    assert read(course, on(355.0)).deviation_deg == pytest.approx(5.0)


def test_across_the_antimeridian_the_needle_reads_on() -> None:
    station = v.Station("QLN", v.Position(10.0, 179.95), 0.0, 113.4)
    west, east = (v.Position(10.0, lon, 5000.0) for lon in (179.99, -179.99))
    for there in (west, east):
        assert v.Receiver(90.0).read(station, there).deviation_deg == pytest.approx(0.0, abs=0.1)


# ---- antennas that stand high


ELEVATIONS = pytest.mark.parametrize("elevation", [0.0, 640.0, 5500.0])


def standing_at(elevation: float, service: str = "L") -> v.Station:
    """Quillon, its antenna at an elevation in feet."""
    antenna = v.Position(46.0, -30.0, elevation)
    return v.Station("QLN", antenna, -9.0, 113.4, service=service)


@ELEVATIONS
def test_the_horizon_is_that_of_both_antennas_by_altitude(elevation: float) -> None:
    # FS-1037C, "radio horizon range": 1.23 (sqrt(h1) + sqrt(h2)), here of 900 ft and the station.
    station = standing_at(elevation)
    horizon = 1.23 * (np.sqrt(900.0) + np.sqrt(elevation))
    for out, reason in ((horizon - 0.1, v.Reason.NONE), (horizon + 0.1, v.Reason.LINE_OF_SIGHT)):
        assert read(40.0, station.position_on(40.0, out, 900.0), station).reason is reason


@ELEVATIONS
@pytest.mark.parametrize(
    ("service", "height", "inside", "outside"),
    [
        ("T", 12000.0, 25.0, 0.0),  # AIM 1-1-8, table 1-1-1: T ends 12,000 ft above the antenna
        ("H", 14499.0, 40.0, None),
        ("VL", 4999.0, 40.0, None),
        ("VH", 14499.0, 70.0, None),
    ],
)
def test_the_service_volume_counts_from_the_antenna_and_not_from_the_sea(
    elevation: float, service: str, height: float, inside: float, outside: float | None
) -> None:
    station = standing_at(elevation, service)
    for out, assured in ((inside - 0.1, True), (inside + 0.1, False)):
        assert (
            read(40.0, station.position_on(40.0, out, elevation + height), station).assured
            is assured
        )
    beyond = read(40.0, station.position_on(40.0, inside + 0.1, elevation + height + 1.0), station)
    assert beyond.assured is (outside is None)  # a foot higher begins a wider band, or none


@ELEVATIONS
def test_the_cone_widens_with_height_above_the_antenna(elevation: float) -> None:
    # 50 degrees from the vertical, worked for 6,000 ft above the antenna.
    station, radius = standing_at(elevation), 6000.0 / 6076.12 * np.tan(np.radians(50.0))
    for out, reason in ((radius - 0.01, v.Reason.CONE), (radius + 0.01, v.Reason.NONE)):
        there = station.position_on(40.0, out, elevation + 6000.0)
        assert read(40.0, there, station).reason is reason


def test_the_sector_without_a_flag_ends_with_its_edge_and_the_edge_belongs_to_it() -> None:
    station = v.Station("QLN", v.Position(46.0, -30.0), 0.0, 113.4)
    north = v.Position(46.3, -30.0, 5000.0)  # exactly on the radial 360: 3 degrees chosen, model's
    courses = np.array([86.999, 87.0, 93.0, 93.001])
    flags = v.Receiver(courses).read(station, north).flag
    assert flags.tolist() == [v.Flag.FROM, v.Flag.OFF, v.Flag.OFF, v.Flag.TO]
    assert [v.Receiver(c).read(station, north).flag for c in courses.tolist()] == flags.tolist()


BAD = [
    (lambda: v.Receiver(np.nan), "course_deg must be finite"),
    (lambda: v.Receiver(40.0, full_scale_deg=0.0), "full_scale_deg must be from 0.1 to 89.9"),
    (lambda: v.Receiver(40.0, cone_half_angle_deg=90.0), "cone_half_angle_deg"),
    (
        lambda: v.Receiver([1.0, 2.0]).read(QUILLON, v.Position([46.0] * 3, -31.0)),
        r"do not broadcast together: course_deg \(2,\), position \(3,\)",
    ),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[m for _, m in BAD])
def test_a_receiver_that_cannot_be_is_refused(call, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        call()
