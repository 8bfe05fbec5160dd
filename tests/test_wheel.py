"""The wheel carries all it needs: installed alone in an empty place, it runs the demo."""

from __future__ import annotations

import subprocess
import sys
import venv
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[1]


def _run(*command: str | Path, where: Path) -> str:
    done = subprocess.run([str(part) for part in command], cwd=where, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of a new virtual environment with nothing in it but the wheel and what it asks for."""
    place = tmp_path_factory.mktemp("elsewhere")
    _run(sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", CHECKOUT, "--wheel-dir", place, where=place)
    (wheel,) = place.glob("fanblock-*.whl")
    venv.create(place / "venv", with_pip=True)
    programs = place / "venv" / ("Scripts" if sys.platform == "win32" else "bin")
    _run(programs / "python", "-m", "pip", "install", "--quiet", wheel, where=place)
    return programs


def test_the_installed_wheel_runs_the_demo(installed: Path, tmp_path: Path) -> None:
    """From another folder, with no checkout in sight, `fanblock demo` writes the whole set of files."""
    said = _run(installed / "fanblock", "demo", "--out", tmp_path / "demo", where=tmp_path)
    assert "SOUND" in said
    written = {path.name for path in (tmp_path / "demo").iterdir()}
    assert {"pattern.json", "pattern.svg", "pattern-a4.pdf", "sheet.png", "report.html"} <= written


def test_the_installed_wheel_lists_the_shipped_recipes(installed: Path, tmp_path: Path) -> None:
    """The shipped recipes travel inside the wheel."""
    said = _run(installed / "fanblock", "recipes", where=tmp_path)
    assert "stays-five-panels" in said
    assert "stays-three-panels" in said
