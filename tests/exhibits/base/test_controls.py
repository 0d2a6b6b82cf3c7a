"""Controls: what can be entered, what is answered to nonsense, and what stays."""

import pytest

from vorlib.exhibits import indicator, setup
from vorlib.exhibits.base.controls import ChoiceControl, Number


def control(exhibit, field):
    return exhibit.control(field)


DIRECTIONS = [("0", 360.0), ("360", 360.0), ("720", 360.0), ("-90", 270.0), (" 40 ", 40.0)]


@pytest.mark.parametrize(("typed", "meant"), DIRECTIONS)
def test_any_finite_number_is_a_direction(typed, meant):
    exhibit = indicator()
    control(exhibit, "course_deg").box.value = typed
    assert exhibit.state.course_deg == meant
    assert control(exhibit, "course_deg").message == ""


NONSENSE = [
    ("course_deg", "abc", "abc is not a number"),
    ("course_deg", "", "an empty entry is not a number"),
    ("course_deg", "nan", "nan is not a number"),
    ("course_deg", "inf", "inf is not a number"),
    ("distance_nm", "-3", "-3 is out of range. Enter a number from 0 to 60 NM"),
    ("distance_nm", "61", "61 is out of range. Enter a number from 0 to 60 NM"),
    ("altitude_ft", "12,5", "12,5 is not a number. Enter a number from 0 to 18000 feet"),
]


@pytest.mark.parametrize(("field", "typed", "answer"), NONSENSE)
def test_a_wrong_entry_is_answered_beside_the_control_and_the_last_good_value_stays(
    field, typed, answer
):
    exhibit = indicator()
    before, concerned = exhibit.state, control(exhibit, field)
    good = concerned.box.value
    concerned.box.value = typed
    assert exhibit.state == before
    assert concerned.box.value == good
    assert answer in concerned.message
    assert answer in concerned.message_box.value
    assert all(c.message == "" for c in exhibit.controls if c is not concerned)


def test_the_answer_goes_when_the_next_entry_is_good():
    exhibit = indicator()
    concerned = control(exhibit, "distance_nm")
    concerned.box.value = "far"
    concerned.box.value = "7.5"
    assert exhibit.state.distance_nm == 7.5
    assert concerned.message == ""
    assert concerned.message_box not in concerned.widget.children


def test_the_same_wrong_entry_is_answered_again():
    exhibit = indicator()
    concerned = control(exhibit, "distance_nm")
    for _ in range(2):
        concerned.box.value = "far"
        assert "far is not a number" in concerned.message


def test_an_entry_cannot_smuggle_markup_into_the_message():
    exhibit = indicator()
    control(exhibit, "course_deg").box.value = "<b>40</b>"
    assert "<b>40" not in control(exhibit, "course_deg").message_box.value


def test_slider_and_box_show_one_value():
    exhibit = indicator()
    course = control(exhibit, "course_deg")
    course.slider.value = 75
    assert course.box.value == "075"
    course.box.value = "200"
    assert course.slider.value == 200


def test_a_direction_is_shown_with_three_figures_and_north_as_360():
    number = Number("radial_deg", "Radial", direction=True, decimals=1)
    assert [number.format(d) for d in (7.04, 359.96, 40)] == ["007.0", "360.0", "040.0"]


def test_a_choice_refuses_what_is_not_on_its_list():
    choice = ChoiceControl("station", "Station", {"Quillon": "QLN"})
    with pytest.raises(ValueError, match=r"Station: 'XXX' is not one of QLN"):
        choice.read("XXX")


def test_a_choice_from_a_list_that_has_become_shorter_is_none():
    chosen = []
    choice = ChoiceControl("number", "Number", {"one": 1, "two": 2, "three": 3})
    choice.ask = chosen.append
    choice.list.set_state({"index": 1})
    choice.list.options = [("one", 1), ("two", 2)]
    choice.list.set_state({"index": 2})
    assert choice.list.value == 1  # the first, as when the list was made
    assert chosen[0] == {"number": 2}
    choice.list.set_state({"index": None})
    assert choice.list.value is None


def test_a_slider_answers_to_half_steps():
    exhibit = setup()
    control(exhibit, "dots").slider.value = 2.5
    assert exhibit.sentence.startswith("It works: the needle stands 2.5 dots right.")


def test_an_optional_number_may_be_taken_back():
    number = Number("guess_deg", "Your radial", direction=True, optional=True)
    assert number.read("") is None
    assert number.format(None) == ""
    with pytest.raises(ValueError, match="is not a number"):
        number.read("south")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("090°", 90.0), ("90 deg", 90.0), ("090 degrees", 90.0), (40.00000000000001, 40.0)],
)
def test_a_direction_is_read_as_people_type_it(typed, meant):
    assert Number("course_deg", "Selected course", direction=True).read(typed) == meant


@pytest.mark.parametrize(("typed", "meant"), [("12 NM", 12.0), ("12,5", 12.5), ("12.5nm", 12.5)])
def test_a_distance_is_read_with_its_unit_and_with_a_comma(typed, meant):
    assert Number("distance_nm", "Distance", "NM", 0.0, 60.0, 0.1, decimals=1).read(typed) == meant


def test_a_comma_before_three_figures_of_a_whole_number_sets_thousands_off():
    altitude = Number("altitude_ft", "Altitude", "feet", 0.0, 18_000.0, 100.0)
    assert altitude.read("12,500 ft") == 12_500.0


def test_a_number_in_another_unit_is_refused():
    with pytest.raises(ValueError, match="12 km is not a number"):
        Number("distance_nm", "Distance", "NM", 0.0, 60.0).read("12 km")


@pytest.mark.parametrize(("value", "stop"), [(39.2, 40.0), (37.4, 35.0), (12.0, 10.0), (90, 90.0)])
def test_a_slider_shows_the_stop_next_to_a_value_as_a_browser_would_go_there_by_itself(value, stop):
    number = Number("angle_deg", "Intercept angle", "degrees", 10.0, 90.0, 5.0)
    number.show(value)
    assert number.slider.value == stop
    assert number.box.value == f"{value:.0f}"


def test_what_a_browser_echoes_of_a_shown_value_asks_for_nothing():
    asked, number = [], Number("course_deg", "Selected course", direction=True)
    number.ask = asked.append
    number.show(40.0)
    number.slider.value = 40.00000000000001
    assert asked == []
    number.slider.value = 41.0
    number.slider.value = 40.0
    assert asked == [{"course_deg": 41.0}, {"course_deg": 40.0}]


def test_a_late_echo_of_a_value_shown_before_sets_nothing_back():
    asked, number = [], Number("course_deg", "Selected course", direction=True)
    number.ask = asked.append
    for course in (45.0, 50.0, 55.0, 60.0):
        number.show(course)
    number.slider.value = 55.00000000000001
    assert asked == []
    assert number.slider.value == 60.0
    number.slider.value = 55.0  # a hand
    assert asked == [{"course_deg": 55.0}]


@pytest.mark.parametrize("step", [0.1, 0.5, 5.0])
def test_a_hand_may_go_back_to_any_stop_that_was_shown(step):
    asked, number = [], Number("distance_nm", "Distance", "NM", 0.3, 60.3, step, decimals=1)
    number.ask = lambda changes: asked.append(changes["distance_nm"])
    stops = [round(0.3 + i * step, 9) for i in range(6)]
    for stop in stops:
        number.show(stop)
    for stop in reversed(stops[:-1]):
        number.slider.value = stop
    assert asked == stops[-2::-1]
