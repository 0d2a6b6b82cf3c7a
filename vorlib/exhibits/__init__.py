"""Exhibits for notebooks: controls, a picture that a hand can move, and one live sentence."""

from vorlib.exhibits.exhibit import Exhibit
from vorlib.exhibits.indicator import indicator

__all__ = ["Exhibit", "indicator"]
