"""One text for one wearer's content, however the file was written: short codes are made from it."""

from __future__ import annotations

from fanblock.wearer.model import OVERS, Wearer


def is_uneven(wearer: Wearer) -> bool:
    """Return whether anything in a wearer's file is not the same left and right."""
    return any(measures.sides for measures in wearer.sets) or any(tilt.half for tilt in wearer.figure)


def canonical_text(wearer: Wearer) -> str:
    """Return the content that shapes a pattern, in a fixed order and in millimetres.

    The order in the file, its units and its spelling of numbers make no difference. Notes and the units for
    talking back are left out, since no line of a pattern depends on them.
    """
    lines = ["wearer 1", f"name {wearer.name}"]
    for measures in sorted(wearer.sets, key=lambda measures: OVERS.index(measures.over)):
        lines.append(f"over {measures.over} {measures.taken_on or '-'}")
        lines += [f"  {name} {value:.6f}" for name, value in sorted(measures.values.items())]
        lines += [f"  {name} {left:.6f} {right:.6f}" for name, (left, right) in sorted(measures.sides.items())]
    lines += sorted(
        f"tilt {tilt.at} {tilt.take_mm:.6f} {tilt.height_ratio:.6f} {tilt.to or '-'}{f' {tilt.half}' * bool(tilt.half)}"
        for tilt in wearer.figure
    )
    if is_uneven(wearer):
        lines.append(f"halves may differ {wearer.may_differ_mm:.6f}")
    return "\n".join(lines) + "\n"
