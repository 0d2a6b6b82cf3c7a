"""Questions about decisions in flight, each with its outcome: risk management.

A module here is one situation. It makes its question with
`vorlib.practice.questions.decisions.decision`, and nothing else has to know of it.
"""
