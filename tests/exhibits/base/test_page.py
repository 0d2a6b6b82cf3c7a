"""The page of an exhibit: named slots, from top to bottom."""

import ipywidgets as widgets
import pytest
from sight import is_away

from vorlib.exhibits import crossing, fix, homing
from vorlib.exhibits.base.page import SLOTS, Page
from vorlib.exhibits.debrief.exhibit import debrief_flight
from vorlib.exhibits.flown_by_hand.exhibit import flight
from vorlib.exhibits.instructor.prepare import prepare

FILLED = {
    fix: ["picture", "controls", "more"],
    crossing: ["picture", "transport", "controls", "switches", "more", "below"],
    homing: ["picture", "transport", "controls", "switches", "more", "below"],
    flight: ["task", "picture", "transport", "controls", "switches", "more", "below"],
    debrief_flight: ["picture", "transport", "controls", "more", "below"],
    prepare: ["picture", "transport", "controls", "more"],
}


def within(widget):
    yield widget
    for child in getattr(widget, "children", ()):
        yield from within(child)


@pytest.mark.parametrize("factory", FILLED, ids=lambda f: f.__name__)
def test_a_page_shows_what_stands_in_its_slots_from_top_to_bottom(factory):
    exhibit = factory()
    assert [slot for slot in SLOTS if exhibit.page[slot]] == FILLED[factory]
    filled = [one for slot in SLOTS for one in exhibit.page[slot]]
    shown = [one for one in within(exhibit.widget) if one in filled]
    assert shown == filled
    assert exhibit.page["picture"] == (exhibit.picture,)


@pytest.mark.parametrize("factory", FILLED, ids=lambda f: f.__name__)
def test_every_control_is_on_the_page_once(factory):
    exhibit = factory()
    shown = list(within(exhibit.widget))
    assert [shown.count(control.widget) for control in exhibit.controls] == [1] * len(
        exhibit.controls
    )


def test_a_slot_is_filled_anew_and_the_others_stay():
    page, one, other = Page(), widgets.HTML("one"), widgets.HTML("<b>other</b>")
    page.fill(below=[one], task=[other])
    assert [w for w in within(page.widget) if isinstance(w, widgets.HTML)] == [other, one]
    page.fill(below=[one, widgets.Box(), other], task=[])
    assert page.html("below") == "one<b>other</b>"
    assert page["task"] == ()


def test_what_is_seldom_needed_is_folded_away_until_it_is_asked_for():
    page, seldom = Page(), widgets.Box()
    page.fill(more=[seldom])
    assert is_away(seldom)
    page.fold.value = True
    assert not is_away(seldom)
    page.fold.value = False
    assert is_away(seldom)


def test_a_slot_that_is_not_there_is_named_with_those_that_are():
    with pytest.raises(TypeError, match="no slot beside; there are task, picture"):
        Page().fill(beside=[])
