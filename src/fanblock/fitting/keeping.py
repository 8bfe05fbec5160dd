"""The files a fitting leaves: a new garment and, if anything went into the wearer, a new wearer, beside the old ones.

What somebody wrote into the old files stays as she wrote it, comments and layout too: only the values that changed are
changed. A file that is laid out so that this cannot be done is written anew, and that is told at its top.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from fanblock.fitting.editing import Edited, UneditableError
from fanblock.fitting.fit import Fitted
from fanblock.fitting.state import length_text
from fanblock.garment.library import Opened
from fanblock.garment.model import Garment
from fanblock.garment.reading import read_garment
from fanblock.garment.writing import change_text, garment_text
from fanblock.output import refuse_existing
from fanblock.problems import FanblockError
from fanblock.shipped import wearer_names
from fanblock.shipped import wearer_text as shipped_text
from fanblock.wearer.model import HALVES, SHIFT, Measures, Tilt, Wearer
from fanblock.wearer.reading import read_wearer
from fanblock.wearer.writing import tilt_text, wearer_text
from fanblock.yamlfile import Listing, Table, Text

SAME_MM = 0.01
"""A length read back from a file to within so much is the same: it was written to four decimals of its unit."""

_ANEW = " Written anew: it could not be changed in place, and its comments are in the old file."
_COUNTED = re.compile(r"-([0-9]+)$")


def next_name(path: str) -> str:
    """Return the name of the next version of a file: a number is counted up, or 2 is put behind the name.

    >>> next_name("me.yaml"), next_name("my-stays-2.yaml")
    ('me-2.yaml', 'my-stays-3.yaml')
    """
    stem, ending = Path(path).stem, Path(path).suffix or ".yaml"
    found = _COUNTED.search(stem)
    number = int(found.group(1)) + 1 if found else 2
    return f"{_COUNTED.sub('', stem)}-{number}{ending}"


def files_of(opened: Opened, fitted: Fitted) -> Mapping[str, bytes]:
    """Return the new files by their names, to stand in the garment's folder.

    ExportError when one of those names is taken: nothing is ever written over.
    """
    files: dict[str, bytes] = {}
    garment, path = fitted.opened.garment, Path(opened.path)
    if fitted.opened.wearer != opened.wearer:
        name = next_name(garment.wearer if garment.wearer.endswith((".yaml", ".yml")) else f"{garment.wearer}.yaml")
        heading = f"{opened.garment.wearer} after the fitting of draft {opened.garment.draft} of {path.name}."
        files[name] = wearer_edited(_wearer_source(opened), opened.wearer, fitted.opened.wearer, heading).encode()
        garment = replace(garment, wearer=name)
    heading = f"{path.name} after the fitting of draft {opened.garment.draft}."
    text = path.read_bytes().decode("utf-8").removeprefix("\ufeff")
    files[next_name(path.name)] = garment_edited(text, opened.garment, garment, heading).encode()
    refuse_existing(path.parent / name for name in files)
    return files


def _wearer_source(opened: Opened) -> str:
    name = opened.garment.wearer
    if name in wearer_names():
        return shipped_text(name)
    return (Path(opened.path).parent / name).read_bytes().decode("utf-8").removeprefix("\ufeff")


def garment_edited(text: str, before: Garment, after: Garment, heading: str) -> str:
    """Return a garment's file with what changed written into it; all of it anew where that cannot be done."""
    try:
        edited = Edited(text, "garment")
        _garment_values(edited, before, after)
        _dials(edited, before, after)
        edited.append("changes", [f"{{{change_text(one)}}}" for one in after.changes[len(before.changes) :]])
        edited.append("notes", [json.dumps(one, ensure_ascii=False) for one in after.notes[len(before.notes) :]])
        made = edited.done(heading)
        if garment_text(read_garment(made, "garment")) == garment_text(after):
            return made
    except (UneditableError, FanblockError):
        pass
    return garment_text(after, heading + _ANEW)


def _garment_values(edited: Edited, before: Garment, after: Garment) -> None:
    top = edited.top
    if after.wearer != before.wearer and (node := top.get("wearer")) is not None:
        edited.replace(node, json.dumps(after.wearer, ensure_ascii=False))
    node = top.get("draft")
    if node is not None:
        edited.replace(node, str(after.draft))
    else:
        edited.append_line("recipe", f"draft: {after.draft}")


def _dials(edited: Edited, before: Garment, after: Garment) -> None:
    turned = {name: value for name, value in after.dials.items() if before.dials.get(name) != value}
    held = edited.top.get("dials")
    if turned and not isinstance(held, Table):
        if held is not None:
            raise UneditableError
        edited.begin("dials", [f"{name}: {value}" for name, value in turned.items()])
    elif isinstance(held, Table):
        for name, value in turned.items():
            node = held.get(name)
            if node is None:
                edited.add(held, name, value)
            else:
                edited.replace(node, value)


def wearer_edited(text: str, before: Wearer, after: Wearer, heading: str) -> str:
    """Return a wearer's file with what changed written into it; all of it anew where that cannot be done."""
    try:
        edited = Edited(text, "wearer")
        for table, over in _sets(edited.top):
            _measures(edited, table, _over(before, over), _over(after, over), after.units)
        _figure(edited, before, after)
        made = edited.done(heading)
        if _alike(read_wearer(made, "wearer"), after):
            return made
    except (UneditableError, FanblockError):
        pass
    return wearer_text(after, heading + _ANEW)


def _sets(top: Table) -> Iterator[tuple[Table, str]]:
    """Every set of measures in a file, with the layer it was taken over."""
    sets = top.get("sets")
    tables = [one for one in sets if isinstance(one, Table)] if isinstance(sets, Listing) else [top]
    for table in tables:
        taken = table.get("taken")
        over = taken.get("over") if isinstance(taken, Table) else None
        yield table, over.text.strip() if isinstance(over, Text) and not over.blank else SHIFT


def _over(wearer: Wearer, over: str) -> Measures:
    found = next((one for one in wearer.sets if one.over == over), None)
    if found is None:
        raise UneditableError
    return found


def _measures(edited: Edited, table: Table, before: Measures, after: Measures, units: str) -> None:
    held = table.get("measures")
    if not isinstance(held, Table):
        raise UneditableError
    for name, mm in after.values.items():
        if before.values.get(name) == mm and before.sides.get(name) == after.sides.get(name):
            continue
        node = held.get(name)
        if name in after.sides:
            _halves(edited, held, name, after.sides[name], units)
        elif node is None:
            edited.add(held, name, length_text(mm, units))
        else:
            edited.replace(node, length_text(mm, units))


def _halves(edited: Edited, measures: Table, name: str, sides: tuple[float, float], units: str) -> None:
    """Write a measure that is told of either side, if it was told as one before or not at all."""
    node = measures.get(name)
    both = ", ".join(f"{side}: {length_text(mm, units)}" for side, mm in zip(HALVES, sides, strict=True))
    if node is None:
        edited.add(measures, name, f"{{{both}}}")
        return
    if isinstance(node, Text):
        edited.replace(node, f"{{{both}}}")
        return
    for side, mm in zip(HALVES, sides, strict=True):
        held = node.get(side) if isinstance(node, Table) else None
        if held is None:
            raise UneditableError
        edited.replace(held, length_text(mm, units))


def _figure(edited: Edited, before: Wearer, after: Wearer) -> None:
    if before.figure == after.figure:
        return
    held = edited.top.get("figure")
    now = {_place(tilt): tilt for tilt in after.figure}
    for number, tilt in enumerate(before.figure):
        if not isinstance(held, Listing):
            raise UneditableError
        if _place(tilt) not in now:
            edited.remove(held, number)
        elif now[_place(tilt)] != tilt:
            edited.replace(_take_of(held, number), length_text(now[_place(tilt)].take_mm, after.units))
    known = {_place(tilt) for tilt in before.figure}
    edited.append(
        "figure", [f"tilt: {tilt_text(tilt, after.units)}" for tilt in after.figure if _place(tilt) not in known]
    )


def _place(tilt: Tilt) -> tuple[str, float, str, str]:
    return tilt.at, tilt.height_ratio, tilt.to, tilt.half


def _take_of(held: Listing, number: int) -> Text:
    item = held.items[number]
    tilt = item.get("tilt") if isinstance(item, Table) else None
    take = tilt.get("take") if isinstance(tilt, Table) else None
    if not isinstance(take, Text):
        raise UneditableError
    return take


def _alike(made: Wearer, due: Wearer) -> bool:
    """Whether a file reads back to the wearer that was meant, but for the rounding of what was written."""
    said, meant = ((one.name, one.overs, one.notes, one.units, one.may_differ_mm) for one in (made, due))
    if said != meant:
        return False
    lengths = [(tilt.take_mm, other.take_mm) for tilt, other in zip(made.figure, due.figure, strict=False)]
    for one, other in zip(made.sets, due.sets, strict=True):
        if set(one.values) != set(other.values) or set(one.sides) != set(other.sides):
            return False
        lengths += [(mm, other.values[name]) for name, mm in one.values.items()]
    places = [[_place(tilt) for tilt in wearer.figure] for wearer in (made, due)]
    return places[0] == places[1] and all(abs(mm - due_mm) < SAME_MM for mm, due_mm in lengths)
