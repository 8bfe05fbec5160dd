"""The sentences of a fitting: what a maker sees on the toile, and what that changes.

Amounts, places and the order of looking are common practice or from memory; no source is claimed for them. Lengths are
millimetres. An amount is what the maker measured or pinched, both layers together where she pinches; ``share`` says how
much of it goes into one half.
"""

from __future__ import annotations

from dataclasses import dataclass

FRONT, SIDE, BACK, ALL = "front", "side", "back", "all round"
REGIONS = {FRONT: (0.0, 0.36), SIDE: (0.36, 0.62), BACK: (0.62, 1.0), ALL: (0.0, 1.0)}
"""Where the seams of a region lie, as shares of the half round from the centre front."""

TOP, BUST, MIDDLE, WAIST = "top", "bust", "middle", "waist"
LEVELS = (TOP, BUST, MIDDLE, WAIST)
"""The levels at which a gap or a pinch is measured, from the top down; the middle is half way from waist to bust."""

LENGTHS, WAIST_GIRTH, GIRTHS, EDGES, SKIRTS = 1, 2, 3, 4, 5
"""The order in which notes are applied: a waist at a wrong height makes every other note false."""


@dataclass(frozen=True, slots=True)
class Longer:
    """A measure of the wearer gets longer."""

    measure: str
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class TakeOut:
    """A wedge is taken out of the block at a centre line, half way from waist to bust; it belongs to the wearer."""

    at: str
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class TakeIn:
    """The seams of a region take in at a level; ``each`` gives every one of them the whole."""

    level: str
    region: str
    share: float = 1.0
    each: bool = False


@dataclass(frozen=True, slots=True)
class Raise:
    """An outline edge is raised at a place around, within ``reach`` either side."""

    edge: str
    around: float
    reach: float
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Spring:
    """Every seam of a region that runs below the waist springs more at the hem."""

    region: str
    share: float = 1.0


Effect = Longer | TakeOut | TakeIn | Raise | Spring


@dataclass(frozen=True, slots=True)
class Sentence:
    """One thing a maker may see: in what words, what it means, what it changes, and by how much.

    ``asks`` tells what the amount is. Where nothing can be computed there are no effects, and ``advice`` alone is told.
    """

    words: str
    order: int
    reading: str
    effects: tuple[Effect, ...] = ()
    typical_mm: float = 0.0
    least_mm: float = 0.0
    most_mm: float = 0.0
    asks: str = ""
    advice: str = ""


SENTENCES: tuple[Sentence, ...] = (
    Sentence(
        "folds across the back of the waist", LENGTHS, "the back is too long for the body, or sits on the hip",
        (TakeOut("center back"),), 12.0, 5.0, 30.0, "the depth of the folds",
        "If the folds go when the tabs are lifted, write instead: folds across the back that go when the tabs are lifted.",
    ),
    Sentence(
        "folds across the front of the waist", LENGTHS, "the front is too long for the body",
        (TakeOut("center front"),), 8.0, 5.0, 20.0, "the depth of the folds", "See that the bones end past the waist.",
    ),
    Sentence(
        "the bust is not lifted", LENGTHS, "the garment is too short from waist to bust, or its top is loose",
        (Longer("raised"), TakeIn(TOP, FRONT, 0.5)), 10.0, 5.0, 25.0, "how much higher the bust should be held",
        "Stiffen the lower front; do not lace the waist tighter for it.",
    ),
    Sentence(
        "drags slant from the bust to the waist at the side", LENGTHS, "the front is too narrow for the bust",
        (Longer("front arc"),), 12.0, 5.0, 30.0, "how much is wanting in front, from side to side",
    ),
    Sentence(
        "slips down", WAIST_GIRTH, "the waist is loose",
        (TakeIn(WAIST, ALL, 0.5),), 12.0, 5.0, 30.0, "how much may go at the waist", "Measure the waist again first.",
    ),
    Sentence(
        "turns round on the body", WAIST_GIRTH, "the waist is loose",
        (TakeIn(WAIST, ALL, 0.5),), 12.0, 5.0, 30.0, "how much may go at the waist", "Measure the waist again first.",
    ),
    Sentence(
        "rides up", WAIST_GIRTH, "the hip holds the tabs up, or the waist is loose",
        (TakeIn(WAIST, ALL, 0.5), Spring(ALL, 1.25)), 8.0, 4.0, 20.0, "how much may go at the waist",
        "Slit the tabs right up to the waist. Where waist and bust are nearly alike, add straps.",
    ),
    Sentence(
        "gapes at the centre front", GIRTHS, "the cone is too wide above the bust",
        (TakeIn(TOP, FRONT, 0.5),), 20.0, 5.0, 30.0, "what you pinch in all, both sides together",
    ),
    Sentence(
        "upright folds in front", GIRTHS, "the front is too wide below the bust",
        (TakeIn(MIDDLE, FRONT, 0.5),), 15.0, 5.0, 40.0, "what you pinch in all, both sides together",
    ),
    Sentence(
        "upright folds at the side", GIRTHS, "the side is too wide below the bust",
        (TakeIn(MIDDLE, SIDE, 0.5),), 15.0, 5.0, 40.0, "what you pinch in all, both sides together",
    ),
    Sentence(
        "upright folds behind", GIRTHS, "the back is too wide below the blades",
        (TakeIn(MIDDLE, BACK, 0.5),), 15.0, 5.0, 40.0, "what you pinch in all, both sides together",
    ),
    Sentence(
        "the back stands off at the top", GIRTHS, "the cone is too wide above the bust behind",
        (TakeIn(TOP, BACK, 0.5),), 20.0, 10.0, 40.0, "what you pinch in all, both sides together",
    ),
    Sentence(
        "cannot breathe at the ribs", GIRTHS, "the ribs are larger than the cone there",
        (TakeIn(MIDDLE, ALL, -1.0, each=True),), 5.0, 2.0, 10.0, "how much to let out at every seam of a half",
        "Lace less, and let the gap be wider, before you let out more.",
    ),
    Sentence(
        "spills over the top", EDGES, "the top edge is low",
        (Raise("top edge", 0.0, 0.28),), 20.0, 10.0, 35.0, "how much higher the centre front should be",
    ),
    Sentence(
        "spills over the top and is tight there", EDGES, "the top edge is low and tight",
        (Raise("top edge", 0.0, 0.28), TakeIn(TOP, FRONT, -0.25)), 20.0, 10.0, 35.0,
        "how much higher the centre front should be",
    ),
    Sentence(
        "digs under the arm in front", EDGES, "the edge is high before the arm",
        (Raise("top edge", 0.32, 0.1, -1.0),), 8.0, 5.0, 10.0, "how much lower it should be",
        "A centimetre at a time, three at most.",
    ),
    Sentence(
        "digs behind the arm", EDGES, "the edge rises too steeply behind the arm",
        (Raise("top edge", 0.64, 0.1, -1.0),), 10.0, 5.0, 15.0, "how much lower it should be",
    ),
    Sentence(
        "flesh rolls out under the arm", EDGES, "the edge is low or loose under the arm",
        (Raise("top edge", 0.45, 0.16), TakeIn(TOP, SIDE, 0.65)), 8.0, 5.0, 10.0, "how much higher it should be",
    ),
    Sentence(
        "the back cuts into the blades", EDGES, "the back is high and tight",
        (Raise("top edge", 1.0, 0.3, -1.0), TakeIn(TOP, BACK, -0.25)), 20.0, 10.0, 30.0, "how much lower it should be",
    ),
    Sentence(
        "the point tips forward", EDGES, "the centre front is short for the belly",
        (Raise("hem", 0.0, 0.2), TakeOut("center front", -0.35)), 15.0, 5.0, 25.0, "how much shorter the point should be",
        "A busk may be bent to the body.",
    ),
    Sentence(
        "the point digs in when I sit", EDGES, "the point is long",
        (Raise("hem", 0.0, 0.2),), 20.0, 10.0, 30.0, "how much shorter the point should be",
        "It should end 2 to 3 cm above where the leg folds; a busk a centimetre shorter still.",
    ),
    Sentence(
        "folds across the back that go when the tabs are lifted", SKIRTS, "the tabs sit on the hip behind",
        (Spring(BACK),), 10.0, 5.0, 20.0, "how much more every seam behind should spring",
    ),
    Sentence(
        "digs in at the hip", SKIRTS, "there are too few slits near the hip bone, or they end too low",
        (Spring(SIDE),), 8.0, 5.0, 15.0, "how much more every seam at the side should spring",
        "Slit the tabs there 5 mm higher, make them 3.5 to 5 cm wide, and let bones run 2 to 4 cm past the waist.",
    ),
    Sentence(
        "the tabs curl out", SKIRTS, "there is too much spring",
        (Spring(ALL, -1.0),), 8.0, 5.0, 10.0, "how much less every seam should spring",
    ),
    Sentence(
        "the tabs lie over one another", SKIRTS, "there is too little spring",
        (Spring(ALL),), 8.0, 5.0, 10.0, "how much more every seam should spring",
    ),
    Sentence(
        "the straps fall", EDGES, "the straps stand too far out or are long",
        advice="Set the back end 1 to 2 cm nearer the centre back, then pin the front end and read it: a strap is never computed.",
    ),
    Sentence(
        "the straps pull", EDGES, "the straps are short",
        advice="Let the strap out 0.5 to 2 cm at the front end, on the body.",
    ),
    Sentence(
        "one side is higher than the other", LENGTHS, "the two sides differ, or two left halves were cut",
        advice="See first that one half was cut face up and one face down. Then write left and right apart in a second wearer file.",
    ),
)  # fmt: skip
"""All of them, in the order in which they are looked for within their rank."""

BY_WORDS = {sentence.words: sentence for sentence in SENTENCES}
