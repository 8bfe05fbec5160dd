"""What a trial comes to, in words, as a table, and for other programs."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace

import pytest

from fanblock.proving.csvfile import read_people
from fanblock.proving.kinds import kinds, ranges
from fanblock.proving.people import Person
from fanblock.proving.summary import CAVEAT, document, groups, percent, sentences, verdict
from fanblock.proving.table import table_csv
from fanblock.proving.trial import NOT_SOUND, SOUND, Cause, Outcome, Trial
from fanblock.wearer.fixed import Fixed


def person(bust: float, waist: float, length: float = 160.0, **more: float) -> Person:
    """Return a person by measures in mm."""
    values = {"bust": bust, "waist": waist, "bust to waist": length}
    return Person(1, "someone", Fixed(values | {name.replace("_", " "): mm for name, mm in more.items()}))


PLAIN = [person(900.0 + number, 740.0) for number in range(20)]


def test_the_summary_of_a_small_company(small: Trial) -> None:
    """Every line of it: how many are sound, what stopped the others, and of what kind they are."""
    assert [text for _, text in sentences(small)] == [
        "Half-boned stays, five panels a side (stays-five-panels)",
        "SOUND for 2 of 5 bodies (40%); 3 refused.",
        "1 refused (measure)",
        "for example apprentice: waist › the cell is blank. Measure it.",
        "row 4",
        "1 refused (turn)",
        "for example bell: body › half the block turns 110°: a drop of 50.0 cm in so short a length makes a bell, not a "
        "garment. Measure `raised` with the bust lifted. If it is right, draft with `--despite turn`.",
        "bust 130 cm, waist 80 cm, drop 50 cm, bust to waist 13 cm",
        "it has a drop of more than 22 cm",
        "it has a bust over 120 cm",
        "it has a bust to waist under 14.5 cm",
        "1 refused (waist)",
        "for example innkeeper: body › the waist, 118.0 cm, passes the bust, 112.0 cm: boned stays would ride up. Choose "
        "jumps or side lacing. To draw it all the same, add `--despite waist`.",
        "bust 112 cm, waist 118 cm, drop -6 cm, bust to waist 15 cm",
        "it has a waist larger than the bust",
    ]


@pytest.mark.parametrize(
    ("states", "says"),
    [
        ("sssss", "SOUND for all 5 bodies."),
        ("s", "SOUND for 1 of 1 body."),
        ("n", "SOUND for 0 of 1 body (0%); 1 NOT SOUND."),
        ("ssnr", "SOUND for 2 of 4 bodies (50%); 1 NOT SOUND, 1 refused."),
        ("ssb", "SOUND for 2 of 3 bodies (67%); 1 broken by a fault of our own."),
        ("", "No body was tried."),
    ],
)
def test_the_verdict_counts_every_body(small: Trial, states: str, says: str) -> None:
    """Sound, not sound, refused and broken are told apart, and add up."""
    words = {"s": SOUND, "n": NOT_SOUND, "r": "refused", "b": "broken"}
    outcomes = tuple(Outcome(PLAIN[0], words[state], (Cause("x", "y"),)) for state in states)
    assert verdict(replace(small, outcomes=outcomes)) == says


def test_a_share_is_never_rounded_to_all_or_none() -> None:
    """299 of 300 is not 100 %."""
    assert (percent(2999, 3000), percent(1, 3000), percent(3, 4)) == ("99%", "1%", "75%")


def test_a_waist_over_the_bust_is_always_told() -> None:
    """Even if it is two of many."""
    some = [person(900.0, 950.0), person(900.0, 960.0), *(person(900.0, 700.0) for _ in range(8))]
    assert kinds(some, PLAIN, "cm")[0] == "2 of them have a waist larger than the bust"


@pytest.mark.parametrize(
    ("some", "says"),
    [
        ([person(900.0, 870.0), person(905.0, 880.0)], "both have hardly any waist (a drop of 4 cm or less)"),
        ([person(905.0, 660.0)] * 3, "all 3 have a drop of more than 22 cm"),
        ([person(790.0, 640.0), person(905.0, 740.0)], "1 of them has a bust under 80 cm"),
        ([person(1210.0, 1050.0)], "it has a bust over 120 cm"),
        ([person(905.0, 740.0, 140.0)], "it has a bust to waist under 14.5 cm"),
        ([person(905.0, 740.0, 190.0)], "it has a bust to waist over 18.5 cm"),
        ([person(905.0, 740.0, bust_to_waist_at_back=150.0)], "it has a back at least 1 cm shorter than the front"),
        ([person(905.0, 740.0, bust_to_waist_at_back=175.0)], "it has a back at least 1 cm longer than the front"),
        ([person(905.0, 740.0, 155.0)], "it has a shorter bust to waist than any sound body"),
        ([person(1000.0, 840.0)] * 2, "each has a larger bust than any sound body"),
    ],
)
def test_what_kind_of_body_is_told_in_words(some: list[Person], says: str) -> None:
    """Each kind is named when those it happens to are mostly of it, and the sound ones are not."""
    assert says in kinds(some, PLAIN, "cm")


def test_what_sound_bodies_are_too_is_not_told() -> None:
    """A kind that does not set them apart explains nothing."""
    assert kinds([person(905.0, 740.0)], PLAIN, "cm") == ()


def test_ranges_speak_in_the_units_asked_for() -> None:
    """36 1/4 in is 92.1 cm (25.4 mm an inch, exactly)."""
    some = [person(920.75, 736.6), person(863.6, 736.6)]
    assert [one.words("in") for one in ranges(some)] == [
        "bust 34 to 36 1/4 in",
        "waist 29 in",
        "drop 5 to 7 1/4 in",
        "bust to waist 6 1/4 in",
    ]


def test_sums_at_all_levels_are_one_check(small: Trial) -> None:
    """Ten levels that do not add up are told once; a body with two faults stands under both."""
    causes = (Cause("girth-0", "at the waist"), Cause("girth-10", "above"), Cause("mates-A", "seam A"))
    outcomes = (Outcome(PLAIN[0], NOT_SOUND, causes), Outcome(PLAIN[1], NOT_SOUND, causes[:2]))
    found = groups(replace(small, outcomes=outcomes))
    assert [(group.code, len(group.outcomes), group.says) for group in found] == [
        ("girth", 2, "at the waist"),
        ("mates-A", 1, "seam A"),
    ]


def test_the_table_has_a_row_for_each_body_and_can_be_read_again(small: Trial) -> None:
    """By Python's csv module, and as people; no cell begins a formula."""
    text = table_csv(small)
    head, *rows = list(csv.reader(io.StringIO(text)))
    assert head == [
        "row", "name", "bust (cm)", "waist (cm)", "bust to waist (cm)", "hip (cm)", "result", "code", "first cause",
    ]  # fmt: skip
    assert rows[0] == ["2", "ferrywoman", "92", "74", "16.5", "99", "sound", "", ""]
    assert rows[2][:8] == ["4", "apprentice", "80", "", "17", "88", "refused", "measure"]
    assert rows[3][1] == "'=pilot"
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@"))]
    again = read_people(text, "proof.csv").persons
    assert [one.values for one in again] == [one.person.values for one in small.outcomes]


def test_the_document_has_its_shape(small: Trial) -> None:
    """Its keys, its counts, and that it says what it proves; plain data throughout."""
    made = document(small, ("stays-five-panels.svg",))
    assert json.loads(json.dumps(made, allow_nan=False)) == made
    assert list(made) == [
        "recipe", "name", "over", "people", "sound", "not_sound", "refused", "broken", "not_tried", "stopped",
        "causes", "bodies", "proves", "files",
    ]  # fmt: skip
    assert made["people"] == {"source": "company.csv", "invented": False, "rows": 5, "left_out": []}
    assert [made[key] for key in ("sound", "not_sound", "refused", "broken", "not_tried")] == [2, 0, 3, 0, 0]
    assert made["bodies"][3] == {
        "row": 5,
        "name": "=pilot",
        "measures": {"bust": 1000.0, "bust to waist": 160.0, "hip": 1040.0, "waist": 920.0},
        "result": "sound",
        "causes": [],
    }
    assert made["causes"][2]["bodies"] == [3]
    assert made["causes"][2]["ranges"]["drop"] == [-60.0, -60.0]
    assert made["causes"][2]["kinds"] == ["it has a waist larger than the bust"]
    assert made["proves"] == CAVEAT
