"""Receiver."""
