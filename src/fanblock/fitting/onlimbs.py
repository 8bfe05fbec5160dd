"""What is seen at shoulders, armholes, sleeves, skirts and collars, and what that changes.

All of it is common practice or from memory; no source is claimed for the amounts. Lengths are millimetres. What hangs on
the arm is the wearer's own and goes into her measures, so that the next sleeve has it; what is cut into the garment stays
with the garment.
"""

from __future__ import annotations

from fanblock.fitting.effects import (
    BACK,
    BEHIND,
    BENEATH,
    EDGES,
    IN_FRONT,
    LENGTHS,
    SIDE,
    SKIRTS,
    TOP,
    Hollow,
    Longer,
    Raise,
    Sentence,
    TakeIn,
    Turn,
)
from fanblock.fitting.parts import (
    ARMHOLE,
    BODY,
    COLLAR,
    ELBOW_SLEEVES,
    LONG_SLEEVES,
    PLEATS,
    SHOULDER_LINE,
    SHOULDERS,
    SKIRT,
    SLEEVES,
)

_LOWER = "how much lower it should be"
_BOTH = "what you pinch in all, both sides together"

ON_LIMBS: tuple[Sentence, ...] = (
    Sentence(
        "strains across the back between the arms", LENGTHS, "the back is narrow between the arms",
        (Longer("across back"),), 10.0, 5.0, 25.0, "how much is wanting, from arm to arm",
        "Look with both arms stretched forward.", of=(BODY, ARMHOLE),
    ),
    Sentence(
        "loose across the back between the arms", LENGTHS, "the back is wide between the arms",
        (Longer("across back", -1.0),), 10.0, 5.0, 25.0, _BOTH,
        "Leave what the arms need to reach forward.", of=(BODY, ARMHOLE),
    ),
    Sentence(
        "strains across the chest between the arms", LENGTHS, "the chest is narrow between the arms",
        (Longer("across front"),), 10.0, 5.0, 25.0, "how much is wanting, from arm to arm", of=(BODY, ARMHOLE),
    ),
    Sentence(
        "the armhole cuts in front of the arm", EDGES, "the armhole is not hollowed enough in front",
        (Hollow(IN_FRONT, -1.0),), 6.0, 3.0, 12.0, _LOWER, "Snip the seam allowance there first, and look again.",
        of=(BODY, ARMHOLE),
    ),
    Sentence(
        "the armhole cuts under the arm", EDGES, "the armhole is high under the arm",
        (Hollow(BENEATH, -1.0),), 8.0, 5.0, 15.0, _LOWER,
        "5 mm at a time: a low armhole lifts the whole garment with the arm.", of=(BODY, ARMHOLE),
    ),
    Sentence(
        "the armhole cuts behind the arm", EDGES, "the armhole is not hollowed enough behind",
        (Hollow(BEHIND, -1.0),), 6.0, 3.0, 12.0, _LOWER, "Snip the seam allowance there first, and look again.",
        of=(BODY, ARMHOLE),
    ),
    Sentence(
        "the whole rises when I lift my arms", EDGES, "the armhole is low under the arm",
        (Hollow(BENEATH),), 8.0, 5.0, 15.0, "how much higher the armhole should be",
        "A higher armhole moves better than a lower one, as long as it does not cut.", of=(BODY, ARMHOLE, SLEEVES),
    ),
    Sentence(
        "the armhole gapes under the arm", EDGES, "the side is too wide at the armhole",
        (TakeIn(TOP, SIDE, 0.5),), 10.0, 5.0, 30.0, _BOTH, of=(BODY, ARMHOLE),
    ),
    Sentence(
        "the armhole gapes behind the arm", EDGES, "the back is too wide at the armhole",
        (TakeIn(TOP, BACK, 0.5),), 10.0, 5.0, 30.0, _BOTH, of=(BODY, ARMHOLE),
    ),
    Sentence(
        "the armhole gapes in front of the arm", EDGES, "the shoulder or the strap is long in front",
        advice="Draw the front end at the shoulder up, and a little toward the neck, until the armhole lies flat; pin it "
        "and mark it there.",
        of=(BODY, ARMHOLE),
    ),
    Sentence(
        "folds run from the neck to the point of the shoulder", EDGES, "the shoulder slopes more than the cut",
        advice="Unpick the shoulder seam, smooth front and back toward the arm, and pin it again: the more is taken at the arm.",
        of=(BODY, SHOULDERS),
    ),
    Sentence(
        "folds run from the point of the shoulder to the chest", EDGES, "the shoulder is squarer than the cut",
        advice="Unpick the shoulder seam and let out at the arm, or take in at the neck, until the folds are gone.",
        of=(BODY, SHOULDERS),
    ),
    Sentence(
        "the sleeve is tight round the upper arm", LENGTHS, "the arm is larger than was measured",
        (Longer("upper arm"),), 15.0, 5.0, 40.0, "how much is wanting, all round",
        "If the recipe has a dial for it, `arm ease`, you may turn that instead: then it stays in this garment.",
        of=(BODY, SLEEVES),
    ),
    Sentence(
        "the sleeve is wide round the upper arm", LENGTHS, "the arm is smaller than was measured",
        (Longer("upper arm", -1.0),), 15.0, 5.0, 40.0, "what you pinch in one sleeve, both layers together",
        of=(BODY, SLEEVES),
    ),
    Sentence(
        "the sleeve is tight round the elbow", LENGTHS, "the bent elbow is larger than was measured",
        (Longer("elbow"),), 10.0, 5.0, 30.0, "how much is wanting, all round, the arm bent", of=(BODY, SLEEVES),
    ),
    Sentence(
        "the sleeve is tight round the wrist", LENGTHS, "the wrist is larger than was measured",
        (Longer("wrist"),), 8.0, 4.0, 25.0, "how much is wanting, all round", "Try first whether the hand goes through.",
        of=(BODY, LONG_SLEEVES),
    ),
    Sentence(
        "the sleeve bends above the elbow", LENGTHS, "the arm is longer from shoulder to elbow than was measured",
        (Longer("shoulder to elbow"),), 15.0, 5.0, 40.0, "how much lower it should bend", of=(BODY, SLEEVES),
    ),
    Sentence(
        "the sleeve bends below the elbow", LENGTHS, "the arm is shorter from shoulder to elbow than was measured",
        (Longer("shoulder to elbow", -1.0),), 15.0, 5.0, 40.0, "how much higher it should bend", of=(BODY, SLEEVES),
    ),
    Sentence(
        "the sleeve is too long", LENGTHS, "the arm is shorter than was measured",
        (Longer("arm length", -1.0),), 15.0, 5.0, 50.0, "how much shorter it should be, the arm bent",
        of=(BODY, LONG_SLEEVES),
    ),
    Sentence(
        "the sleeve is too short", LENGTHS, "the arm is longer than was measured",
        (Longer("arm length"),), 15.0, 5.0, 50.0, "how much longer it should be, the arm bent", of=(BODY, LONG_SLEEVES),
    ),
    Sentence(
        "the sleeve ends too high or too low below the elbow", EDGES, "where an elbow sleeve ends is a matter of taste",
        advice="See first that it bends at the elbow. Then mark its end on the arm, bent, and cut it there.",
        of=(BODY, ELBOW_SLEEVES),
    ),
    Sentence(
        "drags run down from the head of the sleeve", EDGES, "the head is set too far forward or back, or stands too low",
        advice="Unpick the head over the shoulder, let the arm hang, turn the sleeve until the drags are gone, and pin its "
        "tucks again on the body.",
        of=(BODY, SLEEVES),
    ),
    Sentence(
        "the skirts gape at the pleats", SKIRTS, "the skirts are narrow over the hip",
        (Turn("hip room"),), 30.0, 10.0, 80.0, "how far the pleats stand open, all of them together",
        "Look with all petticoats on, standing.", of=(BODY, SKIRT, PLEATS),
    ),
    Sentence(
        "the skirts are tight over the hip", SKIRTS, "the skirts are narrow over the hip",
        (Turn("hip room"),), 30.0, 10.0, 80.0, "how much is wanting, all round", "Look with all petticoats on, standing.",
        of=(BODY, SKIRT),
    ),
    Sentence(
        "the skirts flute", SKIRTS, "the skirts are wide over the hip",
        (Turn("hip room", -1.0),), 20.0, 10.0, 60.0, "what you pinch in the folds, all round",
        "Look with all petticoats on, standing.", of=(BODY, SKIRT),
    ),
    Sentence(
        "the skirts are short behind", SKIRTS, "the seat lifts them",
        (Raise("hem", 1.0, 0.4, -1.0),), 15.0, 5.0, 40.0, "how much lower the centre back should be", of=(BODY, SKIRT),
    ),
    Sentence(
        "the skirts are long behind", SKIRTS, "the seat is flatter than the cut",
        (Raise("hem", 1.0, 0.4),), 15.0, 5.0, 40.0, "how much higher the centre back should be", of=(BODY, SKIRT),
    ),
    Sentence(
        "the collar chokes", LENGTHS, "the neck is larger than was measured",
        (Longer("neck"),), 10.0, 5.0, 30.0, "how much is wanting, all round", "Two fingers must go between collar and neck.",
        of=(COLLAR,),
    ),
    Sentence(
        "the collar stands off the neck", LENGTHS, "the neck is smaller than was measured",
        (Longer("neck", -1.0),), 10.0, 5.0, 30.0, "what you pinch at the neck edge", of=(COLLAR,),
    ),
    Sentence(
        "the collar's outer edge rides up on the shoulders", EDGES, "the outer edge is short for the shoulders",
        (Turn("shoulder line"),), 30.0, 10.0, 80.0, "how much longer its outer edge should be, all round",
        of=(COLLAR, SHOULDER_LINE),
    ),
    Sentence(
        "the collar's outer edge flutes", EDGES, "the outer edge is long for the shoulders",
        (Turn("shoulder line", -1.0),), 30.0, 10.0, 80.0, "what you pinch in the folds, all round",
        of=(COLLAR, SHOULDER_LINE),
    ),
)  # fmt: skip
"""All of them, in the order in which they are looked for within their rank."""
