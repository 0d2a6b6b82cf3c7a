"""Exhibits: one state, one path for every change, and a picture that reads without a kernel."""

import dataclasses

import pytest

from vorlib.exhibits import (
    crossing,
    indicator,
    radials,
)
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.registry import all_exhibits
from vorlib.exhibits.position.crossing import draw as draw_crossing
from vorlib.io.notebooks import WIDGET_VIEW
from vorlib.views.drawing.picture import Group
from vorlib.views.drawing.svg import to_svg
from vorlib.views.drawing.theme import PROJECTOR, SCREEN

FUNCTIONS = [entry.function for entry in all_exhibits().values()]
EVERY_EXHIBIT = pytest.mark.parametrize("factory", FUNCTIONS, ids=lambda f: f.__name__)

WITH_ALL_GRIPS = {"receiver_check": {"kind": "two receivers"}}


@EVERY_EXHIBIT
def test_a_saved_exhibit_is_a_picture_and_its_sentence(factory):
    exhibit = factory()
    bundle = exhibit._repr_mimebundle_()
    assert bundle["text/plain"] == exhibit.sentence
    assert bundle["image/svg+xml"].startswith("<svg")
    assert bundle[WIDGET_VIEW]["model_id"] == exhibit.widget.model_id


@EVERY_EXHIBIT
def test_an_exhibit_says_its_sentence_in_short_lines(factory, capsys):
    exhibit = factory()
    exhibit.say()
    printed = capsys.readouterr().out
    assert " ".join(printed.split()) == f"In words: {exhibit.sentence}"
    assert max(map(len, printed.splitlines())) <= 90


@EVERY_EXHIBIT
def test_the_state_cannot_be_changed_behind_the_picture(factory):
    with pytest.raises(dataclasses.FrozenInstanceError):
        factory().state.course_deg = 1.0


@EVERY_EXHIBIT
def test_every_control_shows_a_field_of_the_state(factory):
    exhibit = factory()
    names = {f.name for f in dataclasses.fields(exhibit.state)} | {"projector"}
    assert {c.field for c in exhibit.controls} <= names


@EVERY_EXHIBIT
@pytest.mark.parametrize("projector", [False, True])
def test_everything_that_can_be_grabbed_does_something(factory, projector):
    exhibit = factory(**WITH_ALL_GRIPS.get(factory.__name__, {}))
    exhibit.set(projector=projector)
    svg = exhibit.picture.svg
    for name in exhibit.grips:
        assert f'data-grab="{name}"' in svg
    assert svg.count("data-grab=") == len(exhibit.grips)


def placed(items, name, x=0.0, y=0.0):
    """Return where the group that can be grabbed by a name has its origin on the picture."""
    for group in items:
        if isinstance(group, Group):
            at = (x + group.x, y + group.y)
            if group.grab == name:
                return at
            if found := placed(group.items, name, *at):
                return found
    return None


@pytest.mark.parametrize("view", ["both", "above", "side"])
def test_a_crossing_can_be_grabbed_in_every_view_of_it(view):
    exhibit = crossing(view=view, course_deg=40.0)
    shown = {"both": 2, "above": 1, "side": 1}[view]
    assert exhibit.picture.svg.count('data-grab="aircraft') == shown
    x, y = placed(draw_crossing(exhibit.state, SCREEN).items, "ring")
    exhibit.drag("ring", (x, y - 100.0), (x + 100.0, y))  # a quarter to the right
    assert exhibit.state.course_deg == 310.0


def test_a_setting_is_the_same_as_moving_the_control():
    by_hand, by_code = indicator(), indicator()
    by_hand.control("course_deg").slider.value = 120.0
    by_code.set(course_deg=120)
    assert by_hand.state == by_code.state
    assert by_hand.picture.svg == by_code.picture.svg
    assert by_hand.picture.sentence == by_code.picture.sentence == by_code.sentence


def test_one_change_draws_once(monkeypatch):
    exhibit = indicator()
    drawn = []
    monkeypatch.setattr(exhibit, "draw", lambda *a: drawn.append(a) or draw(*a))
    from vorlib.exhibits.position.indicator import draw

    exhibit.set(course_deg=90, distance_nm=5)
    assert len(drawn) == 1


def test_a_change_to_the_same_value_draws_nothing(monkeypatch):
    exhibit = indicator(course_deg=90.0)
    monkeypatch.setattr(exhibit, "draw", lambda *_: pytest.fail("drawn again"))
    exhibit.set(course_deg=450)


def test_setting_a_wrong_value_leaves_the_state_and_is_answered_at_the_control():
    exhibit = indicator()
    before = exhibit.state
    exhibit.set(course_deg=90, distance_nm=-1)
    assert exhibit.state == before
    answers = {c.field: c.message for c in exhibit.controls if c.message}
    assert list(answers) == ["distance_nm"]
    assert "-1 is out of range" in answers["distance_nm"]


def test_a_field_that_is_not_there_is_named():
    with pytest.raises(TypeError, match=r"no cours_deg here; there are .*course_deg"):
        indicator().set(cours_deg=4)


def test_a_station_that_is_not_there_is_named_with_those_that_are():
    with pytest.raises(ValueError, match=r"station must be one of QLN, .*got 'XXX'"):
        indicator("XXX")


def test_a_state_that_cannot_be_drawn_is_not_taken():
    def draw(state, theme):
        if state.course_deg > 300:
            raise ValueError("course_deg must be at most 300")
        return exhibit_draw(state, theme)

    from vorlib.exhibits.base.controls import Number
    from vorlib.exhibits.position.setup import SetupState, sentence
    from vorlib.exhibits.position.setup import draw as exhibit_draw

    course = Number("course_deg", "Course", direction=True)
    exhibit = Exhibit(SetupState(), draw, sentence, [course])
    course.box.value = "310"
    assert exhibit.state.course_deg == 40.0
    assert course.message == "Course (degrees) must be at most 300."
    assert course.box.value == "040"


def test_the_projector_changes_the_look_and_not_the_state():
    exhibit = indicator()
    before = exhibit.state
    exhibit.set(projector=True)
    assert exhibit.state == before
    assert exhibit.theme is PROJECTOR
    assert exhibit.picture.svg == to_svg(exhibit.draw(before, PROJECTOR))
    assert "vorlib-projector" in exhibit.widget._dom_classes
    exhibit.set(projector=False)
    assert exhibit.picture.svg == to_svg(exhibit.draw(before, SCREEN))
    assert "vorlib-projector" not in exhibit.widget._dom_classes


def test_a_drag_is_measured_from_where_it_began_however_many_reports_come():
    few, many = indicator(), indicator()
    start, end = (100.0, 100.0), (160.0, 70.0)
    few.drag("aircraft", start, end)
    many.drag("aircraft", start, (110.0, 90.0), (130.0, 90.0), (150.0, 90.0), end)
    assert few.state == many.state


def test_keys_and_wheel_step_from_the_present_state():
    exhibit = indicator(course_deg=358.0)
    exhibit.step("ring", 0, 3)
    assert exhibit.state.course_deg == 1.0


def test_a_hand_on_nothing_known_changes_nothing():
    exhibit = radials()
    before = exhibit.state
    exhibit.step("elsewhere", 1)
    exhibit.drag("elsewhere", (0, 0), (1, 1))
    assert exhibit.state == before
