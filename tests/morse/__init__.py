"""Morse."""
