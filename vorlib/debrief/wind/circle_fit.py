"""The circle that velocities over the ground make about the wind, with how sure it is.

Least squares of the distances from the circle, in which velocities far from it do not count.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from vorlib.core.arguments import FloatArray

__all__ = ["LEG_S", "UNKNOWNS", "FittedCircle", "fit_circle"]

# Errors of half a minute hang together, so that only one velocity in so many counts.
TOGETHER_S = 30.0
LEAST_ERROR_KT = 0.5
BIWEIGHT = 4.685  # errors beyond so many standard deviations do not count (Tukey; from memory)
ROUNDS = 40
USUAL_KT, USUAL_LEGS = 1.5, 3  # by which the airspeed differs from leg to leg, and what that weighs
KNOWN_AIRSPEED_KT = 2.0  # how well an airspeed that is given is known

LEG_S = 30.0  # a direction counts when it was flown for so long
LEG_DEG = 20.0  # a leg ends when the track has turned so far from where it began
UNKNOWNS = 3  # wind north, wind east, airspeed


class FittedCircle(NamedTuple):
    """Center north and east, radius, their covariance, and the weight of each velocity, 0 to 1."""

    north_kt: float
    east_kt: float
    radius_kt: float
    covariance: FloatArray
    weight: FloatArray


def fit_circle(velocity: FloatArray, apart_s: float, airspeed: float | None) -> FittedCircle | None:
    """Return the circle that velocities make; None where they make none.

    Parameters
    ----------
    velocity
        North and east in knots, of shape (2, n), in the order of time.
    apart_s
        How many seconds each stands for.
    airspeed
        The radius in knots, if it is known.
    """
    circle = _fitted(velocity, apart_s, airspeed)
    return None if circle is None else _less_sure(circle, velocity, apart_s)


def _fitted(velocity: FloatArray, apart_s: float, airspeed: float | None) -> FittedCircle | None:
    north, east = velocity
    if airspeed is None:
        # Kasa's fit, linear in the center and what is left of the radius, begins the search.
        design = np.column_stack([2.0 * north, 2.0 * east, np.ones_like(north)])
        answer, *_ = np.linalg.lstsq(design, north**2 + east**2, rcond=None)
        at = np.array(
            [answer[0], answer[1], math.sqrt(max(answer[2] + answer[:2] @ answer[:2], 1))]
        )
        given, prior = 0.0, np.zeros(3)
    else:
        at = np.array([0.0, 0.0, airspeed])
        given, prior = airspeed, np.array([0.0, 0.0, KNOWN_AIRSPEED_KT**-2])
    count = max(TOGETHER_S / apart_s, 1.0)
    for _ in range(ROUNDS):
        away = np.hypot(north - at[0], east - at[1])
        error = away - at[2]
        scale = max(1.4826 * float(np.median(abs(error))), LEAST_ERROR_KT)
        weight = np.clip(1.0 - (error / (BIWEIGHT * scale)) ** 2, 0.0, None) ** 2
        slope = np.vstack([(north - at[0]) / away, (east - at[1]) / away, np.ones_like(away)])
        normal = (slope * weight) @ slope.T / (count * scale**2) + np.diag(prior)
        pull = (slope * weight) @ error / (count * scale**2) + prior * (given - at[2])
        if np.linalg.cond(normal) > 1e10:
            return None
        step = np.linalg.solve(normal, pull)
        at = at + step
        if np.abs(step).max() < 1e-6:
            break
    return FittedCircle(float(at[0]), float(at[1]), float(at[2]), np.linalg.inv(normal), weight)


def _less_sure(circle: FittedCircle, velocity: FloatArray, apart_s: float) -> FittedCircle:
    """Add the disagreement of the legs: a different airspeed on one is an error of the whole leg.

    A few legs may agree, or disagree, by chance: what is usual counts as much as some legs more.
    With three legs there is a circle through all of them, and nothing can disagree.
    """
    north, east = velocity[0] - circle.north_kt, velocity[1] - circle.east_kt
    away = np.hypot(north, east)
    slope = np.vstack([north / away, east / away, np.ones_like(away)])
    legs = [leg for leg in _legs(velocity, apart_s) if circle.weight[leg].mean() > 0.1]
    if len(legs) <= UNKNOWNS:
        return circle
    error = np.array([np.mean(away[leg]) - circle.radius_kt for leg in legs])
    slopes = np.array([slope[:, leg].mean(axis=1) for leg in legs])
    normal = slopes.T @ slopes
    if np.linalg.cond(normal) > 1e10:
        return circle
    usual = USUAL_LEGS * USUAL_KT**2
    variance = (float(error @ error) + usual) / (len(legs) - UNKNOWNS + USUAL_LEGS)
    return circle._replace(covariance=circle.covariance + variance * np.linalg.inv(normal))


def _legs(velocity: FloatArray, apart_s: float) -> list[slice]:
    """Return the legs flown in one direction for some time."""
    track = np.unwrap(np.degrees(np.arctan2(velocity[1], velocity[0])), period=360.0).tolist()
    edges = [0]
    for i, direction in enumerate(track):
        if abs(direction - track[edges[-1]]) > LEG_DEG:
            edges.append(i)
    edges.append(len(track))
    return [slice(a, b) for a, b in pairwise(edges) if (b - a) * apart_s >= LEG_S]
