"""A garment file read into a garment, or refused with everything that is wrong with it."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal

from fanblock.draft.altering import Alteration, RaiseEdge, SpringMore, TakeMore
from fanblock.garment.model import FORMAT, Change, Cloth, Garment
from fanblock.problems import GarmentError, Problem
from fanblock.recipe.decode import decode_fields, place_of
from fanblock.recipe.findings import FAULT, Findings
from fanblock.recipe.phrase import Vocabulary
from fanblock.recipe.reading import MEASURE_NAMES
from fanblock.terms import Length, Share
from fanblock.units import UNITS, shown, typed_length
from fanblock.yamlfile import Table, Text, read_yaml

NARROWEST_MM, WIDEST_MM = 150.0, 4000.0
"""Widths of cloth that are believed: a ribbon is narrower, stage canvas wider (from memory)."""

MOST_SHRINKING = 0.2
"""Cloth that loses more than a fifth is felted, not washed (from memory)."""

MOST_DRAFTS = 99

_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


@dataclass(frozen=True, slots=True)
class _Shrinking:
    warp: Share = field(default=Share(0.0), metadata={"for": "along the selvedge"})
    weft: Share = field(default=Share(0.0), metadata={"for": "from selvedge to selvedge"})


@dataclass(frozen=True, slots=True)
class _Cloth:
    width: Length | Share = field(metadata={"for": "from selvedge to selvedge"})
    shrinks: _Shrinking = field(default=_Shrinking(), metadata={"for": "what washing takes of it"})
    nap: bool = field(default=False, metadata={"for": "whether all pieces must lie the same way up"})
    repeat: Length | Share = field(default=Length(0.0), metadata={"for": "height of a pattern that is to be matched"})
    selvedge: Length | Share = field(default=Length(10.0), metadata={"for": "kept free along both edges"})
    folded: bool = field(default=False, metadata={"for": "whether it is cut doubled, two pieces at once"})


@dataclass(frozen=True, slots=True)
class _Change:
    take: TakeMore | None = None
    spring: SpringMore | None = None
    raised: RaiseEdge | None = None
    draft: int = 1
    because: str = ""
    on: str = ""
    half: Literal["left", "right", "both"] = "both"


@dataclass(frozen=True, slots=True)
class _Top:
    garment: object = field(metadata={"for": f"the format number, {FORMAT}"})
    wearer: str = field(metadata={"for": "a demo wearer, or a wearer file by its path from this file's folder"})
    recipe: str = field(metadata={"for": "a shipped recipe's id, or a recipe file by its path from this file's folder"})
    name: str = ""
    draft: int = 1
    units: Literal["mm", "cm", "in"] | None = None
    over: Literal["shift", "stays"] | None = None
    dials: Mapping[str, str] = field(default_factory=dict)
    cloth: Mapping[str, _Cloth] = field(default_factory=dict)
    changes: tuple[_Change, ...] = ()
    notes: tuple[str, ...] = ()


def read_garment(text: str | bytes, file: str) -> Garment:
    """Return the garment that a file's text holds; ``file`` is its name in messages.

    The wearer and the recipe it names are not opened. Raises GarmentError with all problems.
    """
    table = read_yaml(text, file, GarmentError)
    _check_format(table)
    units = table.get("units")
    unit = units.text.strip() if isinstance(units, Text) and units.text.strip() in UNITS else ""
    findings = Findings(Vocabulary(units=unit, measures=MEASURE_NAMES))
    top = decode_fields(table, _Top, "", findings)
    garment = None if top is FAULT else _garment(top, table, findings)
    if garment is None or findings.problems:
        raise GarmentError(findings.problems)
    return garment


def _check_format(table: Table) -> None:
    entry = table.entry("garment")
    if entry is None:
        if other := table.entry("wearer") or table.entry("recipe"):
            says = f"this file is a {other.name}, not a garment."
            raise GarmentError(
                [
                    Problem(
                        "garment-format",
                        other.name,
                        says,
                        "Name a recipe after a wearer, or give a garment's file here.",
                        other.place,
                    )
                ]
            )
        says = "the file does not say that it is a garment."
        raise GarmentError([Problem("garment-format", "", says, f"Begin it with `garment: {FORMAT}`.", table.place)])
    number = entry.value.whole_number if isinstance(entry.value, Text) else None
    if number != FORMAT:
        says = f"the format number is not {FORMAT}, which is what this fanblock reads."
        raise GarmentError([Problem("garment-format", "garment", says, f"Write `garment: {FORMAT}`.", entry.place)])


def _garment(top: _Top, table: Table, findings: Findings) -> Garment:
    if not 1 <= top.draft <= MOST_DRAFTS:
        what = f"got {top.draft}, needs a number from 1 to {MOST_DRAFTS}."
        findings.wrong("garment", "draft", what, "", place_of(table, "draft", table.place))
    cloth = {layer: _cloth(layer, spec, table, findings) for layer, spec in top.cloth.items()}
    changes = [_change(number, spec, table, findings) for number, spec in enumerate(top.changes, 1)]
    return Garment(
        wearer=top.wearer,
        recipe=top.recipe,
        name=top.name,
        draft=top.draft,
        over=top.over or "",
        dials=MappingProxyType(dict(top.dials)),
        cloth=MappingProxyType(cloth),
        changes=tuple(change for change in changes if change is not None),
        notes=top.notes,
    )


def _cloth(layer: str, spec: _Cloth, table: Table, findings: Findings) -> Cloth:
    place = place_of(table, "cloth", table.place)
    width, repeat, selvedge = (
        one.mm if isinstance(one, Length) else math.nan for one in (spec.width, spec.repeat, spec.selvedge)
    )
    for key, value, least, most in (
        ("width", width, NARROWEST_MM, WIDEST_MM),
        ("repeat", repeat, 0.0, WIDEST_MM),
        ("selvedge", selvedge, 0.0, width / 4.0),
    ):
        if not least <= value <= most and not math.isnan(most):
            got = "a share" if math.isnan(value) else f"{value:.0f} mm"
            what = f"got {got}, needs {least:.0f} to {most:.0f} mm."
            findings.wrong("garment-cloth", f"cloth › {layer} › {key}", what, "", place)
    for key, share in (("warp", spec.shrinks.warp), ("weft", spec.shrinks.weft)):
        if not 0.0 <= share.ratio <= MOST_SHRINKING:
            what = f"got {share.ratio:.0%}, needs 0 % to {MOST_SHRINKING:.0%}."
            findings.wrong("garment-cloth", f"cloth › {layer} › shrinks › {key}", what, "", place)
    return Cloth(
        width_mm=width,
        warp_shrinks=spec.shrinks.warp.ratio,
        weft_shrinks=spec.shrinks.weft.ratio,
        nap=spec.nap,
        repeat_mm=repeat,
        selvedge_mm=selvedge,
        folded=spec.folded,
        written=_written(layer, table, findings.vocabulary.units),
    )


def _written(layer: str, table: Table, units: str) -> str:
    """The width of a layer's cloth as it stands in the file, with its unit."""
    cloths = table.get("cloth")
    cloth = cloths.get(layer) if isinstance(cloths, Table) else None
    width = cloth.get("width") if isinstance(cloth, Table) else None
    try:
        return str(typed_length(width.text, units or None)) if isinstance(width, Text) else ""
    except ValueError:
        return ""


def _change(number: int, spec: _Change, table: Table, findings: Findings) -> Change | None:
    where, place = f"changes › item {number}", place_of(table, "changes", table.place)
    found: list[Alteration] = [one for one in (spec.take, spec.spring, spec.raised) if one is not None]
    if len(found) != 1:
        what = f"holds {len(found)} of `take`, `spring` and `raised`, and needs one."
        findings.wrong("garment-change", where, what, "Give each change a dash of its own.", place)
        return None
    if spec.on and not _DATE.fullmatch(spec.on):
        what = f"{shown(spec.on)} is not a date."
        remedy = "Write year, month and day, such as 2026-04-12."
        findings.wrong("garment-change", f"{where} › on", what, remedy, place)
    return Change(found[0], spec.draft, spec.because, spec.on, "" if spec.half == "both" else spec.half)
