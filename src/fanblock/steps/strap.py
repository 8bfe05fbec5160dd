"""``strap``: a shoulder strap as a piece of its own, sewn to an edge behind and to one in front, or tied at one end.

Its ends are as wide as the edges they are sewn to, so those settle its width. Its length is only a beginning: the end named
by ``to`` has cloth to spare and is pinned on the body.

```yaml
- strap: {from: back strap seat, to: front strap seat}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fanblock.draft.places import size_mm
from fanblock.draft.work import Work
from fanblock.fronts.strap import Strip, guessed_length_mm, seat_of, with_strap
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Length


@dataclass(frozen=True, slots=True)
class Strap:
    """One strap of either side."""

    start: str = field(metadata={"key": "from", "for": "the edge it is sewn to first"})
    to: str | None = field(
        default=None, metadata={"for": "the edge that its other end is pinned and sewn to; left out, that end is tied"}
    )
    name: str = field(default="strap", metadata={"for": "the name of the piece"})
    length: Amount | None = field(
        default=None,
        metadata={"for": "its length along the middle; left out, it is guessed from front and back length"},
    )
    width: Amount | None = field(
        default=None, metadata={"for": "width of an end that is tied; left out, as wide as the other"}
    )
    spare: Amount = field(
        default=Length(40.0), metadata={"for": "more cloth at its other end, to be cut to fit on the body"}
    )


def problems(options: Strap) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if options.to == options.start:
        found.append(("to", f"“{options.to}” is where it comes from.", "Name the edge of its other end."))
    if options.to and options.width is not None:
        found.append(
            ("width", "stands beside a `to`.", "Both ends are as wide as the edges they are sewn to: leave it out.")
        )
    if not options.to and options.length is None:
        found.append(("length", "is missing, and nothing says where its other end lies.", "Add `length`, or `to`."))
    return tuple(found)


def adds(options: Strap) -> tuple[str, ...]:
    """Return the name of the piece this step adds."""
    return (options.name,)


def run(work: Work, options: Strap) -> Work:
    """Return the panels and the strap that joins them.

    GeometryError when an edge is not there or not free, when both lie in front or behind, or when there is no length.
    """
    first = seat_of(work, options.start, "from")
    seats = (first,) if not options.to else (first, seat_of(work, options.to, "to"))
    if len(seats) == 2 and seats[0].is_front == seats[1].is_front:
        side = "in front" if first.is_front else "behind"
        what = f"“{options.start}” and “{options.to}” both lie {side}."
        raise GeometryError([Problem("strap-side", "to", what, "A strap goes from the back to the front.")])
    body = work.body
    if options.length is not None:
        length_mm = size_mm(body, options.length, "back length", "length")
    else:
        front, back = sorted(seats, key=lambda seat: not seat.is_front)
        length_mm = guessed_length_mm(work, front, back)
    free_mm = None if options.to else first.width_mm
    if options.width is not None:
        free_mm = size_mm(body, options.width, "back length", "width")
    spare_mm = size_mm(body, options.spare, "back length", "spare")
    return with_strap(work, Strip(options.name, length_mm, free_mm, spare_mm, options.length is None), seats)
