"""What is seen on the body of a garment, and what that changes: waist, girths, top edge, point, tabs and straps.

Amounts, places and the order of looking are common practice or from memory; no source is claimed for them. Lengths are
millimetres.
"""

from __future__ import annotations

from fanblock.fitting.effects import (
    ALL,
    BACK,
    EDGES,
    FRONT,
    GIRTHS,
    LENGTHS,
    MIDDLE,
    SIDE,
    SKIRTS,
    TOP,
    WAIST,
    WAIST_GIRTH,
    Longer,
    Raise,
    Sentence,
    Spring,
    TakeIn,
    TakeOut,
)
from fanblock.fitting.parts import BODY, BONES, HOLDS, NO_ARMHOLE, POINT, STRAPS, TABS

ON_BODY: tuple[Sentence, ...] = (
    Sentence(
        "folds across the back of the waist", LENGTHS, "the back is too long for the body, or sits on the hip",
        (TakeOut("center back"),), 12.0, 5.0, 30.0, "the depth of the folds",
        "If the folds go when the tabs are lifted, write instead: folds across the back that go when the tabs are lifted.",
        of=(BODY,), advice_of=(TABS,),
    ),
    Sentence(
        "folds across the front of the waist", LENGTHS, "the front is too long for the body",
        (TakeOut("center front"),), 8.0, 5.0, 20.0, "the depth of the folds", "See that the bones end past the waist.",
        of=(BODY,), advice_of=(BONES,),
    ),
    Sentence(
        "the bust is not lifted", LENGTHS, "the garment is too short from waist to bust, or its top is loose",
        (Longer("raised"), TakeIn(TOP, FRONT, 0.5)), 10.0, 5.0, 25.0, "how much higher the bust should be held",
        "Stiffen the lower front; do not lace the waist tighter for it.",
        of=(BODY, HOLDS), advice_of=(BONES,),
    ),
    Sentence(
        "drags slant from the bust to the waist at the side", LENGTHS, "the front is too narrow for the bust",
        (Longer("front arc"),), 12.0, 5.0, 30.0, "how much is wanting in front, from side to side",
        of=(BODY,),
    ),
    Sentence(
        "slips down", WAIST_GIRTH, "the waist is loose",
        (TakeIn(WAIST, ALL, 0.5),), 12.0, 5.0, 30.0, "how much may go at the waist", "Measure the waist again first.",
        of=(BODY,),
    ),
    Sentence(
        "turns round on the body", WAIST_GIRTH, "the waist is loose",
        (TakeIn(WAIST, ALL, 0.5),), 12.0, 5.0, 30.0, "how much may go at the waist", "Measure the waist again first.",
        of=(BODY,),
    ),
    Sentence(
        "rides up", WAIST_GIRTH, "the hip holds the tabs up, or the waist is loose",
        (TakeIn(WAIST, ALL, 0.5), Spring(ALL, 1.25)), 8.0, 4.0, 20.0, "how much may go at the waist",
        "Slit the tabs right up to the waist. Where waist and bust are nearly alike, add straps.",
        of=(BODY, TABS),
    ),
    Sentence(
        "gapes at the centre front", GIRTHS, "the cone is too wide above the bust",
        (TakeIn(TOP, FRONT, 0.5),), 20.0, 5.0, 30.0, "what you pinch in all, both sides together",
        of=(BODY,),
    ),
    Sentence(
        "upright folds in front", GIRTHS, "the front is too wide below the bust",
        (TakeIn(MIDDLE, FRONT, 0.5),), 15.0, 5.0, 40.0, "what you pinch in all, both sides together",
        of=(BODY,),
    ),
    Sentence(
        "upright folds at the side", GIRTHS, "the side is too wide below the bust",
        (TakeIn(MIDDLE, SIDE, 0.5),), 15.0, 5.0, 40.0, "what you pinch in all, both sides together",
        of=(BODY,),
    ),
    Sentence(
        "upright folds behind", GIRTHS, "the back is too wide below the blades",
        (TakeIn(MIDDLE, BACK, 0.5),), 15.0, 5.0, 40.0, "what you pinch in all, both sides together",
        of=(BODY,),
    ),
    Sentence(
        "the back stands off at the top", GIRTHS, "the cone is too wide above the bust behind",
        (TakeIn(TOP, BACK, 0.5),), 20.0, 10.0, 40.0, "what you pinch in all, both sides together",
        of=(BODY,),
    ),
    Sentence(
        "cannot breathe at the ribs", GIRTHS, "the ribs are larger than the cone there",
        (TakeIn(MIDDLE, ALL, -1.0, each=True),), 5.0, 2.0, 10.0, "how much to let out at every seam of a half",
        "Lace less, and let the gap be wider, before you let out more.",
        of=(BODY,),
    ),
    Sentence(
        "spills over the top", EDGES, "the top edge is low",
        (Raise("top edge", 0.0, 0.28),), 20.0, 10.0, 35.0, "how much higher the centre front should be",
        of=(BODY, HOLDS),
    ),
    Sentence(
        "spills over the top and is tight there", EDGES, "the top edge is low and tight",
        (Raise("top edge", 0.0, 0.28), TakeIn(TOP, FRONT, -0.25)), 20.0, 10.0, 35.0,
        "how much higher the centre front should be",
        of=(BODY, HOLDS),
    ),
    Sentence(
        "digs under the arm in front", EDGES, "the edge is high before the arm",
        (Raise("top edge", 0.32, 0.1, -1.0),), 8.0, 5.0, 10.0, "how much lower it should be",
        "1 cm at a time, 3 cm at most.",
        of=(BODY, NO_ARMHOLE),
    ),
    Sentence(
        "digs behind the arm", EDGES, "the edge rises too steeply behind the arm",
        (Raise("top edge", 0.64, 0.1, -1.0),), 10.0, 5.0, 15.0, "how much lower it should be",
        of=(BODY, NO_ARMHOLE),
    ),
    Sentence(
        "flesh rolls out under the arm", EDGES, "the edge is low or loose under the arm",
        (Raise("top edge", 0.45, 0.16), TakeIn(TOP, SIDE, 0.65)), 8.0, 5.0, 10.0, "how much higher it should be",
        of=(BODY, NO_ARMHOLE),
    ),
    Sentence(
        "the back cuts into the blades", EDGES, "the back is high and tight",
        (Raise("top edge", 1.0, 0.3, -1.0), TakeIn(TOP, BACK, -0.25)), 20.0, 10.0, 30.0, "how much lower it should be",
        of=(BODY,),
    ),
    Sentence(
        "the point tips forward", EDGES, "the centre front is short for the belly",
        (Raise("hem", 0.0, 0.2), TakeOut("center front", -0.35)), 15.0, 5.0, 25.0, "how much shorter the point should be",
        "A busk may be bent to the body.",
        of=(BODY, POINT), advice_of=(BONES,),
    ),
    Sentence(
        "the point digs in when I sit", EDGES, "the point is long",
        (Raise("hem", 0.0, 0.2),), 20.0, 10.0, 30.0, "how much shorter the point should be",
        "It should end 2 to 3 cm above where the leg folds; a busk 1 cm shorter still.",
        of=(BODY, POINT), advice_of=(BONES,),
    ),
    Sentence(
        "folds across the back that go when the tabs are lifted", SKIRTS, "the tabs sit on the hip behind",
        (Spring(BACK),), 10.0, 5.0, 20.0, "how much more every seam behind should spring",
        of=(BODY, TABS),
    ),
    Sentence(
        "digs in at the hip", SKIRTS, "there are too few slits near the hip bone, or they end too low",
        (Spring(SIDE),), 8.0, 5.0, 15.0, "how much more every seam at the side should spring",
        "Slit the tabs there 5 mm higher, make them 3.5 to 5 cm wide, and let bones run 2 to 4 cm past the waist.",
        of=(BODY, TABS),
    ),
    Sentence(
        "the tabs curl out", SKIRTS, "there is too much spring",
        (Spring(ALL, -1.0),), 8.0, 5.0, 10.0, "how much less every seam should spring",
        of=(BODY, TABS),
    ),
    Sentence(
        "the tabs lie over one another", SKIRTS, "there is too little spring",
        (Spring(ALL),), 8.0, 5.0, 10.0, "how much more every seam should spring",
        of=(BODY, TABS),
    ),
    Sentence(
        "the straps fall", EDGES, "the straps stand too far out or are long",
        advice="Set the back end 1 to 2 cm nearer the centre back, then pin the front end and read it: a strap is never computed.",
        of=(BODY, STRAPS),
    ),
    Sentence(
        "the straps pull", EDGES, "the straps are short",
        advice="Let the strap out 0.5 to 2 cm at the front end, on the body.",
        of=(BODY, STRAPS),
    ),
    Sentence(
        "one side is higher than the other", LENGTHS, "the two sides differ, or two left halves were cut",
        advice="See first that one half was cut face up and one face down. Then measure both sides, and write what differs left and right into the wearer file; or note the waist line of the left side or the right side by itself.",
        of=(BODY,),
    ),
)  # fmt: skip
"""All of them, in the order in which they are looked for within their rank."""
