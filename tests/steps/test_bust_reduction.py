"""``bust reduction``: the same at the bust, of the bust."""

from __future__ import annotations

import pytest
from tests.samples import SOME, failed, garment, made


def test_a_share_is_of_the_bust() -> None:
    """1 % of 880 mm, half of it in one half: 4.4 mm come off the bust level."""
    bust = made(garment("bust reduction: {by: 1%}")).girths[-1]
    assert bust.takes_mm == pytest.approx(4.4)
    assert bust.reduction_mm == pytest.approx(8.8)


@pytest.mark.parametrize("name", SOME)
def test_pressing_the_bust_is_sound_on_every_body(name: str) -> None:
    """2 % pressed in at the bust makes no check fail."""
    assert failed(made(garment("bust reduction: {by: 2%}"), name)) == []
