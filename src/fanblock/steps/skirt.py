"""``skirt``: a skirt of its own, sewn to the lower edge of a bodice: flared, pleated or gathered.

Its upper edge is as long as what it is sewn to, when its pleats or gathers are taken up. A flared one is a part of a ring:
say how much of a circle the whole skirt is, or how long its hem shall be all round. What turns too far or is too wide for
the cloth is cut in several pieces.

```yaml
- skirt: {name: skirt, to: [front, side back, back], depth: 14 cm, circle: 75%}
- skirt:
    name: skirt
    to: [front, side back, back]
    kind: pleated
    depth: {front: 14 cm, back: 20 cm}
    pleats: {number: 6, depth: 25 mm, between: [40%, 100%]}
    begins: 5 cm
```
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal

from fanblock.draft.band import extent_mm
from fanblock.draft.places import size_mm
from fanblock.draft.work import Work
from fanblock.pattern.model import FOLD, Note
from fanblock.skirts import spec
from fanblock.skirts.cloth import Cloth
from fanblock.skirts.hung import Hanging, hung, piece_names
from fanblock.skirts.spec import Depths, PleatSpec
from fanblock.skirts.waist import waist_of
from fanblock.terms import Amount, Extent, Length

LEAST_FULLNESS, MOST_FULLNESS = 1.05, 4.0
"""Less than this is eased and not gathered; more than this does not go through the needle (from memory)."""

MOST_PLEATS = 60
"""More pleats than this in one half are a slip."""


@dataclass(frozen=True, slots=True)
class Skirt:
    """A skirt and what it is sewn to."""

    name: str = field(metadata={"for": "what a piece of it is called; several are numbered"})
    to: tuple[str, ...] = field(metadata={"for": "the panels it is sewn to, side by side"})
    depth: Amount | Depths = field(metadata={"for": "how deep it is, or how deep at front, side and back"})
    kind: Literal["flared", "pleated", "gathered"] = field(default="flared", metadata={"for": "how it gets its width"})
    circle: Amount | None = field(default=None, metadata={"for": "of a flared one: how much of a circle all of it is"})
    hem: Extent | None = field(default=None, metadata={"for": "of a flared one: how long its lower edge is, all round"})
    pleats: PleatSpec | None = field(default=None, metadata={"for": "of a pleated one: its pleats"})
    fullness: float | None = field(
        default=None, metadata={"for": "of a gathered one: how many times as wide it is as what it is sewn to"}
    )
    begins: Amount = field(
        default=Length(0.0), metadata={"for": "how far behind the front of the first panel it begins"}
    )
    fold: bool = field(default=True, metadata={"for": "whether its center back lies on a fold, where it has one"})
    pieces: int = field(default=1, metadata={"for": "pieces of one half, at least"})
    by_panel: bool = field(default=False, metadata={"for": "whether it has a seam at every seam of the bodice"})
    cloth: Amount | None = field(default=None, metadata={"for": "no piece is wider than this, unfolded"})


def problems(options: Skirt) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    own = {"flared": ("circle", "hem"), "pleated": ("pleats",), "gathered": ("fullness",)}
    found = []
    for kind, keys in own.items():
        given = [key for key in keys if getattr(options, key) is not None]
        if kind != options.kind:
            found += [(key, f"stands beside `kind: {options.kind}`.", f"It is for `kind: {kind}`.") for key in given]
        elif len(given) != 1:
            found.append((keys[0], f"a {kind} skirt needs {' or '.join(f'`{key}`' for key in keys)}, once.", ""))
    if options.fullness is not None and not LEAST_FULLNESS <= options.fullness <= MOST_FULLNESS:
        needs = f"needs a number from {LEAST_FULLNESS:g} to {MOST_FULLNESS:g}."
        found.append(("fullness", f"got {options.fullness:g}, {needs}", "1.5 is half as wide again."))
    if options.pieces < 1:
        found.append(("pieces", f"got {options.pieces}, needs 1 or more.", ""))
    if options.pleats is not None:
        found += _pleat_problems(options.pleats)
    return tuple(found)


def _pleat_problems(pleats: PleatSpec) -> list[tuple[str, str, str]]:
    found = []
    if not 1 <= pleats.number <= MOST_PLEATS:
        found.append(("pleats", f"`number` is {pleats.number}, needs a number from 1 to {MOST_PLEATS}.", ""))
    ratios = [share.ratio for share in pleats.between]
    if ratios and (len(ratios) != 2 or not 0.0 <= ratios[0] < ratios[1] <= 1.0):
        found.append(
            ("pleats", "`between` needs two rising shares of the upper edge.", "Write `between: [40%, 100%]`.")
        )
    return found


def adds(options: Skirt) -> tuple[str, ...]:
    """Return the names of the pieces, as far as they can be told without a body."""
    return piece_names(options.name, len(options.to) if options.by_panel else max(options.pieces, 1))


def named(options: Skirt) -> Iterator[tuple[str, str, str]]:
    """Yield every panel this step speaks of."""
    yield from (("to", " › to", name) for name in options.to)


def run(work: Work, options: Skirt) -> Work:
    """Return the panels with the skirt sewn to them."""
    begins = size_mm(work.body, options.begins, "waist", "begins")
    work, waist = spec.begun(work, waist_of(work, options.to, "to"), begins)
    if options.pleats is not None:
        work, waist = spec.parted_at_pleats(work, waist, options.pleats)
    depth_at = spec.depth_function(work, waist, options.depth)
    cloth = _cloth(work, options, waist[-1].end_mm)
    turn = 0.0
    if options.circle is not None:
        turn = spec.turn_of_circle(options.circle)
    elif options.hem is not None:
        turn = spec.turn_of_hem(cloth, depth_at, extent_mm(work.body, options.hem, "hem") / 2.0)
    front, back = spec.ends_of(work, waist, begins, fold=options.fold)
    widest = math.inf if options.cloth is None else size_mm(work.body, options.cloth, "bust", "cloth")
    room = spec.Room(cloth, turn, depth_at, widest, back.kind == FOLD)
    cuts = spec.cuts_of(waist, room, least=options.pieces, by_panel=options.by_panel)
    how = {"flared": "", "pleated": "pleated", "gathered": "gathered"}[options.kind]
    return hung(work, Hanging(options.name, waist, cloth, turn, depth_at, how, front, back, cuts, _notes(options)))


def _cloth(work: Work, options: Skirt, length_mm: float) -> Cloth:
    if options.pleats is not None:
        return spec.pleated_cloth(work.body, length_mm, options.pleats)
    return Cloth(length_mm, fullness=options.fullness or 1.0)


def _notes(options: Skirt) -> tuple[Note, ...]:
    """Return how the skirt is prepared and sewn on."""
    first = {
        "flared": "Stay-stitch its upper edge on the line and clip its allowance up to it, closer where it is more curved.",
        "pleated": "Fold it on the creases, outward ones to the outside, and baste the pleats flat along the upper edge.",
        "gathered": "Run two rows of even stitches along its upper edge and draw them up to the lengths of the bodice.",
    }[options.kind]
    return (
        Note("sewing last", f"The {options.name}: hem its lower edge and free ends first. {first}", options.name),
        Note(
            "sewing last",
            f"Sew the {options.name} to the bodice letter to letter, its seams and ends first.",
            options.name,
        ),
    )
