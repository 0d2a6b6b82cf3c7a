"""A page that asks whether anybody is there is answered, and sent again what it does not show."""

import pytest

from vorlib.exhibits import homing
from vorlib.exhibits.base.answering import Answering
from vorlib.exhibits.base.picture_widget import PictureWidget


@pytest.fixture
def picture():
    return PictureWidget(svg="<svg/>", on_drag=lambda *_: None, on_steps=lambda _: None)


@pytest.fixture
def sent(picture, monkeypatch):
    """What the picture's widget sends from now on, newest last."""
    messages = []
    monkeypatch.setattr(Answering, "send", lambda self, content: messages.append(content))
    monkeypatch.setattr(Answering, "send_state", lambda self, keys: messages.append(keys))
    return messages


def test_a_question_is_answered_with_its_number(picture, sent):
    picture._handle_custom_msg({"alive": 7, "shown": len("<svg/>")}, [])
    assert sent == [{"alive": 7}]


def test_a_page_without_the_picture_is_sent_it_again(picture, sent):
    picture._handle_custom_msg({"alive": 1, "shown": 0}, [])
    assert sent == [["svg", "sentence"], {"alive": 1}]


def test_a_movement_that_was_lost_is_made_up_for_once():
    moved = []
    picture = PictureWidget(svg="<svg/>", on_drag=lambda *_: None, on_steps=moved.append)
    picture.hand = {"view": "one", "drag": None, "steps": {"ring": [0, 2]}}
    told = {"shown": 6, "hand": {"view": "one", "drag": None, "steps": {"ring": [0, 5]}}}
    other = {"shown": 6, "hand": {"view": "two", "drag": None, "steps": {"ring": [0, 9]}}}
    for content in (told, told, other):
        picture._handle_custom_msg({"alive": 1, **content}, [])
    assert [(steps.right, steps.up) for steps in moved] == [(0, 2), (0, 3)]


def test_any_other_message_is_heard_as_before(picture, sent):
    heard = []
    picture.on_msg(lambda _, content, __: heard.append(content))
    picture._handle_custom_msg({"press": "check"}, [])
    assert heard == [{"press": "check"}]
    assert sent == []


def test_the_first_message_of_an_exhibit_holds_its_picture_and_its_sentence(monkeypatch):
    opened, open_ = [], PictureWidget.open

    def opens(self):
        opened.append((self.svg, self.sentence))
        open_(self)

    monkeypatch.setattr(PictureWidget, "open", opens)
    exhibit = homing()
    assert opened == [(exhibit.picture.svg, exhibit.sentence)]
    assert exhibit.picture.svg.startswith("<svg")
