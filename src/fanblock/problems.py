"""What is wrong, said so that a person can put it right.

A :class:`Problem` is data: a short code, the place in a file, where in the sense of the work
(``step 3 (seam) › spring``), what is wrong and what to do. Exceptions carry problems, all of one stage together;
their text is made from them.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A place in a text file; lines and columns count from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong: ``place: where › what What to do.``"""

    code: str
    where: str
    what: str
    remedy: str = ""
    place: Place | None = None

    def __str__(self) -> str:
        head = f"{self.place}: " if self.place else ""
        trail = f"{self.where} › " if self.where else ""
        return f"{head}{trail}{self.what} {self.remedy}".rstrip()


class FanblockError(Exception):
    """Root of all errors a maker can meet; carries every problem of the stage that failed."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(problems, key=_reading_order))
        super().__init__("\n".join(str(problem) for problem in self.problems))

    def __reduce__(self) -> tuple[type[FanblockError], tuple[tuple[Problem, ...]]]:
        return type(self), (self.problems,)


class WearerError(FanblockError):
    """The wearer file, or a measure in it, needs the maker's hand."""


class RecipeError(FanblockError):
    """The recipe, or a dial turned for it, needs its author's hand."""


class GarmentError(FanblockError):
    """The garment file, or the notes of a fitting, need the maker's hand."""


class GeometryError(FanblockError):
    """The recipe is well written but cannot be drawn on this body."""


class ExportError(FanblockError):
    """A sheet or file could not be written."""


def _reading_order(problem: Problem) -> tuple[str, int, int, str, str]:
    place = problem.place
    if place is None:
        return ("", 0, 0, problem.where, problem.what)
    return (place.file, place.line, place.column, problem.where, problem.what)


def nearest(word: str, legal: Iterable[str]) -> str:
    """Return a remedy that names the nearest legal words, or all of them when none is near.

    >>> nearest("wiast", ["waist", "bust", "hem"])
    'Did you mean “waist”?'
    >>> nearest("zzz", ["waist", "bust", "hem"])
    'Legal here: bust, hem, waist.'
    """
    names = sorted(legal)
    close = difflib.get_close_matches(word, names, n=3, cutoff=0.6)
    if close:
        return "Did you mean " + " or ".join(f"“{name}”" for name in close) + "?"
    return f"Legal here: {', '.join(names)}." if names else ""
