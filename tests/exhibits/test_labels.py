"""The words of a picture: none hides another, and none is cut off, whatever is set."""

import pytest
from labels import collisions

from vorlib import exhibits
from vorlib.exhibits.base.registry import all_exhibits

STATES = 6  # a handful; `tests/tools/label_collisions.py` draws hundreds


@pytest.mark.parametrize("name", all_exhibits())
def test_no_two_texts_of_a_picture_overlap_and_none_leaves_it(name):
    assert list(collisions(getattr(exhibits, name)(), STATES, seed=7)) == []
