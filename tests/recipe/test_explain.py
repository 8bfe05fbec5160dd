"""Recipes written out in full."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fanblock.problems import Place
from fanblock.recipe.dials import with_dials
from fanblock.recipe.explain import explained, quoted
from fanblock.recipe.model import Recipe, Step
from fanblock.recipe.reading import read_recipe
from fanblock.steps.allowances import Allowances
from fanblock.steps.cut import Cut
from fanblock.steps.ease import Ease
from fanblock.steps.grain import Grain
from fanblock.steps.hem import Hem
from fanblock.steps.lacing_gap import LacingGap
from fanblock.steps.notches import Notches
from fanblock.steps.seam import Seam
from fanblock.steps.separate import Separate
from fanblock.steps.tabs import Tabs
from fanblock.steps.top_edge import TopEdge
from fanblock.terms import Around, Height, Length, Position, Share
from fanblock.yamlfile import Text, read_yaml


def test_an_explained_recipe_reads_back_to_the_same_steps(trial: Recipe) -> None:
    """What is written out is itself a recipe, with the dials put in their places."""
    again = read_recipe(explained(trial), "trial-stays.yaml")
    assert again.steps == with_dials(trial).steps
    assert replace(again, dials=()) == replace(with_dials(trial), dials=())


def test_an_explained_recipe_explains_itself_again_the_same(trial: Recipe) -> None:
    """Explaining twice adds nothing but the comments on the dials, which then have gone."""
    once = explained(trial)
    lines = [line for line in once.split("\n") if not line.startswith("#")]
    assert explained(read_recipe(once, "trial-stays.yaml")).split("\n") == lines


def test_defaults_and_dials_are_filled_in(trial: Recipe) -> None:
    """Each option has a line of its own, those the author left out too; dials stand in comments."""
    text = explained(trial, {"gap": "6 cm"})
    assert "#   gap: 6 cm (opening left at the centre back when laced)\n" in text
    assert "  - lacing gap:\n      width: 60 mm\n      at: center back\n" in text
    assert "      corner: 12 mm\n      shape: rounded\n" in text
    assert "      height: waist - 80 mm\n" in text


def test_an_option_that_is_not_given_is_told_in_a_comment(trial: Recipe) -> None:
    """Nothing cannot be written down; it is told beside the options."""
    hem = Hem(
        through=(
            Position(Around("center front"), Height("waist")),
            Position(Around(ratio=1.0), Height("waist")),
        )
    )
    steps = (*trial.steps[:2], replace(trial.steps[2], options=hem), *trial.steps[3:])
    text = explained(replace(trial, steps=steps))
    assert "  - hem:\n      # height: not given\n      through:\n        - [center front, waist]\n" in text
    assert read_recipe(text, "r.yaml").steps == with_dials(replace(trial, steps=steps)).steps


@given(
    st.text(
        st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Cn", "Co", "Cf", "Zl", "Zp")),
        min_size=1,
    )
)
def test_any_text_can_be_quoted(text: str) -> None:
    """Whatever a name holds, it comes back from the file as it was."""
    node = read_yaml(f"a: {quoted(text)}\n", "t").get("a")
    assert isinstance(node, Text)
    assert node.text == text
    assert not node.blank


lengths = st.integers(-200_000, 200_000).map(lambda number: Length(number / 1000.0))
amounts = st.one_of(lengths, st.integers(-50, 50).map(lambda number: Share(number / 100.0, "waist")))
added = st.integers(0, 200_000).map(lambda number: Length(number / 1000.0))
heights = st.one_of(
    st.builds(
        Height,
        st.sampled_from(("waist", "bust", "held bust", "underarm")),
        plus=added,
        sign=st.sampled_from((1, -1)),
    ),
    st.integers(-100, 200).map(lambda number: Height(share=Share(number / 100.0))),
    st.integers(0, 120).map(lambda number: Height(share=Share(number / 100.0, "back length"))),
)
arounds = st.one_of(
    st.integers(0, 1000).map(lambda number: Around(ratio=number / 1000.0)),
    st.builds(
        Around,
        st.sampled_from(("center front", "side", "center back")),
        plus=added,
        sign=st.sampled_from((1, -1)),
    ),
)
points = st.lists(st.builds(Position, arounds, heights), min_size=2, max_size=5).map(tuple)
names = st.from_regex(r"[a-z]([a-z0-9 '-]{0,20}[a-z0-9])?", fullmatch=True).filter(
    lambda name: "  " not in name and name not in ("side", "bust", "hem", "waist", "underarm")
)
seams = st.builds(
    Seam,
    name=names,
    through=points,
    share=st.one_of(st.none(), st.integers(0, 40).map(lambda number: number / 8)),
    take=st.dictionaries(heights.filter(lambda height: height.landmark != "waist"), amounts, max_size=3),
    below_waist=st.sampled_from(("open", "sewn")),
    spring=amounts,
)


@st.composite
def recipes(draw: st.DrawFn) -> Recipe:
    """Return a recipe with something in every kind of option."""
    panels = tuple(draw(st.lists(names, min_size=1, max_size=4, unique=True)))
    layers = {"outer": 2, "strength layer": draw(st.sampled_from((2, 4)))}
    slits = draw(st.sampled_from((2, (Share(0.25), Share(0.5)), ())))
    options = {
        "ease": Ease(waist=draw(amounts), bust=draw(amounts)),
        "lacing gap": LacingGap(width=draw(added), at=draw(st.sampled_from(("center back", "center front")))),
        "top edge": TopEdge(draw(points)),
        "hem": draw(st.one_of(st.builds(Hem, through=points), st.builds(Hem, height=heights))),
        "seam": draw(seams),
        "separate": Separate(panels),
        "tabs": Tabs(slits={panels[0]: slits}, corner=draw(amounts), shape="square"),
        "grain": Grain(dict.fromkeys(panels, "at waist")),
        "notches": Notches(at=Share(draw(st.sampled_from((0.1, 0.33, 0.9)))), tick=draw(added)),
        "allowances": Allowances(seam=draw(added), named={"lacing edge": draw(added)}),
        "cut": Cut(on_fold=panels[:1], layers=layers),
    }
    steps = tuple(
        Step(kind, one, Place("", 1, 1), number) for number, (kind, one) in enumerate(options.items(), start=1)
    )
    return Recipe("drawn", draw(names), "jacket", ("bust", "waist"), (), steps, sources=("from memory: none",))


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(recipes())
def test_every_recipe_survives_being_written_out(recipe: Recipe) -> None:
    """Whatever is in its steps, the text of a recipe reads back to the same recipe."""
    assert read_recipe(explained(recipe), "drawn.yaml") == recipe
