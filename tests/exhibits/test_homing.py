"""What is said of homing and tracking near the station, where a needle grows restless."""

from dataclasses import replace

import pytest

from vorlib.exhibits import homing
from vorlib.exhibits.base.replay import Replay
from vorlib.exhibits.maneuvers.homing_flights import HomingCase, both_flights, outcome


def test_without_wind_tracking_needs_no_correction_however_the_needle_swings_at_the_end():
    words = homing(radial_deg=270.0, wind_kt=0.0).sentence
    assert "Tracking needs no correction" in words
    assert "into the wind" not in words


def test_the_heading_that_tracking_holds_is_that_of_the_way_and_not_of_the_last_moment():
    # 15 kt square from the left at 100 kt: asin(0.15) = 8.6 degrees
    words = homing(radial_deg=214.0, wind_from_deg=304.0, wind_kt=15.0).sentence
    assert "Tracking holds heading 025, 9 degrees into the wind" in words


@pytest.mark.parametrize(("miss_nm", "arrived"), [(0.45, True), (0.55, False), (1.5, False)])
def test_who_comes_within_half_a_mile_has_arrived(miss_nm, arrived):
    # The flight to Quillon as seen from a station that stands so far beside its track.
    _, held = both_flights(HomingCase("QLN", 220.0, 10.0, 3500.0, 100.0, 40.0, 10.0))
    beside = replace(held.station, position=held.station.position_on(310.0, miss_nm))
    assert outcome(Replay(beside, held.flown), 220.0).arrived is arrived
