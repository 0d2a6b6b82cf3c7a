"""Picture primitives, their layout, and the inks SVG and PDF."""
