"""The body a block and a recipe work with: one set of measures, what is missing guessed and said so."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fanblock.problems import Problem, WearerError
from fanblock.units import format_length
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.measures import MEASURES
from fanblock.wearer.model import SHIFT, STAYS, Measures, Tilt, Wearer
from fanblock.wearer.plausible import doubts

HELD_LIFT_MM = 25.0
"""How much stays lift the bust when nobody measured; from memory, 2 to 4 cm is usual."""

LACED_IN_RATIO = 0.10
"""More of the waist than this should not be laced away."""

_BACK_AT_MM, _BACK_LEAST_MM, _BACK_MOST_MM = 800.0, 402.0, 440.0
_BACK_PER_BUST = 0.1
_UNDERARM_OF_BACK = 0.5


@dataclass(frozen=True, slots=True)
class Body:
    """One body over one layer: ``lengths`` in mm, measured or guessed; ``guessed`` says in words how.

    ``side_ratio`` is how far around (0 centre front, 1 centre back) the side lies. ``cautions`` are texts
    for the maker about measures that are kept but hard to believe. ``units`` is for talking back.
    """

    name: str
    over: str
    lengths: Mapping[str, float]
    guessed: Mapping[str, str] = field(default_factory=Fixed)
    figure: tuple[Tilt, ...] = ()
    side_ratio: float = 0.5
    units: str = "cm"
    taken_on: str = ""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    def length_mm(self, name: str) -> float:
        """Return a measure in mm; KeyError when it is neither measured nor guessed."""
        return self.lengths[name]


def body_of(wearer: Wearer, over: str = SHIFT) -> Body:
    """Return the wearer's body over one layer (``shift`` or ``stays``), missing lengths guessed.

    Raises WearerError when there is no set over that layer. The guesses: a set over the stays borrows from
    the shift what lacing leaves as it is; ``back length`` grows with the bust as in the women's table of W.
    Aldrich, Metric Pattern Cutting for Women's Wear (said there to comply with EN 13402-3); ``underarm`` is
    half of it, as 8 in goes with 16 in in the Artistic Ladies' Tailor System (New York, 1902); ``held bust
    to waist`` adds :data:`HELD_LIFT_MM` over the shift.
    """
    chosen = _set_over(wearer, over)
    lengths = dict(chosen.values)
    guessed: dict[str, str] = {}
    _borrow(wearer, over, lengths, guessed)
    _guess_back(lengths, guessed, wearer.units)
    _hold_bust(over, lengths, guessed, wearer.units)
    front_arc = chosen.values.get("front arc")
    return Body(
        name=wearer.name,
        over=over,
        lengths=Fixed(lengths),
        guessed=Fixed(guessed),
        figure=wearer.figure,
        side_ratio=front_arc / lengths["bust"] if front_arc else 0.5,
        units=wearer.units,
        taken_on=chosen.taken_on,
        cautions=_cautions(wearer, chosen),
        notes=wearer.notes,
    )


def _set_over(wearer: Wearer, over: str) -> Measures:
    for measures in wearer.sets:
        if measures.over == over:
            return measures
    there = " and ".join(wearer.overs)
    says = f"there are no measures over {over}, only over {there}."
    remedy = f"Measure again over {over} and add the set to the file, or choose a garment worn over {there}."
    raise WearerError([Problem("wearer-set", wearer.name, says, remedy)])


def _borrow(wearer: Wearer, over: str, lengths: dict[str, float], guessed: dict[str, str]) -> None:
    if over == SHIFT or SHIFT not in wearer.overs:
        return
    shift = _set_over(wearer, SHIFT)
    for name, measure in MEASURES.items():
        if measure.under_stays and name not in lengths and name in shift.values:
            lengths[name] = shift.values[name]
            guessed[name] = (
                f"taken over from the measures over the shift ({format_length(lengths[name], wearer.units)})"
            )


def _guess_back(lengths: dict[str, float], guessed: dict[str, str], units: str) -> None:
    if "back length" not in lengths:
        back_mm = _BACK_LEAST_MM + _BACK_PER_BUST * (lengths["bust"] - _BACK_AT_MM)
        lengths["back length"] = min(max(back_mm, _BACK_LEAST_MM), _BACK_MOST_MM)
        guessed["back length"] = (
            f"{format_length(lengths['back length'], units)}, from the bust by a women's size table"
        )
    if "underarm" not in lengths:
        lengths["underarm"] = _UNDERARM_OF_BACK * lengths["back length"]
        words = "the guessed back length" if "back length" in guessed else "the back length"
        guessed["underarm"] = (
            f"{format_length(lengths['underarm'], units)}, half of {words} (a tailors' rule of 1902)"
        )


def _hold_bust(over: str, lengths: dict[str, float], guessed: dict[str, str], units: str) -> None:
    held = "held bust to waist"
    if "raised" in lengths:
        lengths[held] = lengths["raised"]
    elif over == STAYS:
        lengths[held] = lengths["bust to waist"]
    else:
        lengths[held] = lengths["bust to waist"] + HELD_LIFT_MM
        guessed[held] = (
            f"{format_length(lengths[held], units)}, bust to waist and {format_length(HELD_LIFT_MM, units)} "
            "more, since stays lift the bust (from memory: measure raised)"
        )


def _cautions(wearer: Wearer, chosen: Measures) -> tuple[str, ...]:
    texts = [str(doubt) for doubt in doubts(chosen.values, wearer.units) if not doubt.refuses]
    if not chosen.taken_on:
        texts.append(f"The measures over the {chosen.over} carry no date. Bodies change: write one.")
    if chosen.over == STAYS and SHIFT in wearer.overs:
        laced, bare = chosen.values["waist"], _set_over(wearer, SHIFT).values["waist"]
        if laced < bare * (1 - LACED_IN_RATIO):
            texts.append(
                f"The waist over stays is {1 - laced / bare:.0%} under the waist over the shift. "
                "More than 10% is not to be laced away: loosen the lace and measure again."
            )
    return tuple(texts)
