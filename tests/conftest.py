"""Options and fixtures of all tests."""

from __future__ import annotations

import difflib
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings

# Generated inputs are the same in every run: what fails here fails everywhere, and passes nowhere by luck.
settings.register_profile("same every time", derandomize=True, deadline=None)
settings.load_profile("same every time")

# What the program writes is broken at the width of the screen: in tests that is always the widest, wherever they run.
os.environ["COLUMNS"] = "100"

GOLDENS = Path(__file__).parent / "goldens"


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add ``--update-goldens``: write the goldens anew and print what changes."""
    parser.addoption("--update-goldens", action="store_true", help="write tests/goldens anew and print what changes")


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, str], str]:
    """Return a function that gives the golden of a name, after writing it anew where that was asked for."""

    def read(name: str, text: str) -> str:
        path = GOLDENS / name
        if request.config.getoption("--update-goldens"):
            before = path.read_text("utf-8") if path.exists() else ""
            changes = difflib.unified_diff(before.splitlines(), text.splitlines(), f"{name} before", name, lineterm="")
            print("\n".join(changes))
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, "utf-8")
        return path.read_text("utf-8")

    return read
