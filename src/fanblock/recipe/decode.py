"""Values of a recipe file read as the annotations of an options class say.

The key of a field is its name with blanks for underscores, or its metadata's ``key``; a field without a
default must be given; the field whose metadata says ``rest`` takes every key that no other field has.
Nothing stops at the first problem: each is noted in the findings, with its place and trail, and the value
becomes FAULT.
"""

from __future__ import annotations

import types
from collections.abc import Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from typing import Any, Union, get_args, get_origin, get_type_hints

from fanblock.problems import Place, nearest
from fanblock.recipe.findings import FAULT, Findings, under
from fanblock.recipe.phrase import NAME_REMEDY, UnreadableError, is_name, respelled
from fanblock.recipe.scalars import is_scalar, needs, read_scalar
from fanblock.terms import Amount, Around, Dial, Extent, Height, Length, Position, Share
from fanblock.units import shown
from fanblock.yamlfile import Entry, Listing, Node, Table, Text, kind

_NEEDS_POSITION = "an around and a height in square brackets, such as `[24%, waist]`"
_MOST_ITEMS = 200


def key_of(field: Field[Any]) -> str:
    """Return the word a recipe uses for a field."""
    key = field.metadata.get("key", field.name.replace("_", " "))
    return str(key)


def decode_fields(table: Table, options: type[Any], where: str, findings: Findings) -> Any:
    """Return the options a table gives, as an instance of the options class, or FAULT."""
    hints = get_type_hints(options)
    named = {key_of(field): field for field in fields(options) if not field.metadata.get("rest")}
    rest = next((field for field in fields(options) if field.metadata.get("rest")), None)
    given, others = _sorted_out(table, set(named), where, findings)
    values: dict[str, Any] = {}
    for key, field in named.items():
        if key in given:
            values[field.name] = decode(given[key].value, hints[field.name], under(where, key), findings)
        elif field.default is MISSING and field.default_factory is MISSING:
            purpose = field.metadata.get("for", "")
            remedy = f"Add `{key}`: {purpose}." if purpose else f"Add `{key}: …`."
            values[field.name] = findings.wrong("missing-key", where, f"`{key}` is missing.", remedy, table.place)
    if rest is not None:
        values[rest.name] = _mapping(others, hints[rest.name], where, findings)
    else:
        for entry in others:
            what = f"{shown(entry.name)} is not known here."
            findings.wrong("unknown-key", where, what, nearest(respelled(entry.name), named), entry.place)
    return FAULT if (others and rest is None) or FAULT in values.values() else options(**values)


def decode(node: Node, wanted: Any, where: str, findings: Findings) -> Any:
    """Return a node's value as the annotation wants it, or FAULT; ``object`` leaves the node as it is."""
    if wanted is object:
        return node
    kinds, may_be_nothing = _alternatives(wanted)
    if isinstance(node, Text) and node.blank:
        if may_be_nothing:
            return None
        what = f"nothing stands here, needs {_needs_any(kinds)}."
        return findings.wrong("missing-value", where, what, "", node.place)
    fitting = [one for one in kinds if _fits(node, one)]
    if len(fitting) == 1:
        return _one(node, fitting[0], where, findings)
    for one in fitting:
        scratch = findings.scratch()
        value = _one(node, one, where, scratch)
        if value is not FAULT:
            findings.keep(scratch)
            return value
    got = shown(node.text) if isinstance(node, Text) else kind(node)
    return findings.wrong("wrong-value", where, f"got {got}, needs {_needs_any(kinds)}.", "", node.place)


def _sorted_out(
    table: Table, keys: set[str], where: str, findings: Findings
) -> tuple[dict[str, Entry], tuple[Entry, ...]]:
    given: dict[str, Entry] = {}
    others = []
    for entry in table:
        key = entry.name if entry.name in keys else respelled(entry.name)
        if key not in keys:
            others.append(entry)
        elif key in given:
            what = f"{shown(entry.name)} stands here a second time (first in line {given[key].place.line})."
            findings.wrong("repeated-key", where, what, "Keep one of them.", entry.place)
        else:
            given[key] = entry
    return given, tuple(others)


def _alternatives(wanted: Any) -> tuple[list[Any], bool]:
    """Return the kinds of an annotation, an amount being one, and whether nothing at all is legal."""
    if get_origin(wanted) not in (Union, types.UnionType):
        return [wanted], False
    members = list(get_args(wanted))
    for parts, whole in ((get_args(Amount), Amount), ((Length, Share), Length | Share)):
        if set(parts) <= set(members):
            first = min(members.index(part) for part in parts)
            members = [
                whole if index == first else one
                for index, one in enumerate(members)
                if index == first or one not in parts
            ]
            break
    return [one for one in members if one is not type(None)], type(None) in members


def _fits(node: Node, one: Any) -> bool:
    if isinstance(node, Text):
        return is_scalar(one)
    if isinstance(node, Listing):
        return one is Position or get_origin(one) is tuple
    return (is_dataclass(one) and one not in (Position, Height, Around, Extent)) or get_origin(one) is Mapping


def _needs_any(kinds: list[Any]) -> str:
    return " or ".join(_needs_one(one) for one in kinds)


def _needs_one(one: Any) -> str:
    if is_scalar(one):
        return needs(one)
    if one is Position:
        return _NEEDS_POSITION
    if get_origin(one) is tuple:
        inner = get_args(one)[0]
        example = {Position: "[[24%, top edge], [14%, waist]]", Share: "[33%, 67%]", str: "[front, back]"}
        return f"a list in square brackets, such as `{example.get(inner, '[…, …]')}`"
    return "names and values, such as `{name: value}`"


def _one(node: Node, one: Any, where: str, findings: Findings) -> Any:
    if isinstance(node, Text):
        return _single(node, one, where, findings)
    if isinstance(node, Listing):
        return _position(node, where, findings) if one is Position else _several(node, one, where, findings)
    if get_origin(one) is Mapping:
        return _mapping(node.entries, one, where, findings)
    return decode_fields(node, one, where, findings)


def _single(node: Text, one: Any, where: str, findings: Findings) -> Any:
    try:
        value = read_scalar(node, one, findings.vocabulary)
    except UnreadableError as error:
        return findings.wrong("wrong-value", where, error.what, error.remedy, node.place)
    if isinstance(value, Length | Share | Dial | Height | Around | Extent):
        findings.saw(value, where, node.place)
    return value


def _position(node: Listing, where: str, findings: Findings) -> Any:
    if len(node) != 2:
        what = f"got a list of {len(node)}, needs {_NEEDS_POSITION}."
        return findings.wrong("wrong-value", where, what, "", node.place)
    around = decode(node.items[0], Around, under(where, "around"), findings)
    height = decode(node.items[1], Height, under(where, "height"), findings)
    return FAULT if FAULT in (around, height) else Position(around, height)


def _several(node: Listing, one: Any, where: str, findings: Findings) -> Any:
    inner = get_args(one)[0]
    if len(node) > _MOST_ITEMS:
        what = f"got a list of {len(node)}, more than {_MOST_ITEMS}."
        return findings.wrong("wrong-value", where, what, "Shorten it.", node.place)
    word = "point" if inner is Position else "item"
    values = tuple(
        decode(item, inner, under(where, f"{word} {number}"), findings) for number, item in enumerate(node, start=1)
    )
    return FAULT if FAULT in values else values


def _mapping(entries: tuple[Entry, ...], wanted: Any, where: str, findings: Findings) -> Any:
    key_kind, value_kind = get_args(wanted)
    values: dict[Any, Any] = {}
    sound = True
    for entry in entries:
        trail = under(where, shown(entry.name)[1:-1])
        key = _key(entry, key_kind, trail, findings)
        value = decode(entry.value, value_kind, trail, findings)
        if key is not FAULT and key in values:
            what = f"{shown(entry.name)} stands here a second time."
            value = findings.wrong("repeated-key", where, what, "Keep one of them.", entry.place)
        if key is FAULT or value is FAULT:
            sound = False
        else:
            values[key] = value
    return values if sound else FAULT


def _key(entry: Entry, key_kind: Any, where: str, findings: Findings) -> Any:
    if key_kind is not str:
        return _single(Text(entry.name, entry.place), key_kind, where, findings)
    if is_name(entry.name):
        return entry.name
    return findings.wrong("not-a-name", where, f"{shown(entry.name)} cannot be a name.", NAME_REMEDY, entry.place)


def place_of(table: Table, key: str, otherwise: Place) -> Place:
    """Return where the value of a key stands in a table, or another place when the key is not there."""
    node = next((entry.value for entry in table if key in (entry.name, respelled(entry.name))), None)
    return otherwise if node is None else node.place
