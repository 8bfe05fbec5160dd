"""Ways to measure a block that share nothing with the code that draws it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import mpmath
import numpy as np
import pytest
from numpy.typing import NDArray

from fanblock.block.ruled import Block

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Rolled:
    """A half sheet rolled up into half a body, and what a tape shows on that body."""

    points: Array
    waist_mm: float
    bust_mm: float
    upright_mm: float
    closes_mm: float
    height_mm: float


@pytest.fixture(scope="session")
def arc_length() -> Callable[[Block, float], float]:
    """Length of a half level by adaptive quadrature (mpmath) over its drawn points only."""

    def length(block: Block, height: float) -> float:
        step = 1e-4

        def speed(around: mpmath.mpf) -> float:
            ahead, behind = block.at(np.array([float(around) + step, float(around) - step]), height)
            return float(np.hypot(*(ahead - behind))) / (2.0 * step)

        side = block.side_ratio
        return float(mpmath.quad(speed, [0.0, side, 1.0], maxdegree=3))

    return length


@pytest.fixture(scope="session")
def roll_up() -> Callable[..., Rolled]:
    """Roll a fan's drawn points up into a solid cone and put a tape round it.

    The apex is found where the drawn centre lines cross; the sheet's whole angle becomes half a turn
    about the cone's axis. A sheet whose centre lines are parallel is rolled into a tube.
    """

    def rolled(block: Block, fine: int = 400) -> Rolled:
        around, height = np.meshgrid(np.linspace(0.0, 1.0, fine + 1), np.linspace(0.0, 1.0, 5), indexing="ij")
        flat = block.at(around, height)
        z = flat[..., 0] + 1j * flat[..., 1]
        front, back = z[0, -1] - z[0, 0], z[-1, -1] - z[-1, 0]
        crossing = (front.conjugate() * back).imag
        if abs(crossing) < 1e-9 * abs(front * back):
            girth = abs(z[-1, 0] - z[0, 0])
            radius, turned = girth / np.pi, (z - z[0, 0]).real * np.pi / girth
            solid = np.stack((radius * np.cos(turned), radius * np.sin(turned), z.imag), axis=-1)
        else:
            apex = z[0, 0] + front * ((z[-1, 0] - z[0, 0]).conjugate() * back).imag / crossing
            whole = np.angle((z[0, 0] - apex) / (z[-1, 0] - apex))
            far = np.abs(z - apex)
            sine = abs(whole) / np.pi
            turned = np.angle((z[0, :1] - apex) / (z - apex)) / whole * np.pi
            up = np.sqrt(1.0 - sine**2) * far
            solid = np.stack((sine * far * np.cos(turned), sine * far * np.sin(turned), up), axis=-1)
        ring = np.hypot(solid[..., 0], solid[..., 1])
        assert np.ptp(ring, axis=0).max() < 1e-6, "a level does not lie on one circle of the body"
        near = np.abs(np.diff(z, axis=0))
        solid_near = np.linalg.norm(np.diff(solid, axis=0), axis=-1)
        assert np.abs(near - solid_near).max() < 1e-3, "rolling up stretches the sheet"
        return Rolled(
            points=solid,
            waist_mm=float(2.0 * np.pi * ring[:, 0].mean()),
            bust_mm=float(2.0 * np.pi * ring[:, -1].mean()),
            upright_mm=float(np.linalg.norm(solid[0, -1] - solid[0, 0])),
            closes_mm=float(np.abs(solid[[0, -1], :, 1]).max()),
            height_mm=float(abs(solid[0, -1, 2] - solid[0, 0, 2])),
        )

    return rolled


@pytest.fixture(scope="session")
def apart() -> Callable[[Array, Array], float]:
    """How far two sets of points stand apart at most when one is laid on the other as well as it will go."""

    def most(one: Array, other: Array) -> float:
        p, q = ((a[..., 0] + 1j * a[..., 1]).ravel() for a in (one, other))
        p, q = p - p.mean(), q - q.mean()
        turn = np.vdot(q, p)
        return float(np.abs(p - q * turn / abs(turn)).max())

    return most
