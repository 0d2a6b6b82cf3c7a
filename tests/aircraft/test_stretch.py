"""A stretch of looks worked out at once is the flight made of one look after another."""

import numpy as np
import pytest

import vorlib as v
from vorlib.aircraft.flight import Aircraft, FlightState, advance
from vorlib.aircraft.stretch import Steering, bank_toward

WIND = v.Wind(310.0, 25.0)
AIRCRAFT = Aircraft(110.0)


@pytest.mark.parametrize("step_s", [0.1, 0.5, 1.0])
@pytest.mark.parametrize(
    ("heading_deg", "bank_deg", "wanted_deg"),
    [(40.0, 0.0, 40.0), (40.0, 5.0, 40.0), (350.0, 0.0, 20.0), (20.0, -12.0, 215.0)],
)
def test_looks_together_are_looks_one_by_one(
    step_s: float, heading_deg: float, bank_deg: float, wanted_deg: float
) -> None:
    state = FlightState(0.0, 46.0, 179.99, 3500.0, heading_deg, bank_deg)
    count = round(120.0 / step_s)
    looks = Steering(AIRCRAFT, step_s).stretch(state, wanted_deg, count, WIND)
    for time_s, lat, lon, altitude, heading, bank in looks.T:
        error_deg = float(v.difference_deg(wanted_deg, state.true_heading_deg))
        state = advance(state, AIRCRAFT, step_s, bank_toward(error_deg, AIRCRAFT), WIND)
        line = v.inverse(state.lat_deg, state.lon_deg, lat, lon)
        assert line.distance_nm * 1852.0 < 1e-3
        assert abs(v.difference_deg(heading, state.true_heading_deg)) < 1e-8
        assert bank == pytest.approx(state.bank_deg, abs=1e-7)
        assert (time_s, altitude) == pytest.approx((state.time_s, 3500.0))
    assert np.ptp(looks[2]) < 1.0  # the longitude counts on across the 180th meridian


def test_an_hour_straight_on_agrees_with_steps_of_two_minutes() -> None:
    state = FlightState(0.0, 60.0, -30.0, 3500.0, 70.0)
    looks = Steering(AIRCRAFT, 1.0).stretch(state, 70.0, 3600, WIND)
    there = advance(state, AIRCRAFT, 3600.0, 0.0, WIND)
    line = v.inverse(there.lat_deg, there.lon_deg, *looks[1:3, -1])
    assert line.distance_nm * 1852.0 < 1e-3


def test_a_stretch_does_not_lead_over_a_pole() -> None:
    state = FlightState(0.0, 88.9, 0.0, 3500.0, 360.0)
    with pytest.raises(ValueError, match="latitude 89"):
        Steering(Aircraft(240.0), 1.0).stretch(state, 360.0, 600, v.Wind(360.0, 0.0))
