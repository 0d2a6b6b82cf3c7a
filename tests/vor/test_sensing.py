"""Normal and reverse sensing."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import vorlib as v

# Pilot's Handbook (FAA-H-8083-25C), chapter 16, tips: toward the station with FROM, or away with
# TO, the needle is reversed. Heading within 90 degrees of the selected course: common practice.
CASES = [
    (40.0, 40.0, v.Flag.TO, False, "toward with TO"),
    (40.0, 40.0, v.Flag.FROM, False, "away with FROM"),
    (220.0, 40.0, v.Flag.FROM, True, "toward with FROM"),
    (220.0, 40.0, v.Flag.TO, True, "away with TO"),
    (129.0, 40.0, v.Flag.TO, False, "89 degrees off is still normal"),
    (130.0, 40.0, v.Flag.TO, False, "square to the course is not yet reverse"),
    (310.0, 40.0, v.Flag.FROM, False, "square to it on the other side neither"),
    (131.0, 40.0, v.Flag.TO, True, "91 degrees off is reverse"),
    (355.0, 5.0, v.Flag.FROM, False, "across north"),
    (220.0, 40.0, v.Flag.OFF, False, "no sensing without a flag"),
]


@pytest.mark.parametrize(
    ("heading", "course", "flag", "expected", "why"), CASES, ids=[w for *_, w in CASES]
)
def test_sensing(heading: float, course: float, flag: v.Flag, expected: bool, why: str) -> None:
    assert v.is_reverse_sensing(heading, course, flag) == expected


@given(st.floats(0.0, 360.0), st.floats(0.0, 360.0))
def test_selecting_the_reciprocal_cures_reverse_sensing(heading: float, course: float) -> None:
    assume(abs(abs(float(v.difference_deg(heading, course))) - 90.0) > 1e-6)
    here = v.is_reverse_sensing(heading, course, v.Flag.TO)
    assert here != v.is_reverse_sensing(heading, course + 180.0, v.Flag.FROM)


@given(st.floats(20.0, 340.0), st.floats(1.0, 8.0), st.booleans())
def test_reverse_sensing_is_when_the_course_lies_on_the_other_side(
    course: float, off_deg: float, outbound: bool
) -> None:
    """Steer toward the needle a little: normally it comes nearer to the center, reversed not."""
    station = v.Station("QLN", v.Position(46.0, -30.0), -9.0, 113.4)
    there = station.position_on(course - off_deg if outbound else course + 180 - off_deg, 15.0, 5e3)
    receiver = v.Receiver(course)
    before = receiver.read(station, there)
    for heading in (course, course + 180.0):
        steered = heading + np.sign(before.deviation_deg) * 30.0
        ahead = v.direct(there, steered + station.declination_deg, 0.05)
        after = receiver.read(station, v.Position(ahead.lat_deg, ahead.lon_deg, 5e3))
        helps = abs(after.deviation_deg) < abs(before.deviation_deg)
        assert helps != v.is_reverse_sensing(heading, course, before.flag)


def test_many_headings_are_judged_at_once() -> None:
    reverse = v.is_reverse_sensing(np.arange(5.0, 360.0, 30.0), 40.0, v.Flag.TO)
    assert reverse.sum() == 6
