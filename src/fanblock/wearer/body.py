"""The body a block and a recipe work with: one set of measures, what is missing guessed and said so."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fanblock.problems import Problem, WearerError
from fanblock.units import format_length
from fanblock.wearer import guesses, predicted
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.measures import MEASURES
from fanblock.wearer.model import SHIFT, STAYS, Measures, Tilt, Wearer
from fanblock.wearer.plausible import doubts

HELD_LIFT_MM = 25.0
"""How much stays lift the bust when nobody measured; from memory, 2 to 4 cm is usual."""

LACED_IN_RATIO = 0.10
"""More of the waist than this should not be laced away."""


@dataclass(frozen=True, slots=True)
class Body:
    """One body over one layer: ``lengths`` in mm, measured or guessed; ``guessed`` says in words how.

    ``predicted`` says the same of a whole set over stays that nobody has measured.
    ``side_ratio`` is how far around (0 centre front, 1 centre back) the side lies. ``cautions`` are texts
    for the maker about measures that are kept but hard to believe. ``units`` is for talking back. ``borrowed`` names those
    in ``guessed`` that were measured after all, over the shift, and hold over stays too; ``carried`` those that were
    predicted from the shift for a set over stays that lacks them.
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
    predicted: Mapping[str, str] = field(default_factory=Fixed)
    borrowed: tuple[str, ...] = ()
    carried: tuple[str, ...] = ()

    def is_guess(self, name: str) -> bool:
        """Return whether nobody measured this, neither over this layer nor where it may be borrowed from."""
        return name in self.guessed and name not in self.borrowed

    def length_mm(self, name: str) -> float:
        """Return a measure in mm; KeyError when it is neither measured nor guessed."""
        return self.lengths[name]

    @property
    def bust_height_mm(self) -> float:
        """How high above the waist a block has its bust: ``raised`` if that was measured, else ``bust to waist``."""
        return self.lengths.get("raised", self.lengths["bust to waist"])


def body_of(wearer: Wearer, over: str = SHIFT, *, predict: bool = False) -> Body:
    """Return the wearer's body over one layer (``shift`` or ``stays``), missing lengths guessed.

    Raises WearerError when there is no set over that layer; with ``predict``, a missing set over the stays is predicted
    from the one over the shift (:mod:`fanblock.wearer.predicted`). A set over the stays borrows from the shift what
    lacing leaves as it is; ``held bust to waist`` adds :data:`HELD_LIFT_MM` over the shift; the other guesses are those
    of :mod:`fanblock.wearer.guesses`. Of what was measured left and right it has the sum or the mean, and no correction of
    one half: for those see :mod:`fanblock.halves.bodies`.
    """
    words: Mapping[str, str] = Fixed()
    if predict and over == STAYS and over not in wearer.overs:
        shift = _set_over(wearer, SHIFT)
        chosen, words = predicted.over_stays(shift, _held_over_shift_mm(shift.values), wearer.units)
    else:
        chosen = _set_over(wearer, over)
    lengths = dict(chosen.values)
    guessed: dict[str, str] = {}
    _borrow(wearer, over, lengths, guessed)
    borrowed = tuple(guessed)
    _carry_over_stays(wearer, over, lengths, guessed)
    carried = tuple(guessed)[len(borrowed) :]
    _guess(lengths, guessed, wearer.units)
    _hold_bust(over, lengths, guessed, wearer.units)
    front_arc = chosen.values.get("front arc")
    return Body(
        name=wearer.name,
        over=over,
        lengths=Fixed(lengths),
        guessed=Fixed(guessed),
        figure=tuple(tilt for tilt in wearer.figure if not tilt.half),
        side_ratio=front_arc / lengths["bust"] if front_arc else 0.5,
        units=wearer.units,
        taken_on=chosen.taken_on,
        cautions=_cautions(wearer, chosen),
        notes=wearer.notes,
        predicted=words,
        borrowed=borrowed,
        carried=carried,
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


def _carry_over_stays(wearer: Wearer, over: str, lengths: dict[str, float], guessed: dict[str, str]) -> None:
    """Add girths that were measured over the shift and not over the stays, as lacing and stays change them."""
    if over == SHIFT or SHIFT not in wearer.overs:
        return
    for name, (mm, how) in predicted.girths_over_stays(_set_over(wearer, SHIFT).values, wearer.units).items():
        if name not in lengths:
            lengths[name], guessed[name] = mm, f"{format_length(mm, wearer.units)}, {how}"


def _guess(lengths: dict[str, float], guessed: dict[str, str], units: str) -> None:
    """Add what is missing and can be guessed, each with how it came."""

    def add(name: str, guess: guesses.Guess) -> None:
        lengths[name], guessed[name] = guess

    if "back length" not in lengths:
        add("back length", guesses.back_length(lengths, units))
    back = "the guessed back length" if "back length" in guessed else "the back length"
    if "underarm" not in lengths:
        add("underarm", guesses.underarm(lengths, units, back))
    if "front length" not in lengths:
        add("front length", guesses.front_length(lengths, units, back))
    for name in (*guesses.UPPER_AT_880_MM, *guesses.ARM_AT_880_MM):
        if name not in lengths:
            add(name, guesses.upper(name)(lengths, units))
    for name in guesses.OVER_BUST_MM:
        if name not in lengths:
            add(name, guesses.girth_beside_bust(name, lengths, units))
    if "underbust height" not in lengths:
        add("underbust height", guesses.underbust_height(lengths, units, back))
    if "upper chest height" not in lengths:
        add("upper chest height", guesses.upper_chest_height(lengths, units))
    if "raised waist height" not in lengths:
        add("raised waist height", guesses.raised_waist_height(lengths, units))
    if "raised waist" not in lengths:
        add("raised waist", guesses.raised_waist(lengths, units))
    if "elbow" not in lengths:
        add("elbow", guesses.elbow(lengths, units))
    if "shoulder to elbow" not in lengths:
        add("shoulder to elbow", guesses.shoulder_to_elbow(lengths, units))


def _hold_bust(over: str, lengths: dict[str, float], guessed: dict[str, str], units: str) -> None:
    held = "held bust to waist"
    if "raised" in lengths:
        lengths[held] = lengths["raised"]
    elif over == STAYS:
        lengths[held] = lengths["bust to waist"]
    else:
        lengths[held] = _held_over_shift_mm(lengths)
        guessed[held] = (
            f"{format_length(lengths[held], units)}, bust to waist and {format_length(HELD_LIFT_MM, units)} "
            "more, since stays lift the bust (from memory: measure raised)"
        )


def _held_over_shift_mm(lengths: Mapping[str, float]) -> float:
    """Return how high above the waist stays hold the bust, from measures over the shift."""
    return lengths.get("raised", lengths["bust to waist"] + HELD_LIFT_MM)


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
