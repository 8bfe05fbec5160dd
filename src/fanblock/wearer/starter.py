"""The file a new wearer starts from: blanks to fill, with how to take each measure beside it."""

from __future__ import annotations

import json
import textwrap

from fanblock.units import UNITS
from fanblock.wearer.measures import MEASURES, NUMBERS, Measure
from fanblock.wearer.reading import FORMAT

_WIDTH = 92

_HEAD = """\
A wearer: the tape measures of one body, taken once and used for every garment.

Three measures are needed and stand blank below. The others are welcome; take away the # before a line to \
use it. Stays want those with a star as well: what is missing of them is guessed. Lines that begin with # are \
for you alone. The numbers are those of the printed form (fanblock new form)."""

_HOW = """\
HOW TO MEASURE

Wear the shift, or something as thin and close, and no modern bra: it holds the bust where no historical \
garment does.

Tie one tape (or narrow elastic) round the waist, where the body creases when you bend sideways, and let \
it settle by itself. Tie a second round the fullest part of the bust. Both must be level all round; a \
photograph from the side shows it. Leave them on: all lengths run to these two tapes.

Stand easily, breathe out, look ahead. The bust tape lies snug and presses nothing; the waist tape is \
firm. Take nothing off for lacing: the recipe does that. Old books deduct an inch or two, and whoever \
does it here deducts twice.

Lengths between the two tapes are taut, like a board laid from one to the other. A tape that follows the \
hollow under the bust comes out too long.

Alone: pin the end of a spare tape to the upper tape, let it hang over the lower one, and read it in a \
mirror or a photograph taken by a timer. Pins in the shift keep any other place while you reach for the tape. \
Half a centimetre (1/4 in) is near enough; the toile decides the rest."""

_CAUTION = """\
Stays press on the body. This is for dress-making only and says nothing about health: if in doubt, when \
expecting, after an operation, or with heart, lungs, stomach, skin or bones that give trouble, ask a \
clinician before lacing. Never lace a growing child. Stop at pain, numbness, tingling, dizziness or short \
breath, and have someone by who can unlace or cut the lace."""

_TAIL = """\
What is peculiar to the figure is mostly found from the lengths at front, side and back, and by the \
toile. Where your two sides differ, measure both and write left and right apart, of a girth its halves from centre front to \
centre back: waist: {left: …, right: …}. To write a correction by hand, take a wedge out at one centre line (or let one \
out):"""


def starter_wearer(name: str, units: str = "cm") -> str:
    """Return the text of a wearer file with the three needed measures blank and the others commented out.

    ``units`` (``in``, ``cm`` or ``mm``) is what bare numbers in the file mean. Raises ValueError for
    another unit.
    """
    if units not in UNITS:
        raise ValueError(f"“{units}” is not a unit. Use in, cm or mm.")
    example = {"in": "36 1/4 in", "cm": "92 cm", "mm": "920 mm"}[units]
    parts = [
        _comment(_HEAD),
        f"wearer: {FORMAT}\nname: {_name(name)}\n"
        f"units: {units}    # what a bare number means; {example} is right too\n"
        "taken:\n  on:          # the day, written like 2026-04-12\n"
        "  over: shift  # for measures over the stays see the end of this file",
        _comment(_HOW),
        _comment(_CAUTION),
        "measures:",
        *(_measure(measure) for measure in MEASURES.values()),
        _comment(_TAIL) + "\n# figure:\n#   - tilt: {at: center back, take: 1 cm, height: 50%}",
        "# notes: what you want to remember",
        _comment(_OVER_STAYS) + _SETS,
    ]
    return "\n\n".join(parts) + "\n"


_OVER_STAYS = """\
Gowns and jackets are cut over the stays and the petticoats. When these are made, measure again over them, \
laced as you will wear them, the hip over all petticoats, and keep both sets, in place of taken and measures above:"""

_SETS = """
# sets:
#   - taken: {on: 2026-04-12, over: shift}
#     measures: {bust: …, waist: …, bust to waist: …}
#   - taken: {on: 2026-06-01, over: stays}
#     measures: {bust: …, waist: …, bust to waist: …, hip: …}"""


def _name(name: str) -> str:
    plain = name.strip()
    safe = plain.replace(" ", "").replace("-", "").isalpha() and plain[:1].isalpha()
    reserved = plain.casefold() in ("null", "true", "false", "yes", "no")
    return plain if safe and not reserved else json.dumps(plain, ensure_ascii=False)


def _comment(text: str, indent: str = "") -> str:
    prefix = f"{indent}# "
    paragraphs = [textwrap.fill(paragraph, _WIDTH, initial_indent=prefix, subsequent_indent=prefix)
                  for paragraph in text.split("\n\n")]  # fmt: skip
    return f"\n{indent}#\n".join(paragraphs)


def _measure(measure: Measure) -> str:
    for_what = "" if measure.needed else f" For {measure.use}."
    line = f"  {measure.name}:" if measure.needed else f"  # {measure.name}:"
    star = "* " if measure.for_stays else ""
    return f"{_comment(f'{NUMBERS[measure.name]}. {star}{measure.how}{for_what}', '  ')}\n{line}"
