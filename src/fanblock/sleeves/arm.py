"""The arm a sleeve is drawn for: the measures it needs, and the sizes that they and a recipe's ease make."""

from __future__ import annotations

from dataclasses import dataclass

from fanblock.problems import GeometryError, Problem
from fanblock.units import format_length
from fanblock.wearer.body import Body

ELBOW, LONG = "elbow", "long"
"""Sleeves that end just below the elbow, and at the wrist."""

BELOW_ELBOW_MM = 45.0
"""How far below the elbow an elbow sleeve ends: 3 to 6 cm (from memory)."""

LEAST_BELOW_MM = 20.0
"""A sleeve that is bent at the elbow must reach at least so far below it."""

OVER_HAND_MM = 80.0
"""A sleeve may reach so far over the wrist onto the hand."""

TO_ELBOW = "shoulder to elbow"
ARM = ("upper arm", "elbow", "wrist", "arm length", TO_ELBOW)
"""The measures sleeves are drawn from, each guessed where it was not taken."""


@dataclass(frozen=True, slots=True)
class Ease:
    """What a sleeve has more than the arm, round the upper arm, the bent elbow and where it ends, in mm."""

    upper_mm: float
    elbow_mm: float
    hem_mm: float


@dataclass(frozen=True, slots=True)
class Size:
    """The sizes of a sleeve in mm: three girths, ease included; shoulder to elbow; elbow to hem."""

    width_mm: float
    elbow_mm: float
    hem_mm: float
    to_elbow_mm: float
    below_mm: float


def size_of(body: Body, length: str | float, ease: Ease) -> Size:
    """Return the sizes of a sleeve.

    ``length`` is ``elbow``, ``long`` or millimetres from the shoulder bone over the elbow to the hem. A hem above the wrist
    is as wide as the forearm there, between elbow and wrist. GeometryError for a length that does not reach below the
    elbow or runs over the hand.
    """
    to_elbow, arm = body.length_mm(TO_ELBOW), body.length_mm("arm length")
    forearm = arm - to_elbow
    if length == ELBOW:
        below = min(BELOW_ELBOW_MM, forearm)
    else:
        below = forearm if isinstance(length, str) else length - to_elbow
    _check_length(body, below, forearm)
    elbow = body.length_mm("elbow")
    share = min(below / forearm, 1.0)
    there = elbow + share * (body.length_mm("wrist") - elbow)
    return Size(
        body.length_mm("upper arm") + ease.upper_mm, elbow + ease.elbow_mm, there + ease.hem_mm, to_elbow, below
    )


def _check_length(body: Body, below_mm: float, forearm_mm: float) -> None:
    if below_mm < LEAST_BELOW_MM:
        what = "it ends above the elbow, or hardly below it."
        remedy = f"Make it {format_length(LEAST_BELOW_MM - below_mm, body.units)} longer at least."
        raise GeometryError([Problem("sleeve-short", "length", what, remedy)])
    if below_mm > forearm_mm + OVER_HAND_MM:
        what = f"it runs {format_length(below_mm - forearm_mm, body.units)} past the wrist."
        raise GeometryError([Problem("sleeve-long", "length", what, "Shorten it, or measure the arm again.")])


def guessed(body: Body, length: str | float) -> tuple[str, ...]:
    """Return the measures that a sleeve of this length is drawn from and nobody took; an elbow sleeve needs no wrist."""
    return tuple(name for name in ARM if name in body.guessed and (name != "wrist" or length != ELBOW))
