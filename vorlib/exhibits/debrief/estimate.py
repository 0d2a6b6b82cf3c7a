"""What was selected on a flight, estimated from its track alone, as the notebook prints it."""

from vorlib.debrief.selection_estimate import estimate_selections
from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.debrief.state import DebriefState
from vorlib.exhibits.learner.tell import tell
from vorlib.stations.archipelago import STATIONS

__all__ = ["tell_estimate"]


@offered
def tell_estimate(state: DebriefState) -> None:
    """Print what is likely to have been selected among the stations of the islands."""
    for sentence in estimate_selections(state.debrief.flight, STATIONS.values()).words:
        tell(sentence, hang=2)
