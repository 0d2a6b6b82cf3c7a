"""The instructor's round: what the course knows of a lesson, put together for whoever teaches it.

The training standard's elements by code stand in `vorlib.practice.questions.standards`.
"""
