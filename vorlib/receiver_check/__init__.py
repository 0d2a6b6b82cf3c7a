"""Receiver checks: rules, verdict, error budget and log."""
