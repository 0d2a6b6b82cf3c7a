"""The composite signal: what is in it, the radial measured back, and how well that can be done."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from vorlib.core.angles import difference_deg
from vorlib.signal import (
    SAMPLE_RATE_HZ,
    CompositeSignal,
    Loss,
    StationKind,
    detected_tones,
    measure_radial,
    radial_bound_deg,
)

KINDS = st.sampled_from(StationKind)
CONVENTIONAL, DOPPLER = StationKind


def error_deg(reading, radial_deg):
    return float(difference_deg(reading.radial_deg, radial_deg))


def errors_deg(radial_deg, carrier_to_noise_db, seconds, listenings):
    """Return the errors of the radial over many listenings in noise."""
    signal = CompositeSignal(radial_deg, carrier_to_noise_db=carrier_to_noise_db)
    return np.array(
        [
            error_deg(measure_radial(signal.samples(seconds, seed)), radial_deg)
            for seed in range(listenings)
        ]
    )


def rms(values):
    return float(np.sqrt(np.mean(np.square(values))))


# --- what is in the signal ------------------------------------------------------------------------


def line(samples, hz):
    """Return the amplitude of one frequency, by a sum of its own rather than a transform."""
    turning = np.exp(-2j * np.pi * hz * np.arange(samples.size) / SAMPLE_RATE_HZ)
    return 2 * abs(np.mean(samples * turning))


def test_the_am_tone_has_30_percent_of_the_carrier():
    # 0.30 nominal: a test set's manual, for ICAO Annex 10, volume I, 3.3.5
    samples = CompositeSignal(118).samples(1.0)
    assert samples.mean() == pytest.approx(1.0, abs=1e-4)
    assert line(samples, 30) == pytest.approx(0.30, abs=1e-4)


def test_the_subcarrier_swings_by_480_hz_and_has_30_percent():
    # 9960 Hz, 16 times 30 Hz: ICAO Annex 10, volume I, attachment E 1.6, read in a copy
    lines = np.array(
        [line(CompositeSignal(118).samples(1.0), 9960 + 30 * n) for n in range(-40, 41)]
    )
    hz = 30.0 * np.arange(-40, 41)
    assert math.sqrt(np.sum(lines**2)) == pytest.approx(0.30, abs=1e-4)
    # the mean square of a sine's swing is half its greatest swing squared
    swing = math.sqrt(2 * np.sum(lines**2 * hz**2) / np.sum(lines**2))
    assert swing == pytest.approx(480, rel=1e-3)


def test_the_ident_is_a_tone_of_1020_hz_at_about_10_percent():
    # 1020 Hz, about 10 percent: ICAO Annex 10, volume I, attachment E 1.7, read in a copy
    spoken = CompositeSignal(118, ident="T").samples(1.0) - CompositeSignal(118).samples(1.0)
    assert np.abs(spoken).max() == pytest.approx(0.10, rel=0.01)
    hz = np.fft.rfftfreq(spoken.size, 1 / SAMPLE_RATE_HZ)
    assert hz[np.abs(np.fft.rfft(spoken)).argmax()] == pytest.approx(1020, abs=2)


def test_the_ident_comes_again_within_30_seconds():
    # at least once in 30 s: ICAO Annex 10, volume I, 3.3.6, from memory
    with_it = CompositeSignal(118, ident="E").samples(31.0)
    on = np.flatnonzero(np.abs(with_it - CompositeSignal(118).samples(31.0)) > 0.05)
    begins = on[np.flatnonzero(np.diff(on, prepend=-SAMPLE_RATE_HZ) > SAMPLE_RATE_HZ / 2)]
    assert begins.size >= 2
    assert np.diff(begins).max() <= 30 * SAMPLE_RATE_HZ


def test_noise_is_what_the_carrier_to_noise_ratio_says():
    # A carrier of 1 has power 1/2. Noise on either side of it falls on the same place in a
    # synchronous detector: its power within 12.5 kHz is that of 25 kHz about the carrier.
    noisy = CompositeSignal(118, carrier_to_noise_db=10).samples(10.0, seed=1)
    noise = noisy - CompositeSignal(118).samples(10.0)
    power = np.abs(np.fft.rfft(noise) / noise.size) ** 2
    hz = np.fft.rfftfreq(noise.size, 1 / SAMPLE_RATE_HZ)
    assert 0.5 / (2 * power[hz < 12_500].sum()) == pytest.approx(10, rel=0.02)


def test_the_same_seed_gives_the_same_noise_and_another_seed_another():
    signal = CompositeSignal(118, carrier_to_noise_db=10)
    assert np.array_equal(signal.samples(0.2, 4), signal.samples(0.2, 4))
    assert not np.array_equal(signal.samples(0.2, 4), signal.samples(0.2, 5))


# --- the radial measured back ---------------------------------------------------------------------


@settings(max_examples=60, deadline=None)
@given(radial=st.floats(-720, 720), kind=KINDS, gain=st.floats(1e-3, 1e3))
def test_the_radial_measured_is_the_radial_sent_for_either_kind_of_station(radial, kind, gain):
    reading = measure_radial(gain * CompositeSignal(radial, kind).samples(0.1))
    assert abs(error_deg(reading, radial)) < 1e-6
    assert 0.0 < reading.radial_deg <= 360.0
    assert reading.loss == Loss.NONE


@pytest.mark.parametrize("kind", StationKind, ids=str)
def test_the_ident_and_a_broken_turn_at_the_end_shift_the_radial_by_a_hundredth_at_most(kind):
    for radial in range(10, 370, 24):
        samples = CompositeSignal(radial, kind, ident="QLN").samples(1.013)
        assert abs(error_deg(measure_radial(samples), radial)) < 0.01


def test_north_is_360():
    assert measure_radial(CompositeSignal(0).samples(0.1)).radial_deg == pytest.approx(
        360, abs=1e-6
    )


def crest_deg(tone):
    """Return where in a turn a tone has its crest, from its own samples."""
    turn = np.exp(2j * np.pi * np.arange(tone.size) / tone.size)
    return math.degrees(np.angle(np.sum(tone * turn)))


@pytest.mark.parametrize("kind", StationKind, ids=str)
def test_at_the_stations_north_the_crests_of_the_two_tones_agree(kind):
    # ICAO Annex 10, volume I, 3.3.1, from memory
    tones = detected_tones(CompositeSignal(360, kind).samples(0.1))
    assert crest_deg(tones.am) == pytest.approx(crest_deg(tones.fm), abs=0.2)


@pytest.mark.parametrize("kind", StationKind, ids=str)
def test_going_round_clockwise_the_am_tone_lags_the_fm_tone_more_and_more(kind):
    for radial in (30, 120, 170):
        tones = detected_tones(CompositeSignal(radial, kind).samples(0.1))
        lag = difference_deg(crest_deg(tones.am), crest_deg(tones.fm))
        assert float(lag) == pytest.approx(radial, abs=0.2)


def test_the_two_kinds_of_station_swap_the_tone_that_is_the_same_all_round():
    def same(tone, kind):
        one, other = (
            getattr(detected_tones(CompositeSignal(radial, kind).samples(0.1)), tone)
            for radial in (40, 220)
        )
        return np.allclose(one, other, atol=1e-6 * np.abs(one).max())

    assert same("fm", CONVENTIONAL)
    assert not same("am", CONVENTIONAL)
    assert same("am", DOPPLER)
    assert not same("fm", DOPPLER)


def test_the_detected_tones_have_their_depth_and_swing():
    tones = detected_tones(CompositeSignal(118).samples(0.5))
    assert np.abs(tones.am).max() == pytest.approx(0.30, abs=1e-3)
    assert np.abs(tones.fm).max() == pytest.approx(480, abs=3)


def demodulated_by_scipy(samples):
    """Return the radial by filters and a Hilbert transform, as textbooks on modulation have it.

    Independent of the library: no whole turns, no multiples of 30 Hz but the last step's.
    """
    import scipy.signal  # takes as long to load as a hundred tests

    low = scipy.signal.butter(4, 100, fs=SAMPLE_RATE_HZ, output="sos")
    band = scipy.signal.butter(4, (9000, 10_900), "bandpass", fs=SAMPLE_RATE_HZ, output="sos")
    subcarrier = scipy.signal.hilbert(scipy.signal.sosfiltfilt(band, samples))
    frequency = np.gradient(np.unwrap(np.angle(subcarrier))) * SAMPLE_RATE_HZ / (2 * np.pi)
    inner = slice(SAMPLE_RATE_HZ // 10, -SAMPLE_RATE_HZ // 10)  # clear of the filters' ends
    am, fm = (
        scipy.signal.sosfiltfilt(low, tone - tone.mean())[inner] for tone in (samples, frequency)
    )
    time_s = np.arange(am.size) / SAMPLE_RATE_HZ
    turning = np.exp(2j * np.pi * 30 * time_s)
    return math.degrees(np.angle(np.sum(am * turning)) - np.angle(np.sum(fm * turning)))


@pytest.mark.parametrize("kind", StationKind, ids=str)
def test_an_independent_demodulator_finds_the_same_radial(kind):
    for radial in (5, 77, 118, 201, 333):
        samples = CompositeSignal(radial, kind, ident="QLN").samples(1.2)
        found = demodulated_by_scipy(samples)
        assert float(difference_deg(found, radial)) == pytest.approx(0, abs=0.03)
        assert error_deg(measure_radial(samples), found) == pytest.approx(0, abs=0.03)


def test_the_independent_demodulator_tells_one_radial_from_the_next():
    found = demodulated_by_scipy(CompositeSignal(119).samples(1.2))
    assert abs(float(difference_deg(found, 118))) > 0.9


# --- noise ----------------------------------------------------------------------------------------
# Levels and times are those the exhibit offers. 300 errors give their root mean square to 4 percent
# (one standard error), so 1.2 leaves room for chance and would catch a method a quarter worse.


@pytest.mark.parametrize(
    ("level_db", "seconds"), [(0, 1.0), (10, 0.1), (10, 1.0), (20, 0.5), (30, 1.0), (40, 0.1)]
)
def test_the_error_is_within_1_2_times_the_least_possible(level_db, seconds):
    found = rms(errors_deg(118.0, level_db, seconds, 300))
    bound = radial_bound_deg(level_db, seconds)
    assert 0.85 * bound < found < 1.2 * bound


def test_the_stated_uncertainty_is_the_error_that_is_made():
    signal = CompositeSignal(250, carrier_to_noise_db=12)
    readings = [measure_radial(signal.samples(0.3, seed)) for seed in range(300)]
    stated = np.mean([reading.uncertainty_deg for reading in readings])
    made = rms([error_deg(reading, 250) for reading in readings])
    assert made == pytest.approx(stated, rel=0.15)


def test_four_times_as_long_halves_the_error():
    short, long = (rms(errors_deg(40.0, 15, seconds, 300)) for seconds in (0.2, 0.8))
    assert short / long == pytest.approx(2, rel=0.15)
    assert radial_bound_deg(15, 0.2) / radial_bound_deg(15, 0.8) == pytest.approx(2)


def test_ten_times_the_noise_power_makes_the_error_3_2_times_as_large():
    noisy, clear = (rms(errors_deg(40.0, level, 0.2, 300)) for level in (10, 20))
    assert noisy / clear == pytest.approx(math.sqrt(10), rel=0.15)
    assert radial_bound_deg(10, 0.2) / radial_bound_deg(20, 0.2) == pytest.approx(math.sqrt(10))


@pytest.mark.parametrize("kind", StationKind, ids=str)
def test_the_bound_is_the_curvature_of_the_likelihood(kind):
    # Fisher's information by differences: the slope of the signal with the radial over the noise.
    # For the AM tone the bound is that of a phase; the FM tone's share is not in the radial of a
    # conventional station's slope but in that of its reference, so each kind is tested by itself.
    step_deg = 1e-3
    seconds, level = 1.0, 20.0
    up, down = (CompositeSignal(118 + s, kind).samples(seconds) for s in (step_deg, -step_deg))
    slope = (up - down) / (2 * step_deg)
    noise = CompositeSignal(118, carrier_to_noise_db=level).samples(seconds, 1)
    deviation = np.std(noise - CompositeSignal(118).samples(seconds))
    of_one_tone = deviation / math.sqrt(np.sum(slope**2))
    depth = {"am_depth": 0.3, "fm_depth": 0.3} | (
        {"fm_depth": 1e9} if kind == CONVENTIONAL else {"am_depth": 1e9}
    )
    assert of_one_tone == pytest.approx(radial_bound_deg(level, seconds, **depth), rel=0.02)


def test_the_am_tone_decides_the_error():
    both, am_alone = radial_bound_deg(20, 1.0), radial_bound_deg(20, 1.0, fm_depth=1e9)
    assert 1.0 < both / am_alone < 1.01


# --- the flag -------------------------------------------------------------------------------------


@pytest.mark.parametrize("level_db", [None, 5, 40])
@pytest.mark.parametrize(
    ("depths", "loss"),
    [
        ({"am_depth": 0.0}, Loss.AM_TONE),
        ({"fm_depth": 0.0}, Loss.FM_TONE),
        ({"am_depth": 0.0, "fm_depth": 0.0}, Loss.BOTH_TONES),
    ],
    ids=lambda value: str(value) if isinstance(value, Loss) else "",
)
def test_the_flag_reads_off_when_either_tone_is_lost(depths, loss, level_db):
    signal = CompositeSignal(118, carrier_to_noise_db=level_db, ident="QLN", **depths)
    for seed in range(20):
        reading = measure_radial(signal.samples(0.5, seed))
        assert reading.loss != Loss.NONE
        assert reading.loss == loss
        assert reading.radial_deg is reading.uncertainty_deg is None


def test_an_unswung_subcarrier_carries_no_fm_tone():
    time_s = np.arange(SAMPLE_RATE_HZ) / SAMPLE_RATE_HZ
    samples = 1 + 0.3 * np.cos(2 * np.pi * 30 * time_s) + 0.3 * np.cos(2 * np.pi * 9960 * time_s)
    assert measure_radial(samples).loss == Loss.FM_TONE


def test_noise_alone_has_no_carrier():
    for seed in range(50):
        noise = np.random.default_rng(seed).standard_normal(SAMPLE_RATE_HZ)
        assert measure_radial(noise).loss == Loss.CARRIER
    assert measure_radial(np.zeros(SAMPLE_RATE_HZ)).loss == Loss.CARRIER


def test_a_carrier_in_noise_has_no_radial():
    for level in (None, -20, 0, 20):
        bare = CompositeSignal(118, carrier_to_noise_db=level, am_depth=0, fm_depth=0)
        for seed in range(20):
            assert measure_radial(bare.samples(0.2, seed)).loss != Loss.NONE


def test_in_noise_too_strong_the_flag_reads_off_rather_than_the_radial_wrong():
    signal = CompositeSignal(118, carrier_to_noise_db=-12)
    readings = [measure_radial(signal.samples(0.1, seed)) for seed in range(200)]
    assert sum(reading.loss != Loss.NONE for reading in readings) > 150
    shown = [reading for reading in readings if reading.loss == Loss.NONE]
    assert all(abs(error_deg(reading, 118)) < 40 for reading in shown)


def test_the_reason_for_the_flag_is_given_in_words():
    reading = measure_radial(CompositeSignal(118, fm_depth=0.0).samples(0.1))
    assert str(reading.loss) == "the subcarrier with the FM tone is lost"


def test_a_tone_of_half_its_depth_is_the_least_that_counts():
    assert measure_radial(CompositeSignal(118, am_depth=0.14).samples(0.1)).loss != Loss.NONE
    assert measure_radial(CompositeSignal(118, am_depth=0.16).samples(0.1)).loss == Loss.NONE


# --- bad input ------------------------------------------------------------------------------------


def test_samples_too_short_are_refused():
    with pytest.raises(ValueError, match=r"samples must be 4800 or more \(0\.1 s\), got 4799"):
        measure_radial(CompositeSignal(118).samples(0.1)[:-1])


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_a_sample_that_is_no_number_is_named_by_its_place(bad):
    samples = CompositeSignal(118).samples(0.1)
    samples[17] = bad
    with pytest.raises(ValueError, match=f"samples must be finite, got {bad} at index 17"):
        measure_radial(samples)


@pytest.mark.parametrize("level_db", [None, 10, 30])
@pytest.mark.parametrize("share", [0.05, 0.2, 0.4])
@pytest.mark.parametrize("below", [False, True])
def test_clipped_samples_are_refused(share, below, level_db):
    samples = CompositeSignal(118, carrier_to_noise_db=level_db, ident="QLN").samples(1.0)
    level = np.quantile(samples, share if below else 1 - share)
    clipped = np.maximum(samples, level) if below else np.minimum(samples, level)
    with pytest.raises(ValueError, match=r"samples must not be clipped, got .* percent of them"):
        measure_radial(clipped)


def test_clipping_too_slight_to_be_refused_costs_less_than_a_tenth_of_a_degree():
    for radial in range(15, 375, 30):
        samples = CompositeSignal(radial, ident="QLN").samples(1.0)
        clipped = np.minimum(samples, np.quantile(samples, 0.998))
        assert abs(error_deg(measure_radial(clipped), radial)) < 0.1


@pytest.mark.parametrize("samples", [np.ones((2, 4800)), 1.0, "signal"])
def test_what_is_no_row_of_numbers_is_refused(samples):
    with pytest.raises(ValueError, match="samples must be"):
        measure_radial(samples)


@pytest.mark.parametrize(
    ("argument", "value"),
    [
        ("radial_deg", math.nan),
        ("carrier_to_noise_db", math.inf),
        ("carrier_to_noise_db", -21.0),
        ("am_depth", 0.6),
        ("fm_depth", -0.1),
        ("kind", "rotating"),
    ],
)
def test_a_signal_that_cannot_be_is_refused_by_name(argument, value):
    with pytest.raises(ValueError, match=argument):
        CompositeSignal(**({"radial_deg": 118.0} | {argument: value}))


def test_an_ident_that_cannot_be_sent_is_refused():
    with pytest.raises(ValueError, match="letters A to Z"):
        CompositeSignal(118, ident="Q?")


@pytest.mark.parametrize("seconds", [0.0, 0.05, 61.0, math.nan])
def test_a_time_too_short_or_too_long_is_refused(seconds):
    with pytest.raises(ValueError, match="seconds"):
        CompositeSignal(118).samples(seconds)


def test_detected_tones_need_a_carrier():
    with pytest.raises(ValueError, match="carrier above 0"):
        detected_tones(np.zeros(4800))
