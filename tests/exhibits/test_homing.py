"""What is said of homing and tracking near the station, where a needle grows restless."""

from vorlib.exhibits import homing


def test_without_wind_tracking_needs_no_correction_however_the_needle_swings_at_the_end():
    words = homing(radial_deg=270.0, wind_kt=0.0, time_s=60.0).sentence
    assert "Tracking needs no correction" in words
    assert "into the wind" not in words


def test_before_play_the_race_is_set_up_and_not_told():
    words = homing(radial_deg=214.0, wind_from_deg=304.0, wind_kt=30.0).sentence
    assert words.endswith("wind 304 at 30 knots. One homes, the other tracks. Press Play.")


def test_the_heading_that_tracking_holds_is_that_of_the_way_and_not_of_the_last_moment():
    # 15 kt square from the left at 100 kt: asin(0.15) = 8.6 degrees
    words = homing(radial_deg=214.0, wind_from_deg=304.0, wind_kt=15.0, time_s=60.0).sentence
    assert "Tracking holds heading 025, 9 degrees into the wind" in words
