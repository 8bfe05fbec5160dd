"""One text for one wearer's content, however the file was written: short codes are made from it."""

from __future__ import annotations

from fanblock.wearer.model import OVERS, Wearer


def canonical_text(wearer: Wearer) -> str:
    """Return the content that shapes a pattern, in a fixed order and in millimetres.

    The order in the file, its units and its spelling of numbers make no difference. Notes and the units for
    talking back are left out, since no line of a pattern depends on them.
    """
    lines = ["wearer 1", f"name {wearer.name}"]
    for measures in sorted(wearer.sets, key=lambda measures: OVERS.index(measures.over)):
        lines.append(f"over {measures.over} {measures.taken_on or '-'}")
        lines += [f"  {name} {value:.6f}" for name, value in sorted(measures.values.items())]
    lines += sorted(
        f"tilt {tilt.at} {tilt.take_mm:.6f} {tilt.height_ratio:.6f} {tilt.to or '-'}" for tilt in wearer.figure
    )
    return "\n".join(lines) + "\n"
