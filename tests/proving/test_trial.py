"""A recipe tried on bodies: each comes out sound, not sound, refused or broken, and nothing ends the run."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from shapely import LinearRing, hausdorff_distance

from fanblock.pattern.model import Finding, Pattern
from fanblock.problems import RecipeError
from fanblock.proving import trial as trial_module
from fanblock.proving.people import People, invented_people
from fanblock.proving.trial import BROKEN, NOT_SOUND, OUTLINE_MM, REFUSED, SOUND, Trial, prove, thinned
from fanblock.recipe.library import open_recipe

Draft = Callable[..., Pattern]


def test_each_body_comes_out_as_it_should(small: Trial) -> None:
    """Two are sound; a waist over the bust, a blank cell and a bell are refused with their causes."""
    assert [(one.person.name, one.state, [cause.code for cause in one.causes]) for one in small.outcomes] == [
        ("ferrywoman", SOUND, []),
        ("innkeeper", REFUSED, ["waist"]),
        ("apprentice", REFUSED, ["measure"]),
        ("=pilot", SOUND, []),
        ("bell", REFUSED, ["turn"]),
    ]
    assert [len(one.outlines) for one in small.outcomes] == [5, 0, 0, 5, 0]
    assert not small.stopped


def test_any_number_of_workers_gives_the_same() -> None:
    """Two processes come to what one comes to, outlines and all, in the order of the rows."""
    everybody = invented_people()
    some = replace(everybody, persons=everybody.persons[::8])
    one, two = (prove(open_recipe("stays-three-panels"), some, workers=workers) for workers in (1, 2))
    assert [_plain(outcome) for outcome in one.outcomes] == [_plain(outcome) for outcome in two.outcomes]
    assert [outcome.person for outcome in two.outcomes] == list(some.persons)


def _plain(outcome: Any) -> Any:
    return outcome.person, outcome.state, outcome.causes, [ring.tobytes() for ring in outcome.outlines]


def test_a_body_that_breaks_is_one_row_and_the_others_are_done(
    company: People, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An unexpected error is our own fault, told with the row it happened in; all else is finished."""

    def draft(wearer: Any, *given: Any, **more: Any) -> Pattern:
        if wearer.name == "ferrywoman":
            raise ZeroDivisionError("by nothing")
        return whole(wearer, *given, **more)

    whole: Draft = trial_module.draft_pattern
    monkeypatch.setattr(trial_module, "draft_pattern", draft)
    tried = prove(open_recipe("stays-five-panels"), company, workers=1)
    assert [one.state for one in tried.outcomes] == [BROKEN, REFUSED, REFUSED, SOUND, REFUSED]
    broken = tried.outcomes[0]
    assert broken.causes[0].says == "fanblock met a fault of its own (ZeroDivisionError)."
    assert broken.report == "ZeroDivisionError: by nothing"


def test_ctrl_c_keeps_the_bodies_that_are_done(company: People, monkeypatch: pytest.MonkeyPatch) -> None:
    """Interrupted in the fourth body, the trial holds the three before it and says that it was stopped."""

    def draft(wearer: Any, *given: Any, **more: Any) -> Pattern:
        if wearer.name == "=pilot":
            raise KeyboardInterrupt
        return whole(wearer, *given, **more)

    whole: Draft = trial_module.draft_pattern
    monkeypatch.setattr(trial_module, "draft_pattern", draft)
    tried = prove(open_recipe("stays-five-panels"), company, workers=1)
    assert tried.stopped
    assert [one.person.name for one in tried.outcomes] == ["ferrywoman", "innkeeper", "apprentice"]


def test_a_failed_check_makes_a_body_not_sound(company: People, monkeypatch: pytest.MonkeyPatch) -> None:
    """Findings that fail are its causes, in their order; those that hold or warn are not."""
    states = ("holds", "fails", "warns", "fails")
    findings = tuple(
        Finding(f"check-{number}", "seams", state, 0.0, 0.0, "mm", f"says {number}")
        for number, state in enumerate(states)
    )
    whole: Draft = trial_module.draft_pattern
    monkeypatch.setattr(
        trial_module, "draft_pattern", lambda *given, **more: replace(whole(*given, **more), findings=findings)
    )
    outcome = prove(open_recipe("stays-five-panels"), company, workers=1).outcomes[0]
    assert outcome.state == NOT_SOUND
    assert [(cause.code, cause.says) for cause in outcome.causes] == [("check-1", "says 1"), ("check-3", "says 3")]
    assert len(outcome.outlines) == 5


def test_a_dial_turned_wrongly_is_told_before_anything_is_drawn(company: People) -> None:
    """It is the command that is wrong, and not three hundred bodies."""
    with pytest.raises(RecipeError) as caught:
        prove(open_recipe("stays-five-panels"), company, {"gap": "12 cm"}, workers=1)
    assert str(caught.value) == ("dial “gap”: 12 cm is more than its most, 9 cm. Set it from 0 cm to 9 cm.")


def test_a_refusal_may_be_overridden(company: People) -> None:
    """As in drafting: with the word of the refusal the body is drawn."""
    tried = prove(open_recipe("stays-five-panels"), company, workers=1, despite=("waist", "turn"))
    assert tried.outcomes[1].state == SOUND


@pytest.mark.parametrize("turns", [1.0, 3.0])
def test_thinned_outlines_stay_within_a_quarter_of_a_millimetre(turns: float) -> None:
    """Against shapely's Hausdorff distance, on a wavy ring of 2000 points."""
    angle = np.linspace(0.0, 2.0 * np.pi, 2000, endpoint=False)
    radius = 100.0 + 10.0 * np.sin(5.0 * turns * angle)
    ring = np.stack((radius * np.cos(angle), radius * np.sin(angle)), axis=1)
    few = thinned(ring)
    assert len(few) < 400
    assert hausdorff_distance(LinearRing(few), LinearRing(ring)) <= OUTLINE_MM + 0.01
