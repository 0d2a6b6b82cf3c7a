"""The same picture, painted by a browser and by matplotlib."""

import io

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from views.drawn import lesson_picture

from vorlib.views.drawing.pdf import to_figure
from vorlib.views.drawing.picture import Picture
from vorlib.views.drawing.svg import to_svg


def shrunk(image: np.ndarray, block: int = 4) -> np.ndarray:
    """Return an image in blocks, so that the last pixel of an edge does not count."""
    rows, columns = (n // block * block for n in image.shape[:2])
    cut = image[:rows, :columns, :3].reshape(rows // block, block, columns // block, block, 3)
    return cut.mean(axis=(1, 3))


def painted(picture: Picture) -> np.ndarray:
    """Return a picture as matplotlib paints it, one pixel a unit."""
    figure = to_figure(picture, picture.width / 100)
    figure.set_dpi(100)
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    return np.asarray(canvas.buffer_rgba())[..., :3].astype(float)


def test_a_browser_and_matplotlib_paint_the_same_picture(browser):
    image_module = pytest.importorskip("PIL.Image")
    picture = lesson_picture()
    page = browser.new_page(viewport={"width": int(picture.width), "height": int(picture.height)})
    page.set_content(f"<body style='margin:0'>{to_svg(picture)}</body>")
    shot = page.screenshot()
    page.close()
    on_screen = shrunk(np.asarray(image_module.open(io.BytesIO(shot))).astype(float))
    on_paper = shrunk(painted(picture))
    difference = np.abs(on_screen - on_paper).mean()
    assert difference < 4.0
    assert np.abs(on_screen[:, ::-1] - on_paper).mean() > 3 * difference  # the check can fail
