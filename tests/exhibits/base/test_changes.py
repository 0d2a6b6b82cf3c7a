"""What changes a state, and where and in which words a refusal is said."""

from dataclasses import dataclass

import pytest

from vorlib.core.arguments import positive
from vorlib.exhibits import fix, indicator
from vorlib.exhibits.base.changes import Remark, refused, resolve, spoken_refusal
from vorlib.exhibits.base.controls import Number, Switch
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.views.drawing.picture import Picture


@dataclass(frozen=True)
class Wind:
    """A state that cannot be without an airspeed more than the wind's speed."""

    wind_kt: float = 10.0
    airspeed_kt: float = 100.0

    def __post_init__(self) -> None:
        positive("headway_kt", self.airspeed_kt - self.wind_kt, "kt")


def windy():
    airspeed = Number("airspeed_kt", "Airspeed", "knots", 0.0, 200.0, feeds=("headway_kt",))
    return Exhibit(
        Wind(),
        lambda state, theme: Picture(10.0, 10.0, (), "Nothing", "Nothing.", "#ffffff"),
        lambda state: f"{state.wind_kt:g} knots of wind.",
        [Number("wind_kt", "Wind speed", "knots", 0.0, 150.0), airspeed],
    )


def test_to_resolve_a_change_shows_and_says_nothing():
    exhibit = indicator()
    before, shown = exhibit.state, exhibit.picture.svg
    state, answers = resolve(before, {"course_deg": 450, "distance_nm": "7.5"}, exhibit.controls)
    assert (state.course_deg, state.distance_nm) == (90.0, 7.5)
    assert answers == {}
    state, answers = resolve(before, {"course_deg": 90, "distance_nm": -1}, exhibit.controls)
    assert state is before
    assert [control.field for control in answers] == ["distance_nm"]
    assert (exhibit.state, exhibit.picture.svg) == (before, shown)
    assert all(control.message == "" for control in exhibit.controls)


def test_a_refusal_stands_at_the_control_that_can_mend_it_and_goes_when_it_is_mended():
    exhibit = windy()
    exhibit.control("wind_kt").box.value = "120"
    assert exhibit.state == Wind()
    assert exhibit.control("wind_kt").message == ""
    assert exhibit.control("wind_kt").box.value == "10"
    said = exhibit.control("airspeed_kt").message
    assert said == "Airspeed (knots) must be more than 0 kt; it is -20."
    exhibit.set(projector=True)  # neither that which asked nor that which can mend it
    assert exhibit.control("airspeed_kt").message == said
    exhibit.control("wind_kt").box.value = "90"
    assert exhibit.control("airspeed_kt").message == ""
    assert exhibit.state == Wind(90.0)


def test_a_refusal_takes_the_place_of_what_an_earlier_entry_was_told():
    exhibit = windy()
    exhibit.control("airspeed_kt").box.value = "fast"
    assert "fast is not a number" in exhibit.control("airspeed_kt").message
    exhibit.control("wind_kt").box.value = "120"
    assert "must be more than 0 kt" in exhibit.control("airspeed_kt").message


def test_a_refusal_of_both_is_said_once_beside_the_one_that_feeds_the_argument():
    exhibit = windy()
    exhibit.set(wind_kt=120, airspeed_kt=110)
    assert [c.field for c in exhibit.controls if c.message] == ["airspeed_kt"]


def test_a_refusal_that_names_no_argument_stands_at_the_first_control_asked():
    exhibit = windy()
    error = ValueError("the wind holds the aircraft")
    (answered,) = refused(error, exhibit.controls, [exhibit.control("wind_kt")])
    assert answered.field == "wind_kt"
    with pytest.raises(ValueError, match="the wind holds"):
        refused(error, exhibit.controls, [])


def test_a_slant_range_below_the_height_is_answered_beside_what_the_dme_shows():
    exhibit = fix(method="dme", dme_nm=1.0, altitude_ft=4000.0)
    exhibit.set(altitude_ft=12_000)
    assert exhibit.control("altitude_ft").message == ""
    assert exhibit.control("dme_nm").message.startswith(
        "DME shows (NM) must be at least the height"
    )
    assert exhibit.state.altitude_ft == 4000.0


WORDS = [
    ("slant_range_nm must be finite, got nan", "Slant range (NM) must be finite; it is nan."),
    ("wind_kt must be 0 kt or more, got -1", "Wind speed (knots) must be 0 kt or more; it is -1."),
    ("by_bank must be true", "Steer by bank must be true."),
    ("looks_per_turn must be 3", "Looks per turn must be 3."),
    ("station must be one of QLN, got 'XXX'", "Station must be one of QLN; it is 'XXX'."),
    ("the wind holds the aircraft", "The wind holds the aircraft."),
]


@pytest.mark.parametrize(("message", "words"), WORDS)
def test_a_refusal_is_told_without_the_name_of_an_argument(message, words):
    controls = [Number("wind_kt", "Wind speed", "knots"), Switch("by_bank", "Steer by bank")]
    assert spoken_refusal(ValueError(message), controls) == words


def test_a_remark_leaves_alone_what_an_entry_is_told():
    remark, wind, speed = Remark(), Number("wind_kt", "Wind"), Number("speed_kt", "Speed")
    wind.say("abc is not a number")
    remark.say(wind, "no way home")
    assert wind.message == "abc is not a number"
    wind.say("")
    remark.say(wind, "no way home")
    assert wind.message == "no way home"
    remark.say(speed, "no way home")
    assert (wind.message, speed.message) == ("", "no way home")
    remark.say(None, "")
    assert speed.message == ""
