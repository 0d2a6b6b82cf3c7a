"""Work out what the indicator must have shown on a flight, and find what was done well or badly."""
