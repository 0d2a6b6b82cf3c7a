"""Draw a station's service volume on a plan view: the circle at the aircraft's height."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from vorlib.views.drawing.layout import Labeler
from vorlib.views.drawing.picture import Circle, Item, Text
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.projection import SIZE, StationProjection
from vorlib.views.plan.scene import Overlay, PlanScene

__all__ = ["service_circle", "service_words"]

# Where the name may go, in true degrees from the station: first where maps are least crowded.
SPOTS_DEG = (135.0, 225.0, 45.0, 315.0, 160.0, 200.0, 20.0, 340.0, 110.0, 250.0, 70.0, 290.0)


def service_circle(scene: PlanScene, layout: StationProjection, theme: Theme) -> Iterator[Item]:
    """Yield the dashed circle within which the signal is assured, if the map holds it."""
    if _is_shown(scene, layout):
        radius, dash = scene.service_nm * layout.units_per_nm, (9.0 * theme.line, 5.0 * theme.line)
        yield Circle(layout.x, layout.y, radius, "", theme.text, theme.line, dash)


def service_words(
    scene: PlanScene, layout: StationProjection, labels: Labeler, theme: Theme
) -> Iterator[Text]:
    """Yield the name of the circle, just inside it, where there is room."""
    if not _is_shown(scene, layout):
        return
    name = f"service volume {scene.service_nm:.0f} NM"
    words = Text(0.0, 0.0, name, theme.small_size, theme.text, halo=theme.sea)
    spots = (
        layout.polar_to_xy(azimuth_deg, share * scene.service_nm)
        for share in (0.94, 1.06, 0.85)
        for azimuth_deg in SPOTS_DEG
    )
    named = labels.place(replace(words, x=float(x), y=float(y)) for x, y in spots)
    if named is not None:
        yield named


def _is_shown(scene: PlanScene, layout: StationProjection) -> bool:
    radius = scene.service_nm * layout.units_per_nm
    return Overlay.CONE in scene.overlays and 0.0 < radius < SIZE / 2
