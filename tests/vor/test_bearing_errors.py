"""What makes a received bearing differ from the radial."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import vorlib as v

QUILLON = v.Station("QLN", v.Position(46.0, -30.0), -9.0, 113.4, "Quillon", "L")


def test_an_error_clockwise_moves_the_received_radial_clockwise_and_the_needle_left() -> None:
    there = QUILLON.position_on(40.0, 20.0, 5000.0)
    sky = v.BearingErrors(station_deg=1.0, receiver_deg=2.0)
    reading = v.Receiver(40.0, errors=sky).read(QUILLON, there)
    assert reading.radial_deg == pytest.approx(43.0)
    assert reading.dots == pytest.approx(-1.5)


def test_errors_are_off_by_default() -> None:
    assert v.BearingErrors().at(214.0, 12.0) == 0.0


@given(st.integers(0, 1000), st.floats(0.0, 360.0), st.floats(0.0, 130.0))
def test_wandering_stays_within_its_size_and_repeats_with_its_seed(
    seed: int, radial: float, distance: float
) -> None:
    sky = v.BearingErrors(bends_deg=3.5, scalloping_deg=1.0, seed=seed)
    assert abs(sky.at(radial, distance)) <= 4.5 + 1e-9
    again = v.BearingErrors(bends_deg=3.5, scalloping_deg=1.0, seed=seed)
    assert sky.at(radial, distance) == again.at(radial, distance)


def test_another_seed_is_another_sky() -> None:
    radials = np.arange(1.0, 361.0)
    one, other = (v.BearingErrors(bends_deg=2.0, seed=s).at(radials, 20.0) for s in (1, 2))
    assert np.abs(one - other).max() > 0.5


def test_the_sky_is_whole_across_north() -> None:
    sky = v.BearingErrors(bends_deg=2.0, scalloping_deg=1.0, seed=3)
    assert sky.at(360.0, 20.0) == pytest.approx(sky.at(0.0, 20.0), abs=1e-9)


def test_bends_can_be_followed_and_scalloping_cannot() -> None:
    along = np.linspace(10.0, 20.0, 2001)
    bends = v.BearingErrors(bends_deg=2.0).at(40.0, along)
    scalloping = v.BearingErrors(scalloping_deg=2.0).at(40.0, along)
    crossings = [np.count_nonzero(np.diff(np.sign(wave))) for wave in (bends, scalloping)]
    assert crossings[0] == 5
    assert crossings[1] > 60


def test_a_negative_size_of_wandering_is_refused() -> None:
    with pytest.raises(ValueError, match="bends_deg must be 0 degrees or more, got -1"):
        v.BearingErrors(bends_deg=-1.0)
