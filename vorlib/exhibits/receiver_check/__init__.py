"""Receiver check."""
