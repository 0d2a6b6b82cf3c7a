"""The types that the library gives are those that come back, as a user's own mypy sees them."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

import vorlib as v

ROOT = Path(__file__).parents[2]
NOTEBOOK = ROOT / "notebooks" / "10_time_to_station.ipynb"

# Strict mypy also tells where an error that is expected here does not come.
USER = """
from typing import assert_type

import numpy as np
from numpy.typing import NDArray

import vorlib as v

Floats = NDArray[np.float64]

quillon = v.Station("QLN", v.Position(46, -30, 640), -9, 113.4)
one = quillon.position_on(214, 12.4, 4500)
many = quillon.position_on(np.linspace(0.0, 350.0, 36), 12.4, 4500)


def far(place: v.Position, places: v.Positions) -> tuple[float, float]:
    return quillon.distance_nm(place), float(quillon.distance_nm(places).max())


assert_type(one, v.Position[float])
assert_type(many, v.Positions)
assert_type(v.Position([46.0, 47.0], -30), v.Positions)
assert_type(one.lat_deg, float)
assert_type(many.lat_deg, Floats)
assert_type(quillon.radial_deg(one), float)
assert_type(quillon.radial_deg(many), Floats)
assert_type(quillon.slant_range_nm(one), float)
assert_type(quillon.slant_range_nm(many), Floats)
quillon.radial_deg(one).shape  # type: ignore[attr-defined]

reading = v.Receiver(course_deg=40).read(quillon, one)
assert_type(reading, v.Reading)
assert_type(reading.flag, v.Flag)
assert_type(reading.dots, float)
print(reading.flag.name, reading.reason)
readings = v.Receiver(course_deg=40).read(quillon, many)
assert_type(readings, v.Readings)
assert_type(readings.dots, Floats)
print((readings.flag == v.Flag.TO).sum(), readings.dots[readings.pegged])
assert_type(v.Receiver([40, 50]).read(quillon, one), v.Readings)
assert_type(v.Receiver([40, 50]).read(quillon, v.Position([46, 47], -31)), v.Readings)
readings.flag.name  # type: ignore[attr-defined]

assert_type(v.wrap_360(-10), float)
assert_type(v.wrap_360([-10, 20]), Floats)
assert_type(v.difference_deg(10, np.arange(3)), Floats)
assert_type(v.turn_radius_nm(100, 30), float)
assert_type(v.turn_radius_nm([100.0, 120.0], 30), Floats)
assert_type(v.cone_radius_nm(4000), float)
assert_type(v.intercept_angle_deg(15), float)
assert_type(v.is_reverse_sensing(220, 40, reading.flag), bool)
assert_type(v.wind_triangle(90, 120, 45, 40).heading_deg, float)
assert_type(v.wind_triangle(90, 120, [45, 50], 40).heading_deg, Floats)
assert_type(v.wind_from(160, 180, 175, 144), v.Wind[float])
assert_type(v.inverse(46, -30, 47, -31).distance_nm, float)
assert_type(v.inverse(46, -30, [46, 47], -31).distance_nm, Floats)
assert_type(v.direct(one, 40, 10), v.Position[float])
assert_type(v.direct(one, [40, 50], 10), v.Positions)
pelladine = v.Station("PLX", v.Position(46.4, -30.9), -10, 115.2)
line = pelladine, pelladine.radial_deg(one)
assert_type(v.fix_from_radials([(quillon, 214.0), line]), v.Position[float])
assert_type(v.fix_from_radials([(quillon, [214.0, 215.0]), line]), v.Positions)
"""


def readme() -> str:
    (example,) = re.findall(r"```python\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.S)
    lines = [line[4:] for line in example.splitlines() if line[:4] in (">>> ", "... ")]
    assert len(lines) >= 5
    return "\n".join(lines)


def notebook() -> str:
    cells = json.loads(NOTEBOOK.read_text("utf-8"))["cells"]
    return "\n".join("".join(cell["source"]) for cell in cells if cell["cell_type"] == "code")


def test_a_users_strict_mypy_is_content(tmp_path):
    programs = {"readme.py": readme(), "lesson.py": notebook(), "own.py": USER}
    for name, text in programs.items():
        (tmp_path / name).write_text(text + "\n", encoding="utf-8")
    # as of an installed package, whose own errors a user is not told
    command = [sys.executable, "-m", "mypy", "--strict", "--follow-imports=silent"]
    told = subprocess.run(
        [*command, "--config-file=", "--cache-dir=cache", *programs],
        cwd=tmp_path,
        env={**os.environ, "MYPYPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=300,
    )
    assert told.returncode == 0, told.stdout + told.stderr
    assert "no issues found in 3 source files" in told.stdout


def test_the_package_says_that_it_is_typed():
    assert (Path(v.__file__).parent / "py.typed").is_file()


def test_what_a_user_is_told_to_get_is_what_comes(capsys):
    with pytest.raises(AttributeError, match="has no attribute 'shape'"):
        exec(USER, {})
    exec(re.sub(r"^.*type: ignore.*$", "", USER, flags=re.M), {})
    assert capsys.readouterr().out.startswith("TO ")


QUILLON = v.Station("QLN", v.Position(46.0, -30.0, 640.0), -9.0, 113.4)


@pytest.mark.parametrize(
    "place",
    [
        v.Position(46.0, -30.0, [1000.0, 2000.0]),
        v.Position(46.0, [-30.0, -31.0]),
        v.Position([46.0, 47.0], [[-30.0], [-31.0]], 1000.0),
    ],
)
def test_everything_of_many_places_is_an_array_of_one_shape(place):
    values = [place.lat_deg, place.lon_deg, place.altitude_ft, *QUILLON.inverse(place)]
    values += [*vars(v.Receiver(40.0).read(QUILLON, place)).values(), QUILLON.height_ft(place)]
    assert {np.shape(value) for value in values} == {place.shape}
    assert all(isinstance(value, np.ndarray) for value in values)


def test_everything_of_one_place_is_a_plain_number():
    place = v.Position(np.float64(45.9), -30, np.int64(4500))
    values = [place.lat_deg, place.lon_deg, place.altitude_ft, *QUILLON.inverse(place)]
    reading = v.Receiver(np.int64(40)).read(QUILLON, place)
    assert {type(x) for x in (*values, reading.dots, reading.radial_deg)} == {float}
    assert (type(reading.flag), type(reading.reason)) == (v.Flag, v.Reason)
    assert type(reading.pegged) is bool


def test_winds_are_one_in_floats_or_many_in_arrays():
    winds = v.Wind(250.0, [10.0, 20.0])
    assert winds.from_deg.tolist() == [250.0, 250.0]
    assert type(v.wind_from(160, 180, 175, 144).from_deg) is float
