"""Sensing: whether the needle points to the course line or away from it."""

from typing import overload

from numpy.typing import ArrayLike

from vorlib.core.angles import difference_deg
from vorlib.core.arguments import BoolArray, finite


@overload
def is_reverse_sensing(heading_deg: float, course_deg: float, flag: int) -> bool: ...
@overload
def is_reverse_sensing(
    heading_deg: ArrayLike, course_deg: ArrayLike, flag: ArrayLike
) -> BoolArray: ...
def is_reverse_sensing(
    heading_deg: ArrayLike, course_deg: ArrayLike, flag: ArrayLike
) -> bool | BoolArray:
    """Return whether someone flying the selected course or its reciprocal sees the needle reversed.

    True when heading and selected course are more than 90 degrees apart: then a needle to the
    left means that the course lies to the right. The flag decides nothing about the side, but
    with it OFF there is no sensing to speak of, and the answer is False.

    Parameters
    ----------
    heading_deg, course_deg
        Magnetic degrees; any finite numbers, broadcast together.
    flag
        `vorlib.Flag` or an array of its values.

    Notes
    -----
    Source: Pilot's Handbook (FAA-H-8083-25C), chapter 16, tips on using the VOR (read in a copy):
    flying toward the station with FROM, or away with TO, reverses the needle.
    Common practice states it as heading against selected course, which this is.

    >>> is_reverse_sensing(220, 40, 1), is_reverse_sensing(50, 40, 1)
    (True, False)
    """
    apart = abs(difference_deg(heading_deg, course_deg))
    on = finite("flag", flag) != 0.0
    reverse: bool | BoolArray = (apart > 90.0) & on
    return reverse
