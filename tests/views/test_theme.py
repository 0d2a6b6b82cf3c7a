"""The theme: readable by everyone, from the back row as well."""

from dataclasses import fields

import numpy as np
import pytest

from vorlib.views.drawing.theme import PROJECTOR, SCREEN

# Machado, Oliveira and Fernandes, "A physiologically-based model for simulation of color vision
# deficiency", IEEE TVCG 15 (6), 2009, table 1, severity 1.0 (from memory); on linear RGB.
SIMULATIONS = {
    "protanopia": np.array(
        [
            [0.152286, 1.052583, -0.204868],
            [0.114503, 0.786281, 0.099216],
            [-0.003882, -0.048116, 1.051998],
        ]
    ),
    "deuteranopia": np.array(
        [
            [0.367322, 0.860646, -0.227968],
            [0.280085, 0.672501, 0.047413],
            [-0.011820, 0.042940, 0.968881],
        ]
    ),
    "tritanopia": np.array(
        [
            [1.255528, -0.076749, -0.178779],
            [-0.078411, 0.930809, 0.147602],
            [0.004733, 0.691367, 0.303900],
        ]
    ),
}
# sRGB to XYZ, IEC 61966-2-1 (from memory)
TO_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])

TEXT_ROLES = ("text", "muted", "course", "aircraft", "cone", "warning", "track")
LINE_ROLES = ("rose", "ring", "coast", "station", "course", "aircraft", "track", "to_half",
              "from_half", "cone", "needle", "warning")  # fmt: skip
TOLD_APART = [
    ("course", "aircraft"),
    ("course", "station"),
    ("aircraft", "station"),
    ("course", "muted"),
    ("to_half", "from_half"),
    ("cone", "aircraft"),
    ("cone", "course"),
    ("track", "course"),
    ("track", "aircraft"),
    ("needle", "text"),
]


def linear(color: str) -> np.ndarray:
    """Return a color as linear RGB, 0 to 1."""
    share = np.array([int(color[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of WCAG 2 (from memory: relative luminance plus 0.05)."""
    low, high = sorted(float(linear(c) @ TO_XYZ[1]) for c in (one, other))
    return (high + 0.05) / (low + 0.05)


def lab(rgb: np.ndarray) -> np.ndarray:
    """Return linear RGB as CIE L*a*b*, white being RGB white."""
    xyz = TO_XYZ @ rgb / TO_XYZ.sum(axis=1)
    root = np.where(xyz > (6 / 29) ** 3, np.cbrt(xyz), xyz / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * root[1] - 16, 500 * (root[0] - root[1]), 200 * (root[1] - root[2])])


def seen_difference(one: str, other: str, matrix: np.ndarray) -> float:
    """Return how far apart two colors look to a color-blind eye, as CIE 1976 difference."""
    return float(
        np.linalg.norm(
            lab(np.clip(matrix @ linear(one), 0, 1)) - lab(np.clip(matrix @ linear(other), 0, 1))
        )
    )


def test_black_on_white_has_the_greatest_contrast():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)


@pytest.mark.parametrize("ground", ["paper", "sea", "land", "cover"])
@pytest.mark.parametrize("role", TEXT_ROLES)
def test_text_has_contrast(role, ground):
    assert contrast(getattr(SCREEN, role), getattr(SCREEN, ground)) >= 4.5


@pytest.mark.parametrize("ground", ["paper", "sea", "land"])
@pytest.mark.parametrize("role", LINE_ROLES)
def test_lines_have_contrast(role, ground):
    assert contrast(getattr(SCREEN, role), getattr(SCREEN, ground)) >= 3.0


@pytest.mark.parametrize("kind", SIMULATIONS)
@pytest.mark.parametrize(("one", "other"), TOLD_APART)
def test_roles_that_meet_are_told_apart_by_color_blind_eyes(one, other, kind):
    pair = getattr(SCREEN, one), getattr(SCREEN, other)
    assert seen_difference(*pair, SIMULATIONS[kind]) > 20.0


@pytest.mark.parametrize("kind", SIMULATIONS)
def test_sea_and_land_are_told_apart_and_the_coast_is_drawn_besides(kind):
    assert seen_difference(SCREEN.sea, SCREEN.land, SIMULATIONS[kind]) > 15.0
    assert contrast(SCREEN.coast, SCREEN.sea) > 3.0


def test_the_simulation_confuses_red_with_green():
    pair = "#b04030", "#607020"
    plain = seen_difference(*pair, np.eye(3))
    assert plain > 40.0
    assert seen_difference(*pair, SIMULATIONS["deuteranopia"]) < plain / 3


@pytest.mark.parametrize("size", ["small_size", "text_size", "big_size", "thin", "line", "thick"])
def test_a_projected_picture_is_bigger_in_type_and_line_alike(size):
    ratio = getattr(PROJECTOR, size) / getattr(SCREEN, size)
    assert 1.6 <= ratio <= 1.8


def test_both_settings_share_their_colors():
    colors = [f.name for f in fields(SCREEN) if str(getattr(SCREEN, f.name)).startswith("#")]
    assert all(getattr(SCREEN, name) == getattr(PROJECTOR, name) for name in colors)
