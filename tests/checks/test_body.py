"""The body family: what a cone, and lacing, should not be asked to do."""

from __future__ import annotations

import pytest
from tests.checks.spoiling import body_pattern, one, sound, states
from tests.samples import BODIES, GAP, HEM, THREE, TOP, USUAL, made, recipe, side_back, side_front, tilted, wearer

from fanblock.checks.body import check
from fanblock.pattern.model import Pattern
from fanblock.problems import GeometryError
from fanblock.wearer.model import Measures, Wearer


def reduced(percent: str, *, despite: tuple[str, ...] = (), name: str = "ordinary") -> Pattern:
    """Return the sample garment with so much taken in at the waist."""
    steps = (GAP, TOP, HEM, side_front(), side_back(), f"waist reduction: {{by: {percent}}}", THREE)
    return made(recipe(*steps), name, despite=(*despite, "waist"))


@pytest.mark.parametrize(("percent", "state"), [("3%", "holds"), ("5%", "holds"), ("6%", "warns"), ("10%", "warns")])
def test_a_reduction_over_5_percent_warns(percent: str, state: str) -> None:
    """Up to 5 % of the waist holds, up to 10 % warns (over 10 % should not be laced away: Gau, Iowa State 1998)."""
    assert one(check(reduced(percent)), "reduction").state == state


@pytest.mark.parametrize("name", BODIES)
def test_ten_percent_is_ten_percent_on_every_body(name: str) -> None:
    """The most that is drawn is drawn for every waist, however its tenth is rounded."""
    assert one(check(reduced("10%", name=name), despite=("waist",)), "reduction").number == pytest.approx(0.1)


def test_more_than_10_percent_is_refused_without_a_yes() -> None:
    """12 % is refused; with the word given back it is drawn, and warns."""
    with pytest.raises(GeometryError) as caught:
        reduced("12%")
    assert str(caught.value) == (
        "body › the lacing would take in 12.0% of the waist; more than 10% is not drawn. "
        "Reduce less. If you must, draft again with `--despite reduction`."
    )
    assert one(check(reduced("12%", despite=("reduction",)), ("reduction",)), "reduction").state == "warns"


def steep(length: float) -> Wearer:
    """Return a body of a large drop over so short a length."""
    return wearer(1000.0, 780.0, length, **{**USUAL, "raised": length})


def test_a_block_that_becomes_a_bell_warns_and_is_refused() -> None:
    """Half the block turns (500 - 390) / length: 54 degrees at 117 mm, 60 at 105, 66 at 95 mm."""
    assert one(check(body_pattern(steep(117.0))), "turn").state == "holds"
    assert one(check(body_pattern(steep(105.0))), "turn").state == "warns"
    with pytest.raises(GeometryError) as caught:
        body_pattern(steep(95.0))
    assert str(caught.value) == (
        "body › half the block turns 66°: a drop of 220.0 mm in so short a length makes a bell, not a garment. "
        "Measure `raised` with the bust lifted. If it is right, draft with `--despite turn`."
    )


def test_boned_stays_on_a_waist_over_the_bust_are_refused() -> None:
    """A waist 3 % over the bust refuses stays and leaves a jacket alone; with a yes stays are drawn."""
    with pytest.raises(GeometryError) as caught:
        body_pattern(BODIES["bust under waist"], makes="stays")
    assert str(caught.value) == (
        "body › the waist, 1080.0 mm, passes the bust, 1000.0 mm: boned stays would ride up. "
        "Choose jumps or side lacing. To draw it all the same, add `--despite waist`."
    )
    assert body_pattern(BODIES["bust under waist"], makes="stays", despite=("waist",)).sound
    assert body_pattern(BODIES["bust under waist"]).sound


def test_refusals_are_told_together() -> None:
    """A body and a recipe with two faults hear of both."""
    with pytest.raises(GeometryError) as caught:
        made(recipe(GAP, TOP, HEM, side_front(), side_back(), "waist reduction: {by: 12%}", THREE, makes="stays"),
             "bust under waist", despite=())  # fmt: skip
    assert [problem.code for problem in caught.value.problems] == ["reduction", "waist"]


def test_a_body_almost_without_a_waist_is_told() -> None:
    """A bust within 4 % of the waist warns; the ordinary body does not."""
    assert states(check(sound("bust is waist")))["straight"] == "warns"
    assert "straight" not in states(check(sound()))


def test_measures_without_a_date_are_told() -> None:
    """Bodies change: an undated set warns."""
    dated = tilted()
    undated = Wearer("sample", tuple(Measures(one_.over, "", one_.values) for one_ in dated.sets), (), (), "mm")
    told = [finding.says for finding in check(body_pattern(undated)) if finding.state == "warns"]
    assert sum("no date" in says for says in told) == 1
    assert not any("no date" in finding.says for finding in check(body_pattern(dated)))


def test_measures_that_are_hard_to_believe_are_told_again() -> None:
    """What was doubted on reading stands beside the pattern too."""
    long_back = wearer(880.0, 680.0, 160.0, **{**USUAL, "back_length": 545.0})
    assert states(check(body_pattern(long_back)))["measure-1"] == "warns"
