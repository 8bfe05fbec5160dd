"""Recipes based on others: what comes of the two, and what is said when they do not go together."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from fanblock.make import draft_pattern
from fanblock.problems import RecipeError
from fanblock.recipe.bases import Base
from fanblock.recipe.dials import with_dials
from fanblock.recipe.explain import explained
from fanblock.recipe.library import open_recipe
from fanblock.recipe.model import Recipe
from fanblock.recipe.phrase import UnreadableError
from fanblock.recipe.reading import read_recipe, read_source
from fanblock.steps.hem import Hem
from fanblock.steps.lacing_gap import LacingGap
from fanblock.steps.seam import Seam
from fanblock.terms import Dial, Height, Length, Share
from fanblock.wearer.library import open_wearer

HEAD = "recipe: 1\nbased on: trial\nname: Mine\n"


def read(text: str, **others: str) -> Recipe:
    """Return the recipe of a text, with other texts to be based on by their names."""

    def bases(name: str) -> Base:
        if name not in others:
            raise UnreadableError(f"there is no “{name}”.")
        return Base(others[name], f"{name}.yaml", name, bases)

    return read_source(Base(text, "r.yaml", "r", bases))


@pytest.fixture
def over(trial_text: str) -> Mapping[str, str]:
    """What the recipes of these tests are based on."""
    return {"trial": trial_text}


def kinds(recipe: Recipe) -> list[str]:
    """Return the kinds of a recipe's steps, in order."""
    return [step.kind for step in recipe.steps]


def test_what_is_not_said_is_as_in_the_base(over: Mapping[str, str], trial: Recipe) -> None:
    """Steps, dials, measures and words come from the base, places and all."""
    mine = read(f"{HEAD}dials:\n  gap: {{default: 40 mm}}\n", **over)
    assert mine.steps == trial.steps
    assert str(mine.steps[0].place) == "trial.yaml:12:5"
    assert (mine.name, mine.makes, mine.period, mine.needs) == ("Mine", trial.makes, trial.period, trial.needs)
    assert mine.based_on == ("trial",)


def test_a_dial_keeps_what_is_not_said_of_it(over: Mapping[str, str], trial: Recipe) -> None:
    """Of a dial only what is new need be written; new dials stand behind the old ones, dropped ones are gone."""
    mine = read(
        f"{HEAD}dials:\n  gap: {{default: 40 mm, most: 60 mm}}\n  tab depth: drop\n  depth: {{default: 7 cm}}\n"
        "changes:\n  - in: hem\n    set: {height: waist - depth}\n",
        **over,
    )
    gap, reduction, depth = mine.dials
    assert (gap.name, gap.default, gap.least, gap.most) == ("gap", Length(40.0), Length(0.0), Length(60.0))
    assert gap.purpose == trial.dials[0].purpose
    assert reduction == trial.dials[1]
    assert (depth.name, depth.default) == ("depth", Length(70.0))


def test_steps_are_replaced_dropped_and_put_in_where_the_orders_say(over: Mapping[str, str]) -> None:
    """Orders are followed from the first to the last; seams go by their names, other steps by their kinds."""
    mine = read(
        f"""{HEAD}changes:
  - replace: hem
    with: {{hem: {{height: waist - 60 mm}}}}
  - drop: side back
  - after: side front
    put:
      - seam: {{name: side seam, through: [[52%, top edge], [48%, waist]], share: 1}}
      - seam: {{name: back seam, through: [[78%, top edge], [78%, waist]], share: 1}}
  - before: separate
    put: {{bust reduction: {{by: 1%}}}}
  - in: separate
    set: {{panels: [front, side, side back, back]}}
  - in: side front
    set: {{spring: 30 mm}}
dials:
  tab depth: drop
""",
        **over,
    )
    assert kinds(mine)[2:9] == ["hem", "seam", "seam", "seam", "waist reduction", "bust reduction", "separate"]
    assert [step.number for step in mine.steps] == list(range(1, 13))
    seams = [step.options for step in mine.steps if isinstance(step.options, Seam)]
    assert [seam.name for seam in seams] == ["side front", "side seam", "back seam"]
    assert (seams[0].spring, seams[0].share) == (Length(30.0), 2.0)
    assert mine.steps[2].options == Hem(height=Height("waist", plus=Length(60.0), sign=-1))
    assert str(mine.steps[2].place) == "r.yaml:6:12"


def test_steps_of_one_kind_are_told_apart_by_their_number(over: Mapping[str, str]) -> None:
    """Where two lacing gaps stand, each is called by its number."""
    both = f"{HEAD}changes:\n  - before: top edge\n    put: {{lacing gap: {{at: center front, width: 20 mm}}}}\n"
    mine = read(
        "recipe: 1\nbased on: both\nname: Wider\nchanges:\n  - in: lacing gap 2\n    set: {width: 30 mm}\n",
        both=both,
        **over,
    )
    gaps = [step.options for step in mine.steps if isinstance(step.options, LacingGap)]
    assert gaps == [LacingGap(Dial("gap"), "center back"), LacingGap(Length(30.0), "center front")]
    assert mine.based_on == ("both", "trial")


def test_words_stand_in_place_of_the_base_s_and_sources_are_added(over: Mapping[str, str]) -> None:
    """What the numbers of the base rest on, they still rest on; everything else that is given replaces."""
    first = HEAD + 'period: 1790\nneeds: [bust]\nsources: ["from memory: a"]\nwatch: [one]\nchanges: [{drop: tabs}]\n'
    mine = read(
        'recipe: 1\nbased on: first\nname: N\nabout: other\nsources: ["from memory: b"]\nwatch: [two]\n'
        "dials: {gap: {default: 1 cm}}\n",
        first=first,
        **over,
    )
    assert mine.sources == ("from memory: a", "from memory: b")
    assert (mine.watch, mine.period, mine.about, mine.needs) == (("two",), "1790", "other", ("bust",))


def test_center_and_centre_are_one_word_to_a_change(over: Mapping[str, str]) -> None:
    """A change finds the option it sets however its writer spells the middle."""
    mine = read(
        f"{HEAD}changes:\n  - in: lacing gap\n    set: {{at: centre front}}\n"
        "  - in: grain\n    set: {front: at waist}\n",
        **over,
    )
    assert isinstance(mine.steps[0].options, LacingGap)
    assert mine.steps[0].options.at == "center front"


def test_an_explained_recipe_stands_on_its_own(over: Mapping[str, str]) -> None:
    """What is written out holds all of the base, so it reads back to the same without it."""
    mine = read(f"{HEAD}changes:\n  - drop: tabs\n  - in: side back\n    set: {{take: {{bust: 5 mm}}}}\n", **over)
    again = read_recipe(explained(mine), "r.yaml")
    assert again.steps == with_dials(mine).steps
    assert "based on" not in explained(mine)


def test_the_input_code_changes_with_the_base(trial_text: str) -> None:
    """Two patterns drawn before and after a base was changed cannot be taken for one another."""
    wearer = open_wearer("ferrywoman")
    text = f"{HEAD}dials:\n  gap: {{default: 40 mm}}\n"
    before, after = (
        read(text, trial=base) for base in (trial_text, trial_text.replace("bust + 15 mm", "bust + 16 mm"))
    )
    codes = {draft_pattern(wearer, recipe).title.code for recipe in (before, before, after)}
    assert len(codes) == 2


def test_a_percentage_is_changed_as_well_as_a_length(over: Mapping[str, str]) -> None:
    """A percentage keeps the measure it is of."""
    mine = read(f"{HEAD}dials:\n  reduction: {{default: 2%}}\n", **over)
    assert mine.dials[1].default == Share(0.02, "waist")


ON_TRIAL = "“r.yaml” is based on this and changes it: put it right there, under `changes`."

BAD = {
    "a step misspelt": (
        "changes:\n  - drop: side bakc\n",
        "r.yaml:5:11: change 1 (drop) › there is no step “side bakc” here. Did you mean “side back”?",
    ),
    "a seam by its kind": (
        "changes:\n  - drop: seam\n",
        "r.yaml:5:11: change 1 (drop) › there is no step “seam” here. Legal here: cut, grain, hem, lacing gap, "
        "separate, side back, side front, tabs, top edge, waist reduction.",
    ),
    "a step that an earlier change dropped": (
        "changes:\n  - drop: side back\n  - in: side back\n    set: {spring: 30 mm}\n",
        "r.yaml:6:9: change 2 (in) › there is no step “side back” here. Legal here: cut, grain, hem, lacing gap, "
        "separate, side front, tabs, top edge, waist reduction.",
    ),
    "two seams of one name": (
        "changes:\n  - after: side back\n    put: {seam: {name: side back, through: [[80%, top edge], [80%, waist]]}}\n"
        "  - drop: side back\n",
        "r.yaml:7:11: change 2 (drop) › two steps are called “side back” (steps 5 and 6). "
        "Give the seam another name first.",
    ),
    "changes that are no list": (
        "changes: all\n",
        "r.yaml:4:10: changes › got “all”, needs a list of changes, each behind a dash. "
        "Such as `drop: side back` or `replace: hem` with `with: …` under it.",
    ),
    "an empty list of changes": (
        "changes: []\n",
        "r.yaml:4:10: changes › got an empty list, needs a list of changes, each behind a dash. "
        "Such as `drop: side back` or `replace: hem` with `with: …` under it.",
    ),
    "a change that is a word": (
        "changes:\n  - drop\n",
        "r.yaml:5:5: change 1 › got “drop”, needs a change, "
        "such as `drop: side back` or `replace: hem` with `with: …` under it.",
    ),
    "several steps in one order": (
        "changes:\n  - drop: [hem, tabs]\n",
        "r.yaml:5:11: change 1 (drop) › got a list, needs the name of one step.",
    ),
    "an order without its step": (
        "changes:\n  - drop:\n",
        "r.yaml:5:10: change 1 (drop) › got nothing, needs the name of one step.",
    ),
    "replace without with": (
        "changes:\n  - replace: hem\n",
        "r.yaml:5:5: change 1 (replace) › `with` is missing beside `replace`. Write `with: …` under it.",
    ),
    "with a text": (
        "changes:\n  - replace: hem\n    with: waist\n",
        "r.yaml:6:11: change 1 (replace) › with › got “waist”, needs a step with its options, "
        "such as `hem: {height: waist}`.",
    ),
    "the wrong word beside": (
        "changes:\n  - after: hem\n    with: {ease: {}}\n",
        "r.yaml:5:5: change 1 (after) › `put` is missing beside `after`. Write `put: …` under it.\n"
        "r.yaml:6:5: change 1 (after) › `with` does not go with `after`. `put` does.",
    ),
    "a word beside drop": (
        "changes:\n  - drop: tabs\n    with: {hem: {height: waist}}\n",
        "r.yaml:6:5: change 1 (drop) › `with` does not go with `drop`. Nothing does.",
    ),
    "two orders in one": (
        "changes:\n  - drop: tabs\n    replace: hem\n",
        "r.yaml:6:5: change 1 › says `drop` and `replace` in one. Give each change a dash of its own.",
    ),
    "no order": (
        "changes:\n  - with: {}\n",
        "r.yaml:5:5: change 1 › does not say which step it changes. "
        "Begin with `replace`, `drop`, `after`, `before` or `in`.",
    ),
    "an order misspelt": (
        "changes:\n  - repalce: hem\n    with: {}\n",
        "r.yaml:5:5: change 1 › “repalce” is not known here. Did you mean “replace”?",
    ),
    "set a text": (
        "changes:\n  - in: hem\n    set: waist\n",
        "r.yaml:6:10: change 1 (in) › set › got “waist”, needs the options that change, such as `{spring: 30 mm}`.",
    ),
    "an option misspelt": (
        "changes:\n  - in: side back\n    set: {spring: 20 mm, shrae: 2}\n",
        "r.yaml:6:26: step 5 (seam) › “shrae” is not known here. Did you mean “share”?",
    ),
    "an option set to what it is, in another unit": (
        "changes:\n  - in: tabs\n    set: {corner: 1.2 cm, shape: square}\n",
        "r.yaml:6:11: change 1 (in) › corner › that is what stands there already. Take it out, or say what differs.",
    ),
    "an option set to its default": (
        "changes:\n  - in: tabs\n    set: {shape: rounded}\n",
        "r.yaml:6:11: change 1 (in) › shape › that is what stands there already. Take it out, or say what differs.",
    ),
    "a step replaced by itself": (
        "changes:\n  - replace: hem\n    with: {hem: {height: waist - tab depth}}\n",
        "r.yaml:5:14: change 1 (replace) › that is what stands there already. Take it out, or say what differs.",
    ),
    "a dial set to what it is": (
        "dials:\n  gap: {default: 5 cm}\n",
        "r.yaml:5:9: dials › gap › default › that is what stands there already. Take it out, or say what differs.",
    ),
    "a dial beyond the base's limit": (
        "dials:\n  gap: {default: 120 mm}\n",
        "r.yaml:5:18: dials › gap › default › 120 mm is more than its most, 90 mm. Set it from 0 mm to 90 mm.",
    ),
    "a dial dropped that there is not": (
        "dials:\n  gapp: drop\n",
        "r.yaml:5:3: dials › gapp › “trial.yaml” has no dial “gapp” to drop. Did you mean “gap”?",
    ),
    "a dial dropped that a step uses": (
        "dials:\n  tab depth: drop\n",
        "trial.yaml:21:19: step 3 (hem) › height › got “waist - tab depth”, needs an amount such as `12 mm`, "
        f"`3/4 in`, `3% of waist` or the name of a dial. Dials of this recipe: gap, reduction. {ON_TRIAL}",
    ),
    "a dial that no step uses any more": (
        "changes:\n  - replace: hem\n    with: {hem: {height: waist - 8 cm}}\n",
        "trial.yaml:10:3: dials › tab depth › no step uses this dial. Use its name in a step, or take it out. "
        "“r.yaml” is based on this and changes it: put it right there, or write `tab depth: drop` under `dials`.",
    ),
    "dials that are no table": (
        "dials: 5\n",
        "r.yaml:4:8: dials › got a number, needs dials with what is new of them, such as `{gap: {default: 30 mm}}`.",
    ),
    "a step that is missing now": (
        "changes:\n  - drop: hem\n",
        "r.yaml:5:3: steps › `hem` is missing. Add a `hem` before `separate`.",
    ),
    "a step that stands twice now": (
        "changes:\n  - before: hem\n    put: {hem: {height: waist - tab depth}}\n",
        "trial.yaml:21:5: step 4 (hem) › stands a second time (first in step 3). "
        f"Put all its options in one step. {ON_TRIAL}",
    ),
    "a step in the wrong half": (
        "changes:\n  - after: separate\n    put: {ease: {waist: 5 mm}}\n",
        "r.yaml:6:11: step 8 (ease) › draws on the block, but stands after `separate` (step 7). "
        "Move it before that step.",
    ),
    "a panel renamed that other steps name": (
        "changes:\n  - in: separate\n    set: {panels: [front, sides, back]}\n",
        "trial.yaml:26:34: step 8 (tabs) › slits › there is no panel “side” in `separate` (step 7). "
        f"Did you mean “sides”? {ON_TRIAL}\n"
        "trial.yaml:27:34: step 9 (grain) › there is no panel “side” in `separate` (step 7). "
        f"Did you mean “sides”? {ON_TRIAL}",
    ),
    "steps of its own": (
        "steps: []\n",
        "r.yaml:4:1: steps › the steps are those of “trial.yaml”, on which this recipe is based. "
        "Say what differs under `changes`.",
    ),
    "only words": (
        "period: 1700\n",
        "r.yaml:1:1: based on › only words differ from “trial.yaml”: none of `changes`, `dials` and `block` stands here. "
        "Say what differs.",
    ),
    "a key misspelt": (
        "perod: 1790\nchanges:\n  - drop: tabs\n",
        "r.yaml:4:1: “perod” is not known here. Did you mean “period”?",
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_changes_that_cannot_be_made_are_refused_in_their_place(name: str, over: Mapping[str, str]) -> None:
    """What is wrong is told where it stands, in the file it stands in, with what to do about it."""
    text, says = BAD[name]
    with pytest.raises(RecipeError) as caught:
        read(HEAD + text, **over)
    assert str(caught.value) == says


HEADS = {
    "a base that there is not": ("recipe: 1\nbased on: trail\nname: M\n", "r.yaml:2:11: based on › there is no “trail”."),
    "a list of bases": (
        "recipe: 1\nbased on: [a, b]\nname: M\n",
        "r.yaml:2:11: based on › got a list, needs the name of a shipped recipe or of a file beside this one.",
    ),
    "no base": (
        "recipe: 1\nbased on:\nname: M\n",
        "r.yaml:2:10: based on › got nothing, needs the name of a shipped recipe or of a file beside this one.",
    ),
    "no name": (
        "recipe: 1\nbased on: trial\nchanges:\n  - drop: tabs\n",
        "r.yaml:1:1: `name` is missing. Add `name`: what the recipe is called.",
    ),
    "no format": (
        "based on: trial\n",
        "r.yaml:1:1: recipe › the format number is missing. This version reads format 1: "
        "begin the file with `recipe: 1`.",
    ),
    "changes of nothing": (
        "recipe: 1\nbase on: trial\nname: M\nmakes: stays\nchanges: []\nsteps: []\n",
        "r.yaml:2:1: “base on” is not known here. Did you mean “based on”?\n"
        "r.yaml:5:1: changes › this recipe is not based on another, so there is nothing to change. "
        "Add `based on: …` and the other recipe's name.\n"
        "r.yaml:6:8: steps › got an empty list, needs a list of steps, each behind a dash. "
        "Begin with `- top edge: …`.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", HEADS)
def test_a_head_that_names_no_base_is_refused(name: str, over: Mapping[str, str]) -> None:
    """A recipe says once what it is based on, and still has a format and a name of its own."""
    text, says = HEADS[name]
    with pytest.raises(RecipeError) as caught:
        read(text, **over)
    assert str(caught.value) == says


def test_sources_of_the_base_are_not_repeated(over: Mapping[str, str]) -> None:
    """A line that stands in the base already is a slip."""
    first = f'{HEAD}sources: ["from memory: a"]\ndials: {{gap: {{default: 1 cm}}}}\n'
    with pytest.raises(RecipeError) as caught:
        read(
            'recipe: 1\nbased on: first\nname: N\nsources: ["from memory: a"]\ndials: {gap: {default: 2 cm}}\n',
            first=first,
            **over,
        )
    assert str(caught.value) == (
        "r.yaml:4:11: sources › item 1 › stands in “first.yaml” already, whose sources are kept. Take it out."
    )


def test_bare_numbers_keep_the_unit_of_the_base(trial_text: str) -> None:
    """A unit said anew would change what the bare numbers of the base mean."""
    with pytest.raises(RecipeError) as caught:
        read(f"{HEAD}units: in\nchanges:\n  - drop: tabs\n", trial=f"{trial_text}units: cm\n")
    assert str(caught.value) == (
        "r.yaml:4:8: units › bare numbers of “trial.yaml” are in cm, so they cannot be in “in” here. "
        "Take `units` out, and write units behind numbers."
    )


def test_what_is_wrong_in_a_base_is_told_as_its_own_fault(trial_text: str) -> None:
    """A base has to be sound by itself; its problems are not put down to the recipe based on it."""
    with pytest.raises(RecipeError) as caught:
        read(f"{HEAD}changes:\n  - drop: tabs\n", trial=trial_text.replace("[14%, waist]", "[14%, wiast]"))
    assert str(caught.value) == (
        "trial.yaml:22:63: step 4 (seam) › through › point 2 › height › got “wiast”, needs a height such as "
        "`bust + 30 mm`, `waist`, `33%`, `73% of back length`. Did you mean “waist”?"
    )


def write(folder: Path, name: str, base: str, more: str = "") -> Path:
    """Write a recipe that is based on another, and return its path."""
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(f"recipe: 1\nbased on: {base}\nname: {path.stem}\ndials: {{gap: {{default: {len(more)} mm}}}}\n")
    return path


def test_a_file_is_based_on_a_shipped_recipe_or_on_a_file_beside_it(tmp_path: Path, trial_text: str) -> None:
    """Paths go on from the folder of the recipe that names them, not from where somebody works."""
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "base.yaml").write_text(trial_text)
    write(tmp_path, "own/middle.yaml", "base.yaml", "x")
    top = open_recipe(str(write(tmp_path, "top.yaml", "own/middle.yaml")))
    assert top.based_on == ("own/middle.yaml", "base.yaml")
    assert top.steps[0].place.file == str(tmp_path / "own" / "base.yaml")
    shipped = open_recipe(str(write(tmp_path, "mine.yaml", "stays-three-panels")))
    assert shipped.steps[0].place.file == "stays-three-panels.yaml"


def refused(path: Path) -> str:
    """Return what is said of a recipe file, its folder left out."""
    with pytest.raises(RecipeError) as caught:
        open_recipe(str(path))
    return str(caught.value).replace(f"{path.parent}/", "")


ELSEWHERE = {
    "/etc/hostname": "got “/etc/hostname”, which does not go on from the folder of this recipe. "
    "Name a shipped recipe, or a file in this folder, such as `my-stays.yaml`.",
    "~/base.yaml": "got “~/base.yaml”, which does not go on from the folder of this recipe. "
    "Name a shipped recipe, or a file in this folder, such as `my-stays.yaml`.",
    'C:\\\\base.yaml': "got “C:\\\\base.yaml”, which does not go on from the folder of this recipe. "
    "Name a shipped recipe, or a file in this folder, such as `my-stays.yaml`.",
    "file:///base.yaml": "got “file:///base.yaml”, which does not go on from the folder of this recipe. "
    "Name a shipped recipe, or a file in this folder, such as `my-stays.yaml`.",
    "../base.yaml": "“../base.yaml” lies outside the folder of this recipe. Put both into one folder.",
    "link.yaml": "“link.yaml” lies outside the folder of this recipe. Put both into one folder.",
    "round.yaml": "the file “round.yaml” cannot be opened (its links go round).",
    "sub": "the file “sub” cannot be opened (is a directory).",
    "nowhere.yaml": "there is no recipe file “nowhere.yaml”. Look at its name and folder.",
    "stays-three-panels.yaml": "there is no recipe file “stays-three-panels.yaml”. "
    "Write `stays-three-panels` for the shipped recipe.",
    "stays-three-panel": "there is no shipped recipe “stays-three-panel”, and no file of that name beside this one. "
    "Did you mean “stays-three-panels” or “stays-five-panels” or “stays-1770s-four-panels”?",
}  # fmt: skip


@pytest.mark.parametrize("name", ELSEWHERE)
def test_a_base_lies_in_the_folder_of_its_recipe_or_below(name: str, tmp_path: Path, trial_text: str) -> None:
    """A recipe from a stranger opens nothing but what lies beside it."""
    (tmp_path / "base.yaml").write_text(trial_text)
    own = tmp_path / "own"
    path = write(own, "r.yaml", f"'{name}'")
    (own / "sub").mkdir()
    (own / "link.yaml").symlink_to(tmp_path / "base.yaml")
    (own / "round.yaml").symlink_to(own / "round.yaml")
    assert refused(path) == f"r.yaml:2:11: based on › {ELSEWHERE[name]}"


def test_recipes_that_are_based_on_one_another_are_refused(tmp_path: Path) -> None:
    """A ring of recipes has no first one; it is told where it closes."""
    write(tmp_path, "a.yaml", "b.yaml")
    write(tmp_path, "b.yaml", "sub/../a.yaml")
    (tmp_path / "sub").mkdir()
    assert refused(tmp_path / "a.yaml") == (
        "b.yaml:2:11: based on › “a.yaml”, which is based on “b.yaml”, which is based on “a.yaml”: "
        "that has no end. Take `based on` out of one of them."
    )
    itself = write(tmp_path, "itself.yaml", "itself.yaml")
    assert refused(itself).startswith("itself.yaml:2:11: based on › “itself.yaml”, which is based on “itself.yaml”")


def test_at_most_five_recipes_stand_on_one_another(tmp_path: Path, trial_text: str) -> None:
    """A tower of recipes nobody can follow is refused at the floor that is too many."""
    (tmp_path / "r0.yaml").write_text(trial_text)
    for number in range(1, 7):
        write(tmp_path, f"r{number}.yaml", f"r{number - 1}.yaml", "x" * number)
    assert len(open_recipe(str(tmp_path / "r5.yaml")).based_on) == 5
    assert refused(tmp_path / "r6.yaml") == (
        "r1.yaml:2:11: based on › 5 recipes already stand on one another, and this would be one more. "
        "Base it on one of the recipes further down."
    )


def test_a_text_alone_is_based_on_shipped_recipes_only(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A text that was not opened from a file lies in no folder, so nothing lies beside it."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "base.yaml").write_text("recipe: 1\n")
    text = "recipe: 1\nbased on: {}\nname: N\ndials: {{gap: {{default: 1 cm}}}}\n"
    assert read_recipe(text.format("stays-three-panels"), "r.yaml").based_on == ("stays-three-panels",)
    with pytest.raises(RecipeError, match="there is no shipped recipe “base"):
        read_recipe(text.format("base.yaml"), "r.yaml")
