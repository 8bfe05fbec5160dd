"""Can no piece be mixed up? Notches of mates, and what every panel must carry."""

from __future__ import annotations

from fanblock.checks.finding import FAILS, HOLDS, seam_tags, told, within
from fanblock.pattern.model import DARTED, Finding, Notch, Panel, Pattern, Seam
from fanblock.tolerances import MATES_MM

FAMILY = "marks"


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return whether mates carry like notches, neighbours unlike ones, and every panel its marks."""
    tags = seam_tags(pattern)
    found = [finding for seam in pattern.seams for finding in _notches(pattern, seam, tags[seam.name])]
    found += [_panel(panel) for panel in pattern.panels]
    return tuple(found)


def _of(panel: Panel, edge: str) -> list[Notch]:
    return [notch for notch in panel.notches if notch.edge == edge]


def _notches(pattern: Pattern, seam: Seam, tag: str) -> list[Finding]:
    front, back = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
    rising, falling = front.edge(seam.front.edge), back.edge(seam.back.edge)
    ours, theirs = _of(front, rising.name), _of(back, falling.name)
    if [(notch.kind, notch.count) for notch in ours] != [(notch.kind, notch.count) for notch in theirs] or not ours:
        says = f"the notches of seam {seam.letter} are not the same on both sides"
        return [told(f"notches-{tag}", FAMILY, FAILS, 0.0, "mm", says)]
    foot_ours = rising.waist_at_mm or 0.0
    foot_theirs = falling.waist_at_mm if falling.waist_at_mm is not None else falling.curve.length_mm
    spread = seam.fullness_mm and seam.how != DARTED
    share = falling.curve.length_mm / rising.curve.length_mm if spread else 1.0
    apart = max(
        abs(share * (mine.at_mm - foot_ours) - (foot_theirs - other.at_mm))
        for mine, other in zip(ours, theirs, strict=True)
    )
    ticks = max(notch.count for notch in ours)
    says = f"seam {seam.letter} has {ticks} tick{'s' if ticks > 1 else ''} at one place on both sides"
    return [within(f"notches-{tag}", FAMILY, apart, MATES_MM, "mm", says)]


def _panel(panel: Panel) -> Finding:
    missing = [
        word
        for word, there in (
            ("a grain line", panel.grain is not None),
            ("a cut count", bool(panel.cuts)),
            ("a cut line", panel.cut_line is not None),
            ("letters on its seams", all(edge.letter for edge in panel.edges if edge.mate is not None)),
            ("unlike ticks on its seams", _unlike(panel)),
        )
        if not there
    ]
    says = (
        f"panel {panel.number} ({panel.name}) lacks {', '.join(missing)}"
        if missing
        else (f"panel {panel.number} ({panel.name}) has number, name, grain, letters, notches and cut count")
    )
    return told(
        f"marks-{panel.name.replace(' ', '-')}",
        FAMILY,
        FAILS if missing else HOLDS,
        len(missing),
        "marks",
        says,
    )


def _unlike(panel: Panel) -> bool:
    letters = {edge.name: edge.letter for edge in panel.edges}
    counts = {(letters[notch.edge], notch.count) for notch in panel.notches if notch.kind == "seam"}
    return len({count for _, count in counts}) == len({letter for letter, _ in counts})
