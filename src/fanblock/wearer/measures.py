"""The measures a wearer may have: how each is taken, what it is for, and what is believable.

Two bands belong to each, in centimetres here and in millimetres as they leave. Outside the wide one a value
is refused as a slip; outside the narrow one it is kept and doubted aloud. They are our own judgement, set
so wide that the 507 adults of the body girths published by Heinz, Peterson, Johnson and Kerk (Journal of
Statistics Education 11(2), 2003) pass, and so does any figure up to a bust of 170 cm.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure: whether the block needs it, its bands in mm, how to take it, and what it is for.

    ``whole_girth`` marks a measure that goes all round the body. ``under_stays`` marks one that lacing
    leaves as it is, so that a set over the stays may borrow it from the set over the shift. ``for_stays``
    marks one that stays are the better for: without it their edges are guessed. ``sides`` tells how its left and right may
    be written apart: :data:`HALF`, :data:`EACH`, or not at all where it is empty.
    """

    name: str
    needed: bool
    least_mm: float
    most_mm: float
    usual_least_mm: float
    usual_most_mm: float
    how: str
    use: str
    whole_girth: bool = False
    under_stays: bool = False
    for_stays: bool = False
    sides: str = ""


HALF, EACH = "half", "each"
"""How a measure's left and right are taken: as the two halves from centre front to centre back, which add up to the whole;
or each on its own side of the body."""


def _measure(
    name: str,
    band_cm: tuple[float, float, float, float],
    how: str,
    use: str,
    *,
    needed: bool = False,
    girth: bool = False,
    under: bool = False,
    stays: bool = False,
    sides: str = "",
) -> Measure:
    least, usual_least, usual_most, most = (10.0 * bound for bound in band_cm)
    return Measure(name, needed, least, most, usual_least, usual_most, how, use, girth, under, stays, sides)


_ALL = (
    _measure(
        "bust", (58, 70, 160, 190),
        "All round the fullest part of the bust, the tape level at the back too, snug without pressing.",
        "the block", needed=True, girth=True, sides=HALF,
    ),
    _measure(
        "waist", (45, 54, 160, 210),
        "All round where the body creases when you bend sideways. Let the tape settle, breathe out, "
        "hold it firm. Take nothing off: the recipe does.",
        "the block", needed=True, girth=True, sides=HALF,
    ),
    _measure(
        "bust to waist", (9, 12, 22, 28),
        "At the centre front, from the bust tape to the waist tape, the measuring tape taut like a board "
        "between the two. It must not follow the hollow under the bust.",
        "the block", needed=True,
    ),
    _measure(
        "raised", (9, 12, 24, 32),
        "Bust to waist once more with a hand under the breast, lifting it to where the garment will hold it. "
        "Alone: the thumb of the hand that lifts holds the tape's end, the other hand draws it taut; read it in a "
        "mirror. Over stays there is nothing to lift.",
        "stays and bodies; guessed 2.5 cm longer than bust to waist if missing", stays=True,
    ),
    _measure(
        "bust to waist at side", (9, 11, 22, 28),
        "From tape to tape again, straight below the arm, the measuring tape lying on the body.",
        "finding a tilted waist", sides=EACH,
    ),
    _measure(
        "bust to waist at back", (8, 11, 22, 28),
        "From tape to tape again, down the middle of the back. Alone: pin a third tape to the upper one, "
        "let it hang, and read it in a mirror or a photograph.",
        "finding a short or a long back",
    ),
    _measure(
        "underarm", (10, 14, 26, 32),
        "From the armpit, a card pushed gently up into it, straight down to the waist tape. Alone: lower the arm, "
        "let it hold the card, pin the shift at the card's upper edge, and measure from the pin.",
        "how high a garment may go under the arm; guessed as half the back length if missing", under=True, stays=True, sides=EACH,
    ),
    _measure(
        "front arc", (25, 32, 90, 110),
        "Along the bust tape across the front only, from side to side: a side is straight down from the middle of "
        "the armpit. Alone: pin the shift there, on the tape, under either arm, and measure from pin to pin.",
        "where the side lies; half the bust if missing", stays=True, sides=HALF,
    ),
    _measure(
        "underbust", (48, 58, 150, 185),
        "All round the ribs close under the breasts, breathing out.",
        "short stays, gussets, looking at the ribs; guessed from the bust if missing", girth=True, sides=HALF,
    ),
    _measure(
        "underbust height", (2, 4, 16, 22),
        "From the waist tape up to the underbust tape at the centre front, taut.",
        "where the ribs are measured; guessed as a quarter of the back length if missing", under=True,
    ),
    _measure(
        "upper chest", (58, 70, 150, 180),
        "All round above the breasts, the tape high under the arms.",
        "short stays, top edges that lie close; guessed from the bust if missing", girth=True, sides=HALF,
    ),
    _measure(
        "hip", (60, 76, 170, 220),
        "All round the fullest part of the seat, the tape level; with stays on, over all petticoats.",
        "tabs and skirts; over stays predicted from that over the shift if missing", girth=True, stays=True, sides=HALF,
    ),
    _measure(
        "hip depth", (8, 13, 27, 36),
        "At the side, from the waist tape down over the body to the hip tape. Alone: pin a tape to the "
        "waist tape, let it hang, and read it upright in a mirror.",
        "tabs and skirts", under=True, sides=EACH,
    ),
    _measure(
        "belly", (48, 60, 165, 220),
        "All round, 10 cm (4 in) below the waist tape, standing easily.",
        "the point and the front tabs", girth=True, under=True, sides=HALF,
    ),
    _measure(
        "back length", (28, 34, 48, 55),
        "From the knob of bone at the base of the neck down the middle of the back to the waist tape. Alone: tie a "
        "thread loosely round the neck so that it lies on the bone, hang the tape from it, photograph it.",
        "how high a back may go; guessed from the bust if missing", under=True, stays=True,
    ),
    _measure(
        "upper chest height", (12, 15, 28, 36),
        "From the waist tape up to the upper chest tape at the centre front, taut between the breasts.",
        "where the upper chest is measured; guessed as high as the underarm if missing", under=True,
    ),
    _measure(
        "raised waist", (46, 55, 155, 195),
        "All round where a raised waistline shall lie, a tape tied there, level, breathing out.",
        "high-waisted bodices; guessed between waist and underbust if missing", girth=True, sides=HALF,
    ),
    _measure(
        "raised waist height", (1, 2, 17, 24),
        "From the waist tape up to the raised waist's tape at the centre front, taut.",
        "high-waisted bodices; guessed as high as the underbust if missing", under=True,
    ),
    _measure(
        "front length", (30, 37, 62, 75),
        "From the shoulder beside the neck, over the fullest part of the bust, down to the waist tape.",
        "bodices with shoulders", under=True, sides=EACH,
    ),
    _measure(
        "across back", (22, 28, 50, 62),
        "Between the creases where the arms join the back, across the shoulder blades.",
        "bodices with armholes", under=True, sides=HALF,
    ),
    _measure(
        "across front", (20, 26, 48, 60),
        "Between the creases where the arms join the chest, half way down the armhole.",
        "bodices with armholes", under=True, sides=HALF,
    ),
    _measure(
        "neck", (24, 30, 52, 65),
        "All round the base of the neck, where a necklace lies.",
        "collars and high bodices", girth=True, under=True,
    ),
    _measure(
        "shoulder", (7, 9, 17, 22),
        "From the side of the neck along the shoulder to its bone.",
        "straps and shoulders", under=True, sides=EACH,
    ),
    _measure(
        "armhole", (26, 34, 62, 78),
        "All round the arm where it joins the body, the tape loose enough to turn.",
        "bodices with sleeves", girth=True, under=True, sides=EACH,
    ),
    _measure(
        "upper arm", (15, 20, 50, 65),
        "All round the fullest part of the upper arm.",
        "sleeves; guessed from the bust if missing", girth=True, under=True, sides=EACH,
    ),
    _measure(
        "elbow", (15, 19, 45, 55),
        "All round the elbow, the arm bent.",
        "sleeves; guessed from the upper arm if missing", girth=True, under=True, sides=EACH,
    ),
    _measure(
        "wrist", (10, 12, 23, 30),
        "All round the wrist, over its bone.",
        "long sleeves and cuffs; guessed from the bust if missing", girth=True, under=True, sides=EACH,
    ),
    _measure(
        "arm length", (38, 48, 70, 85),
        "From the shoulder bone over the bent elbow to the wrist bone.",
        "sleeves; guessed from the bust if missing", under=True, sides=EACH,
    ),
    _measure(
        "shoulder to elbow", (20, 26, 42, 52),
        "The first part of the arm length: from the shoulder bone to the point of the bent elbow.",
        "where sleeves bend; guessed from the arm length if missing", under=True, sides=EACH,
    ),
)  # fmt: skip

MEASURES: Mapping[str, Measure] = MappingProxyType({measure.name: measure for measure in _ALL})
"""All measures by name, in the order they are taken, the needed ones first."""

NUMBERS: Mapping[str, int] = MappingProxyType({measure.name: number for number, measure in enumerate(_ALL, start=1)})
"""The number each measure has wherever measures are listed: on the form, on its figure, in a new wearer's file."""

NEEDED = tuple(measure.name for measure in _ALL if measure.needed)
