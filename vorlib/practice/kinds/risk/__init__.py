"""Decisions in flight, each with what becomes of it: the situations of risk management.

A module here is one situation. It makes its question with
`vorlib.practice.questions.decisions.decision`, and nothing else has to know of it.
"""
