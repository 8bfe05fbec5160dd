"""A sound recipe, read."""

from __future__ import annotations

import pytest

from fanblock.problems import RecipeError
from fanblock.recipe.model import DialSpec, Recipe
from fanblock.recipe.reading import ALWAYS_NEEDED, read_recipe
from fanblock.steps.hem import Hem
from fanblock.steps.lacing_gap import LacingGap
from fanblock.steps.seam import Seam
from fanblock.steps.tabs import Tabs
from fanblock.terms import Around, Dial, Height, Length, Position, Share


def test_the_head_of_a_recipe_is_read(trial: Recipe) -> None:
    """Name, kind, period and needs come back as written; the id is the file's name."""
    assert (trial.id, trial.name, trial.makes, trial.period) == (
        "trial-stays",
        "Trial stays, three panels a side",
        "stays",
        "1770-1785",
    )
    assert trial.needs == ("bust", "waist", "bust to waist", "underarm", "back length")


def test_dials_are_read_with_their_limits(trial: Recipe) -> None:
    """A share dial knows the measure it is of; a dial without a purpose has an empty one."""
    assert trial.dials[1] == DialSpec(
        "reduction",
        Share(0.03, "waist"),
        Share(0.0, "waist"),
        Share(0.1, "waist"),
        "waist",
        "how much the lacing takes in",
    )
    assert trial.dials[2] == DialSpec("tab depth", Length(80.0), Length(40.0), Length(120.0))


def test_steps_are_read_in_their_order(trial: Recipe) -> None:
    """Steps keep the order the author wrote, are numbered from 1 and know their place."""
    assert [step.kind for step in trial.steps] == [
        "lacing gap", "top edge", "hem", "seam", "seam", "waist reduction",
        "separate", "tabs", "grain", "cut",
    ]  # fmt: skip
    assert [step.number for step in trial.steps] == list(range(1, 11))
    assert str(trial.steps[2].place) == "trial-stays.yaml:21:5"


def test_options_are_read_as_their_step_declares_them(trial: Recipe) -> None:
    """Amounts, heights, positions, words and lists come back as terms, defaults filled in."""
    gap, hem, seam, tabs = (trial.steps[number - 1].options for number in (1, 3, 5, 8))
    assert gap == LacingGap(at="center back", width=Dial("gap"))
    assert hem == Hem(height=Height(landmark="waist", plus=Dial("tab depth"), sign=-1))
    assert isinstance(seam, Seam)
    assert seam.through[0] == Position(Around(ratio=0.7), Height(landmark="top edge"))
    assert (seam.share, seam.take, seam.below_waist, seam.spring) == (
        1.0,
        {Height(landmark="top edge"): Length(6.0)},
        "open",
        Length(25.0),
    )
    assert isinstance(tabs, Tabs)
    assert tabs.slits == {"front": (Share(0.5),), "side": (Share(0.33), Share(0.67)), "back": (Share(0.5),)}


def test_centre_may_be_spelt_either_way(trial_text: str, trial: Recipe) -> None:
    """`centre back` and `center back` are the same place."""
    respelt = read_recipe(trial_text.replace("center ", "centre "), "trial-stays.yaml")
    assert respelt.steps == trial.steps


def test_bare_numbers_are_in_the_units_of_the_recipe(trial_text: str) -> None:
    """Once a recipe states its units a bare number is a length in them; 3/4 in is 19.05 mm."""
    text = trial_text.replace("period:", "units: in\nperiod:").replace("spring: 20 mm", "spring: 3/4")
    seam = read_recipe(text, "r.yaml").steps[3].options
    assert isinstance(seam, Seam)
    assert seam.spring == Length(19.05)


def test_a_seam_that_ends_at_the_waist_need_not_say_what_happens_below(trial_text: str) -> None:
    """Only a seam with points on both sides of the waist must say how it is made up below."""
    text = trial_text.replace("{height: waist - tab depth}", "{height: waist}").replace("below waist: open, ", "")
    text = text.replace("width: gap", "width: tab depth")
    text = "\n".join(line for line in text.split("\n") if "  gap: " not in line)
    assert len(read_recipe(text, "r.yaml").steps) == 10


def test_sources_may_be_written_with_or_without_quotation_marks(trial_text: str) -> None:
    """A colon makes a table of an unquoted line; as a source it is the line it was typed as."""
    lines = "sources:\n  - published: a book, 1921, p. 82\n  - 'from memory: the top edge'\n"
    recipe = read_recipe(trial_text + lines, "r.yaml")
    assert recipe.sources == ("published: a book, 1921, p. 82", "from memory: the top edge")


def test_what_every_block_needs_is_needed_without_saying(trial_text: str) -> None:
    """A recipe that does not list its needs has those of every block."""
    text = trial_text.replace("needs: [bust, waist, bust to waist, underarm, back length]\n", "")
    assert read_recipe(text, "r.yaml").needs == ALWAYS_NEEDED


def test_problems_stand_in_the_order_of_the_file(trial_text: str) -> None:
    """All problems of a stage are told together, from the top of the file down."""
    text = trial_text.replace("spring:", "sprung:").replace("width: gap", "widths: gap").replace("outer", "2")
    with pytest.raises(RecipeError) as caught:
        read_recipe(text, "r.yaml")
    lines = [problem.place.line for problem in caught.value.problems if problem.place]
    assert len(lines) == 5
    assert lines == sorted(lines)
