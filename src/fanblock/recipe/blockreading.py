"""What a recipe file says its block is made of: a band, two girths of the body, a drawing; its keys tell which."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from typing import Any

from fanblock.block.from_drawing import read_tracing
from fanblock.draft.band import BandSpec, problems
from fanblock.draft.starting import BlockSpec, GirthSpec, RaisedSpec, TracedSpec, girth_problems
from fanblock.problems import Place, RecipeError
from fanblock.recipe.bases import Drawings, no_drawing
from fanblock.recipe.decode import decode_fields, key_of, place_of
from fanblock.recipe.findings import FAULT, Findings
from fanblock.recipe.phrase import UnreadableError, respelled
from fanblock.units import shown
from fanblock.yamlfile import Node, Table, Text, kind


@dataclass(frozen=True, slots=True)
class DrawingWords:
    """What a recipe says of a block that somebody has already."""

    from_: str = field(metadata={"key": "from", "for": "the drawing of half a block, such as `my-block.svg`"})


_KINDS: tuple[type[Any], ...] = (BandSpec, DrawingWords, GirthSpec, RaisedSpec)


def read_block(node: Node | None, drawings: Mapping[str, Drawings], findings: Findings) -> BlockSpec | None:
    """Return what a block is made of; None where nothing is said, or where it could not be read, which is noted.

    ``drawings`` finds drawings by their paths, for each file in which such a path may stand.
    """
    if node is None or (isinstance(node, Text) and node.blank):
        return None
    if not isinstance(node, Table):
        got = shown(node.text) if isinstance(node, Text) else kind(node)
        what = f"got {got}, needs names and values, such as `{{lower: underbust, upper: upper chest}}`."
        findings.wrong("wrong-value", "block", what, "", node.place)
        return None
    spec = decode_fields(node, block_kind(node), "block", findings)
    if spec is FAULT:
        return None
    if isinstance(spec, DrawingWords):
        return _traced(spec.from_, place_of(node, "from", node.place), drawings, findings)
    asked = (
        problems(spec) if isinstance(spec, BandSpec) else girth_problems(spec) if isinstance(spec, GirthSpec) else ()
    )
    for key, what, remedy in asked:
        findings.wrong("block", f"block › {key}", what, remedy, place_of(node, key, node.place))
    return spec if isinstance(spec, BlockSpec) else None


def _traced(name: str, place: Place, drawings: Mapping[str, Drawings], findings: Findings) -> TracedSpec | None:
    """Return the block that is drawn in a file named at a place; what is wrong with either is noted."""
    try:
        file, data = drawings.get(place.file, no_drawing)(name)
    except UnreadableError as error:
        findings.wrong("no-drawing", "block › from", error.what, error.remedy, place)
        return None
    try:
        return TracedSpec(name, read_tracing(data, file, name, RecipeError))
    except RecipeError as error:
        findings.problems.extend(error.problems)
        return None


def block_kind(node: Node | None) -> type[Any]:
    """Return the kind of block whose keys a table has, or has most that are near them; a band where none is."""
    entries = node.entries if isinstance(node, Table) else ()
    names = [respelled(entry.name) for entry in entries]

    def near(one: type[Any]) -> tuple[int, int]:
        keys = [key_of(field) for field in fields(one)]
        exact = sum(name in keys for name in names)
        return exact, sum(bool(difflib.get_close_matches(name, keys, n=1)) for name in names)

    return max(_KINDS, key=near)
