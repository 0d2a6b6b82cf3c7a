"""What the exhibits say and mark: statements about navigation."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sight import is_away

from vorlib.core.angles import compass_point, difference_deg, reciprocal_deg
from vorlib.exhibits import crossing, drift, hidden_position, indicator, radials
from vorlib.exhibits.base.picture_widget import Drag, Steps
from vorlib.exhibits.learner.predict import Prediction
from vorlib.exhibits.position.hidden_position import HiddenPositionState as Hidden
from vorlib.exhibits.position.hidden_position import mark_direction, mark_radial
from vorlib.exhibits.scene.at_station import FARTHEST_NM, AtStation
from vorlib.exhibits.scene.grips import AIRCRAFT, RING_CENTER, turn_ring
from vorlib.practice.learning.predictions import PredictionText
from vorlib.stations.archipelago import STATIONS
from vorlib.views.drawing.svg import to_svg
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.plan.plan import Overlay, projection
from vorlib.views.sentence import where_sentence
from vorlib.vor.receiver import Flag, Reason

THEMES = st.sampled_from([SCREEN, PROJECTOR])


# ---- a hand on the plan view


@given(
    radial=st.floats(1, 360),
    distance=st.floats(1, 20),
    right=st.floats(-150, 150),
    down=st.floats(-150, 150),
    theme=THEMES,
)
def test_the_aircraft_follows_the_hand(radial, distance, right, down, theme):
    state = AtStation(radial_deg=radial, distance_nm=distance)
    layout = projection(state.plan_scene(Overlay.NONE), theme)
    x, y = layout.to_xy(state.there)
    changes = AIRCRAFT.dragged(state, Drag("aircraft", 0.0, 0.0, right, down), theme)
    new_x, new_y = layout.to_xy(AtStation(**{"radial_deg": radial, **changes}).there)
    # a tenth of a degree at 45 NM is 0.04 NM to either side
    assert abs(new_x - (x + right)) < 0.6
    assert abs(new_y - (y + down)) < 0.6


def test_overhead_the_station_the_last_radial_stays():
    state = AtStation(radial_deg=180.0 + 9.0, distance_nm=1.0)  # due south of Quillon
    up = projection(state.plan_scene(Overlay.NONE), SCREEN).units_per_nm
    assert AIRCRAFT.dragged(state, Drag("aircraft", 0, 0, 0, -up), SCREEN) == {"distance_nm": 0.0}


def test_arrow_up_moves_the_aircraft_north():
    state = AtStation(radial_deg=9.0, distance_nm=10.0)  # due north of Quillon
    changes = AIRCRAFT.stepped(state, Steps("aircraft", 0, 10))
    assert changes["distance_nm"] > 10.0
    assert changes["radial_deg"] == 9.0


def test_turning_the_ring_clockwise_brings_smaller_figures_to_the_index():
    x, y = RING_CENTER
    quarter = Drag("ring", x, y - 100, x + 100, y)
    assert turn_ring(AtStation(course_deg=100.0), quarter, SCREEN) == {"course_deg": 10.0}


# ---- heading, course and track


def test_a_heading_held_in_wind_from_the_left_makes_a_track_to_its_right():
    exhibit = drift(wind_from_deg=270.0, wind_kt=20.0)
    assert "track" not in exhibit.sentence  # nor told before it is flown
    exhibit.step("aircraft", up=8)
    there = exhibit.state.at(exhibit.state.shown_s)
    assert exhibit.state.shown_s == 120.0
    assert there.reading.radial_deg < 180.0  # east of the line from the south
    assert "your track is 011, and you are 0.7 NM right of the course line" in exhibit.sentence


def test_the_nose_held_into_the_wind_keeps_the_aircraft_on_the_course():
    exhibit = drift(wind_from_deg=270.0, wind_kt=20.0, heading_deg=348.46, time_s=600.0)
    assert "on heading 348 your track is 360, and you are on the course line" in exhibit.sentence


def test_a_hand_flies_on_along_the_track_and_not_across_it():
    exhibit = drift(wind_kt=0.0)
    ahead = projection(exhibit.state.plan_scene(Overlay.NONE), SCREEN).units_per_nm * 5.0
    exhibit.drag("aircraft", (0.0, 0.0), (-ahead * 0.156, -ahead * 0.988))  # 360 is 351 true
    assert exhibit.state.shown_s == pytest.approx(180.0, abs=1.0)  # 5 NM at 100 kt
    exhibit.drag("aircraft", (0.0, 0.0), (ahead * 0.988, -ahead * 0.156))
    assert exhibit.state.shown_s == pytest.approx(180.0, abs=1.0)


def test_without_figures_nothing_tells_where_the_aircraft_is():
    exhibit = radials(radial_deg=214.0, distance_nm=12.4)
    exhibit.set(figures=False)
    assert not re.search(r"\d", exhibit.sentence)
    svg = to_svg(exhibit.draw(exhibit.state, SCREEN))
    assert not re.search(r">(214|034|12\.4)", svg)
    for field in ("radial_deg", "distance_nm"):
        assert is_away(exhibit.control(field).widget)


# ---- the indicator


def test_the_heading_changes_nothing_but_the_remark_on_sensing():
    exhibit = indicator(course_deg=40.0, radial_deg=214.0, heading_deg=40.0)
    reading, first = exhibit.state.reading, exhibit.sentence
    exhibit.set(heading_deg=220)
    assert exhibit.state.reading == reading
    assert exhibit.sentence.startswith(f"{first} Your heading, 220, is more than 90 degrees from")
    assert "reverse sensing" in exhibit.sentence
    assert "reverse sensing" not in first


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"distance_nm": 0.2}, Reason.CONE),
        ({"altitude_ft": 0.0, "distance_nm": 50.0}, Reason.LINE_OF_SIGHT),
        ({"radial_deg": 130.0}, Reason.ABEAM),
        ({"on_the_air": False}, Reason.OFF_THE_AIR),
    ],
    ids=lambda value: str(value),
)
def test_the_sentence_gives_the_reason_for_an_off_flag(change, reason):
    exhibit = indicator(course_deg=40.0)
    exhibit.set(**change)
    assert exhibit.state.reading.reason == reason
    assert "flag reads OFF" in exhibit.sentence
    assert str(reason) in exhibit.sentence.lower()


def test_outside_the_service_volume_the_needle_lives_and_is_said_to_be_promised_by_nobody():
    exhibit = indicator(course_deg=40.0, altitude_ft=9000.0, distance_nm=45.0)
    assert "the flag reads TO" in exhibit.sentence
    assert "Nobody promises this needle" in exhibit.sentence
    assert "(40 NM at this height)" in exhibit.sentence


# ---- radials


def test_the_bearing_to_the_station_is_given_and_not_how_it_follows_which_is_asked():
    said = radials(radial_deg=214.0).sentence
    assert "The bearing to the station is 034" in said
    assert "reciprocal" not in said


def test_true_azimuth_is_the_radial_plus_the_declination_and_is_shown_on_request():
    exhibit = radials(radial_deg=214.0)
    assert "true north the same line is" not in exhibit.sentence
    exhibit.set(true_north=True)
    assert "true north the same line is 205" in exhibit.sentence
    assert "declination is 9 degrees west" in exhibit.sentence


def test_an_old_declination_parts_radial_and_magnetic_bearing():
    state = radials("TSX", radial_deg=90.0, true_north=True).state
    drift = state.tuned.declination_deg - state.variation_deg
    assert abs(drift) > 3.0
    assert (
        f"{90 + drift:03.0f} magnetic" in radials("TSX", radial_deg=90.0, true_north=True).sentence
    )


# ---- the hidden position


@pytest.mark.parametrize("seed", range(20))
def test_a_hidden_aircraft_is_where_the_seed_says_and_can_be_received(seed):
    state, again = Hidden(seed=seed), Hidden(seed=seed, course_deg=200.0)
    assert (state.radial_deg, state.distance_nm) == (again.radial_deg, again.distance_nm)
    centered = Hidden(seed=seed, course_deg=state.radial_deg)
    assert centered.reading.flag == Flag.FROM
    assert abs(centered.reading.deviation_deg) < 1e-6


def test_the_picture_does_not_show_the_aircraft_before_it_is_revealed():
    exhibit = hidden_position(seed=2)
    radial = f"{exhibit.state.radial_deg:03.0f} radial"
    assert 'data-grab="aircraft"' not in exhibit.picture.svg
    assert radial not in exhibit.picture.svg + exhibit.sentence
    exhibit.set(guess_radial_deg=90, guess_direction="east", revealed=True)
    assert radial in exhibit.sentence


def test_pressing_the_button_moves_the_aircraft_and_forgets_the_guess():
    exhibit = hidden_position(seed=2)
    exhibit.set(guess_radial_deg=90, guess_direction="east", revealed=True)
    press = exhibit.control("seed")
    press.button.click()
    assert exhibit.state == Hidden(seed=3)


def guessed(**guess):
    return Hidden(seed=2, **guess)


RADIAL = Hidden(seed=2).radial_deg
BACK = float(reciprocal_deg(RADIAL))


def test_a_guess_within_the_leeway_is_right_and_one_beyond_it_is_not():
    assert "is right" in mark_radial(guessed(guess_radial_deg=RADIAL + 4.0))
    assert "is right" not in mark_radial(guessed(guess_radial_deg=RADIAL + 4.5))


def test_the_reciprocal_is_named_as_such():
    words = mark_radial(guessed(guess_radial_deg=BACK, course_deg=RADIAL))
    assert "is the reciprocal" in words


def test_a_bearing_read_with_to_centered_is_named_as_such():
    state = guessed(guess_radial_deg=BACK, course_deg=BACK)
    assert state.reading.flag == Flag.TO
    assert "is the bearing to the station, not the radial" in mark_radial(state)


def test_a_true_azimuth_is_named_as_such():
    azimuth = RADIAL + Hidden(seed=2).tuned.declination_deg
    assert "counts from true north" in mark_radial(guessed(guess_radial_deg=azimuth))


@pytest.mark.parametrize("seed", range(12))
def test_the_opposite_direction_is_named_as_such(seed):
    state = Hidden(seed=seed)
    right, wrong = compass_point(state.radial_deg), compass_point(reciprocal_deg(state.radial_deg))
    assert "is right" in mark_direction(Hidden(seed=seed, guess_direction=right))
    assert "opposite side" in mark_direction(Hidden(seed=seed, guess_direction=wrong))


def test_a_compass_direction_counts_from_the_north_of_the_radial():
    state = Hidden(seed=6)  # the 161 radial: south by the rose, southeast on the map
    assert compass_point(state.radial_deg) == "south"
    assert where_sentence(state.tuned, state.there).startswith("You are 10.8 NM south of Quillon")
    assert "is right" in mark_direction(replace(state, guess_direction="south"))


def test_a_direction_read_off_the_map_is_told_from_one_read_off_the_rose():
    state = next(s for s in map(true_direction_guessed, range(200)) if s is not None)
    assert "counts from true north" in mark_direction(state)


def true_direction_guessed(seed):
    """Return a position whose true direction is not that of a radial within the leeway, or None."""
    state = Hidden(seed=seed)
    true = compass_point(state.tuned.true_azimuth_deg(state.there))
    near = {compass_point(state.radial_deg + off) for off in (-4.0, 0.0, 4.0)}
    return None if true in near else replace(state, guess_direction=true)


def test_nothing_is_revealed_without_an_answer():
    exhibit = hidden_position(seed=5)
    for field, value, left in (
        ("guess_radial_deg", 62.0, "Enter the radial"),
        ("guess_direction", "northeast", "Choose a compass direction"),
    ):
        exhibit.control("revealed").button.click()
        assert not exhibit.state.revealed
        assert left in exhibit.control(field).message
        exhibit.set(**{field: value})
    exhibit.control("revealed").button.click()
    assert exhibit.state.revealed


def test_a_wrong_guess_is_drawn_beside_the_aircraft_and_a_right_one_is_not():
    wrong = {"guess_radial_deg": 62.0, "guess_direction": "northeast", "revealed": True}
    right = {**wrong, "guess_radial_deg": 242.0}
    drawn = [to_svg(draw_hidden(guess)) for guess in (wrong, right)]
    assert "your 062" in drawn[0]
    assert "your 242" not in drawn[1]


def draw_hidden(guess):
    exhibit = hidden_position(seed=5, **guess)
    return exhibit.draw(exhibit.state, SCREEN)


def test_three_right_in_a_row_are_counted_and_a_wrong_one_begins_again():
    exhibit = hidden_position(seed=5)
    counted = []
    for off_deg in (0.0, 0.0, 30.0, 0.0, 0.0, 0.0):
        exhibit.control("seed").button.click()
        radial_deg = exhibit.state.radial_deg
        exhibit.set(guess_radial_deg=radial_deg + off_deg)
        exhibit.set(guess_direction=compass_point(radial_deg))
        exhibit.control("revealed").button.click()
        exhibit.control("revealed").button.click()  # counts once
        counted.append(exhibit.state.in_a_row)
    assert counted == [1, 2, 0, 1, 2, 3]
    assert "3 in a row: you have it" in exhibit.sentence
    for station in ("TSX", "QLN"):  # the position that was just shown is known from any station
        exhibit.set(station=station)
        exhibit.set(guess_radial_deg=exhibit.state.radial_deg)
        exhibit.set(guess_direction=compass_point(exhibit.state.radial_deg))
        exhibit.control("revealed").button.click()
        assert exhibit.state.in_a_row == 3


# ---- over the station


def test_a_station_passed_overhead_goes_from_to_through_off_to_from():
    exhibit = crossing(offset_nm=0.0)
    flags = []
    for along in (-2.0, -0.3, 0.0, 0.3, 2.0):
        exhibit.set(along_nm=along)
        flags.append(exhibit.state.reading.flag)
    assert flags == [Flag.TO, Flag.OFF, Flag.OFF, Flag.OFF, Flag.FROM]


def test_off_the_line_the_needle_moves_faster_nearer_the_station():
    rates = [abs(crossing(along_nm=a).state.needle_rate_dots_s) for a in (-6.0, -3.0, -1.5)]
    assert rates == sorted(rates)
    assert (
        rates[1] > 3 * rates[0]
    )  # for the same offset the rate goes with one over distance squared


def test_the_needles_rate_is_said_as_a_pilot_times_it():
    for along_nm, words in (
        (-6.0, "moves left a dot in 3 minutes"),
        (-3.0, "moves left a dot in 47 seconds"),
        (-1.5, "moves left a dot in 12 seconds"),
        (2.0, "moves right a dot in 21 seconds"),
    ):
        assert words in crossing(along_nm=along_nm, offset_nm=0.2, altitude_ft=4500.0).sentence


def test_a_passage_takes_its_time_and_is_played_from_to_through_off_to_from():
    exhibit = crossing(along_nm=-1.5, offset_nm=0.1, altitude_ft=4500.0, groundspeed_kt=120.0)
    flags = []
    for _ in range(10):
        exhibit.transport.tick(10.0)  # a third of a mile
        flags.append(exhibit.state.reading.flag.name)
    assert exhibit.state.along_nm == pytest.approx(-1.5 + 100.0 / 30.0)
    assert [f for f, before in zip(flags, ["", *flags], strict=False) if f != before] == [
        "TO",
        "OFF",
        "FROM",
    ]
    # about the chord of the cone at 4,500 ft, 45 s
    assert flags.count("OFF") == pytest.approx(exhibit.state.seconds_in_cone / 10.0, abs=1.0)


def test_where_the_aircraft_is_and_the_time_of_the_passage_are_one():
    exhibit = crossing(along_nm=-6.0, groundspeed_kt=120.0)
    exhibit.set(time_s=150)
    assert exhibit.state.along_nm == pytest.approx(-1.0)
    exhibit.set(along_nm=2.0)
    assert exhibit.control("time_s").box.value == "240"
    exhibit.set(groundspeed_kt=240)
    assert exhibit.control("time_s").box.value == "120"


def test_far_from_the_station_nothing_is_told_of_its_cone():
    assert "cone" not in crossing(along_nm=-6.0).sentence
    assert "you are in it for" in crossing(along_nm=-2.0).sentence
    assert "you were in it for" in crossing(along_nm=2.0).sentence


def test_on_the_line_the_needle_is_still():
    assert "the needle is centered and is still" in crossing(offset_nm=0.0).sentence


def test_exactly_overhead_no_rate_is_claimed():
    state = crossing(along_nm=0.0, offset_nm=0.0).state
    assert state.needle_rate_dots_s is None
    overhead = crossing(along_nm=0.0, offset_nm=0.0).sentence
    assert "You are over Quillon" in overhead
    assert "OFF, the needle has nothing to show" in overhead


def test_the_time_in_the_cone_is_its_chord_at_the_groundspeed():
    state = crossing(offset_nm=0.0, groundspeed_kt=120.0).state
    assert state.seconds_in_cone == pytest.approx(2 * state.cone_nm / 120 * 3600)


def test_a_low_aircraft_well_to_the_side_passes_outside_the_cone():
    assert "You pass outside the cone" in crossing(offset_nm=2.0, altitude_ft=2000.0).sentence


CROSSING = type(crossing().state)


@given(along=st.floats(-6, 6), offset=st.floats(-3, 3), course=st.floats(1, 360))
def test_an_aircraft_left_of_course_and_flying_it_has_the_needle_right(along, offset, course):
    state = CROSSING(along_nm=along, offset_nm=offset, course_deg=course)
    if abs(offset) > 0.1:
        assert state.reading.deviation_deg * offset < 0.0
    assert abs(float(difference_deg(state.heading_deg, course))) < 1e-9


# ---- predictions


def question(then=None):
    text = PredictionText(
        "02-1",
        "What does the needle do?",
        ("it swings", "nothing"),
        "nothing",
        ("the nose turned", "place and ring stayed"),
        "place and ring stayed",
        "The heading plays no part.",
    )
    return Prediction(text, then)


def test_a_covered_prediction_gives_neither_answer_nor_reason_away():
    covered = question(then=indicator())
    text = covered._repr_mimebundle_()["text/plain"]
    assert "plays no part" not in text
    assert "ring stayed" not in text
    assert "image/svg+xml" not in covered._repr_mimebundle_()
    assert covered.below.children == ()


def test_the_prediction_is_shown_beside_what_is_so():
    asked = question(then=indicator())
    asked.buttons[0].click()
    asked.reason_buttons[0].click()
    assert (
        "You predicted: it swings. Your reason: the nose turned. "
        "Answer: nothing. Reason: place and ring stayed. The heading"
    ) in asked.sentence
    assert asked.below.children == (asked.then.widget,)
    assert "image/svg+xml" in asked._repr_mimebundle_()


def test_a_choice_alone_reveals_nothing_but_asks_why():
    asked = question(then=indicator())
    assert asked._reasons.children == ()
    asked.choose("it swings")
    assert not asked.revealed
    assert "Why?" in asked.sentence
    assert "Answer" not in asked.sentence
    assert asked._reasons.children[1:] == tuple(asked.reason_buttons)
    assert asked.below.children == ()


def test_a_prediction_can_change_until_a_reason_is_given_and_then_stands():
    asked = question()
    asked.choose("nothing")
    asked.choose("it swings")
    asked.give_reason("the nose turned")
    asked.choose("nothing")
    asked.give_reason("place and ring stayed")
    assert (asked.predicted, asked.why) == ("it swings", "the nose turned")
    assert all(button.disabled for button in asked.buttons + asked.reason_buttons)


def test_right_and_wrong_differ_by_more_than_color():
    asked = question()
    asked.choose("it swings")
    asked.give_reason("place and ring stayed")
    assert [button.icon for button in asked.buttons] == ["times", "check"]
    assert [button.icon for button in asked.reason_buttons] == ["", "check"]


@pytest.mark.parametrize("predicted", ["", "it swings"])
def test_skipping_is_said_openly(predicted):
    asked = question()
    if predicted:
        asked.choose(predicted)
    asked.skip()
    assert ("You made no prediction" in asked.sentence) == (not predicted)
    assert "Answer: nothing." in asked.sentence
    assert "Your reason" not in asked.sentence


@pytest.mark.parametrize(
    ("predicted", "reason", "words"),
    [("", "the nose turned", "before you give a reason"), ("nothing", "luck", "got 'luck'")],
)
def test_what_is_no_reason_is_answered_with_what_is(predicted, reason, words):
    asked = question()
    if predicted:
        asked.choose(predicted)
    with pytest.raises(ValueError, match=words):
        asked.give_reason(reason)


def test_a_class_votes_before_the_answer_and_sees_its_votes_after_it():
    asked = question()
    vote = asked.vote
    assert vote._row.children == ()
    vote.switch.value = True
    for counter in (0, 0, 1, 1, 1):
        vote.counters[counter].click()
    vote.back.click()
    assert [counter.description for counter in vote.counters] == ["it swings: 2", "nothing: 2"]
    assert "Answer" not in asked.sentence
    asked.skip()
    assert "The class voted it swings: 2, nothing: 2." in asked.sentence
    assert vote.counters[0].disabled
    assert vote._row.children


def test_without_votes_nothing_is_said_of_a_class():
    asked = question()
    asked.vote.undo()
    asked.skip()
    assert "class" not in asked.sentence


# ---- tuning another station


def place(exhibit):
    there = exhibit.state.there
    return float(there.lat_deg), float(there.lon_deg)


@pytest.mark.parametrize("factory", [indicator, radials, hidden_position])
def test_tuning_another_station_leaves_the_aircraft_where_it_is_over_the_ground(factory):
    exhibit = factory()
    before = place(exhibit)
    for ident in ("PLX", "HTX", "OBL", "QLN"):
        exhibit.set(station=ident)
        assert exhibit.state.tuned.ident == ident
        assert place(exhibit) == pytest.approx(before, abs=1e-9)


def test_tuning_by_hand_is_the_same_as_by_code():
    by_hand, by_code = indicator(), indicator()
    by_hand.control("station").list.value = "PLX"
    by_code.set(station="PLX")
    assert by_hand.state == by_code.state


def test_a_radial_set_together_with_a_station_is_a_radial_of_that_station():
    exhibit = indicator()
    exhibit.set(station="PLX", radial_deg=90, distance_nm=10)
    assert (exhibit.state.radial_deg, exhibit.state.distance_nm) == (90.0, 10.0)


def test_an_aircraft_far_from_the_station_tuned_is_on_the_map_and_within_its_controls():
    away_deg = float(reciprocal_deg(STATIONS["QLN"].radial_deg(STATIONS["HTX"].position)))
    exhibit = indicator(radial_deg=away_deg, distance_nm=60.0)
    exhibit.set(station="HTX")
    distance_nm = exhibit.state.distance_nm
    assert distance_nm > FARTHEST_NM
    assert exhibit.state.range_nm >= distance_nm
    control = exhibit.control("distance_nm")
    assert control.slider.value == pytest.approx(distance_nm, abs=0.5 * control.slider.step)
    assert control.read(distance_nm) == distance_nm
    assert AIRCRAFT.stepped(exhibit.state, Steps("aircraft", 0, 0))["distance_nm"] == pytest.approx(
        distance_nm, abs=0.01
    )


def test_a_guess_at_one_station_is_not_marked_against_another():
    exhibit = hidden_position(seed=2)
    exhibit.set(guess_radial_deg=90, guess_direction="east", revealed=True)
    exhibit.set(station="PLX")
    assert exhibit.state.guess_radial_deg is None
    assert not exhibit.state.revealed
