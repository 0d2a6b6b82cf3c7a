"""The shape of the package: who may import whom, and what importing it costs."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "vorlib"

# From the ground up. A module imports from its own layer and those above it in this table, and a
# package (practice, views, exhibits) is one entry.
LAYERS = [
    {"angles", "units", "checks", "plain", "blocks"} | {"caution", "wholefile", "textfile"},
    {"ellipsoid", "geodesic_direct", "earth", "magnetism"},
    {"coverage", "station", "receiver", "bearing_errors", "dynamics", "sensing"}
    | {"stationfile", "stationdata", "fieldfile", "archipelago"},
    {"wind", "turns", "flight"},
    {
        "orientation",
        "intercept",
        "tracking",
        "timing",
        "timed_runs",
        "fixing",
        "fix_area",
        "dme_area",
        "pilots",
    }
    | {"receiver_checks", "check_rules", "error_budget"}
    | {
        "watched",
        "findings",
        "spoken",
        "debrief",
        "over_ground",
        "selections",
        "selection_estimate",
        "stretches",
        "circle_fit",
        "wind_estimate",
        "correction",
        "doing",
        "recorded",
        "recorded_csv",
    },
    {"signal", "morse"},
    {"practice", "check_log", "store", "lesson_card", "lesson_tasks", "lesson_files"}
    | {"lesson_scene", "flight_plan"},
    {"views"},
    {"exhibits", "paper", "tracks", "debrief_files"},
    {"cli", "server", "prepare", "worksheets", "debrief_command", "assignment"},
]
LEVEL = {name: level for level, names in enumerate(LAYERS) for name in names}
LIBRARY = LEVEL["practice"]  # the layers below this one are what `import vorlib` offers

MODULES = sorted(PACKAGE.rglob("*.py"))


def dotted(path):
    """Return a module's full name: vorlib/views/plan.py is vorlib.views.plan."""
    parts = ("vorlib", *path.relative_to(PACKAGE).with_suffix("").parts)
    return ".".join(part for part in parts if part != "__init__")


def imported(path):
    """Yield the full name of everything that a module of the package imports from the package."""
    name = dotted(path)
    package = name if path.name == "__init__.py" else name.rpartition(".")[0]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names if alias.name.split(".")[0] == "vorlib")
        elif isinstance(node, ast.ImportFrom):
            above = package.split(".")[: len(package.split(".")) - node.level + 1]
            source = ".".join([*above, *filter(None, [node.module])]) if node.level else node.module
            if source == "vorlib":
                yield from (f"vorlib.{alias.name}" for alias in node.names)
            elif source.startswith("vorlib."):
                yield source


def entry(name):
    """Return the table's entry for a full name, or "" for the package itself."""
    return name.split(".")[1] if "." in name else ""


@pytest.mark.parametrize("path", MODULES, ids=dotted)
def test_a_module_imports_only_from_its_own_layer_and_those_below(path):
    here = entry(dotted(path))
    if here:
        assert here in LEVEL, f"give {dotted(path)} a layer in the table"
    highest = LEVEL[here] if here else LIBRARY - 1
    for name in imported(path):
        there = entry(name)
        assert there, f"{dotted(path)} imports the whole package; name the module it needs"
        assert there in LEVEL, f"{dotted(path)} imports {name}, which has no layer in the table"
        assert LEVEL[there] <= highest, f"{dotted(path)} reaches up to {name}"


@pytest.mark.parametrize(
    ("source", "names"),
    [
        ("import vorlib.views.plan", ["vorlib.views.plan"]),
        ("from vorlib import earth, angles", ["vorlib.earth", "vorlib.angles"]),
        ("from vorlib.earth import Position", ["vorlib.earth"]),
        ("def f():\n    from vorlib.server import serve", ["vorlib.server"]),
        ("from . import theme", ["vorlib.views"]),
        ("from .theme import INK", ["vorlib.views.theme"]),
        ("from ..earth import Position", ["vorlib.earth"]),
        ("import numpy as np\nfrom math import pi", []),
    ],
)
def test_every_way_of_importing_is_seen(source, names, tmp_path, monkeypatch):
    monkeypatch.setattr(sys.modules[__name__], "PACKAGE", tmp_path)
    (tmp_path / "views").mkdir()
    path = tmp_path / "views" / "plan.py"
    path.write_text(source)
    assert list(imported(path)) == names


def loaded_by(statement):
    """Return the names of the modules that a fresh interpreter holds after *statement*."""
    code = f"{statement}\nimport sys\nprint(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(run.stdout.split())


@pytest.mark.parametrize("heavy", ["matplotlib", "ipywidgets", "anywidget", "IPython", "pygeomag"])
def test_importing_the_library_loads_no_pictures_widgets_or_field_model(heavy):
    assert heavy not in loaded_by("import vorlib")


def test_the_help_appears_without_loading_the_server():
    assert "jupyter_server" not in loaded_by("import vorlib.cli")
