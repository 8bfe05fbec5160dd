"""``block``: what a recipe for a band may say, and what it is told when it says something else."""

from __future__ import annotations

import pytest

from fanblock.problems import RecipeError
from fanblock.recipe.explain import explained
from fanblock.recipe.model import Recipe
from fanblock.recipe.parts import parse_extent
from fanblock.recipe.phrase import UnreadableError, Vocabulary
from fanblock.recipe.reading import read_recipe
from fanblock.recipe.words import extent_text
from fanblock.terms import Dial, Extent, Length, Share

WORDS = Vocabulary(dials=("depth", "full"), measures=("bust to waist", "neck"))
GOOD = "{inner: neck, outer: 62 cm, depth: 12 cm}"


def read(block: str, *steps: str, dials: str = "") -> Recipe:
    """Return a recipe for a band; its block stands in line 5, its first step in line 7."""
    given = "".join(f"  - {step}\n" for step in steps or ("pieces: {name: collar}",))
    return read_recipe(
        f"recipe: 1\nname: Sample\nmakes: collar\nneeds: [neck]\nblock: {block}\nsteps:\n{given}{dials}", "r.yaml"
    )


@pytest.mark.parametrize(
    ("text", "extent"),
    [
        ("neck", Extent(Share(1.0, "neck"))),
        ("62 cm", Extent(Length(620.0))),
        ("neck + 2 cm", Extent(Share(1.0, "neck"), Length(20.0))),
        ("bust to waist - 5 mm", Extent(Share(1.0, "bust to waist"), Length(5.0), -1)),
        ("250% of neck", Extent(Share(2.5, "neck"))),
        ("full + depth", Extent(Dial("full"), Dial("depth"))),
        ("full - 3% of neck", Extent(Dial("full"), Share(0.03, "neck"), -1)),
    ],
)
def test_whole_lengths_are_read_and_written_back(text: str, extent: Extent) -> None:
    """A measure, a length, a share or a dial, and more or less by an amount."""
    assert parse_extent(text, WORDS) == extent
    assert parse_extent(extent_text(extent), WORDS) == extent


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "nekc",
            "got “nekc”, needs a whole length such as `62 cm`, `neck + 2 cm`, `150% of neck` or the name of a dial. "
            "Did you mean “neck”?",
        ),
        ("40%", "got “40%”, which does not say of what the 40% are. Name a measure, such as `40% of neck`."),
        (
            "-3 cm",
            "got “-3 cm”, needs a whole length such as `62 cm`, `neck + 2 cm`, `150% of neck` or the name of a dial. "
            "Leave out the sign before it.",
        ),
        (
            "neck + 5%",
            "got “neck + 5%”, which does not say of what the 5% are. Name a measure, such as `5% of back length`.",
        ),
    ],
)
def test_what_is_no_whole_length_is_told(text: str, says: str) -> None:
    """What was met, what is needed, and what was perhaps meant."""
    with pytest.raises(UnreadableError) as caught:
        parse_extent(text, WORDS)
    assert str(caught.value) == says


@pytest.mark.parametrize(
    ("block", "steps", "says"),
    [
        (
            "{inner: neck, depth: 12 cm}",
            (),
            "r.yaml:5:8: block › outer › needs one of `outer` and `circle`. "
            "The other follows from it, `inner` and `depth`.",
        ),
        (
            "{inner: neck, depth: 12 cm, outer: 60 cm, circle: 25%}",
            (),
            "r.yaml:5:43: block › outer › needs one of `outer` and `circle`. "
            "The other follows from it, `inner` and `depth`.",
        ),
        (
            "{inner: neck, depth: 12 cm, circle: 25% of neck}",
            (),
            "r.yaml:5:44: block › circle › got a share of neck, needs a share of a circle such as `25%`.",
        ),
        (
            "{inner: neck, circle: 25%}",
            (),
            "r.yaml:5:8: block › `depth` is missing. Add `depth`: how deep it is from the inner to the outer edge.",
        ),
        (
            "{inner: neck, depth: 12 cm, circle: 25%, drawn: hlaf}",
            (),
            "r.yaml:5:56: block › drawn › got “hlaf”, needs `half` or `whole`. Did you mean “half”?",
        ),
        (
            GOOD,
            ("hem: {height: waist}", "pieces: {name: collar}"),
            "r.yaml:7:5: step 1 (hem) › has no place on a band, which knows no waist and no bust. "
            "Take it out, or take out `block`.",
        ),
        (
            GOOD,
            ("cut: {outer: 2}",),
            "r.yaml:7:3: steps › `pieces` is missing, which cuts the band into pieces. "
            "Add `- pieces: {name: …}` as the first step.",
        ),
        (
            GOOD,
            ("cut: {outer: 2}", "pieces: {name: collar}", "pieces: {name: cape}"),
            "r.yaml:7:5: step 1 (cut) › works on panels, but stands before `pieces` (step 2). Move it after that step.\n"
            "r.yaml:9:5: step 3 (pieces) › the band is divided a second time (first in step 2). Keep one `pieces`.",
        ),
        (
            GOOD,
            ("pieces: {name: collar}", "cut: {outer: 3, on fold: [collar]}"),
            "r.yaml:8:18: step 2 (cut) › outer › got 3, needs an even number from 2 to 12. "
            "Panels are cut in pairs, one for each half.\n"
            "r.yaml:8:30: step 2 (cut) › on fold › what lies on the fold of a band is said by `fold` in `pieces`. "
            "Take it out here.",
        ),
    ],
)
def test_what_contradicts_a_band_is_told_with_its_place(block: str, steps: tuple[str, ...], says: str) -> None:
    """Every message stands whole: where, what was met, what to do."""
    with pytest.raises(RecipeError) as caught:
        read(block, *steps)
    assert str(caught.value) == says


def test_pieces_need_a_band() -> None:
    """A recipe of bust and waist is cut apart with `separate`."""
    with pytest.raises(RecipeError) as caught:
        read_recipe("recipe: 1\nname: S\nmakes: cape\nsteps:\n  - pieces: {name: cape}\n", "r.yaml")
    assert (
        "r.yaml:5:5: step 1 (pieces) › divides a band, and this recipe is made of bust and waist. "
        "Use `separate`, or say what `block` it is made of."
    ) in str(caught.value).splitlines()


def test_dials_of_the_block_are_used_and_must_say_of_what() -> None:
    """A dial that only the block uses is used; one that is a share of nothing is told."""
    dials = "dials:\n  deep: {default: 10 cm, least: 5 cm, most: 20 cm, for: depth}\n"
    assert read("{inner: neck, circle: 20%, depth: deep}", dials=dials).dials[0].name == "deep"
    with pytest.raises(RecipeError) as caught:
        read("{inner: wide, circle: 20%, depth: 10 cm}", dials="dials:\n  wide: {default: 100%, for: width}\n")
    assert str(caught.value) == (
        "r.yaml:5:16: block › inner › the dial “wide” is a percentage that does not say of what. "
        "Give the dial `of:` and a measure, or make it a length."
    )


def test_a_band_written_out_reads_back_the_same() -> None:
    """What `explain` prints of a band draws the same band."""
    recipe = read("{inner: neck + 2 cm, circle: 45%, depth: 16 cm, drawn: whole, worn: standing}")
    assert read_recipe(explained(recipe), "r.yaml").block == recipe.block
