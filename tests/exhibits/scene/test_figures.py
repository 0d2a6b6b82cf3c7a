"""The panel of figures beside a picture."""

import pytest

from vorlib.exhibits.scene.figures import WIDTH, FigureImage, figures
from vorlib.views.drawing.layout import overlap, text_box
from vorlib.views.drawing.picture import Text
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.plan.plan import SIZE

ROW = FigureImage("Bearing to station", "034", "from you to the station")
LONG = FigureImage("Rule: distance", "12.7 NM", "airspeed x time to go")
THEMES = pytest.mark.parametrize("theme", [SCREEN, PROJECTOR], ids=["screen", "projector"])


def panel(theme, *rows):
    return [item for item in figures(rows, theme).items if isinstance(item, Text)]


@THEMES
@pytest.mark.parametrize("count", [1, 3, 4, 5, 7])
def test_the_rows_fill_the_panel_however_many_there_are(count, theme):
    boxes = [text_box(text) for text in panel(theme, *[ROW] * count)]
    above, below = min(box[1] for box in boxes), SIZE - max(box[3] for box in boxes)
    assert above > 0
    assert below > 0
    assert max(above, below) < SIZE / count / 2


@THEMES
@pytest.mark.parametrize("count", [3, 4, 5])
def test_no_word_runs_into_another_or_out_of_the_panel(count, theme):
    boxes = [text_box(text) for text in panel(theme, *[LONG] * count)]
    for i, box in enumerate(boxes):
        assert box[2] <= WIDTH
        assert not any(overlap(box, other) for other in boxes[:i])


def test_few_figures_are_large():
    few, many = ({t.text: t.size for t in panel(SCREEN, *[ROW] * n)}["034"] for n in (3, 7))
    assert few == SCREEN.big_size
    assert many < few
