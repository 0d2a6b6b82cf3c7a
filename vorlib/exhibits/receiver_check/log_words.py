"""The limits of the receiver checks, and the log, as the lesson prints them."""

from vorlib.exhibits.base.registry import offered
from vorlib.receiver_check.check import (
    LogEntry,
    days_left,
    judge,
    read_date,
    receivers_apart_deg,
)
from vorlib.receiver_check.log import page
from vorlib.receiver_check.rules import RULES
from vorlib.stations.archipelago import TODAY
from vorlib.views.error_band import error_band

__all__ = ["check_limits_table", "log_entry", "log_page"]

for function in (days_left, error_band, judge, read_date, receivers_apart_deg):
    offered(function)


@offered
def check_limits_table() -> str:
    """Return every kind of check with its limit and the paragraph that sets it."""
    kinds = RULES.kinds.values()
    rows = (f"{kind.name:26} {kind.limit_deg:g} degrees   {kind.paragraph}" for kind in kinds)
    return "\n".join(rows)


@offered
def log_entry(
    kind: str, place: str, error_deg: float, signature: str, made_on: str = TODAY.isoformat()
) -> LogEntry:
    """Return a check as the log has it, written down on the day it was made."""
    day = read_date(made_on)
    return LogEntry(day, place, kind, error_deg, signature, day)


@offered
def log_page(*entries: LogEntry) -> str:
    """Return a page of the log as it stands today."""
    return page(entries, TODAY)
