"""What a pilot works out: position, course, intercept, tracking, time, fix."""
