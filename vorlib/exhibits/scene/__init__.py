"""An aircraft at a station: its controls and grips, the wind, and the figures beside it."""
