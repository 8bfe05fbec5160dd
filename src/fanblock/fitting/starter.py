"""The notes file a fitting begins with: every line of the correction sheet, waiting to be used."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from fanblock.fitting.notes import FORMAT
from fanblock.fitting.questions import Questions
from fanblock.fitting.state import told_length

_WIDTH = 92

_HEAD = """\
The notes of one fitting. Take away the # before a line to use it, and type what you measured; what is left blank is not \
counted. Whatever else you write under notes is kept and changes nothing; put it in quotation marks if it is like one of \
the sentences there."""


def starter_notes(draft: int, questions: Questions, code: str = "") -> str:
    """Return the text of a notes file for a draft of one garment, bare numbers in its wearer's units.

    ``code`` is that of the draft: it tells at the fitting whether the garment file still draws the toile that was worn."""
    return "\n".join(_lines(draft, questions, code)) + "\n"


def _lines(draft: int, questions: Questions, code: str) -> Iterator[str]:
    units = questions.units
    yield from (_comment(_HEAD), "#", _comment(questions.before), "#")
    yield from (_comment(f"{number}. {look}") for number, look in enumerate(questions.looks, 1))
    yield from ("", f"fit: {FORMAT}", f"draft: {draft}")
    if code:
        yield f"code: {code}    # as it is printed on the toile"
    yield from (f"units: {units}", "worn: on the body    # or: on a stand", "")
    if questions.levels:
        yield _comment(questions.how)
        yield "#gap:"
        for level, called, mm in questions.levels:
            should = f"should be {told_length(mm, units)}" if mm else "should be 0"
            yield f"#  {level}:     # {'' if called == level else f'the {called}: '}{should}"
        yield from (
            "",
            "# What you pinch in where the cloth is slack, both layers together; slashed open is less than 0.",
            "#pinch:",
            "#  - {at: side, height: middle, take: , half: both}    # at: front, side, back, all round, or a seam",
            "# half: left or right where one half alone was pinched.",
            "",
            f"# Where the {questions.line} lies against the string.",
            "#line:",
            f"#  - {{waist: {_SAMPLE[units]} above string, where: all round}}    # or: center back, center front, left side, right side",
            "",
            "#keep: garment    # girths stay in this garment, and do not go into the wearer",
            "",
        )
    yield "notes:"
    yield "# An amount may stand behind a sentence, after a colon; the usual one is taken where none does."
    for sentence in questions.spoken:
        about = (
            f"    # {sentence.asks}; usual {told_length(sentence.usual_mm(units), units)}" if sentence.effects else ""
        )
        yield f"#  - {sentence.words}{about}"


_SAMPLE = {"in": "3/8 in", "cm": "1 cm", "mm": "10 mm"}
"""How far a line may lie off, as an example."""


def _comment(text: str) -> str:
    return textwrap.fill(text, _WIDTH, initial_indent="# ", subsequent_indent="# ")
