"""A notes file: what was seen and measured on a toile, read to values, or refused with everything that is wrong."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, TypeVar

from fanblock.fitting.saying import Said, Sayings, told_in
from fanblock.fitting.sentences import BUST, LEVELS, MIDDLE, SENTENCES, TOP, WAIST, Sentence
from fanblock.ownfile import Shelf, own_bytes
from fanblock.problems import GarmentError, Place, Problem, nearest
from fanblock.recipe.decode import decode_fields, place_of
from fanblock.recipe.findings import FAULT, Findings
from fanblock.recipe.phrase import Vocabulary
from fanblock.terms import Length, Share
from fanblock.units import UNITS, parse_length, shown
from fanblock.yamlfile import Listing, Node, Table, Text, read_yaml

One = TypeVar("One")

FORMAT = 1
"""The format of notes files that is read and written."""

WIDEST_GAP_MM, MOST_PINCH_MM, MOST_LINE_MM = 400.0, 80.0, 40.0
"""Amounts that are believed (from memory): a wider opening, over a stomacher even, is another body's toile, a deeper pinch another size."""

OVERLAP_MM = -50.0
"""Edges that lie farther over one another than this are another size too (from memory)."""

OTHER_NAMES = MappingProxyType(
    {"raised waist": WAIST, "underbust": WAIST, "upper chest": BUST, "top edge": TOP, "50%": MIDDLE}
)
"""What a garment's levels may be called besides: its own girths, and the words of a garment file."""

ABOVE, BELOW = "above", "below"
ALL_ROUND = "all round"
SIDE_LINES: Mapping[str, str] = MappingProxyType({"left side": "left", "right side": "right"})
"""Where a waist line may lie off the string on one side of the body alone, and which half that is."""

CENTERS = (ALL_ROUND, "center back", "center front")


@dataclass(frozen=True, slots=True)
class Pinch:
    """What was pinched in at a level, both layers together; ``at`` is a region or a seam. Slashed open is less than 0."""

    at: str
    level: str
    mm: float
    half: str = "both"


@dataclass(frozen=True, slots=True)
class WaistLine:
    """Where the drawn waist lies against the string on the body: so much above it (less than nothing: below)."""

    where: str
    above_mm: float


@dataclass(frozen=True, slots=True)
class Notes:
    """All that was noted of one draft. ``gap_mm`` is by level, ``comments`` are free words that change nothing.

    ``keep`` tells where girths go: into the ``wearer``, so that the next garment has them, or this ``garment`` alone. ``code``
    is that of the toile that was worn, empty where the file has none. ``places`` tell where in the file a thing stands.
    """

    draft: int
    gap_mm: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    pinches: tuple[Pinch, ...] = ()
    lines: tuple[WaistLine, ...] = ()
    said: tuple[Said, ...] = ()
    keep: str = "wearer"
    worn: str = "on the body"
    bones: str = ""
    comments: tuple[str, ...] = ()
    code: str = ""
    places: Mapping[str, Place] = field(default_factory=lambda: MappingProxyType({}), compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class _Pinch:
    take: Length | Share | None = field(default=None, metadata={"for": "what you pinched, both layers together"})
    at: str = field(default="side", metadata={"for": "front, side, back, all round, or a seam"})
    height: str = field(default="middle", metadata={"for": "top, bust, middle or waist"})
    half: Literal["left", "right", "both"] = field(default="both", metadata={"for": "left, right or both"})


@dataclass(frozen=True, slots=True)
class _Line:
    waist: str = field(metadata={"for": "such as `1 cm above string`"})
    where: Literal["all round", "center back", "center front", "left side", "right side"] = "all round"


@dataclass(frozen=True, slots=True)
class _Top:
    fit: object = field(metadata={"for": f"the format number, {FORMAT}"})
    draft: int = field(metadata={"for": "the number of the draft that was worn"})
    units: Literal["mm", "cm", "in"] | None = None
    code: str = ""
    worn: Literal["on the body", "on a stand"] = "on the body"
    bones: str = ""
    gap: Mapping[str, Length | Share | None] = field(default_factory=dict)
    pinch: _Pinch | tuple[_Pinch, ...] = ()
    line: _Line | tuple[_Line, ...] = ()
    keep: Literal["wearer", "garment"] = "wearer"
    notes: object = None


@dataclass(frozen=True, slots=True)
class Asked:
    """What is known of the garment while its notes are read: the sentences it can have, and what else would be wrong."""

    sentences: tuple[Sentence, ...] = SENTENCES
    wrong: Callable[[Notes], Sequence[Problem]] = lambda notes: ()


def read_notes(text: str | bytes, file: str, asked: Asked | None = None) -> Notes:
    """Return the notes that a file holds; ``file`` is its name in messages. Raises GarmentError with all problems.

    With what the garment is ``asked`` whatever it cannot have is told with the rest.
    """
    asked = asked or Asked()
    table = read_yaml(text, file, GarmentError)
    _check_format(table)
    units = table.get("units")
    unit = units.text.strip() if isinstance(units, Text) and units.text.strip() in UNITS else ""
    findings = Findings(Vocabulary(units=unit))
    top = decode_fields(table, _Top, "", findings)
    notes = None if top is FAULT else _notes(top, table, findings, unit, asked.sentences)
    if notes is not None:
        findings.problems.extend(asked.wrong(notes))
    if notes is None or findings.problems:
        raise GarmentError(findings.problems)
    return notes


def open_notes(path: str, asked: Asked | None = None) -> Notes:
    """Return the notes in the file at a path; GarmentError when there is none, or it needs the maker's hand."""
    begin = "Look at its name and folder, or begin one with `fanblock new fitting`."
    return read_notes(own_bytes(path, Shelf("notes", "notes", (), begin, GarmentError)), path, asked)


def _check_format(table: Table) -> None:
    entry = table.entry("fit")
    number = entry.value.whole_number if entry is not None and isinstance(entry.value, Text) else None
    if number != FORMAT:
        says = "the file does not say that it holds the notes of a fitting."
        raise GarmentError([Problem("fit-format", "", says, f"Begin it with `fit: {FORMAT}`.", table.place)])


def _notes(top: _Top, table: Table, findings: Findings, units: str, asked: tuple[Sentence, ...]) -> Notes:
    gap = {}
    for called, amount in top.gap.items():
        if amount is None:  # left blank
            continue
        level = OTHER_NAMES.get(called, called)
        trail, place = f"gap › {level}", place_of(table, "gap", table.place)
        if level not in LEVELS:
            findings.wrong("fit-level", trail, f"there is no level {shown(level)}.", nearest(level, LEVELS), place)
        gap[level] = _mm(amount, (OVERLAP_MM, WIDEST_GAP_MM), trail, place, findings, units)
    said, comments = Sayings(findings, units, asked).read(table.get("notes"))
    places = {f"notes › {one.sentence.words}": place for one, place in said}
    places |= {key: place_of(table, key, table.place) for key in ("draft", "code", "gap", "pinch", "line")}
    places |= {f"pinch › {number}": place for number, place in enumerate(_item_places(table.get("pinch")), 1)}
    return Notes(
        draft=top.draft,
        gap_mm=MappingProxyType({level: gap[level] for level in LEVELS if level in gap}),
        pinches=tuple(
            _pinch(number, one, one.take, table, findings, units)
            for number, one in enumerate(_many(top.pinch), 1)
            if one.take is not None
        ),
        lines=tuple(_line(number, one, table, findings, units) for number, one in enumerate(_many(top.line), 1)),
        said=tuple(one for one, _ in said),
        keep=top.keep,
        worn=top.worn,
        bones=top.bones,
        comments=comments,
        code=top.code.strip(),
        places=MappingProxyType(places),
    )


def _item_places(node: Node | None) -> tuple[Place, ...]:
    """Where each item of a list stands, or the one thing that stands in its place."""
    if isinstance(node, Listing):
        return tuple(item.place for item in node.items)
    return () if node is None else (node.place,)


def _many(given: One | tuple[One, ...]) -> tuple[One, ...]:
    return given if isinstance(given, tuple) else (given,)


def _mm(
    amount: Length | Share, between: tuple[float, float], trail: str, place: Place, findings: Findings, units: str
) -> float:
    mm = amount.mm if isinstance(amount, Length) else math.nan
    if not between[0] <= mm <= between[1]:
        got = "a share" if math.isnan(mm) else told_in(mm, units)
        least, most = (told_in(one, units) for one in between)
        least = least.rpartition(" ")[0]
        findings.wrong("fit-amount", trail, f"got {got}, needs {least} to {most}.", "Measure again.", place)
    return mm


def _pinch(number: int, one: _Pinch, take: Length | Share, table: Table, findings: Findings, units: str) -> Pinch:
    trail, place = f"pinch › {number}", place_of(table, "pinch", table.place)
    level = OTHER_NAMES.get(one.height, one.height)
    if level not in LEVELS:
        findings.wrong(
            "fit-level", f"{trail} › height", f"there is no level {shown(level)}.", nearest(level, LEVELS), place
        )
    mm = _mm(take, (-MOST_PINCH_MM, MOST_PINCH_MM), f"{trail} › take", place, findings, units)
    return Pinch(one.at, level, mm, one.half)


def _line(number: int, one: _Line, table: Table, findings: Findings, units: str) -> WaistLine:
    trail, place = f"line › {number} › waist", place_of(table, "line", table.place)
    words = one.waist.split()
    side = words[-2] if len(words) > 2 and words[-1] == "string" else ""
    mm = math.nan
    if side in (ABOVE, BELOW):
        try:
            mm = parse_length(" ".join(words[:-2]), units or None)
        except ValueError:
            side = ""
    if side not in (ABOVE, BELOW):
        what = f"got {shown(one.waist)}."
        findings.wrong("fit-line", trail, what, "Write it like `1 cm above string` or `5 mm below string`.", place)
    elif not 0.0 < mm <= MOST_LINE_MM:
        what = f"got {told_in(mm, units)}, needs up to {told_in(MOST_LINE_MM, units)}."
        findings.wrong("fit-line", trail, what, "Measure the waist's height again first.", place)
    return WaistLine(one.where, mm if side == ABOVE else -mm)


def sentence_list() -> tuple[Sentence, ...]:
    """Return all sentences in the order in which they are looked for."""
    return tuple(sorted(SENTENCES, key=lambda sentence: sentence.order))
