"""What is said of a pattern as a whole: a garment on the body is told otherwise than a band, and a half than a whole.

Sheets, report and pictures ask :func:`telling` and do not look for themselves what kind of thing they tell of.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from fanblock.pattern.model import LACING, SLIT, Panel, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.cautions import CAUTIONS, COSTUME
from fanblock.sheet.levels import told_level


@dataclass(frozen=True, slots=True)
class Telling:
    """The words for one kind of pattern.

    ``caption`` stands under the picture of the panels seam to seam; ``half`` on every piece; ``toward`` beside the seam
    nearest the front; ``counted`` behind the number of pieces. ``look`` says what to look at first on a toile.
    ``before`` heads the ``cautions``; both are empty where nothing is laced. ``has_side`` tells whether there is a view
    of it worn.
    """

    caption: str
    half: str
    toward: str
    counted: str
    look: str
    before: str
    cautions: tuple[str, ...]
    has_side: bool


ON_BODY = Telling(
    caption="the wearer's left half, seen from outside",
    half=phrases.HALF,
    toward="toward center front",
    counted="a half",
    look="",  # told of every garment by itself
    before="Before you lace",
    cautions=(COSTUME, *CAUTIONS),
    has_side=True,
)

BOTH_CAPTION = "both halves, seen from outside: the wearer's right half (R) at the left of the picture"

_LOOK = (
    "Look in this order: whether the inner edge is as long as what it is sewn to; how the band lies or falls in front, at "
    "the side and behind; then its depth. Curved edges stretch: stay-stitch them before you judge."
)

HALF_BAND = Telling(
    caption="one half from outside, the wearer's left, laid flat",
    half=phrases.HALF,
    toward="toward center front",
    counted="a half",
    look=_LOOK,
    before="",
    cautions=(),
    has_side=False,
)

WHOLE_BAND = Telling(
    caption="the whole band, laid flat",
    half="all of it, face up",
    toward="toward the first end",
    counted="in all",
    look=_LOOK,
    before="",
    cautions=(),
    has_side=False,
)


def _looks(pattern: Pattern, level: str) -> str:
    """Return in what order a garment is looked at on the body, of what it has (common practice, no source)."""
    kinds = {edge.kind for panel in pattern.panels for edge in panel.edges}
    tabs = any(panel.slits for panel in pattern.panels) or SLIT in kinds
    looks = (
        (True, f"the {level} line against a tied string"),
        (LACING in kinds, "the shape of the gap"),
        (True, "whether the centre front hangs plumb"),
        (True, "under the arms, stretched forward and lifted"),
        (True, "the top edge in front and behind"),
        (any("sleeve" in panel.name for panel in pattern.panels), "the sleeves, both arms bent"),
        (tabs, "the tabs"),
        (True, "then sit and breathe in it for 20 minutes"),
    )
    told = "; ".join(words for there, words in looks if there)
    return f"Look in this order: {told}. A wrong {level} makes every other note false."


def telling(pattern: Pattern) -> Telling:
    """Return the words that a pattern is told in."""
    if pattern.band is None:
        level = told_level(pattern)
        said = ON_BODY if not pattern.halves else replace(
            ON_BODY, caption=BOTH_CAPTION, half=phrases.BOTH_HALVES, counted="in both halves"
        )  # fmt: skip
        return replace(said, look=_looks(pattern, level))
    return HALF_BAND if pattern.band.halved else WHOLE_BAND


def half_of(panel: Panel, pattern: Pattern) -> str:
    """Return which half a piece is of, and which way up it lies."""
    if panel.side:
        return phrases.ONE_HALF[panel.side]
    return phrases.WHOLE if panel.whole else telling(pattern).half
