"""``fanblock prove``: a recipe tried on many bodies, from the command line."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from tests.cli.conftest import Run

from fanblock.pattern.model import Pattern
from fanblock.proving import trial as trial_module

COMPANY = (
    "name,bust,waist,bust to waist,shoe size\nferrywoman,92,74,16.5,38\ninnkeeper,112,118,15,40\npilot,100,92,16,44\n"
)
RECIPE = "stays-five-panels"
CAVEAT = "It does not prove that it fits any of them; only a toile tells."


@pytest.fixture
def company(tmp_path: Path) -> str:
    """Return the name of a file with three bodies, one of them with a waist over the bust."""
    (tmp_path / "company.csv").write_text(COMPANY, encoding="utf-8")
    return "company.csv"


def one_line(text: str) -> str:
    """Return a text without its line breaks."""
    return " ".join(text.split())


def draft_or(name: str, error: BaseException) -> Callable[..., Pattern]:
    """Return the drafting of a pattern, with ``error`` raised for the body of this name."""
    whole: Callable[..., Pattern] = trial_module.draft_pattern

    def draft(wearer: Any, *given: Any, **more: Any) -> Pattern:
        if wearer.name == name:
            raise error
        return whole(wearer, *given, **more)

    return draft


def test_it_tells_for_whom_it_is_sound_and_writes_a_picture_and_a_table(run: Run, company: str, tmp_path: Path) -> None:
    """How many, why not the others, of what kind they are, what was left out, and that it proves no fit."""
    ran = run("prove", RECIPE, "--people", company, "--units", "cm", "--out", "proof")
    said = one_line(ran.out)
    assert ran.code == 1
    assert ran.err == ""
    assert said.startswith("3 rows in company.csv. LOOK left out: the column “shoe size” is no measure.")
    assert "SOUND for 2 of 3 bodies (67%); 1 refused." in said
    assert "it has a waist larger than the bust" in said
    assert said.endswith(CAVEAT)
    assert sorted(path.name for path in (tmp_path / "proof").iterdir()) == [
        f"{RECIPE}.{end}" for end in ("csv", "png", "svg")
    ]
    with (tmp_path / "proof" / f"{RECIPE}.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [(row["name"], row["result"], row["code"]) for row in rows] == [
        ("ferrywoman", "sound", ""),
        ("innkeeper", "refused", "waist"),
        ("pilot", "sound", ""),
    ]


def test_all_sound_is_exit_code_0(run: Run, company: str) -> None:
    """With the refusal overridden every body is sound, in every recipe named; nothing is written without --out."""
    ran = run("prove", RECIPE, "stays-three-panels", "--people", company, "--units", "cm", "--despite", "waist")
    assert ran.code == 0
    assert ran.out.count("SOUND for all 3 bodies.") == 2


def test_one_document_for_other_programs(run: Run, company: str) -> None:
    """Standard output is one JSON document of every recipe, and nothing else."""
    ran = run("prove", RECIPE, "--people", company, "--units", "cm", "--json", "--out", "proof")
    made = json.loads(ran.out)
    assert (ran.code, ran.err) == (1, "")
    assert list(made) == ["proved", "stopped", "not_tried", "proves"]
    (proved,) = made["proved"]
    assert (proved["recipe"], proved["sound"], proved["refused"], proved["not_tried"]) == (RECIPE, 2, 1, 0)
    assert proved["people"]["left_out"] == ["“shoe size” is no measure."]
    assert proved["files"] == [f"{RECIPE}.{end}" for end in ("svg", "png", "csv")]
    assert made["proves"].endswith(CAVEAT)


def test_ctrl_c_leaves_what_is_done(run: Run, company: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Interrupted at the third body: the summary and the files of two, the next recipe named, exit code 130."""
    monkeypatch.setattr(trial_module, "draft_pattern", draft_or("pilot", KeyboardInterrupt()))
    ran = run("prove", RECIPE, "stays-three-panels", "--people", company, "--units", "cm", "--out", "proof")
    said = one_line(ran.out)
    assert ran.code == 130
    assert (
        "SOUND for 1 of 2 bodies tried (50%); 1 refused. Stopped before the end: 1 of 3 bodies was not tried." in said
    )
    assert "Stopped. What was done is told above. Not tried at all: stays-three-panels." in said
    assert said.endswith(CAVEAT)
    table = (tmp_path / "proof" / f"{RECIPE}.csv").read_text("utf-8-sig").splitlines()
    assert [line.split(",")[1] for line in table] == ["name", "ferrywoman", "innkeeper"]


def test_a_body_that_breaks_is_our_fault_and_the_others_are_done(
    run: Run, company: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Exit code 3, the report at the end without names or numbers, and every other body done."""
    monkeypatch.setattr(
        trial_module, "draft_pattern", draft_or("ferrywoman", ZeroDivisionError("at 74 in 'ferrywoman'"))
    )
    ran = run("prove", RECIPE, "--people", company, "--units", "cm")
    assert ran.code == 3
    assert "SOUND for 1 of 3 bodies (33%); 1 refused, 1 broken by a fault of our own." in one_line(ran.out)
    assert ran.err.startswith("fanblock met a fault of its own.")
    assert "command: fanblock prove\n" in ran.err
    assert "ZeroDivisionError: at # in '…'" in ran.err
    assert "ferrywoman" not in ran.err


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        (
            ("prove", RECIPE, "--people", "company.csv"),
            1,
            [
                f"company.csv:1:{column}: nothing says what the bare numbers in the column “{name}” mean. Call it "
                f"“{name} (cm)”, write a row of units under the names, or add --units cm."
                for column, name in ((2, "bust"), (3, "waist"), (4, "bust to waist"))
            ],
        ),
        (
            ("prove", "stays-five-panles", "stays-three-panel"),
            1,
            [
                "there is no shipped recipe “stays-five-panles”, and no file of that name. Did you mean "
                "“stays-five-panels”",
                "there is no shipped recipe “stays-three-panel”, and no file of that name. Did you mean "
                "“stays-three-panels”",
            ],
        ),
        (
            ("prove", RECIPE, "--set", "gap=12 cm"),
            1,
            ["dial “gap”: 12 cm is more than its most, 9 cm. Set it from 0 cm to 9 cm."],
        ),
        (
            ("prove", RECIPE, "--out", "company.csv"),
            1,
            ["out › “company.csv” is a file, and files cannot be put into it. Name a folder."],
        ),
        (
            ("prove", RECIPE, "--people", "none.csv"),
            1,
            ["people › there is no file “none.csv”. Look at its name and folder."],
        ),
    ],
)
def test_what_is_wrong_is_told_before_anything_is_drawn(
    run: Run, company: str, arguments: tuple[str, ...], code: int, says: list[str]
) -> None:
    """Problems of recipes, dials, people and folder end the run at once, with the remedy."""
    ran = run(*arguments)
    assert (ran.code, ran.out) == (code, "")
    lines = ran.err.splitlines()
    assert len(lines) == len(says)
    for line, begins in zip(lines, says, strict=True):
        assert line.startswith(begins)


def test_no_recipe_is_a_wrong_command(run: Run) -> None:
    """Exit code 2, with how it is used."""
    ran = run("prove")
    assert ran.code == 2
    assert "Missing argument" in ran.err
