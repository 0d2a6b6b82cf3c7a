"""What a pilot does by habit: turns right and wrong, homing, idents not taken."""
