"""The picture of the two tones: crests where they are sent, and the lag between them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from views.drawn import grabbed, groups, texts

from vorlib.views.drawing.layout import extent, text_box
from vorlib.views.drawing.picture import Circle, Line
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.instrument.indicator import HEIGHT
from vorlib.views.instrument.tones import UNITS_PER_DEG, WIDTH, TonesScene, tones

THEMES = pytest.mark.parametrize("theme", [SCREEN, PROJECTOR], ids=["screen", "projector"])


def wave(crest_deg, strength=1.0):
    return tuple(strength * math.cos(math.radians(d - crest_deg)) for d in range(0, 360, 4))


def scene(radial_deg, moving="AM", **others):
    am, fm = (radial_deg, 0.0) if moving == "AM" else (0.0, -radial_deg)
    parts = {
        "am": wave(am),
        "fm": wave(fm),
        "am_crest_deg": am,
        "fm_crest_deg": fm,
        "lag_deg": radial_deg,
        "moving": moving,
    }
    return TonesScene(**(parts | others))


def crest_x(picture, moving):
    """Return where the crests of the FM tone and the AM tone are marked."""
    handle = grabbed(picture, "crest")
    (other,) = [item for item in picture.items if isinstance(item, Circle)]
    return (other.x, handle.x) if moving == "AM" else (handle.x, other.x)


@given(radial=st.floats(0.5, 360), moving=st.sampled_from(["AM", "FM"]))
def test_the_crest_of_the_am_tone_is_drawn_a_radial_after_that_of_the_fm_tone(radial, moving):
    fm, am = crest_x(tones(scene(radial, moving)), moving)
    assert am - fm == pytest.approx(radial * UNITS_PER_DEG, abs=1e-6)
    assert 0 <= fm <= am <= WIDTH


@given(radial=st.floats(20, 359))
def test_the_arrow_between_the_crests_is_as_long_as_the_lag(radial):
    level = [
        item
        for item in tones(scene(radial)).items
        if isinstance(item, Line) and item.y1 == item.y2 and not item.dash
    ]
    assert radial * UNITS_PER_DEG == pytest.approx(max(i.x2 - i.x1 for i in level), abs=1e-6)


@THEMES
@pytest.mark.parametrize("moving", ["AM", "FM"])
@pytest.mark.parametrize("radial_deg", [1, 45, 118, 359, 360])
def test_everything_stays_inside_the_picture(radial_deg, moving, theme):
    picture = tones(scene(radial_deg, moving), theme)
    for item in picture.items:
        left, top, right, bottom = extent(item)
        assert left >= -1e-6
        assert right <= WIDTH + 1e-6
        assert top >= 0
        assert bottom <= HEIGHT


@THEMES
@pytest.mark.parametrize("radial_deg", [1, 118, 250, 360])
def test_words_do_not_cover_each_other(radial_deg, theme):
    boxes = [text_box(text) for text in texts(tones(scene(radial_deg), theme).items)]
    for i, (left, top, right, bottom) in enumerate(boxes):
        for other in boxes[:i]:
            assert right <= other[0] or other[2] <= left or bottom <= other[1] or other[3] <= top


def test_a_tone_far_beyond_its_strength_is_cut_at_its_panel():
    loud = tones(scene(118, am=wave(118, 30.0), fm=wave(0, 30.0)))
    for item in loud.items:
        _, top, _, bottom = extent(item)
        assert top >= 0
        assert bottom <= HEIGHT


@pytest.mark.parametrize(
    ("others", "words"),
    [
        ({"am_crest_deg": None, "lag_deg": None}, "The AM tone is missing"),
        ({"fm_crest_deg": None, "lag_deg": None}, "The FM tone is missing"),
        ({"lag_deg": None}, "noise hides them"),
    ],
    ids=["no AM tone", "no FM tone", "noise"],
)
def test_without_two_tones_there_is_no_lag(others, words):
    picture = tones(scene(118, **others))
    assert words in picture.description
    assert not [text for text in texts(picture.items) if "lags" in text.text]


def test_a_tone_that_is_not_sent_has_no_crest_to_hold():
    without = tones(scene(118, am_crest_deg=None, lag_deg=None))
    assert not [group for group in groups(without.items) if group.grab]
    assert "no AM tone" in {text.text for text in texts(without.items)}


@pytest.mark.parametrize("lag_deg", [360.0, 359.8, 0.3])
def test_at_north_the_picture_says_that_the_crests_agree(lag_deg):
    picture = tones(scene(360.0, lag_deg=lag_deg))
    assert "The crests of the two tones agree." in picture.description
    assert "the crests agree" in {text.text for text in texts(picture.items)}


@pytest.mark.parametrize(
    ("argument", "value"),
    [("am", (1.0, math.nan)), ("fm", (1.0,)), ("am_crest_deg", math.inf), ("lag_deg", math.nan)],
)
def test_a_scene_that_cannot_be_drawn_is_refused_by_name(argument, value):
    with pytest.raises(ValueError, match=argument):
        scene(118, **{argument: value})
