"""Amounts, heights and arounds of a recipe as numbers on a body, by arithmetic on its measures."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples import FRONT, block, body, garment, worked

from fanblock.draft.lacing import lacing_line
from fanblock.draft.model import Draft, Gap
from fanblock.draft.places import amount_mm, height_on, place_of, size_mm
from fanblock.problems import GeometryError
from fanblock.recipe.parts import parse_around, parse_height
from fanblock.recipe.phrase import Vocabulary
from fanblock.recipe.reading import MEASURE_NAMES
from fanblock.terms import Dial, Length, Position, Share

WORDS = Vocabulary(measures=MEASURE_NAMES, seams=("side front",))


def draft(name: str = "ordinary") -> Draft:
    """Return an empty draft of a body of the catalogue."""
    return Draft(body(name), block(name))


def place(around: str, height: str, on: Draft) -> tuple[float, float]:
    """Return around and height of a position as a recipe writes it."""
    return place_of(on, Position(parse_around(around, WORDS), parse_height(height, WORDS)))


def test_a_share_is_of_the_measure_it_names_or_of_what_its_place_says() -> None:
    """3 % of the waist of 680 mm is 20.4 mm; 3 % alone is of the measure its place is about."""
    assert amount_mm(body(), Share(0.03, "waist"), of="bust") == pytest.approx(20.4)
    assert amount_mm(body(), Share(0.03), of="bust") == pytest.approx(26.4)
    assert amount_mm(body(), Length(12.5), of="bust") == 12.5


def test_a_dial_has_to_be_set_before_it_is_asked() -> None:
    """An amount that is still the name of a dial is our own mistake, not the maker's."""
    with pytest.raises(TypeError, match="the dial “gap” has not been resolved"):
        amount_mm(body(), Dial("gap"), of="waist")


def test_a_size_is_never_less_than_nothing() -> None:
    """A width of less than nothing is refused under the option's name."""
    with pytest.raises(GeometryError) as caught:
        size_mm(body(), Length(-3.0), "waist", "corner")
    assert str(caught.value) == "corner › got -3.0 mm, needs 0 or more. Leave out the minus."


def test_a_measure_that_was_not_taken_is_asked_for() -> None:
    """A recipe that stands on a measure nobody took says which."""
    with pytest.raises(GeometryError) as caught:
        height_on(draft(), parse_height("50% of belly", WORDS), 0.0)
    assert str(caught.value) == (
        "wearer sample › this recipe stands on the measure “belly”, which was not taken. "
        "Add `belly:` to the measures and draft again."
    )


@pytest.mark.parametrize(
    ("words", "mm"),
    [
        ("waist", 0.0),
        ("bust", 175.0),
        ("held bust", 175.0),
        ("underarm", 200.0),
        ("33%", 57.75),
        ("-20%", -35.0),
        ("waist - 80 mm", -80.0),
        ("bust + 30 mm", 205.0),
        ("50% + 10 mm", 97.5),
        ("73% of back length", 292.0),
        ("waist + 10% of bust", 88.0),
    ],
)
def test_heights_are_lengths_along_the_ruling(words: str, mm: float) -> None:
    """On an untilted body with the bust held at 175 mm every height is its words' arithmetic, at any around."""
    for around in (0.0, 0.3, 1.0):
        assert height_on(draft(), parse_height(words, WORDS), around) * 175.0 == pytest.approx(mm)


def test_the_held_bust_is_guessed_where_it_was_not_measured() -> None:
    """Without `raised` the bust is taken to be held 25 mm higher than at rest (from memory)."""
    on = draft("measures of the least")
    assert height_on(on, parse_height("held bust", WORDS), 0.0) * 160.0 == pytest.approx(185.0)
    assert height_on(on, parse_height("bust", WORDS), 0.0) == 1.0


@pytest.mark.parametrize(
    ("words", "around"),
    [
        ("center front", 0.0),
        ("center back", 1.0),
        ("side", 0.5),
        ("24%", 0.24),
        ("24% + 17 mm", 0.24 + 17.0 / 340.0),
        ("center back - 34 mm", 0.9),
    ],
)
def test_arounds_at_the_waist_are_shares_of_it(words: str, around: float) -> None:
    """Half the waist is 340 mm: lengths along it are shares of that."""
    assert place(words, "waist", draft()) == pytest.approx((around, 0.0))


def test_a_length_around_is_along_the_level_it_stands_on() -> None:
    """17 mm are a smaller share of the bust, of which a half is 440 mm, than of the waist."""
    assert place("24% + 17 mm", "bust", draft()) == pytest.approx((0.24 + 17.0 / 440.0, 1.0))


def test_the_side_lies_where_the_front_arc_ends() -> None:
    """A front of 470 mm in a bust of 880 puts the side at 235 of 440 mm."""
    assert place("side", "waist", draft("short in the back to the side"))[0] == pytest.approx(470.0 / 880.0)


@pytest.mark.parametrize("at", [FRONT, "center back"])
def test_the_lacing_edge_is_a_place_at_every_height(at: str) -> None:
    """A point on the lacing edge stands half the gap from the centre line, measured across."""
    gap = Gap(at, 60.0, lacing_line(block(), at, 60.0))
    on = Draft(body(), block(), gaps=(gap,))
    center = 0.0 if at == FRONT else 1.0
    up = block().ruling_direction(center)
    for height in ("waist", "40%", "bust + 60 mm"):
        away = block().at(*place("lacing edge", height, on)) - block().at(center, 0.0)
        assert abs(away[0] * up[1] - away[1] * up[0]) == pytest.approx(30.0, abs=0.01)


def test_a_place_on_a_seam_lies_on_its_line() -> None:
    """Half way up the front seam is the around the seam itself has there."""
    on = worked(garment()).draft
    around, height = place("side front", "50%", on)
    assert height == 0.5
    assert around == pytest.approx(on.seam("side front").around_at(0.5), abs=1e-5)


def test_drawn_edges_are_heights_too() -> None:
    """A height measured from hem or top edge follows that edge on its ruling."""
    on = worked(garment()).draft
    assert height_on(on, parse_height("hem + 10 mm", WORDS), 0.4) * 175.0 == pytest.approx(-70.0, abs=1e-6)
    assert height_on(on, parse_height("top edge - 10 mm", WORDS), 0.22) * 175.0 == pytest.approx(180.0, abs=0.01)
    assert np.isfinite(height_on(on, parse_height("top edge", WORDS), 1.0))
