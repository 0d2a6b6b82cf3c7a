"""The chart of an error budget: true to its numbers, and read without color."""

import numpy as np
import pytest

from vorlib.receiver_check.error_budget import ROUTE_BUDGET, ErrorBudget
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.error_band import error_band

# A station's alignment, a receiver just inside its limit on the ground, a needle within a dot.
LESSON_BUDGET = ErrorBudget(1.0, 4.0, 2.0)


def test_the_band_of_a_route_is_5_nm_wide_at_49_8_nm():
    # ICAO Doc 8168, volume II, part II, section 3, chapter 1, 1.4.2 and appendix B
    axes = error_band(ROUTE_BUDGET).figure.axes[0]
    usual = axes.lines[0]
    assert np.interp(49.8, usual.get_xdata(), usual.get_ydata()) == pytest.approx(5.0, abs=0.02)


def test_the_band_is_as_wide_to_the_left_as_to_the_right():
    lines = error_band(LESSON_BUDGET).figure.axes[0].lines
    assert np.array_equal(lines[0].get_ydata(), -lines[1].get_ydata())
    assert np.array_equal(lines[2].get_ydata(), -lines[3].get_ydata())


@pytest.mark.parametrize("theme", [SCREEN, PROJECTOR])
def test_worst_case_and_root_sum_square_are_told_apart_by_dash_and_by_name(theme):
    axes = error_band(LESSON_BUDGET, theme=theme).figure.axes[0]
    assert {line.get_linestyle() for line in axes.lines[:2]} == {"-"}
    assert {line.get_linestyle() for line in axes.lines[2:4]} == {"--"}
    assert [text.get_text() for text in axes.texts] == ["worst case, 7.0°", "root-sum-square, 4.6°"]


def test_the_names_lie_within_the_chart_and_apart():
    for theme in (SCREEN, PROJECTOR):
        figure = error_band(LESSON_BUDGET, theme=theme).figure
        figure.draw_without_rendering()
        inside = figure.axes[0].get_window_extent()
        one, other = (text.get_window_extent() for text in figure.axes[0].texts)
        for box in (one, other):
            assert inside.x0 <= box.x0
            assert box.x1 <= inside.x1
            assert inside.y0 <= box.y0
            assert box.y1 <= inside.y1
        assert not one.overlaps(other)


def test_a_notebook_shows_the_chart_and_its_sentence_the_same_each_time():
    bundle, again = (error_band(LESSON_BUDGET)._repr_mimebundle_() for _ in range(2))
    assert bundle == again
    assert bundle["image/svg+xml"].startswith("<svg")
    assert ">worst case, 7.0°</text>" in bundle["image/svg+xml"]
    assert "4.8 NM to either side" in bundle["text/plain"]


def test_a_chart_without_width_is_refused():
    with pytest.raises(ValueError, match="farthest_nm must be more than 0 NM, got 0"):
        error_band(LESSON_BUDGET, 0.0)
