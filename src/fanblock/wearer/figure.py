"""Reading the ``figure:`` list of a wearer file: corrections of the block that belong to the body."""

from __future__ import annotations

from fanblock.problems import Place, Problem, nearest
from fanblock.units import parse_length, parse_share, shown
from fanblock.wearer.model import CENTER_BACK, CENTER_FRONT, HALVES, SIDE, Tilt
from fanblock.yamlfile import Listing, Node, Table, Text, kind, unknown_names

TAKE_MOST_MM = 60.0
"""A larger wedge makes the block's lines cross close below the waist."""

_PLACES = {
    "side": SIDE,
    "center back": CENTER_BACK,
    "centre back": CENTER_BACK,
    "center front": CENTER_FRONT,
    "centre front": CENTER_FRONT,
}
_HEIGHTS = {"waist": 0.0, "bust": 1.0}
_EXAMPLE = "Write it as - tilt: {at: center back, take: 1 cm}."
_ONE_SIDED = "Write a wedge of one half as - tilt: {at: side, take: 8 mm, side: left}."


def read_figure(node: Node, units: str | None, problems: list[Problem]) -> tuple[Tilt, ...]:
    """Return the corrections in ``node``; what is wrong goes into ``problems``."""
    if isinstance(node, Text) and node.blank:
        return ()
    if not isinstance(node, Listing):
        problems.append(_problem("figure", f"this is {kind(node)}, not a list of corrections.", _EXAMPLE, node.place))
        return ()
    tilts = [_correction(item, f"figure › {number}", units, problems) for number, item in enumerate(node, start=1)]
    return tuple(tilt for tilt in tilts if tilt is not None)


def _problem(where: str, what: str, remedy: str, place: Place) -> Problem:
    return Problem("figure", where, what, remedy, place)


def _words(node: Node) -> str:
    return shown(node.text) if isinstance(node, Text) else kind(node)


def _correction(item: Node, where: str, units: str | None, problems: list[Problem]) -> Tilt | None:
    if not isinstance(item, Table):
        problems.append(_problem(where, f"this is {kind(item)}, not a correction.", _EXAMPLE, item.place))
        return None
    problems.extend(unknown_names(item, ["tilt"], where, "figure"))
    tilt = item.get("tilt")
    if tilt is None:
        return None
    if not isinstance(tilt, Table):
        problems.append(_problem(f"{where} › tilt", f"this is {kind(tilt)}.", _EXAMPLE, tilt.place))
        return None
    return _tilt(tilt, f"{where} › tilt", units, problems)


def _tilt(table: Table, where: str, units: str | None, problems: list[Problem]) -> Tilt | None:
    before = len(problems)
    problems.extend(unknown_names(table, ["at", "take", "let out", "height", "to", "side"], where, "figure"))
    at = _place(table, where, problems)
    take_mm = _take(table, where, units, problems)
    height_ratio = _height(table, where, problems)
    to = _to(table, where, problems)
    half = _half(table, where, problems)
    if at is not None and len(problems) == before:
        _check_half(table, where, at, half, problems)
    if at is None or take_mm is None or len(problems) > before:
        return None
    return Tilt(at, take_mm, height_ratio, to, half)


def _place(table: Table, where: str, problems: list[Problem]) -> str | None:
    node = table.get("at")
    if node is None:
        says = "where the wedge is taken is missing."
        problems.append(_problem(where, says, "Add at: center back, or at: center front.", table.place))
        return None
    place = _PLACES.get(" ".join(node.text.split())) if isinstance(node, Text) else None
    if place is None:
        says = f"{_words(node)} is no centre line."
        remedy = "Write center back or center front; or side, for a wedge of one half alone."
        problems.append(_problem(f"{where} › at", says, remedy, node.place))
    return place


def _half(table: Table, where: str, problems: list[Problem]) -> str:
    """Return which half alone a wedge is taken from, empty for both."""
    node = table.get("side")
    if node is None:
        return ""
    if isinstance(node, Text) and node.text.strip() in HALVES:
        return node.text.strip()
    problems.append(_problem(f"{where} › side", f"{_words(node)} is no half.", "Write left or right.", node.place))
    return ""


def _check_half(table: Table, where: str, at: str, half: str, problems: list[Problem]) -> None:
    """Refuse a wedge of one half at a centre line, and one at the side that does not say of which half."""
    if at == SIDE and not half:
        says = "a wedge at the side must say of which half."
        remedy = "Add side: left or side: right; for both sides measure bust to waist at side."
        problems.append(_problem(where, says, remedy, table.place))
    elif at == SIDE:
        says = "a wedge at the side runs out to nothing at both centre lines."
        problems.extend(
            _problem(f"{where} › {entry.name}", says, f"Leave {entry.name} out.", entry.place)
            for entry in table
            if entry.name in ("height", "to")
        )
    elif half:
        line = at.replace("center", "centre")
        says = f"a wedge at the {line} cannot be of the {half} half alone: the other half is joined to it there."
        entry = table.entry("side")
        problems.append(_problem(f"{where} › side", says, _ONE_SIDED, entry.place if entry else table.place))


def _take(table: Table, where: str, units: str | None, problems: list[Problem]) -> float | None:
    entries = [entry for entry in table if entry.name in ("take", "let out")]
    if len(entries) != 1:
        says = "both take and let out stand here." if entries else "how much is taken is missing."
        remedy = "Write one of them: take to shorten, let out to lengthen."
        problems.append(_problem(where, says, remedy, table.place))
        return None
    entry = entries[0]
    inside = f"{where} › {entry.name}"
    if not isinstance(entry.value, Text):
        says = f"this is {kind(entry.value)}, not a length."
        problems.append(_problem(inside, says, "Write a length, such as 1 cm.", entry.value.place))
        return None
    try:
        length_mm = parse_length(entry.value.text, units)
    except ValueError as error:
        problems.append(_problem(inside, str(error), "", entry.value.place))
        return None
    if entry.name == "let out" and length_mm < 0:
        says = f"{shown(entry.value.text)} lets out less than nothing."
        problems.append(_problem(inside, says, "Write take with the length, without a minus.", entry.value.place))
        return None
    if length_mm == 0:
        problems.append(_problem(inside, "a wedge of nothing changes nothing.", "Leave it out.", entry.value.place))
        return None
    if abs(length_mm) > TAKE_MOST_MM:
        says = f"{shown(entry.value.text)} is more than a tilt can be (6 cm, 2 3/8 in)."
        problems.append(_problem(inside, says, "Look at bust to waist first: is it right?", entry.value.place))
        return None
    return -length_mm if entry.name == "let out" else length_mm


def _height(table: Table, where: str, problems: list[Problem]) -> float:
    node = table.get("height")
    if node is None or (isinstance(node, Text) and node.blank):
        return 0.5
    inside = f"{where} › height"
    if isinstance(node, Text) and node.text in _HEIGHTS:
        return _HEIGHTS[node.text]
    try:
        ratio = parse_share(node.text) if isinstance(node, Text) else None
    except ValueError:
        ratio = None
    if ratio is None:
        says = f"{_words(node)} is no height for a wedge."
        remedy = "Write a share of the way from waist (0%) to bust (100%), such as 50%."
        problems.append(_problem(inside, says, remedy, node.place))
        return 0.5
    if not 0 <= ratio <= 1:
        says = f"{_words(node)} lies outside waist (0%) to bust (100%), where a wedge changes nothing."
        remedy = (
            "Write a height between the two; a back that is rounder above the blades cannot be written yet: "
            "let it out on the toile."
        )
        problems.append(_problem(inside, says, remedy, node.place))
    return ratio


def _to(table: Table, where: str, problems: list[Problem]) -> str:
    node = table.get("to")
    if node is None or (isinstance(node, Text) and node.text == SIDE):
        return SIDE if node is not None else ""
    says = f"{_words(node)} is not where a wedge can end."
    remedy = nearest(node.text, [SIDE]) if isinstance(node, Text) else ""
    remedy += " Leave to out for a wedge that ends at the other centre line."
    problems.append(_problem(f"{where} › to", says, remedy.strip(), node.place))
    return ""
