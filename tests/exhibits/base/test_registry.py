"""What notebooks call: found by itself, each exhibit with its numbers."""

import inspect
import sys

import pytest

from vorlib import exhibits as x
from vorlib.exhibits.base import registry
from vorlib.exhibits.base.registry import all_exhibits, find_names, offered
from vorlib.views.sentence import LINE

EVERY_EXHIBIT = pytest.mark.parametrize(
    "function", [entry.function for entry in all_exhibits().values()], ids=lambda f: f.__name__
)
TABLES = [name for name in x.__all__ if name.endswith("_table")]


def test_the_names_are_those_that_the_modules_register():
    assert set(all_exhibits()) < set(x.__all__)
    for name in x.__all__:
        assert callable(getattr(x, name)), name


def test_a_module_laid_in_the_package_is_found_by_itself(tmp_path, monkeypatch):
    monkeypatch.setattr(registry, "_exhibits", dict(registry._exhibits))
    monkeypatch.setattr(registry, "_names", dict(registry._names))
    (tmp_path / "turn_rate_of_a_test.py").write_text(
        "from vorlib.exhibits.base.registry import exhibit\n"
        "@exhibit(lesson='05', state=dict)\n"
        "def turn_rate(**start): return None\n"
    )
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setattr(registry, "import_module", lambda name: __import__(name.partition(".")[2]))
    assert "turn_rate" in find_names("anything", [str(tmp_path)])
    assert registry._exhibits["turn_rate"].lesson == "05"
    assert registry._exhibits["turn_rate"].function.case(bank_deg=20) == {"bank_deg": 20}
    del sys.modules["turn_rate_of_a_test"]


def test_no_two_modules_offer_one_name():
    with pytest.raises(ValueError, match="once, got 'intercept' again"):

        @offered
        def intercept():
            pass


def test_a_name_that_is_not_offered_is_said_to_be_missing():
    with pytest.raises(AttributeError, match="no attribute 'compass_rose'"):
        x.compass_rose  # noqa: B018


def test_an_exhibit_stays_a_function_with_its_own_text_and_arguments():
    assert x.intercept.__doc__.startswith("Return the exhibit of an intercept")
    assert next(iter(inspect.signature(x.intercept).parameters)) == "station"


@EVERY_EXHIBIT
def test_the_case_is_the_state_that_the_exhibit_starts_from(function):
    assert function.case() == function().state


@pytest.mark.parametrize(
    ("function", "arguments", "start"),
    [
        (x.intercept, ("TSX",), {"radial_deg": 95.0, "distance_nm": 14.0, "course_deg": 290.0}),
        (x.fix, ("QLN", "PLX", "HTX"), {"off_deg": 6.0}),
        (x.hidden_position, ("PLX",), {"seed": 5}),
        (x.signal, (248.0,), {"seconds": 0.2}),
        (x.receiver_check, ("two receivers", 2), {}),
        (x.flight, ("TSX",), {"start_radial_deg": 200.0}),
    ],
    ids=lambda value: getattr(value, "__name__", ""),
)
def test_the_case_takes_what_the_exhibit_takes(function, arguments, start):
    assert function.case(*arguments, **start) == function(*arguments, **start).state


def test_a_case_makes_no_widgets(monkeypatch):
    import ipywidgets

    monkeypatch.setattr(ipywidgets.Widget, "__init__", lambda *_, **__: pytest.fail("a widget"))
    for entry in all_exhibits().values():
        entry.function.case()


def test_a_case_refuses_what_the_exhibit_refuses():
    with pytest.raises(ValueError, match="station must be one of"):
        x.intercept.case("XXX")


def test_a_flown_case_can_be_looked_at_at_any_time():
    case = x.sensing.case()
    assert case.at(60.0).reading == case.replays[0][1].at(60.0).reading
    assert case.at(0.0).reading.radial_deg == pytest.approx(case.radial_deg)


@pytest.mark.parametrize("name", TABLES)
def test_every_table_has_rows_that_fit_a_cell(name):
    given = {"received_table": ("9MAR", 4500.0)}.get(name, ())
    rows = getattr(x, name)(*given).splitlines()
    assert len(rows) > 1
    assert max(map(len, rows)) <= LINE


def test_a_place_that_is_not_in_the_islands_is_answered_with_those_that_are():
    with pytest.raises(ValueError, match=r"station must be one of QLN, .*got 'XXX'"):
        x.station("XXX")
    with pytest.raises(ValueError, match=r"airfield must be one of 9.*got 'QLN'"):
        x.airfield("QLN")
