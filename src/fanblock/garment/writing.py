"""A garment written as a file that reads back to the same garment."""

from __future__ import annotations

import json
from collections.abc import Iterator

from fanblock.garment.model import FORMAT, Change, Cloth, Garment
from fanblock.recipe.words import alteration_text, number_text


def garment_text(garment: Garment, heading: str = "") -> str:
    """Return the text of a garment's file, ``heading`` a comment at its top; what stands at its default is left out."""
    comment = [f"# {line}".rstrip() for line in heading.splitlines()]
    return "\n".join((*comment, *_lines(garment))) + "\n"


def _lines(garment: Garment) -> Iterator[str]:
    yield f"garment: {FORMAT}"
    if garment.name:
        yield f"name: {_quoted(garment.name)}"
    yield f"wearer: {_quoted(garment.wearer)}"
    yield f"recipe: {_quoted(garment.recipe)}"
    yield f"draft: {garment.draft}"
    if garment.over:
        yield f"over: {garment.over}"
    if garment.dials:
        yield "dials:"
        yield from (f"  {name}: {_quoted(value)}" for name, value in garment.dials.items())
    if garment.cloth:
        yield "cloth:"
        yield from (f"  {layer}: {_cloth(cloth)}" for layer, cloth in garment.cloth.items())
    if garment.changes:
        yield "changes:"
        yield from (f"  - {{{change_text(change)}}}" for change in garment.changes)
    if garment.notes:
        yield "notes:"
        yield from (f"  - {_quoted(note)}" for note in garment.notes)


def _cloth(cloth: Cloth) -> str:
    parts = [f"width: {_mm(cloth.width_mm)}"]
    if cloth.warp_shrinks or cloth.weft_shrinks:
        parts.append(f"shrinks: {{warp: {_share(cloth.warp_shrinks)}, weft: {_share(cloth.weft_shrinks)}}}")
    parts += ["nap: yes"] if cloth.nap else []
    parts += [f"repeat: {_mm(cloth.repeat_mm)}"] if cloth.repeat_mm else []
    parts.append(f"selvedge: {_mm(cloth.selvedge_mm)}")
    parts += ["folded: yes"] if cloth.folded else []
    return f"{{{', '.join(parts)}}}"


def change_text(change: Change) -> str:
    """Return a change as a garment's file writes it, without the curly brackets around it."""
    parts = [alteration_text(change.alteration), f"draft: {change.draft}"]
    parts += [f"half: {change.half}"] if change.half else []
    parts += [f"because: {_quoted(change.because)}"] if change.because else []
    parts += [f"on: {change.on}"] if change.on else []
    return ", ".join(parts)


def _mm(mm: float) -> str:
    return f"{number_text(mm)} mm"


def _share(ratio: float) -> str:
    return f"{number_text(100.0 * ratio)}%"


def _quoted(text: str) -> str:
    """The text as YAML reads it back, whatever stands in it."""
    return json.dumps(text, ensure_ascii=False)
