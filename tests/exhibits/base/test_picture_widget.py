"""What the picture widget reports of a hand on the picture."""

import pytest

from vorlib.exhibits.base.picture_widget import Drag, PictureWidget, Steps


@pytest.fixture
def hand():
    """A widget, a list of what it reported, and a function that sends what a browser sends."""
    heard = []
    widget = PictureWidget(
        on_drag=lambda drag, is_new: heard.append((drag, is_new)), on_steps=heard.append
    )

    def send(view="a", drag=None, **steps):
        widget.set_state({"hand": {"view": view, "drag": drag, "steps": steps}})

    return heard, send


def at(x, y, number=1, grab="aircraft"):
    return {"id": number, "grab": grab, "x0": 1.0, "y0": 2.0, "x": x, "y": y}


def test_a_drag_tells_where_it_began_and_where_it_is(hand):
    heard, send = hand
    send(drag=at(5.0, 6.0))
    send(drag=at(7.0, 6.0))
    assert heard == [
        (Drag("aircraft", 1.0, 2.0, 5.0, 6.0), True),
        (Drag("aircraft", 1.0, 2.0, 7.0, 6.0), False),
    ]


def test_a_second_drag_is_a_new_one(hand):
    heard, send = hand
    send(drag=at(5.0, 6.0, number=1))
    send(drag=at(5.0, 6.0, number=2))
    assert [is_new for _, is_new in heard] == [True, True]


def test_steps_are_totals_so_that_a_lost_report_loses_no_step(hand):
    heard, send = hand
    send(ring=[0, 1])
    send(ring=[0, 14])  # the reports in between never came
    assert heard == [Steps("ring", 0, 1), Steps("ring", 0, 13)]


def test_a_finished_drag_is_not_repeated_when_keys_follow(hand):
    heard, send = hand
    send(drag=at(5.0, 6.0))
    send(drag=at(5.0, 6.0), aircraft=[1, 0])
    assert heard[1:] == [Steps("aircraft", 1, 0)]


def test_another_view_of_the_same_picture_counts_from_zero(hand):
    heard, send = hand
    send("a", ring=[0, 5])
    send("b", ring=[0, 1])
    assert heard == [Steps("ring", 0, 5), Steps("ring", 0, 1)]


def test_the_browser_hears_no_echo_of_its_own_report():
    assert PictureWidget.hand.metadata["echo_update"] is False


def test_the_module_and_its_style_are_shipped_beside_the_python():
    widget = PictureWidget(on_drag=lambda *_: None, on_steps=lambda _: None)
    assert "export default" in widget._esm
    assert ".vorlib-picture" in widget._css


def test_the_module_knows_nothing_of_navigation():
    widget = PictureWidget(on_drag=lambda *_: None, on_steps=lambda _: None)
    for word in ("course", "radial", "ring", "aircraft", "needle"):
        assert f'"{word}"' not in widget._esm
