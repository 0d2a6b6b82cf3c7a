"""Exhibits for notebooks: controls, a picture that a hand can move, and one live sentence."""

from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.debrief.exhibit import Debriefing, debrief_flight
from vorlib.exhibits.flown_by_hand.exhibit import flight
from vorlib.exhibits.instructor.class_results import ClassExhibit, class_results
from vorlib.exhibits.instructor.prepare import Preparation, prepare
from vorlib.exhibits.instructor.worksheets import Worksheets, worksheets
from vorlib.exhibits.learner.practice import Practice, practice
from vorlib.exhibits.learner.predict import Prediction, predict
from vorlib.exhibits.maneuvers.homing import homing
from vorlib.exhibits.maneuvers.intercept import intercept
from vorlib.exhibits.maneuvers.sensing import sensing
from vorlib.exhibits.maneuvers.tracking import tracking
from vorlib.exhibits.position.crossing import crossing
from vorlib.exhibits.position.fix import fix
from vorlib.exhibits.position.hidden_position import hidden_position
from vorlib.exhibits.position.indicator import indicator
from vorlib.exhibits.position.radials import radials
from vorlib.exhibits.position.setup import setup
from vorlib.exhibits.position.timing import timing
from vorlib.exhibits.receiver_check.exhibit import receiver_check
from vorlib.exhibits.signal.ident import IdentPractice, Sound, ident, listen
from vorlib.exhibits.signal.signal import signal

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
