"""The names that `import vorlib` offers."""

import pytest

import vorlib as v


@pytest.mark.parametrize("name", v.__all__)
def test_every_public_name_is_there(name: str) -> None:
    assert getattr(v, name) is not None
    assert name in dir(v)


def test_an_unknown_name_is_refused_by_its_name() -> None:
    with pytest.raises(AttributeError, match="no attribute 'compass_rose'"):
        v.compass_rose  # noqa: B018
