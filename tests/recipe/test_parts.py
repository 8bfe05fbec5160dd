"""Amounts, heights, arounds and shares, read from texts."""

from __future__ import annotations

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fanblock.recipe.parts import parse_amount, parse_around, parse_height, parse_setting, parse_share
from fanblock.recipe.phrase import UnreadableError, Vocabulary
from fanblock.recipe.words import amount_text, around_text, height_text
from fanblock.terms import (
    LANDMARK_AROUNDS,
    LANDMARK_HEIGHTS,
    Amount,
    Around,
    Dial,
    Height,
    Length,
    Share,
)

WORDS = Vocabulary(
    dials=("gap", "tab depth", "side-front spring"),
    seams=("side front", "side-back", "centre panel"),
    measures=("bust", "waist", "bust to waist", "bust to waist at back", "back length"),
)

AMOUNTS = {
    "12 mm": Length(12.0),
    "12mm": Length(12.0),
    "1.5 cm": Length(15.0),
    "3/4 in": Length(19.05),  # an inch is 25.4 mm: the inch of 1959
    "2 1/4 in": Length(57.15),
    "2-1/4 in": Length(57.15),
    "-5 mm": Length(-5.0),
    "- 5 mm": Length(-5.0),
    "− 5 mm": Length(-5.0),
    "+ 5 mm": Length(5.0),
    "0 mm": Length(0.0),
    "3%": Share(0.03),
    "3 %": Share(0.03),
    "-2.5 % of waist": Share(-0.025, "waist"),
    "50% of bust to waist": Share(0.5, "bust to waist"),
    "gap": Dial("gap"),
    "tab  depth": Dial("tab depth"),
    "side-front spring": Dial("side-front spring"),
}


@pytest.mark.parametrize("text", AMOUNTS)
def test_an_amount_is_a_length_a_share_or_a_dial(text: str) -> None:
    """A length is a number with its unit, a share a percentage, and anything else the name of a dial."""
    assert parse_amount(text, WORDS) == AMOUNTS[text]


HEIGHTS = {
    "waist": Height("waist"),
    "held bust": Height("held bust"),
    "top edge": Height("top edge"),
    "bust + 30 mm": Height("bust", plus=Length(30.0)),
    "bust+30mm": Height("bust", plus=Length(30.0)),
    "waist - tab depth": Height("waist", plus=Dial("tab depth"), sign=-1),
    "waist−tab depth": Height("waist", plus=Dial("tab depth"), sign=-1),
    "underarm - 1/2 in": Height("underarm", plus=Length(12.7), sign=-1),
    "hem + 2% of back length": Height("hem", plus=Share(0.02, "back length")),
    "33%": Height(share=Share(0.33)),
    "-20%": Height(share=Share(-0.2)),
    "130 %": Height(share=Share(1.3)),
    "33% + 5 mm": Height(share=Share(0.33), plus=Length(5.0)),
    "73% of back length": Height(share=Share(0.73, "back length")),
    "73% of bust to waist at back - gap": Height(share=Share(0.73, "bust to waist at back"), plus=Dial("gap"), sign=-1),
}


@pytest.mark.parametrize("text", HEIGHTS)
def test_a_height_is_a_landmark_or_a_share_with_an_amount_added_or_taken(text: str) -> None:
    """Landmarks, shares of the way from waist to bust, shares of a measure; then plus or minus an amount."""
    assert parse_height(text, WORDS) == HEIGHTS[text]


AROUNDS = {
    "center front": Around("center front"),
    "centre back - 5 mm": Around("center back", plus=Length(5.0), sign=-1),
    "side": Around("side"),
    "side + gap": Around("side", plus=Dial("gap")),
    "side front": Around("side front"),
    "side-back + 1 cm": Around("side-back", plus=Length(10.0)),
    "centre panel": Around("centre panel"),
    "lacing edge": Around("lacing edge"),
    "0%": Around(ratio=0.0),
    "24 % + 3% of waist": Around(ratio=0.24, plus=Share(0.03, "waist")),
    "100%": Around(ratio=1.0),
}


@pytest.mark.parametrize("text", AROUNDS)
def test_an_around_is_a_place_a_seam_or_a_percentage_with_an_amount_added_or_taken(text: str) -> None:
    """Places of every block, seams drawn before, shares from front to back; then plus or minus an amount."""
    assert parse_around(text, WORDS) == AROUNDS[text]


AN_AMOUNT = "needs an amount such as `12 mm`, `3/4 in`, `3% of waist` or the name of a dial."
A_HEIGHT = "needs a height such as `bust + 30 mm`, `waist`, `33%`, `73% of back length`."
AN_AROUND = "needs an around such as `center front`, `24%`, `side + 10 mm`, `center back`."

REFUSED = [
    (parse_amount, "", f"got “”, {AN_AMOUNT} Dials of this recipe: gap, side-front spring, tab depth."),
    (parse_amount, "tab deep", f"got “tab deep”, {AN_AMOUNT} Did you mean “tab depth”?"),
    (
        parse_amount,
        "3% of wrist",
        "got “3% of wrist”, but there is no measure “wrist”. Did you mean “waist”?",
    ),
    (parse_amount, "3% of waist more", f"got “3% of waist more”, {AN_AMOUNT}"),
    (parse_amount, "12 mm + 3 mm", f"got “12 mm + 3 mm”, {AN_AMOUNT}"),
    (parse_amount, "5000%", "got “5000%”, which is more than 1000%. Check the number."),
    (parse_amount, "1/0 in", "“1/0 in” divides by nothing. Write a fraction such as 3/8."),
    (
        parse_amount,
        "inf mm",
        f"got “inf mm”, {AN_AMOUNT} Dials of this recipe: gap, side-front spring, tab depth.",
    ),
    (
        parse_amount,
        "٣ mm",
        f"got “٣ mm”, {AN_AMOUNT} Dials of this recipe: gap, side-front spring, tab depth.",
    ),
    (
        parse_height,
        "bust * 2",
        f"got “bust * 2”, {A_HEIGHT} After “bust” only `+` or `-` and an amount may come.",
    ),
    (parse_height, "bustle", f"got “bustle”, {A_HEIGHT} Did you mean “bust”?"),
    (
        parse_height,
        "30 mm",
        f"got “30 mm”, {A_HEIGHT}",
    ),
    (
        parse_height,
        "waist +",
        f"got “waist +”, {AN_AMOUNT} Dials of this recipe: gap, side-front spring, tab depth.",
    ),
    (parse_around, "front", f"got “front”, {AN_AROUND} Did you mean “side front” or “front edge”?"),
    (parse_around, "-5%", f"got “-5%”, {AN_AROUND}"),
    (
        parse_around,
        "101%",
        "got “101%”, but around ends at 100%, the centre back. Write 0% to 100%.",
    ),
    (parse_setting, "gap", "got “gap”, needs a length such as `50 mm` or a percentage such as `3%`."),
    (
        parse_setting,
        "3% of waist",
        "got “3% of waist”, needs a length such as `50 mm` or a percentage such as `3%`. "
        "A dial names its measure once, with `of`.",
    ),
]


@pytest.mark.parametrize(("parse", "text", "says"), REFUSED, ids=lambda value: str(value)[:24])
def test_what_cannot_be_read_is_told_with_what_is_needed(parse, text: str, says: str) -> None:  # type: ignore[no-untyped-def]
    """A refusal quotes what was met, shows what would do and names the nearest legal word."""
    with pytest.raises(UnreadableError) as caught:
        parse(text, WORDS)
    assert str(caught.value) == says


@pytest.mark.parametrize("text", ["40", "0.4", "40% of waist", "-1%", "101%", "half"])
def test_a_share_is_a_bare_percentage_of_what_its_place_says(text: str) -> None:
    """A share runs from 0% to 100% and names no measure."""
    assert parse_share("40 %") == Share(0.4)
    with pytest.raises(UnreadableError, match="needs a percentage"):
        parse_share(text)


def test_a_bare_number_counts_in_the_units_of_the_recipe() -> None:
    """Without stated units a bare number is refused; with them it is a length."""
    assert parse_amount("2 1/4", Vocabulary(units="in")) == Length(57.15)
    with pytest.raises(UnreadableError, match="has no unit"):
        parse_amount("12", Vocabulary())


lengths = st.integers(-3_000_000, 3_000_000).map(lambda number: Length(number / 1000.0))
percents = st.integers(-200_000, 200_000).map(lambda number: round(number / 100_000.0, 8))
shares_of = st.builds(Share, percents, st.sampled_from(WORDS.measures))
dials = st.sampled_from(WORDS.dials).map(Dial)
amounts: st.SearchStrategy[Amount] = st.one_of(lengths, shares_of, dials, percents.map(Share))
added: st.SearchStrategy[Amount | None] = st.one_of(
    st.none(),
    lengths.map(lambda one: Length(abs(one.mm))),
    shares_of.map(lambda one: Share(abs(one.ratio), one.of)),
    dials,
)
signs = st.sampled_from((1, -1))


@given(amounts)
def test_an_amount_written_out_reads_back_to_itself(amount: Amount) -> None:
    """Writing and reading an amount changes nothing, not even its last digit."""
    assert parse_amount(amount_text(amount), WORDS) == amount


@given(st.one_of(st.sampled_from(LANDMARK_HEIGHTS), percents.map(Share), shares_of), added, signs)
def test_a_height_written_out_reads_back_to_itself(base: str | Share, plus: Amount | None, sign: int) -> None:
    """Writing and reading a height changes nothing."""
    sign = 1 if plus is None else sign
    named = isinstance(base, str)
    height = Height(base, plus=plus, sign=sign) if named else Height(share=base, plus=plus, sign=sign)
    assert parse_height(height_text(height), WORDS) == height


@given(
    st.one_of(st.sampled_from((*LANDMARK_AROUNDS, *WORDS.seams)), st.integers(0, 10000).map(lambda one: one / 10000)),
    added,
    signs,
)
def test_an_around_written_out_reads_back_to_itself(base: str | float, plus: Amount | None, sign: int) -> None:
    """Writing and reading an around changes nothing."""
    sign = 1 if plus is None else sign
    named = isinstance(base, str)
    around = Around(base, plus=plus, sign=sign) if named else Around(ratio=base, plus=plus, sign=sign)
    assert parse_around(around_text(around), WORDS) == around


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    """No text brings a reader down: it is read, or refused with a reason."""
    for parse in (parse_amount, parse_height, parse_around, parse_setting):
        with contextlib.suppress(UnreadableError):
            parse(text, WORDS)
