"""A change that changes nothing is a slip: what a recipe rewrote of its base must come out different.

Values are compared as they are read, so 2 cm in the place of 20 mm is no change.
"""

from __future__ import annotations

from typing import Any

from fanblock.recipe.changes import Rewritten
from fanblock.recipe.decode import decode_fields
from fanblock.recipe.dialreading import DialEntry
from fanblock.recipe.findings import FAULT, Findings
from fanblock.steps.table import BY_NAME
from fanblock.yamlfile import Table


def check_rewritten(rewritten: tuple[Rewritten, ...], findings: Findings) -> None:
    """Note every step and dial that is after its change what it was before."""
    for one in rewritten:
        read = _dial if one.is_dial else _step
        old, new = read(one.old, findings.scratch()), read(one.new, findings.scratch())
        if old == new and old is not FAULT:
            what = "that is what stands there already."
            findings.wrong("nothing-changed", one.where, what, "Take it out, or say what differs.", one.place)


def _dial(table: Table, scratch: Findings) -> Any:
    return decode_fields(table, DialEntry, "", scratch)


def _step(table: Table, scratch: Findings) -> Any:
    """Return the options of a step, whose class tells its kind, or FAULT."""
    entry = table.entries[0]
    if entry.name not in BY_NAME:
        return FAULT
    options = entry.value if isinstance(entry.value, Table) else Table((), entry.place)
    return decode_fields(options, BY_NAME[entry.name].options, "", scratch)
