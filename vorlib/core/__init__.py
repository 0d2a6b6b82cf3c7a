"""Angles, units, checked arguments and words that every other room uses."""
