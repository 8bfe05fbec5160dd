"""The glossary holds every word of the house, once, in order."""

from __future__ import annotations

import re

from tests.docs.pages import DOCS, text_of

from fanblock.steps.table import TABLE
from fanblock.terms import LANDMARK_HEIGHTS

ROWS = re.findall(r"^\| (\*\*.+?) \| (.+) \|$", text_of(DOCS / "glossary.md"), re.MULTILINE)
WORDS = [word for cell, _ in ROWS for word in re.findall(r"\*\*(.+?)\*\*", cell)]


def test_words_are_in_order_and_stand_once() -> None:
    """Words are sorted and none stands twice."""
    firsts = [re.findall(r"\*\*(.+?)\*\*", cell)[0] for cell, _ in ROWS]
    assert firsts == sorted(firsts, key=str.lower)
    assert len(set(WORDS)) == len(WORDS)


def test_the_words_of_recipes_are_explained() -> None:
    """What a recipe is made of, and every landmark of the body, is told."""
    needed = {"around", "height", "level", "ruling", "recipe", "dial", "step", "seam", "take", "spring", "panel", "edge", "mate",
              "true", "notch", "grain", "allowance", "slit", "tab", "channel", "eyelet", "busk", "binding", "toile", "pattern",
              "sheet", "check", "wearer", "measure", "block", "draft", "outline", "amount", "position"}  # fmt: skip
    assert needed <= set(WORDS)
    told = " ".join(meaning for _, meaning in ROWS) + " ".join(WORDS)
    assert all(name in told for name in LANDMARK_HEIGHTS)
    assert len(TABLE) > 0
