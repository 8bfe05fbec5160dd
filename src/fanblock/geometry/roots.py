"""Where a function of one number passes through nothing. The one place that uses scipy's root finding."""

from __future__ import annotations

from collections.abc import Callable


def root(function: Callable[[float], float], low: float, high: float) -> float:
    """Return where ``function`` is 0 between ``low`` and ``high``; ValueError when it has one sign at both.

    >>> round(root(lambda x: x * x - 2.0, 0.0, 2.0), 9)
    1.414213562
    """
    from scipy.optimize import brentq

    return float(brentq(function, low, high))


def first_below(function: Callable[[float], float], low: float, step: float, most: float) -> float | None:
    """Return the first of ``low``, ``low + step`` … up to ``most`` at which ``function`` is under 0; None without one."""
    at = low
    while at <= most:
        if function(at) < 0.0:
            return at
        at += step
    return None
