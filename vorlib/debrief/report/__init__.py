"""A debrief as it is told: in order, against the plan, beside another, second by second."""
