"""What a recipe file says its block is made of: a band, two girths of the body; which of them its keys tell."""

from __future__ import annotations

import difflib
from dataclasses import fields
from typing import Any

from fanblock.draft.band import BandSpec, problems
from fanblock.draft.starting import BlockSpec, GirthSpec, girth_problems
from fanblock.recipe.decode import decode_fields, key_of, place_of
from fanblock.recipe.findings import FAULT, Findings
from fanblock.recipe.phrase import respelled
from fanblock.units import shown
from fanblock.yamlfile import Node, Table, Text, kind

_KINDS: tuple[type[Any], ...] = (BandSpec, GirthSpec)


def read_block(node: Node | None, findings: Findings) -> BlockSpec | None:
    """Return what a block is made of; None where nothing is said, or where it could not be read, which is noted."""
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
    for key, what, remedy in girth_problems(spec) if isinstance(spec, GirthSpec) else problems(spec):
        findings.wrong("block", f"block › {key}", what, remedy, place_of(node, key, node.place))
    return spec if isinstance(spec, BlockSpec) else None


def block_kind(node: Node | None) -> type[Any]:
    """Return the kind of block whose keys a table has, or has most that are near them; a band where none is."""
    entries = node.entries if isinstance(node, Table) else ()
    names = [respelled(entry.name) for entry in entries]

    def near(one: type[Any]) -> tuple[int, int]:
        keys = [key_of(field) for field in fields(one)]
        exact = sum(name in keys for name in names)
        return exact, sum(bool(difflib.get_close_matches(name, keys, n=1)) for name in names)

    return max(_KINDS, key=near)
