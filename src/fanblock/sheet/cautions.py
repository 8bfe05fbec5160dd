"""What anybody should know before something is laced around a body. Costume only; nothing here is advice on
health.
"""

from __future__ import annotations

COSTUME = (
    "This draws costume. It is not a medical, posture or slimming aid, and it says nothing about anybody's health; "
    "for that ask a doctor or another clinician."
)

CAUTIONS = (
    "Ask a clinician first, and do not lace without their word: in pregnancy and the weeks after it; after surgery or "
    "injury of chest, belly or breast; with a heart or lung condition, trouble with blood pressure or clotting, a "
    "hernia, reflux, brittle bones, a curved spine or brace, a stoma or port, shingles; and for growing children.",
    "Somebody else must be able to undo you, and the end of the lace stays within your own reach. Keep scissors on "
    "the table at every fitting: a lace is cheap.",
    "Wear it 20 to 30 minutes the first time, then a little longer. Lace slowly, sitting or standing still, and unlace "
    "slowly and sitting: quick tightening and quick release both make people faint.",
    "Stop at once and loosen for pain, numbness, tingling, burning, a change of colour, short breath or dizziness. "
    "Numbness of the outer thigh means that the lower edge presses at the groin.",
    "The lacing here takes in at most a tenth of the waist unless somebody insists; a first pair should take in less. "
    "Of sixteen re-enactors measured in 1998 all were a little short of breath, and more at ease below that.",
    "Do not sleep, run, drive or do heavy work in it. Layers hold heat: drink, and loosen in the sun.",
    "Round and smooth the ends of every bone, and look each time whether one has worked through. Cut steel with your "
    "eyes covered and the ends pointed away. A shift belongs between stays and skin.",
    "Make a toile first. The numbers are a draft; the body decides.",
)
"""After the advice of C. Gau, Historic Medical Perspectives of Corseting (1998) and common practice."""
