"""What was checked, as the report tells it: family by family, each with its tally."""

from __future__ import annotations

import math
from collections.abc import Sequence
from html import escape

from fanblock.pattern.model import Finding
from fanblock.sheet.htmlpage import words
from fanblock.units import UNITS, proved_length

FAMILIES = {
    "halves": "The two halves",
    "block": "The block against the measures",
    "girth": "Girths",
    "seams": "Seams",
    "joins": "Edges across the seams",
    "panels": "Panels",
    "hips": "Over the hips",
    "sleeve": "Sleeve and armhole",
    "opening": "Where it opens",
    "channels": "Channels",
    "marks": "Marks",
    "paper": "Paper",
    "body": "The body",
}
"""The families of checks, in the order they are told, and their heads."""

SQUARE_INCH_CM2 = (UNITS["in"] / UNITS["cm"]) ** 2

STATES = {"holds": "holds", "warns": "look", "fails": "FAILS"}
"""A check's state in a word."""

TALLIED = {"fails": "FAIL", "warns": "to look at", "holds": "hold"}
"""How many there are of each state, in words, worst first."""


def checks_table(findings: Sequence[Finding], units: str) -> str:
    """Return the table of checks: each family with its tally and its checks, of which paper leaves out those that hold.

    Lengths are told in ``units``, the wearer's.
    """
    if not findings:
        return ""
    rows = []
    for family in [*FAMILIES, *sorted({finding.family for finding in findings} - set(FAMILIES))]:
        some = [finding for finding in findings if finding.family == family]
        if some:
            head = escape(FAMILIES.get(family, family))
            rows.append(
                f'<tr class="family"><th colspan="2">{head}</th><th class="n" colspan="2">{_tally(some)}</th></tr>'
            )
            rows.extend(_check(finding, units) for finding in some)
    head = '<tr><th></th><th>what</th><th class="n">found</th><th class="n">limit</th></tr>'
    note = '<p class="faint paper">What holds is only counted on paper; the page on the screen lists every check.</p>'
    return f'{note}<div class="wide"><table>{head}{"".join(rows)}</table></div>'


def _tally(findings: Sequence[Finding]) -> str:
    """How many checks of a family there are of each state, worst first: ``1 to look at, 8 hold``."""
    counts = ((word, sum(finding.state == state for finding in findings)) for state, word in TALLIED.items())
    return escape(", ".join(f"{count} {word}" for word, count in counts if count))


def _check(finding: Finding, units: str) -> str:
    state = escape(STATES.get(finding.state, finding.state))
    return (
        f'<tr class="check-{escape(finding.state)}"><td class="{escape(finding.state)}">{state}</td><td>{words(finding.says)}</td>'
        f'<td class="n">{escape(_amount(finding.number, finding.unit, units))}</td>'
        f'<td class="n">{escape(_amount(finding.limit, finding.unit, units))}</td></tr>'
    )


def _amount(number: float, unit: str, units: str) -> str:
    """A checked number with its unit, a length in the wearer's; nothing for a limit there is not."""
    if not math.isfinite(number):
        return "–"
    if unit == "ratio":
        return f"{100.0 * number:.1f} %"
    if unit == "mm":
        return proved_length(number, units, decimals=2)
    if unit == "cm2":
        return f"{number / SQUARE_INCH_CM2:.0f} sq in" if units == "in" else f"{number:.0f} cm²"
    decimals = {"deg": 1}.get(unit, 0)
    text = f"{number:.{decimals}f}"
    text = text.lstrip("-") if float(text) == 0.0 else text
    return f"{text} {'°' if unit == 'deg' else unit}".strip()
