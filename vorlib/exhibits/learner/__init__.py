"""Learner."""
