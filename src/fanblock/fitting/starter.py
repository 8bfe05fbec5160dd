"""The notes file a fitting begins with: every line of the correction sheet, waiting to be used."""

from __future__ import annotations

import textwrap

from fanblock.fitting.notes import FORMAT, sentence_list
from fanblock.fitting.sentences import LEVELS
from fanblock.units import format_length

_WIDTH = 92

_HEAD = """\
The notes of one fitting. Take away the # before a line to use it, and type what you measured; what is left blank is not counted. Lace it snug and \
comfortable, over the shift, and look in this order: the waist line, the gap, the centre front, under the arm, the top \
edge, the tabs; then sit and breathe in it. Whatever else you write under notes is kept and changes nothing."""


def starter_notes(draft: int, units: str) -> str:
    """Return the text of a notes file for a draft, bare numbers in these units."""
    lines = [textwrap.fill(_HEAD, _WIDTH, initial_indent="# ", subsequent_indent="# "), ""]
    lines += [f"fit: {FORMAT}", f"draft: {draft}", f"units: {units}", "worn: on the body    # or: on a stand", ""]
    lines += ["# The gap between the edges, at four heights.", "#gap:"]
    lines += [f"#  {level}: " for level in LEVELS]
    lines += [
        "",
        "# What you pinch in where the cloth is slack, both layers together; slashed open is less than 0.",
        "#pinch:",
        "#  - {at: side, height: middle, take: , half: both}    # at: front, side, back, all round, or a seam",
        "",
        "# Where the drawn waist lies against the string.",
        "#line:",
        "#  - {waist: 1 cm above string, where: all round}    # or: center back, center front",
        "",
        "#keep: garment    # waist and bust stay in this garment, and do not go into the wearer",
        "",
        "notes:",
        "# An amount may stand behind a sentence, after a colon; the usual one is taken where none does.",
    ]
    for sentence in sentence_list():
        about = f"    # {sentence.asks}; usual {format_length(sentence.typical_mm, units)}" if sentence.effects else ""
        lines.append(f"#  - {sentence.words}{about}")
    return "\n".join(lines) + "\n"
