"""The wearers that come along, and finding what is shipped."""

import pytest

from fanblock.problems import RecipeError, WearerError
from fanblock.shipped import recipe_ids, recipe_text, wearer_names, wearer_text
from fanblock.wearer.body import Body, body_of
from fanblock.wearer.guesses import UPPER_AT_880_MM
from fanblock.wearer.reading import read_wearer


def body(name: str, over: str = "shift") -> Body:
    """Return the body of a demo wearer."""
    return body_of(read_wearer(wearer_text(name), f"{name}.yaml"), over)


def test_four_wearers_are_shipped() -> None:
    """They are called by their parts in the company."""
    assert wearer_names() == ("apprentice", "ferrywoman", "innkeeper", "pilot")


@pytest.mark.parametrize("name", ["apprentice", "ferrywoman", "innkeeper", "pilot"])
def test_demo_wearers_are_whole(name: str) -> None:
    """Each is dated, measured where stays ask, and raises no question; what short waists and shoulders need may be
    guessed.
    """
    wearer = body(name)
    wanted = {"raised", "underarm", "back length", "hip", "hip depth", "underbust"}
    assert wanted <= wearer.lengths.keys()
    assert (wearer.name, wearer.taken_on[:4], wearer.cautions) == (name, "2026", ())
    short = {"upper chest", "upper chest height", "raised waist", "raised waist height", "shoulder to elbow"}
    assert set(wearer.guessed) <= {"front length", *UPPER_AT_880_MM, *short}


def test_demo_wearers_differ_as_figures_do() -> None:
    """A short back, a low full bust, a straight figure and a very small one: recipes must serve all."""
    short, full, straight, small = (body(name) for name in ("ferrywoman", "innkeeper", "apprentice", "pilot"))
    assert short.length_mm("bust to waist") - short.length_mm("bust to waist at back") > 10
    assert full.length_mm("raised") - full.length_mm("bust to waist") > 30
    assert straight.length_mm("waist") > 0.94 * straight.length_mm("bust")
    assert small.length_mm("bust") < 760


def test_ferrywoman_is_measured_over_stays_too() -> None:
    """Her gown goes over her stays, so she has a second set."""
    over = body("ferrywoman", "stays")
    assert over.over == "stays"
    assert over.length_mm("bust to waist") > body("ferrywoman").length_mm("bust to waist")


def test_an_unknown_wearer_gets_the_nearest() -> None:
    """A name is looked up in the list and never becomes a path."""
    with pytest.raises(WearerError) as caught:
        wearer_text("pilots")
    assert str(caught.value) == "there is no shipped wearer called “pilots”. Did you mean “pilot”?"


def test_a_path_is_no_recipe_id() -> None:
    """Nothing outside the shipped recipes can be reached by an id."""
    with pytest.raises(RecipeError):
        recipe_text("../pyproject")


def test_every_listed_recipe_can_be_read() -> None:
    """What is listed is there."""
    assert all(recipe_text(recipe_id) for recipe_id in recipe_ids())
