"""``block`` with a raised waist: the garment is drawn, summed and tabbed from there."""

from __future__ import annotations

import pytest
from tests.samples import FILE, HEM, RED, SOME, THREE, TOP, failed, made, recipe_text, side_back, side_front

from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.explain import explained
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_recipe

SEAMS = (side_front(below_waist="open"), side_back(below_waist="open"))


def raised(by: str) -> Recipe:
    """Return the sample garment with its waist so much higher."""
    text = recipe_text(TOP, HEM, *SEAMS, RED, THREE, "tabs: {slits: {side: 2}}")
    return read_recipe(text.replace("steps:", f"block: {{waist raised: {by}}}\nsteps:"), FILE)


@pytest.mark.parametrize("name", SOME)
def test_it_is_sound_on_every_body(name: str) -> None:
    """Tabs, seams and sums stand on the raised waist as on any other."""
    assert failed(made(raised("35 mm"), name)) == []


def test_the_waist_that_adds_up_is_the_one_up_there() -> None:
    """35 mm up the ordinary body is 720 mm round (by hand, on its cone), less 3 % for the lacing."""
    pattern = made(raised("35 mm"))
    girth = pattern.girths[0]
    assert girth.body_mm == pytest.approx(720.0)
    assert 2.0 * (girth.parts_mm + girth.gap_mm) == pytest.approx(720.0 * 0.97, abs=0.5)
    assert pattern.block.center_front_mm == pytest.approx(140.0)


def test_the_maker_is_told_where_it_is() -> None:
    """The tape was tied lower: the notes say so."""
    notes = [note.says for note in made(raised("35 mm")).notes]
    assert (
        "this garment has its waist 35.0 mm above your waist tape: tie a string there for it, and count from that"
        in notes
    )


def test_written_out_it_reads_back_the_same() -> None:
    """What `explain` prints draws the same."""
    found = raised("35 mm")
    assert "block: {waist raised: 35 mm}" in explained(found)
    assert read_recipe(explained(found), FILE).block == found.block


def test_a_waist_near_the_bust_is_refused() -> None:
    """More than half way up it is no waist any more."""
    with pytest.raises(GeometryError) as caught:
        made(raised("100 mm"))
    assert (
        "block › waist raised › got 100 mm, more than half the way from waist to bust. Raise it less, or let the block "
        "stand on another girth: `block: {lower: underbust, upper: bust}`." in str(caught.value)
    )


def test_a_slip_is_told_on_reading() -> None:
    """An amount is wanted."""
    with pytest.raises(RecipeError) as caught:
        raised("high")
    assert "block › waist raised › got “high”, needs an amount" in str(caught.value)
