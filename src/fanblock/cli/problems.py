"""Problems told to a person or to a machine."""

from __future__ import annotations

from typing import Any

from fanblock.cli.screen import say_document, tell
from fanblock.problems import FanblockError, Problem


def tell_problems(error: FanblockError, machine: bool) -> None:
    """Tell every problem of an error: a line each beside the answer, or one JSON document as the answer."""
    if machine:
        say_document({"problems": [problem_record(problem) for problem in error.problems]})
    else:
        tell(str(error))


def problem_record(problem: Problem) -> dict[str, Any]:
    """Return a problem as plain data; ``file``, ``line`` and ``column`` are null where there is no place."""
    place = problem.place
    return {
        "code": problem.code,
        "where": problem.where,
        "what": problem.what,
        "remedy": problem.remedy,
        "file": place.file if place else None,
        "line": place.line if place else None,
        "column": place.column if place else None,
    }
