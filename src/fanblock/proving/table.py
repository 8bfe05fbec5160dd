"""A trial as a table: a row for each body, to be sorted and filtered in any spreadsheet, or read again as people."""

from __future__ import annotations

import csv
import io

from fanblock.proving.trial import Outcome, Trial
from fanblock.units import UNITS

_ASKS_TO_BE_WORKED_OUT = ("=", "+", "-", "@", "\t")


def table_csv(trial: Trial) -> str:
    """Return the table as comma-separated values: row, name, every measure, result, and what first went wrong."""
    units, measures = trial.people.units, trial.people.measures
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(["row", "name", *(f"{name} ({units})" for name in measures), "result", "code", "first cause"])
    for outcome in trial.outcomes:
        lengths = (_length(outcome, name, units) for name in measures)
        first = outcome.causes[0] if outcome.causes else None
        cause = (first.code, _text(first.says)) if first else ("", "")
        writer.writerow([outcome.person.row, _text(outcome.person.name), *lengths, outcome.state, *cause])
    return text.getvalue()


def _length(outcome: Outcome, name: str, units: str) -> str:
    if name not in outcome.person.values:
        return ""
    return f"{outcome.person.values[name] / UNITS[units]:.3f}".rstrip("0").rstrip(".")


def _text(text: str) -> str:
    """A cell that no spreadsheet takes for something to work out."""
    return f"'{text}" if text.startswith(_ASKS_TO_BE_WORKED_OUT) else text
