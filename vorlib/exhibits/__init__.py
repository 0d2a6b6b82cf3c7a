"""Exhibits for notebooks: controls, a picture that a hand can move, and one live sentence."""

from vorlib.exhibits.class_results import ClassExhibit, class_results
from vorlib.exhibits.crossing import crossing
from vorlib.exhibits.debrief import Debriefing, debrief_flight
from vorlib.exhibits.exhibit import Exhibit
from vorlib.exhibits.fix import fix
from vorlib.exhibits.flight import flight
from vorlib.exhibits.hidden import hidden_position
from vorlib.exhibits.homing import homing
from vorlib.exhibits.ident import IdentPractice, Sound, ident, listen
from vorlib.exhibits.indicator import indicator
from vorlib.exhibits.intercept import intercept
from vorlib.exhibits.practice import Practice, practice
from vorlib.exhibits.predict import Prediction, predict
from vorlib.exhibits.prepare import Preparation, prepare
from vorlib.exhibits.radials import radials
from vorlib.exhibits.receiver_check import receiver_check
from vorlib.exhibits.sensing import sensing
from vorlib.exhibits.setup import setup
from vorlib.exhibits.signal import signal
from vorlib.exhibits.timing import timing
from vorlib.exhibits.tracking import tracking
from vorlib.exhibits.worksheets import Worksheets, worksheets

__all__ = [
    "ClassExhibit",
    "Debriefing",
    "Exhibit",
    "IdentPractice",
    "Practice",
    "Prediction",
    "Preparation",
    "Sound",
    "Worksheets",
    "class_results",
    "crossing",
    "debrief_flight",
    "fix",
    "flight",
    "hidden_position",
    "homing",
    "ident",
    "indicator",
    "intercept",
    "listen",
    "practice",
    "predict",
    "prepare",
    "radials",
    "receiver_check",
    "sensing",
    "setup",
    "signal",
    "timing",
    "tracking",
    "worksheets",
]
