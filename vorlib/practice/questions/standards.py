"""Elements of the training standard that questions serve.

Private Pilot ACS (FAA-S-ACS-6C), area VI, task B, navigation systems and radar services: only its
elements about ground stations. Their codes and their sense were read in a copy of an earlier
edition, at http://peterjungmann.com, and are the same in the one in force (at third hand). The
codes of risk management, and what they are about, are from memory.
"""

from types import MappingProxyType

GROUND_KNOWLEDGE = "PA.VI.B.K1"
USE = "PA.VI.B.S1"
POSITION = "PA.VI.B.S2"
TRACKING = "PA.VI.B.S3"
PASSAGE = "PA.VI.B.S4"
SIGNAL_LOSS = "PA.VI.B.S5"
DISTRACTION = "PA.VI.B.R2"
LIMITS = "PA.VI.B.R3"
LOST_SIGNAL = "PA.VI.B.R4"

ELSEWHERE = "Other states have rules of their own."
"""Said with an answer that holds by a rule of the United States."""

ELEMENTS = MappingProxyType(
    {
        GROUND_KNOWLEDGE: "directions, equipment, its checks and rules",
        USE: "use of the indicator",
        POSITION: "finding the position",
        TRACKING: "intercepting and tracking",
        PASSAGE: "station passage",
        SIGNAL_LOSS: "the ident, and the loss of a signal",
        DISTRACTION: "risk: distraction, and which task comes first",
        LIMITS: "risk: what the system in use cannot do",
        LOST_SIGNAL: "risk: a signal that is lost",
    }
)
"""What each element is about, in the words of the course."""
