"""Elements of the training standard that the course serves: the one table of their codes.

Private Pilot ACS (FAA-S-ACS-6C), area VI, task B, navigation systems and radar services: only its
elements about ground stations. Their codes and their sense were read in a copy of an earlier
edition, at http://peterjungmann.com, and are the same in the one in force (at third hand).
"""

from types import MappingProxyType

EDITION = "Private Pilot ACS (FAA-S-ACS-6C), area VI, task B"
"""The standard of which the codes are; read in a copy of an earlier edition."""

GROUND_KNOWLEDGE = "PA.VI.B.K1"
DISTRACTION = "PA.VI.B.R2"
LIMITS = "PA.VI.B.R3"
LOST_SIGNAL = "PA.VI.B.R4"
USE = "PA.VI.B.S1"
POSITION = "PA.VI.B.S2"
TRACKING = "PA.VI.B.S3"
PASSAGE = "PA.VI.B.S4"
SIGNAL_LOSS = "PA.VI.B.S5"
HELD_IN_FLIGHT = "PA.VI.B.S7"

ELSEWHERE = "Other states have rules of their own."
"""Said with an answer that holds by a rule of the United States."""

STANDARD = MappingProxyType(
    {
        GROUND_KNOWLEDGE: "directions, equipment, its checks and rules",
        DISTRACTION: "distraction, and losing track of where you are",
        LIMITS: "the limits of the system in use",
        LOST_SIGNAL: "losing a signal",
        USE: "use of the indicator",
        POSITION: "finding the position",
        TRACKING: "intercepting and tracking",
        PASSAGE: "station passage",
        SIGNAL_LOSS: "the ident, and the loss of a signal",
        HELD_IN_FLIGHT: "altitude within 200 ft, heading within 15 degrees",
    }
)
"""What each element is about, in the words of the course."""

RISKS = (DISTRACTION, LIMITS, LOST_SIGNAL)
"""The elements of risk management, which decisions in flight serve and no check flight marks."""

ASKED = (GROUND_KNOWLEDGE, *RISKS, USE, POSITION, TRACKING, PASSAGE, SIGNAL_LOSS)
"""The elements that questions serve; what is held in flight shows in flight."""

ELEMENTS = MappingProxyType({code: STANDARD[code] for code in ASKED})
"""What the elements are about that questions serve."""

KINDS = MappingProxyType({"K": "Knowledge", "R": "Risk", "S": "Skill"})


def kind_of_element(code: str) -> str:
    """Return whether an element is "Knowledge", "Risk" or "Skill"."""
    return KINDS[code.rpartition(".")[2][0]]
