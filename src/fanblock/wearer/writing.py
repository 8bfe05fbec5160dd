"""A wearer written as a file that reads back to the same wearer."""

from __future__ import annotations

import json
from collections.abc import Iterator

from fanblock.units import UNITS
from fanblock.wearer.measures import MEASURES
from fanblock.wearer.model import MAY_DIFFER_MM, Measures, Tilt, Wearer
from fanblock.wearer.reading import FORMAT

_DECIMALS = 4


def wearer_text(wearer: Wearer, heading: str = "") -> str:
    """Return the text of a wearer's file, its lengths in the wearer's units; ``heading`` is a comment at its top."""
    return "\n".join(_lines(wearer, heading)) + "\n"


def _lines(wearer: Wearer, heading: str) -> Iterator[str]:
    if heading:
        yield from (f"# {line}".rstrip() for line in heading.splitlines())
    yield f"wearer: {FORMAT}"
    yield f"name: {_quoted(wearer.name)}"
    yield f"units: {wearer.units}"
    if wearer.may_differ_mm != MAY_DIFFER_MM:
        yield f"halves may differ: {_length(wearer.may_differ_mm, wearer.units)}"
    if len(wearer.sets) == 1:
        yield from _set(wearer.sets[0], wearer.units, "")
    else:
        yield "sets:"
        for measures in wearer.sets:
            first, *rest = _set(measures, wearer.units, "")
            yield f"  - {first}"
            yield from (f"    {line}" for line in rest)
    if wearer.figure:
        yield "figure:"
        yield from (f"  - tilt: {tilt_text(tilt, wearer.units)}" for tilt in wearer.figure)
    if wearer.notes:
        yield "notes:"
        yield from (f"  - {_quoted(note)}" for note in wearer.notes)


def _set(measures: Measures, units: str, indent: str) -> Iterator[str]:
    on = f"on: {measures.taken_on}, " if measures.taken_on else ""
    yield f"{indent}taken: {{{on}over: {measures.over}}}"
    yield f"{indent}measures:"
    for name in (name for name in MEASURES if name in measures.values):
        yield f"{indent}  {name}: {_value(measures, name, units)}"


def _value(measures: Measures, name: str, units: str) -> str:
    if name not in measures.sides:
        return _length(measures.values[name], units)
    left, right = (_length(mm, units) for mm in measures.sides[name])
    return f"{{left: {left}, right: {right}}}"


def tilt_text(tilt: Tilt, units: str) -> str:
    """Return a correction of the figure as a wearer's file writes it, its length in these units."""
    if tilt.half:
        return f"{{at: {tilt.at}, take: {_length(tilt.take_mm, units)}, side: {tilt.half}}}"
    to = f", to: {tilt.to}" if tilt.to else f", height: {_number(100.0 * tilt.height_ratio)}%"
    return f"{{at: {tilt.at}, take: {_length(tilt.take_mm, units)}{to}}}"


def _length(mm: float, units: str) -> str:
    return f"{_number(mm / UNITS[units])} {units}"


def _number(value: float) -> str:
    text = f"{value:.{_DECIMALS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
