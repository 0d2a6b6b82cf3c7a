"""What a task of a lesson is made of."""

from __future__ import annotations

from dataclasses import dataclass

from vorlib.earth.geodesic import Position

__all__ = ["Answer", "Task"]


@dataclass(frozen=True)
class Answer:
    """One thing to find, and what is expected."""

    question: str
    expected: str


@dataclass(frozen=True)
class Task:
    """A task for the air.

    Attributes
    ----------
    title, brief
        What is to be done.
    answers
        What is to be found, with what is expected; none if it cannot be flown.
    way
        The places between which it is flown, in straight legs.
    ground
        The highest ground along it, in words; empty without elevation data.
    """

    title: str
    brief: str
    answers: tuple[Answer, ...]
    way: tuple[Position, ...] = ()
    ground: str = ""
