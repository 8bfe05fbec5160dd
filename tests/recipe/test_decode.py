"""Reading options by their annotations, on a class of the tests' own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

import pytest

from fanblock.recipe.decode import decode_fields
from fanblock.recipe.findings import FAULT, Findings
from fanblock.recipe.phrase import Vocabulary
from fanblock.terms import Amount, Around, Dial, Height, Length, Position, Share
from fanblock.yamlfile import read_yaml


@dataclass(frozen=True, slots=True)
class Inner:
    """A table inside a table."""

    at: Height
    by: Amount = field(default=Length(1.0))


@dataclass(frozen=True, slots=True)
class Options:
    """Every kind of field there is."""

    width: Amount = field(default=Length(5.0))
    limit: Length | Share | None = None
    at_most: Amount | None = None
    place: Around | None = None
    points: tuple[Position, ...] = ()
    point: Position | None = None
    corner: Literal["round", "center front"] = "round"
    turned: bool = False
    count: int = 1
    weight: float = 1.0
    slits: Mapping[str, int | tuple[Share, ...]] = field(default_factory=dict)
    inner: Inner | None = None
    purpose: str = field(default="", metadata={"key": "for"})
    others: Mapping[str, Amount] = field(default_factory=dict, metadata={"rest": True})


def read(text: str) -> tuple[Any, list[str]]:
    """Return the options a text gives, and the problems as texts."""
    findings = Findings(Vocabulary(dials=("gap",), seams=("side",), measures=("waist",)))
    options = decode_fields(read_yaml(text, "t"), Options, "step 1 (test)", findings)
    return options, [str(problem) for problem in findings.problems]


GOOD = {
    "width: 3% of waist": Options(width=Share(0.03, "waist")),
    "limit: 4%": Options(limit=Share(0.04)),
    "at most: gap": Options(at_most=Dial("gap")),
    "at most: ~": Options(),
    "place: side + 5 mm": Options(place=Around("side", plus=Length(5.0))),
    "points: [[10%, waist], [center back, 40%]]": Options(
        points=(
            Position(Around(ratio=0.1), Height("waist")),
            Position(Around("center back"), Height(share=Share(0.4))),
        )
    ),
    "point: [10%, waist]": Options(point=Position(Around(ratio=0.1), Height("waist"))),
    "corner: centre front": Options(corner="center front"),
    "turned: yes": Options(turned=True),
    "count: 3": Options(count=3),
    "weight: 1.5": Options(weight=1.5),
    "slits: {a: 2, b: [10%, 20%]}": Options(slits={"a": 2, "b": (Share(0.1), Share(0.2))}),
    "inner: {at: bust}": Options(inner=Inner(Height("bust"))),
    "for: a reason": Options(purpose="a reason"),
    "side back: 12 mm": Options(others={"side back": Length(12.0)}),
}


@pytest.mark.parametrize("text", GOOD)
def test_a_value_is_read_as_its_annotation_says(text: str) -> None:
    """The annotation of a field alone decides how its value is read."""
    assert read(text) == (GOOD[text], [])


BAD = {
    "inner: {by: 2 mm}": "t:1:8: step 1 (test) › inner › `at` is missing. Add `at: …`.",
    "inner: {at: hip}": (
        "t:1:13: step 1 (test) › inner › at › got “hip”, needs a height such as `bust + 30 mm`, `waist`, "
        "`33%`, `73% of back length`. Legal here: bust, held bust, hem, raised waist, top edge, underarm, underbust, upper chest, waist."
    ),
    "inner: {at: bust, of: 2}": "t:1:19: step 1 (test) › inner › “of” is not known here. Legal here: at, by.",
    "turned: maybe": "t:1:9: step 1 (test) › turned › got “maybe”, needs `yes` or `no`.",
    "count: 1.5": "t:1:8: step 1 (test) › count › got “1.5”, needs a whole number from 0 to 99.",
    "count: 1000": "t:1:8: step 1 (test) › count › got “1000”, needs a whole number from 0 to 99.",
    "weight: nan": "t:1:9: step 1 (test) › weight › got “nan”, needs a number such as `2` or `1.5`.",
    "weight: 1e9": "t:1:9: step 1 (test) › weight › got “1e9”, needs a number such as `2` or `1.5`.",
    "limit: gap": (
        "t:1:8: step 1 (test) › limit › got “gap”, needs a length such as `50 mm` "
        "or a percentage such as `3%`."
    ),
    "slits: 3": (
        "t:1:8: step 1 (test) › slits › got “3”, needs names and values, such as `{name: value}`."
    ),
    "corner: [round]": "t:1:9: step 1 (test) › corner › got a list, needs `center front` or `round`.",
    "12: 5 mm": (
        "t:1:1: step 1 (test) › 12 › “12” cannot be a name. "
        "Begin with a letter; use letters, digits, blanks and hyphens, at most 40."
    ),
}  # fmt: skip


@pytest.mark.parametrize("text", BAD)
def test_a_value_that_is_not_as_annotated_is_told_with_its_place(text: str) -> None:
    """What cannot be read is a fault, and its problem says what was met and what is needed."""
    assert read(text) == (FAULT, [BAD[text]])


def test_every_problem_is_found_at_once() -> None:
    """Reading goes on behind a problem."""
    options, problems = read("count: x\nweight: y\nwidth: z z\n")
    assert options is FAULT
    assert len(problems) == 3


def test_terms_are_noted_where_they_were_met() -> None:
    """Whoever checks terms against one another finds each with its place."""
    findings = Findings(Vocabulary(dials=("gap",)))
    decode_fields(read_yaml("points: [[10%, waist - gap]]\n", "t"), Options, "s", findings)
    assert [(str(one.place), one.where) for one in findings.sightings] == [
        ("t:1:11", "s › points › point 1 › around"),
        ("t:1:16", "s › points › point 1 › height"),
    ]
