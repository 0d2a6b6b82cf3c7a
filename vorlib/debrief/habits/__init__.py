"""What a pilot does by habit: turns right and wrong, homing, stations not identified."""
