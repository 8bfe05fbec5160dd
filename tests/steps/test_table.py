"""The table of steps, walked both ways: every row has its file, test and page, and every file has its row."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from pathlib import Path

import pytest

import fanblock
from fanblock.steps.table import TABLE, StepKind

SOURCE = Path(fanblock.__file__).parent / "steps"
CHECKOUT = Path(__file__).resolve().parents[2]
HELPERS = {"__init__", "table"}


def file_name(kind: StepKind) -> str:
    """Return the name of a step's file, without its ending."""
    return kind.name.replace(" ", "_")


@pytest.mark.parametrize("kind", TABLE, ids=lambda kind: kind.name)
def test_every_row_has_its_files(kind: StepKind) -> None:
    """A step's module, its test, its page and its picture are named like the step."""
    assert kind.options.__module__ == f"fanblock.steps.{file_name(kind)}"
    assert kind.run.__module__ == kind.options.__module__
    assert (Path(__file__).parent / f"test_{file_name(kind)}.py").exists()
    page = file_name(kind).replace("_", "-")
    assert (CHECKOUT / "docs" / "steps" / f"{page}.md").exists()
    assert (CHECKOUT / "docs" / "figures" / f"{page}.py").exists()


def test_every_file_has_its_row() -> None:
    """Nothing lies in the folder that no recipe can reach."""
    files = {path.stem for path in SOURCE.glob("*.py")} - HELPERS
    assert files == {file_name(kind) for kind in TABLE}


@pytest.mark.parametrize("kind", TABLE, ids=lambda kind: kind.name)
def test_options_are_values_that_explain_themselves(kind: StepKind) -> None:
    """Options never change, and each says what it is for."""
    assert is_dataclass(kind.options)
    assert kind.options.__dataclass_params__.frozen  # type: ignore[attr-defined]
    assert hasattr(kind.options, "__slots__")
    assert all(field.metadata.get("for") for field in fields(kind.options))
    assert kind.stage


def test_no_step_stands_twice() -> None:
    """One word, one step."""
    names = [kind.name for kind in TABLE]
    assert len(names) == len(set(names))
