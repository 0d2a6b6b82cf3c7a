"""The rules for receiver checks as data: kinds of check, limits and paragraphs.

Another country's table is one more `Rules` in `RULE_BOOKS`. For training on the ground: the rule
in force comes first.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from vorlib.core.arguments import ArgumentError, not_negative


@dataclass(frozen=True)
class CheckKind:
    """A kind of check.

    Attributes
    ----------
    name
        What it is called in a sentence.
    limit_deg
        Greatest error, or difference of two receivers, that passes; either way.
    airborne
        Whether it is made in flight.
    compares_receivers
        Whether two receivers are held against each other rather than one against a known radial.
    to_do
        What must be done and observed, step by step.
    paragraph
        Where the rule says so.
    """

    name: str
    limit_deg: float
    airborne: bool
    compares_receivers: bool
    to_do: tuple[str, ...]
    paragraph: str

    def __post_init__(self) -> None:
        not_negative("limit_deg", self.limit_deg, "degrees")


@dataclass(frozen=True)
class Rules:
    """One country's rules for receiver checks, as data.

    Attributes
    ----------
    name
        The rule.
    valid_days
        For how many days after its date a check holds.
    valid_paragraph, log_paragraph
        Where the rule says how long, and what the log must hold.
    kinds
        The kinds of check by key.
    """

    name: str
    valid_days: int
    valid_paragraph: str
    log_paragraph: str
    kinds: Mapping[str, CheckKind]

    def kind(self, key: str) -> CheckKind:
        """Return a kind of check, or raise ValueError that lists those there are."""
        if key not in self.kinds:
            raise ArgumentError(
                f"kind must be one of {', '.join(self.kinds)}, got {key!r}", argument="kind"
            )
        return self.kinds[key]


# Of the United States: 14 CFR 91.171, paragraphs (a) and (b) read in a copy, (c) and (d) read in a
# quotation. TO and FROM of a test signal, and its ident: AIM 1-1-4 b (read in a copy).
RULES = Rules(
    name="14 CFR 91.171",
    valid_days=30,
    valid_paragraph="14 CFR 91.171(a)(2)",
    log_paragraph="14 CFR 91.171(d)",
    kinds=MappingProxyType(
        {
            "test signal": CheckKind(
                "test signal check",
                4.0,
                airborne=False,
                compares_receivers=False,
                to_do=(
                    "On the ground at the field, tune the test signal (VOT).",
                    "Hear its ident: a row of dots, or a steady tone.",
                    "Center the needle: near 360 with FROM, or near 180 with TO.",
                    "Error = ring less 360 with FROM, ring less 180 with TO.",
                ),
                paragraph="14 CFR 91.171(b)(1)",
            ),
            "ground checkpoint": CheckKind(
                "ground checkpoint check",
                4.0,
                airborne=False,
                compares_receivers=False,
                to_do=(
                    "Taxi to the marked checkpoint; stop on it.",
                    "Tune the station and identify it.",
                    "Center the needle with FROM and read the ring.",
                    "Error = ring less the published radial.",
                ),
                paragraph="14 CFR 91.171(b)(2)",
            ),
            "airborne checkpoint": CheckKind(
                "airborne checkpoint check",
                6.0,
                airborne=True,
                compares_receivers=False,
                to_do=(
                    "Only where the ground offers no test signal or checkpoint.",
                    "Tune and identify. Fly over the published point.",
                    "Over it, center the needle with FROM and read the ring.",
                    "Error = ring less the published radial.",
                ),
                paragraph="14 CFR 91.171(b)(3)",
            ),
            "airway": CheckKind(
                "airway check",
                6.0,
                airborne=True,
                compares_receivers=False,
                to_do=(
                    "Only where there is neither signal nor checkpoint.",
                    "Choose the radial along an airway's center line and a landmark on it, "
                    "better more than 20 NM out.",
                    "Fly low over the landmark, center with FROM, read the ring.",
                    "Error = ring less the published radial.",
                ),
                paragraph="14 CFR 91.171(b)(4)",
            ),
            "two receivers": CheckKind(
                "two-receiver check",
                4.0,
                airborne=False,
                compares_receivers=True,
                to_do=(
                    "Two receivers that share at most the antenna.",
                    "Tune both to the same station and identify it on both.",
                    "Center each needle, both with TO or both with FROM.",
                    "Difference = one ring less the other.",
                ),
                paragraph="14 CFR 91.171(c)",
            ),
        }
    ),
)

RULE_BOOKS: Mapping[str, Rules] = MappingProxyType({rules.name: rules for rules in (RULES,)})
"""Every table of rules, by its name."""
