"""The signal exhibit: what it says of two tones, of noise and of the flag."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from vorlib.core.angles import difference_deg
from vorlib.exhibits import signal
from vorlib.signal import Loss, StationKind
from vorlib.views.instrument.tones import UNITS_PER_DEG

CONVENTIONAL, DOPPLER = StationKind


def measured(exhibit):
    """Return the radial that the sentence says is measured, and its give or take."""
    found = re.search(r"measures (\d{3}\.\d), give or take ([\d.]+) degrees", exhibit.sentence)
    return float(found[1]), float(found[2])


@settings(max_examples=20, deadline=None)
@given(radial=st.integers(1, 360), kind=st.sampled_from(StationKind))
def test_what_is_measured_is_the_radial_whichever_kind_of_station_sends_it(radial, kind):
    exhibit = signal(radial, kind=kind)
    found, error = measured(exhibit)
    assert abs(float(difference_deg(found, radial))) < 5 * error + 0.05


def test_a_doppler_station_is_measured_the_same_and_moves_the_other_tone():
    exhibit = signal(118)
    assert "the AM tone is the one that moves" in exhibit.sentence
    exhibit.set(kind=DOPPLER)
    assert "the FM tone is the one that moves" in exhibit.sentence
    assert abs(measured(exhibit)[0] - 118) < 1


def test_listening_longer_makes_the_radial_more_exact():
    exhibit = signal(118, carrier_to_noise_db=5.0, seconds=0.2)
    short = measured(exhibit)[1]
    exhibit.set(seconds=1.8)
    assert short / measured(exhibit)[1] == pytest.approx(3, rel=0.1)


def test_listening_again_hears_other_noise():
    exhibit = signal(118, carrier_to_noise_db=0.0)
    first = exhibit.sentence
    exhibit.control("seed").button.click()
    assert exhibit.sentence != first


@pytest.mark.parametrize(
    ("switched_off", "loss", "words"),
    [
        ("AM tone", Loss.AM_TONE, "the AM tone is lost: it is switched off"),
        ("subcarrier", Loss.FM_TONE, "the subcarrier with the FM tone is lost: it is switched off"),
        ("both", Loss.BOTH_TONES, "both tones are lost: they are switched off"),
    ],
)
def test_either_tone_switched_off_brings_the_flag(switched_off, loss, words):
    exhibit = signal(118)
    assert "No flag" in exhibit.sentence
    exhibit.set(switched_off=switched_off)
    assert exhibit.state.reading.loss == loss
    assert words in exhibit.sentence
    assert "the flag reads OFF" in exhibit.sentence
    assert "measures" not in exhibit.sentence
    assert ">OFF<" in exhibit.picture.svg


def test_noise_that_covers_the_tones_brings_the_flag():
    exhibit = signal(118, carrier_to_noise_db=-15.0, seconds=0.1)
    assert "the noise covers" in exhibit.sentence
    assert "the flag reads OFF" in exhibit.sentence


def test_at_north_the_crests_agree():
    assert "their crests agree" in signal(360).sentence


@pytest.mark.parametrize(("kind", "turned"), [(CONVENTIONAL, 30), (DOPPLER, -30)])
def test_dragging_the_crest_that_moves_changes_the_radial_as_far_as_it_is_dragged(kind, turned):
    exhibit = signal(118, kind=kind)
    exhibit.drag("crest", (100.0, 50.0), (100.0 + 30 * UNITS_PER_DEG, 90.0))
    assert exhibit.state.radial_deg == 118 + turned


def test_keys_move_the_crest_by_a_degree_and_past_north():
    exhibit = signal(360)
    exhibit.step("crest", 2)
    assert exhibit.state.radial_deg == 2.0


def test_a_time_out_of_range_is_answered_beside_its_control():
    exhibit = signal(118)
    exhibit.set(seconds=0.01)
    (seconds,) = (c for c in exhibit.controls if c.field == "seconds")
    assert "from 0.1 to 2 s" in seconds.message
    assert exhibit.state.seconds == 1.0


@pytest.mark.parametrize(
    ("field", "value"),
    [("kind", "rotating"), ("switched_off", "carrier"), ("radial_deg", float("nan"))],
)
def test_a_state_that_cannot_be_is_refused_by_name(field, value):
    with pytest.raises(ValueError, match=field):
        signal(**{field: value})
