"""The record of a student's training on the ground: what was covered, and how it went."""
