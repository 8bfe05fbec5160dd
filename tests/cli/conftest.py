"""The program run in a folder of its own, with what it says and its exit code kept apart."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from fanblock.cli.main import main
from fanblock.cloth import laying

SAMPLES = Path(__file__).parent / "samples"


@dataclass(frozen=True)
class Ran:
    """What one run came to: its exit code, its answer, and what it said beside it."""

    code: int
    out: str
    err: str


Run = Callable[..., Ran]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Return a function that runs the program in an empty folder with the given arguments."""
    monkeypatch.chdir(tmp_path)

    def in_folder(*arguments: str | Path) -> Ran:
        code = main([str(argument) for argument in arguments])
        said = capsys.readouterr()
        return Ran(code, said.out, said.err)

    return in_folder


@pytest.fixture
def samples() -> Path:
    """Return the folder of sample recipes."""
    return SAMPLES


@pytest.fixture(autouse=True)
def rows_of_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    """Lay pieces on their cloth in rows, which takes no time: how they are nested is tested with the cloth."""
    monkeypatch.setattr(laying, "nested", lambda shapes, width_mm, *, nap: laying.rows(shapes, width_mm))
