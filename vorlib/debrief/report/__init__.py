"""Report a debrief: in order, against the plan, beside another, second by second."""
