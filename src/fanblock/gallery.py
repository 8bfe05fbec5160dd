"""The gallery: what each shipped recipe looks like on two demo wearers, as a picture and as a table of its checks.

``python -m fanblock.gallery`` writes ``gallery/<recipe>.png`` and ``gallery/<recipe>.txt`` for every shipped recipe on the
first wearer, and ``gallery/<recipe>-<wearer>`` on the second; a folder behind it writes them there. The same recipes and the
same wearers give the same files.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite
from pathlib import Path

from fanblock.checks.finding import FAMILIES
from fanblock.make import draft_pattern
from fanblock.output import write_all
from fanblock.pattern.model import Finding, Pattern
from fanblock.recipe.library import shipped_recipes
from fanblock.recipe.model import Recipe
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Drawing, Group, Words
from fanblock.sheet.font import fitted
from fanblock.sheet.key import key
from fanblock.sheet.png import to_png
from fanblock.sheet.reportchecks import FAMILIES as HEADS
from fanblock.sheet.reportchecks import STATES
from fanblock.sheet.setting import paragraph
from fanblock.sheet.silhouette import silhouette
from fanblock.sheet.svg import write_svg
from fanblock.sheet.tapes import tape_sentence
from fanblock.sheet.telling import telling
from fanblock.sheet.upright import moved_group
from fanblock.wearer.library import open_wearer
from fanblock.wearer.model import Wearer

WEARER, SECOND = "ferrywoman", "innkeeper"
"""The demo wearers that all recipes are shown on: one slim, one stout."""

WIDTH_PX = 1200
WIDTH_MM, HEIGHT_MM = 300.0, 176.0
PAPER = "#fbf8f2"
"""The warm white behind every picture of the house."""

_EDGE_MM, _HEAD_MM, _FOOT_MM, _KEY_MM = 9.0, 24.0, 12.0, 188.0
_INK, _SOFT = "#2b2f33", "#6b6459"

MEASURED = frozenset({"mm", "deg", "ratio"})
"""Units of checks whose number says more than their words."""

WORN_OVER_STAYS = frozenset({"gown bodice", "jacket", "spencer", "waistcoat"})
"""What is worn over stays, and so is cut to the measures taken over them."""


@dataclass(frozen=True, slots=True)
class Exhibit:
    """One recipe in the gallery on one wearer: the name of its files, its picture and its table."""

    name: str
    png: bytes
    text: str


def exhibit(recipe: Recipe, wearer: Wearer) -> Exhibit:
    """Return one recipe's picture and table for a wearer; FanblockError when it cannot be drawn."""
    pattern = draft_pattern(wearer, recipe)
    name = recipe.id if wearer.name == WEARER else f"{recipe.id}-{wearer.name}"
    return Exhibit(name, to_png(write_svg(picture(pattern), background=PAPER), WIDTH_PX), table(pattern))


def exhibits() -> tuple[Exhibit, ...]:
    """Return the whole gallery, in the order of the recipes' ids, the first wearer before the second."""
    wearers = (open_wearer(WEARER), open_wearer(SECOND))
    return tuple(exhibit(recipe, wearer) for recipe in shipped_recipes() for wearer in wearers)


def picture(pattern: Pattern) -> Drawing:
    """Return the panels laid seam to seam beside the garment seen from the side, under their names."""
    inner = WIDTH_MM - 2 * _EDGE_MM
    high = HEIGHT_MM - 2 * _EDGE_MM - _HEAD_MM - _FOOT_MM
    low = _EDGE_MM + _FOOT_MM
    has_side = telling(pattern).has_side
    wide = _KEY_MM if has_side else inner
    groups = [moved_group(group, (_EDGE_MM, low)) for group in key(pattern, wide, high).groups]
    if has_side:
        side = silhouette(pattern, inner - wide, high)
        groups += [moved_group(group, (_EDGE_MM + wide, low)) for group in side.groups]
    return Drawing(pattern.title.garment, WIDTH_MM, HEIGHT_MM, (_words(pattern, inner), *groups))


def _words(pattern: Pattern, room_mm: float) -> Group:
    title = pattern.title
    kind = f"{title.makes}, {title.period}" if title.period else title.makes
    about = f"{kind} · drawn for the {title.wearer}"
    top = HEIGHT_MM - _EDGE_MM
    return Group(
        "heading",
        (
            Words(fitted(title.garment, 9.0, room_mm, True), _EDGE_MM, top - 8.0, 9.0, bold=True, color=_INK),
            Words(fitted(about, 4.6, room_mm), _EDGE_MM, top - 15.5, 4.6, color=_SOFT),
            *paragraph(tape_sentence(pattern), _EDGE_MM, _EDGE_MM + 8.0, room_mm, 4.0, color=_INK)[0],
        ),
    )


def table(pattern: Pattern) -> str:
    """Return the pattern in words: what it is, the dials as set, and every check with its number and its limit."""
    title = pattern.title
    lines = [
        f"{title.garment} ({title.makes}{f', {title.period}' if title.period else ''})",
        f"drawn for the {title.wearer}, measured over the {pattern.body.over}",
        tape_sentence(pattern),
        phrases.verdict(pattern),
    ]
    if pattern.dials:
        wide = max(len(name) for name, _, _ in pattern.dials)
        lines += ["", "Dials", *(f"  {name:{wide}}  {words}" for name, words, _ in pattern.dials)]
    families = [*FAMILIES, *sorted({finding.family for finding in pattern.findings} - set(FAMILIES))]
    for family in families:
        found = [finding for finding in pattern.findings if finding.family == family]
        if found:
            lines += ["", HEADS.get(family, family), *(_row(finding) for finding in found)]
    return "\n".join(lines) + "\n"


def _row(finding: Finding) -> str:
    found, limit = amount(finding.number, finding.unit), amount(finding.limit, finding.unit)
    numbers = f" [{found}, limit {limit}]" if limit and finding.unit in MEASURED else ""
    return f"  {STATES.get(finding.state, finding.state):5}  {finding.says}{numbers}"


def amount(number: float, unit: str) -> str:
    """Return a checked number with its unit, and nothing for a limit there is not.

    >>> amount(0.0312, "ratio"), amount(-0.001, "mm"), amount(1.26, "deg"), amount(float("inf"), "mm")
    ('3.1 %', '0.00 mm', '1.3°', '')
    """
    if not isfinite(number):
        return ""
    if unit == "ratio":
        return f"{100.0 * number:.1f} %"
    decimals = {"mm": 2, "deg": 1}.get(unit, 0)
    text = f"{number:.{decimals}f}"
    text = text.lstrip("-") if float(text) == 0.0 else text
    return f"{text}°" if unit == "deg" else f"{text} {unit}".strip()


def main(arguments: Sequence[str] | None = None) -> int:
    """Write the gallery into a folder, ``gallery`` when none is named, and say what was written; returns 0."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    folder = Path(given[0]) if given else Path("gallery")
    files: dict[str, bytes] = {}
    for shown in exhibits():
        files[f"{shown.name}.png"] = shown.png
        files[f"{shown.name}.txt"] = shown.text.encode()
    for path in write_all(folder, files):
        sys.stdout.write(f"{path}\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
