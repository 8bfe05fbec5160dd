"""Looking at a set of measures for slips of the tape, of the pen and of the unit.

A :class:`Doubt` either refuses (the value can only be a slip) or cautions (unusual; the maker is asked to
look). The limits that compare two measures are our own judgement and stand by name below, in millimetres or
as ratios.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from fanblock.units import UNITS, Typed, format_length
from fanblock.wearer.measures import MEASURES, Measure

FLAT_BUST_MM = 10.0
"""The ribs may pass the bust by this much before it is a slip."""
LIFT_SHORT_MM = 5.0
"""A lifted bust may measure this much shorter before it is a slip."""
LIFT_USUAL_MM, LIFT_MOST_MM = 65.0, 120.0
"""A hand lifts a bust by less than the first as a rule, never by more than the second."""
LEVELS_USUAL_MM, LEVELS_MOST_MM = 40.0, 60.0
"""Between two level tapes the front, side and back lengths differ by less than this."""
CHEST_OVER_BUST_MM = 80.0
ARC_MOST, ARC_USUAL = (0.35, 0.70), (0.44, 0.62)
"""The front's share of the bust girth."""
SMALL_WAIST, SMALL_WAIST_USUAL = 0.45, 0.62
LARGE_WAIST, LARGE_WAIST_USUAL = 1.5, 1.2
"""The waist as a share of the bust."""
WAIST_OVER_HIP = 1.35
ELBOW_SHARE = (0.48, 0.64)
"""Shoulder to elbow is mostly between these shares of the arm length."""

_BOARD = "Measure again: tapes level, the one between them taut like a board, not into the hollow and not plumb."


@dataclass(frozen=True, slots=True)
class Doubt:
    """Something hard to believe: which measure, whether it refuses, what is odd and what to do."""

    measure: str
    refuses: bool
    what: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.what} {self.remedy}".rstrip()


def doubts(values: Mapping[str, float], units: str, typed: Mapping[str, Typed] | None = None) -> tuple[Doubt, ...]:
    """Return what is hard to believe in ``values`` (mm by measure name).

    ``units`` is for talking back. ``typed`` says how each value was typed, so that a slip of the unit can
    be named; without it every value counts as typed in ``units``. Measures refused by themselves are not
    compared with others.
    """
    say = _Speech(units)
    alone = [doubt for name in MEASURES if name in values for doubt in _band(name, values[name], say, typed or {})]
    refused = {doubt.measure for doubt in alone if doubt.refuses}
    sound = {name: value for name, value in values.items() if name not in refused}
    return (*alone, *(doubt for compare in _COMPARISONS for doubt in compare(sound, say)))


@dataclass(frozen=True, slots=True)
class _Speech:
    units: str

    def __call__(self, mm: float) -> str:
        return format_length(mm, self.units)


def _band(name: str, mm: float, say: _Speech, typed: Mapping[str, Typed]) -> Iterator[Doubt]:
    measure = MEASURES[name]
    if measure.usual_least_mm <= mm <= measure.usual_most_mm:
        return
    refuses = not measure.least_mm <= mm <= measure.most_mm
    own = typed.get(name)
    unit = own.unit if own else say.units
    text = str(own) if own else say(mm)
    low, high = (measure.least_mm, measure.most_mm) if refuses else (measure.usual_least_mm, measure.usual_most_mm)
    too = "too" if refuses else "unusually"
    size = "small" if measure.whole_girth else "short"
    large = "large" if measure.whole_girth else "long"
    what = (
        f"{text} is {too} {size if mm < low else large} for {name} "
        f"({'' if refuses else 'mostly '}between {format_length(low, unit)} and {format_length(high, unit)})."
    )
    remedy = _likely(measure, mm, unit, own)
    if not remedy:
        remedy = _BOARD if name.startswith(("bust to waist", "raised")) else "Look at the number, or measure again."
    yield Doubt(name, refuses, what, remedy)


def _likely(measure: Measure, mm: float, unit: str, own: Typed | None) -> str:
    """Return a question that names the likely slips, or nothing when none would make the value usual."""

    def usual(other_mm: float) -> bool:
        return measure.usual_least_mm <= other_mm <= measure.usual_most_mm

    number = own.text if own else format_length(mm, unit).removesuffix(f" {unit}")
    guesses = []
    if measure.whole_girth and usual(2 * mm):
        guesses.append(f"half the girth (the whole is then {format_length(2 * mm, unit)})")
    guesses += [
        f"{number} {other}" for other in ("in", "cm", "mm") if other != unit and usual(mm * UNITS[other] / UNITS[unit])
    ]
    return f"Is it {', or '.join(guesses)}?" if guesses else ""


def _ribs(values: Mapping[str, float], say: _Speech) -> Iterator[Doubt]:
    if not {"underbust", "bust"} <= values.keys():
        return
    ribs, bust = values["underbust"], values["bust"]
    if ribs > bust:
        refuses = ribs - bust > FLAT_BUST_MM and values.get("waist", 0.0) <= bust
        what = f"underbust {say(ribs)} is more than bust {say(bust)}."
        yield Doubt(
            "underbust",
            refuses,
            what,
            "Were the two swapped? The underbust lies on the ribs, below the bust.",
        )


def _waist(values: Mapping[str, float], say: _Speech) -> Iterator[Doubt]:
    if "waist" not in values:
        return
    waist = values["waist"]
    if bust := values.get("bust"):
        share = waist / bust
        what = f"waist {say(waist)} is {share:.2f} of bust {say(bust)}."
        if share < SMALL_WAIST_USUAL:
            remedy = "Is the waist half the girth, or was it taken laced? Measure the body as it is."
            yield Doubt("waist", share < SMALL_WAIST, what, remedy)
        elif share > LARGE_WAIST_USUAL:
            yield Doubt("waist", share > LARGE_WAIST, what, "Is the bust half the girth, or were the two swapped?")
    hip = values.get("hip")
    if hip and waist > hip:
        what = f"waist {say(waist)} is more than hip {say(hip)}."
        yield Doubt("hip", waist / hip > WAIST_OVER_HIP, what, "Is the hip half the girth, or were the two swapped?")


def _lengths(values: Mapping[str, float], say: _Speech) -> Iterator[Doubt]:
    front = values.get("bust to waist")
    if front is None:
        return
    for name in ("bust to waist at side", "bust to waist at back"):
        if name in values and (apart := abs(values[name] - front)) > LEVELS_USUAL_MM:
            what = f"{name} {say(values[name])} and bust to waist {say(front)} are {say(apart)} apart."
            remedy = "Are both tapes level all round? Look in a mirror or at a photograph from the side."
            yield Doubt(name, apart > LEVELS_MOST_MM, what, remedy)
    if raised := values.get("raised"):
        if raised < front:
            what = f"raised {say(raised)} is shorter than bust to waist {say(front)}."
            yield Doubt(
                "raised",
                front - raised > LIFT_SHORT_MM,
                what,
                "Lifting only lengthens it: were the two swapped?",
            )
        elif raised - front > LIFT_USUAL_MM:
            what = f"raised {say(raised)} lifts the bust by {say(raised - front)}."
            remedy = "Lift only to where the garment will hold it; most lift by 2 to 6 cm."
            yield Doubt("raised", raised - front > LIFT_MOST_MM, what, remedy)
    height = values.get("underbust height")
    if height is not None and height >= front:
        what = f"underbust height {say(height)} is not below bust to waist {say(front)}."
        yield Doubt("underbust height", True, what, "Measure it from the waist tape up to the underbust tape.")
    chest = values.get("upper chest height")
    if chest is not None and chest <= front:
        what = f"upper chest height {say(chest)} is not above bust to waist {say(front)}."
        yield Doubt("upper chest height", False, what, "Measure it from the waist tape up to the upper chest tape.")
    arm = values.get("underarm")
    if arm is not None and arm < front:
        what = f"underarm {say(arm)} is shorter than bust to waist {say(front)}."
        yield Doubt("underarm", False, what, "The armpit mostly lies above the bust: measure both again.")


def _back(values: Mapping[str, float], say: _Speech) -> Iterator[Doubt]:
    back = values.get("back length")
    if back is None:
        return
    for name in ("underarm", "bust to waist at back"):
        if name in values and values[name] >= back:
            what = f"{name} {say(values[name])} is not shorter than back length {say(back)}."
            yield Doubt(name, True, what, "The back length begins at the base of the neck: were the two swapped?")


def _arc(values: Mapping[str, float], say: _Speech) -> Iterator[Doubt]:
    if not {"front arc", "bust"} <= values.keys():
        return
    share = values["front arc"] / values["bust"]
    if not ARC_USUAL[0] <= share <= ARC_USUAL[1]:
        refuses = not ARC_MOST[0] <= share <= ARC_MOST[1]
        what = f"front arc {say(values['front arc'])} is {share:.0%} of bust {say(values['bust'])}."
        yield Doubt(
            "front arc",
            refuses,
            what,
            "It runs from side to side across the whole front, about half the bust.",
        )


def _chest(values: Mapping[str, float], say: _Speech) -> Iterator[Doubt]:
    if {"upper chest", "bust"} <= values.keys() and values["upper chest"] - values["bust"] > CHEST_OVER_BUST_MM:
        what = f"upper chest {say(values['upper chest'])} is much more than bust {say(values['bust'])}."
        yield Doubt("upper chest", False, what, "Were the two swapped, or did the tape go over the arms?")


def _raised_waist(values: Mapping[str, float], say: _Speech) -> Iterator[Doubt]:
    girth, height = (values.get(name) for name in ("raised waist", "raised waist height"))
    if (girth is None) != (height is None):
        name, other = (
            ("raised waist", "raised waist height") if height is None else ("raised waist height", "raised waist")
        )
        what = f"{name} was measured and {other} was not, so the one is guessed for the other."
        yield Doubt(name, False, what, "Measure both where one tape lies.")
    front = values.get("bust to waist")
    if height is not None and front is not None and height >= front:
        what = f"raised waist height {say(height)} is not below bust to waist {say(front)}."
        yield Doubt("raised waist height", True, what, "Measure it from the waist tape up to the raised waist's tape.")


def _arm(values: Mapping[str, float], say: _Speech) -> Iterator[Doubt]:
    whole, upper = values.get("arm length"), values.get("shoulder to elbow")
    if whole is not None and upper is not None and not ELBOW_SHARE[0] <= upper / whole <= ELBOW_SHARE[1]:
        what = f"shoulder to elbow {say(upper)} is {upper / whole:.0%} of arm length {say(whole)}."
        remedy = "It is the first part of the same tape, a little more than half: measure both again."
        yield Doubt("shoulder to elbow", upper >= whole, what, remedy)
    for small, large in (("wrist", "elbow"), ("elbow", "armhole"), ("upper arm", "armhole")):
        if small in values and large in values and values[small] >= values[large]:
            what = f"{small} {say(values[small])} is not smaller than {large} {say(values[large])}."
            yield Doubt(small, small == "wrist", what, "Were the two swapped?")


_COMPARISONS: tuple[Callable[[Mapping[str, float], _Speech], Iterator[Doubt]], ...] = (
    _ribs,
    _waist,
    _lengths,
    _back,
    _arc,
    _chest,
    _raised_waist,
    _arm,
)
