"""``flare``: swing the skirts of the panels outward below the waist.

A seam that is sewn below the waist is flared on both its sides, a centre line on its one. Either each is told what it adds
at the hem, both edges together, or all of them share what is needed to go round the hip with ``room`` to spare.

```yaml
- flare: {by: {side seam: 60 mm, center back: 40 mm}}
- flare: {room: 80 mm, shares: {side seam: 2, back seam: 2, center back: 1}}
```
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fanblock.draft.places import amount_mm, measure_mm, size_mm
from fanblock.draft.work import Work
from fanblock.skirts.flaring import flared, room_flares
from fanblock.terms import Amount


@dataclass(frozen=True, slots=True)
class Flare:
    """What the seams add at the hem."""

    by: Mapping[str, Amount] = field(
        default_factory=dict, metadata={"for": "what each seam or center line adds at the hem, both edges together"}
    )
    room: Amount | None = field(
        default=None,
        metadata={"for": "how much longer than the hip the skirts shall be all round, at the hip or the hem"},
    )
    shares: Mapping[str, float] = field(
        default_factory=dict,
        metadata={"for": "which seams and center lines share what `room` needs, and in what parts"},
    )


def problems(options: Flare) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    if bool(options.by) == (options.room is not None):
        return (
            ("by", "needs one of `by` and `room`.", "Say what each seam adds, or how much room there shall be in all."),
        )
    if options.by and options.shares:
        return (("shares", "stands beside `by`.", "It shares out what `room` needs."),)
    if options.room is not None and not options.shares:
        return (("shares", "is missing.", "Say which seams share the room: `shares: {side seam: 2, center back: 1}`."),)
    return tuple(
        ("shares", f"“{name}” has {share:g}, needs more than 0.", "Leave it out if it shall add nothing.")
        for name, share in options.shares.items()
        if share <= 0.0
    )


def run(work: Work, options: Flare) -> Work:
    """Return the panels with their skirts flared."""
    if options.room is None:
        return flared(work, {name: size_mm(work.body, amount, "waist", "by") for name, amount in options.by.items()})
    measure_mm(work.body, "hip")
    by = room_flares(work, options.shares, amount_mm(work.body, options.room, "hip"))
    return flared(work, by)
