"""One name, one thing: a class or a constant is defined in one place of the package."""

import ast
from collections import defaultdict
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "vorlib"


@pytest.fixture(scope="module")
def bodies():
    """Return the statements at the top of each module, by the module's place."""
    return {
        str(path.relative_to(PACKAGE)): ast.parse(path.read_text(encoding="utf-8")).body
        for path in sorted(PACKAGE.rglob("*.py"))
    }


def assigned(statement):
    """Yield each name that a statement gives a value, and the value as it is written."""
    if isinstance(statement, ast.AnnAssign) and statement.value:
        targets, value = [statement.target], statement.value
    elif isinstance(statement, ast.Assign):
        targets, value = statement.targets, statement.value
    else:
        return
    for target in targets:
        if isinstance(target, ast.Name):
            yield target.id, ast.unparse(value)
        elif isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
            for name, part in zip(target.elts, value.elts, strict=True):
                yield ast.unparse(name), ast.unparse(part)


def repeated(places):
    """Return what stands in more than one place."""
    return {name: found for name, found in places.items() if len(found) > 1}


def test_no_two_classes_have_one_name(bodies):
    places = defaultdict(list)
    for module, body in bodies.items():
        for statement in body:
            if isinstance(statement, ast.ClassDef):
                places[statement.name].append(module)
    assert repeated(places) == {}


def test_a_constant_is_defined_once(bodies):
    # Of one name but with different values, as FARTHEST_NM, each belongs to its own module.
    places = defaultdict(list)
    for module, body in bodies.items():
        for statement in body:
            for name, value in assigned(statement):
                if name.isupper() and not value.startswith("TypeVar("):
                    places[f"{name} = {value}"].append(module)
    assert repeated(places) == {}


def test_no_field_of_a_frozen_object_is_overwritten():
    overwriting = [
        str(path.relative_to(PACKAGE))
        for path in PACKAGE.rglob("*.py")
        if "object.__setattr__" in path.read_text(encoding="utf-8")
    ]
    assert overwriting == []
