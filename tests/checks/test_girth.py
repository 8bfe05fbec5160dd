"""The girth family: sums level by level, the worn waist, and girths that the cone was not made from."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.checks.spoiling import failing, one, sound, states, with_lengths
from tests.samples import GAP, ONE, TOP, made, recipe

from fanblock.checks.girth import check
from fanblock.pattern.model import Pattern


def with_girth(pattern: Pattern, number: int, **changes: float) -> Pattern:
    """Return the pattern with the sums of one level changed."""
    girths = list(pattern.girths)
    girths[number] = replace(girths[number], **changes)  # type: ignore[arg-type]
    return replace(pattern, girths=tuple(girths))


def test_a_sound_garment_adds_up() -> None:
    """Eleven levels and the worn waist hold."""
    found = check(sound())
    assert failing(found) == []
    assert [finding.code for finding in found] == [f"girth-{step}" for step in range(0, 101, 10)] + ["girth-worn-waist"]


@pytest.mark.parametrize(("number", "code"), [(0, "girth-0"), (5, "girth-50"), (10, "girth-100")])
def test_cloth_that_is_missing_is_caught(number: int, code: str) -> None:
    """0.3 mm of one half, 0.6 of the whole garment, are over the limit of 0.5; 0.2 are not."""
    pattern = sound()
    parts = pattern.girths[number].parts_mm
    assert code in failing(check(with_girth(pattern, number, parts_mm=parts - 0.3)))
    assert failing(check(with_girth(pattern, number, parts_mm=parts - 0.2))) == []


def test_a_waist_that_is_not_what_was_asked_is_caught() -> None:
    """Pieces that add up to another waist than body and ease less reduction fail at the worn waist alone."""
    pattern = sound()
    spoilt = with_girth(pattern, 0, reduction_mm=pattern.girths[0].reduction_mm + 1.0)
    assert failing(check(spoilt)) == ["girth-worn-waist"]


def test_the_worn_waist_is_told_in_words() -> None:
    """A maker reads what is worn, how much of it is gap, and how it comes about."""
    assert one(check(sound()), "girth-worn-waist").says == (
        "worn waist 659.6 mm, of which 50.0 mm gap; body 680.0 mm + ease 0.0 mm - reduction 20.4 mm"
    )


def test_what_is_open_is_told_and_where() -> None:
    """Above a top edge, or beyond the edges of a garment that ends above the waist."""
    assert one(check(sound()), "girth-100").says.endswith("of it open above the top edge")
    short = made(recipe(GAP, TOP, "hem: {height: waist + 30 mm}", ONE))
    assert one(check(short), "girth-0").says.endswith("of it open beyond the edges")
    assert " and 630.0 mm open; " in one(check(short), "girth-worn-waist").says


def test_girths_the_cone_was_not_made_from_never_fail() -> None:
    """Half way to the bust this cone is 780 mm: ribs of 760 leave it 20 mm looser, of 720 more than 50, which warns;
    ribs of 800 make it tighter. None of it is a failure.
    """
    for mm, state, words in ((760.0, "holds", "20.0 mm looser"), (720.0, "warns", "60.0 mm looser"),
                             (800.0, "holds", "20.0 mm tighter")):  # fmt: skip
        found = one(check(with_lengths(sound(), underbust=mm, underbust_height=87.5)), "girth-underbust")
        assert (found.state, words in found.says) == (state, True)


def test_a_guessed_height_is_said_where_a_sentence_rests_on_it() -> None:
    """The girth was measured, and how high it lies was not."""
    measured = with_lengths(sound(), underbust=760.0, underbust_height=87.5)
    body = replace(measured.body, guessed={"underbust height": "8.8 cm, from memory"})
    assert "a height that is guessed" not in one(check(measured), "girth-underbust").says
    assert (
        "(87.5 mm above the waist, a height that is guessed)"
        in one(check(replace(measured, body=body)), "girth-underbust").says
    )


def test_what_lies_above_the_garment_is_not_spoken_of() -> None:
    """An upper chest 60 mm above the bust lies above this top edge, one 20 mm above it does not."""
    high = with_lengths(sound(), upper_chest=850.0, upper_chest_height=235.0)
    low = with_lengths(sound(), upper_chest=850.0, upper_chest_height=195.0)
    assert "girth-upper-chest" not in states(check(high))
    assert "girth-upper-chest" in states(check(low))
