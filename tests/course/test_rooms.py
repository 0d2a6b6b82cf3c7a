"""The shape of the package: rooms, who may import whom, and what importing it costs."""

import subprocess
import sys
import tomllib
from collections import Counter
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "vorlib"
AT_THE_TOP = {"__init__", "cli", "server", "assignment"}
MOST_IN_A_ROOM = 16


def contract():
    """Return the floors of the contract in pyproject.toml, from the top down, each a set."""
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    (rooms,) = (c for c in settings["tool"]["importlinter"]["contracts"] if c["id"] == "rooms")
    return [set(floor.replace("|", " ").replace(":", " ").split()) for floor in rooms["layers"]]


def drawn():
    """Return the floors of the picture of rooms in DEVELOPERS.md, from the top down."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    picture = text.partition("```rooms\n")[2].partition("```")[0]
    return [set(line.partition("  ")[0].split()) - {"|"} for line in picture.splitlines()]


def test_every_room_imports_only_from_the_rooms_below_it_and_never_in_a_circle():
    run = subprocess.run(
        [Path(sys.executable).with_name("lint-imports"), "--no-cache"],
        capture_output=True,
        text=True,
        cwd=ROOT,
    )
    assert run.returncode == 0, run.stdout


def test_the_picture_of_the_rooms_shows_the_contract():
    assert drawn() == contract()


def test_only_what_outsiders_name_stands_outside_the_rooms():
    assert {path.stem for path in PACKAGE.glob("*.py")} == AT_THE_TOP


def test_no_room_holds_more_modules_than_can_be_seen_at_a_glance():
    modules = [p for p in PACKAGE.rglob("*.py") if p.stem != "__init__"]
    held = Counter(path.parent for path in modules)
    assert {room: n for room, n in held.items() if n > MOST_IN_A_ROOM} == {}


def loaded_by(statement):
    """Return the names of the modules that a fresh interpreter holds after *statement*."""
    code = f"{statement}\nimport sys\nprint(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(run.stdout.split())


@pytest.mark.parametrize("heavy", ["matplotlib", "ipywidgets", "anywidget", "IPython", "pygeomag"])
def test_importing_the_library_loads_no_pictures_widgets_or_field_model(heavy):
    assert heavy not in loaded_by("import vorlib")


@pytest.mark.parametrize("heavy", ["jupyter_server", "vorlib.practice", "vorlib.views"])
def test_the_help_appears_without_loading_what_the_commands_need(heavy):
    assert heavy not in loaded_by("import vorlib.cli")
