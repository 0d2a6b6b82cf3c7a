"""The page of an exhibit: named slots, from top to bottom."""

import ipywidgets as widgets
import pytest

from vorlib.exhibits import crossing, homing
from vorlib.exhibits.base.page import SLOTS, Page
from vorlib.exhibits.debrief.exhibit import debrief_flight
from vorlib.exhibits.flown_by_hand.exhibit import flight

FILLED = {
    crossing: ["controls", "switches", "picture"],
    homing: ["controls", "switches", "transport", "picture", "below"],
    flight: ["controls", "switches", "transport", "more", "task", "picture", "below"],
    debrief_flight: ["above", "transport", "picture", "below"],
}


@pytest.mark.parametrize("factory", FILLED, ids=lambda f: f.__name__)
def test_a_page_shows_what_stands_in_its_slots_from_top_to_bottom(factory):
    exhibit = factory()
    assert [slot for slot in SLOTS if exhibit.page[slot]] == FILLED[factory]
    assert exhibit.widget.children == tuple(w for slot in SLOTS for w in exhibit.page[slot])
    assert exhibit.page["picture"] == (exhibit.picture,)


@pytest.mark.parametrize("factory", FILLED, ids=lambda f: f.__name__)
def test_every_control_is_on_the_page_once(factory):
    def within(widget):
        yield widget
        for child in getattr(widget, "children", ()):
            yield from within(child)

    exhibit = factory()
    shown = list(within(exhibit.widget))
    assert [shown.count(control.widget) for control in exhibit.controls] == [1] * len(
        exhibit.controls
    )


def test_a_slot_is_filled_anew_and_the_others_stay():
    page, one, other = Page(), widgets.HTML("one"), widgets.HTML("<b>other</b>")
    page.fill(below=[one], above=[other])
    assert page.widget.children == (other, one)
    page.fill(below=[one, widgets.Box(), other], above=[])
    assert page.html("below") == "one<b>other</b>"
    assert page["above"] == ()


def test_a_slot_that_is_not_there_is_named_with_those_that_are():
    with pytest.raises(TypeError, match="no slot beside; there are above, controls"):
        Page().fill(beside=[])
