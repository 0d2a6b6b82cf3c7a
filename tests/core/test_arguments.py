"""A refused argument is named, in words and for a program."""

import pickle

import numpy as np
import pytest

from vorlib.core.arguments import (
    ArgumentError,
    broadcast_shape,
    finite,
    not_negative,
    positive,
    within,
)
from vorlib.io.text import FileError


@pytest.mark.parametrize(
    "refuse",
    [
        lambda: finite("course_deg", np.nan),
        lambda: finite("course_deg", "north"),
        lambda: within("course_deg", [10.0, 400.0], 0.0, 360.0, "degrees"),
        lambda: not_negative("course_deg", -1, "degrees"),
        lambda: positive("course_deg", 0, "degrees"),
    ],
)
def test_a_refusal_carries_the_name_of_the_argument(refuse):
    with pytest.raises(ArgumentError, match=r"^course_deg must be") as refusal:
        refuse()
    assert refusal.value.argument == "course_deg"


def test_shapes_that_do_not_fit_are_all_named():
    with pytest.raises(ArgumentError, match=r"there \(2,\), course_deg \(3,\)") as refusal:
        broadcast_shape(there=np.zeros(2), course_deg=np.zeros(3))
    assert refusal.value.argument == "there"


@pytest.mark.parametrize(
    "error",
    [
        ArgumentError("dots must be 5", argument="dots"),
        FileError("line 1", "line 2", argument="columns"),
    ],
)
def test_a_refusal_outlives_its_process(error):
    again = pickle.loads(pickle.dumps(error))
    assert (type(again), str(again), vars(again)) == (type(error), str(error), vars(error))
