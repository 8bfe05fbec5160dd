"""Speed, as ratios against floors taken in the same run: ``python tests/bench`` in a checkout.

(a) a warm draft (wearer and recipe in memory, to a trued, finished, checked pattern), against evaluating and measuring as many
curve points in numpy; (b) the whole ``draft`` command in a fresh process, writing JSON, SVG and an A4 PDF, against a fresh
process that only imports the libraries it uses; (c) many bodies in one process, and how the time grows from 26 to 260;
(d) pieces on cloth, as length against rows of oblongs and against their bare area.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

from fanblock.block.fan import fan
from fanblock.cloth.laying import lays_of
from fanblock.cloth.shapes import layers_of
from fanblock.make import draft_pattern
from fanblock.recipe.library import open_recipe
from fanblock.shipped import wearer_text
from fanblock.wearer.model import Wearer
from fanblock.wearer.reading import read_wearer

RECIPE, WEARER = "stays-five-panels", "ferrywoman"
LIBRARIES = "click, ezdxf, networkx, numpy, pikepdf, resvg_py, scipy.interpolate, shapely, uharfbuzz, yaml, fontpkg_source_sans_3"
WARM_RUNS, FRESH_RUNS = 15, 7


def main() -> None:
    """Print the three figures with their floors."""
    print(f"python {sys.version.split()[0]}, medians of {WARM_RUNS} warm and {FRESH_RUNS} fresh runs\n")
    _warm()
    _fresh()
    _many()
    _cloth()


def _median_ms(act: Callable[[], object], runs: int) -> float:
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        act()
        times.append((time.perf_counter() - start) * 1000.0)
    return statistics.median(times)


def _warm() -> None:
    wearer, recipe = read_wearer(wearer_text(WEARER), WEARER), open_recipe(RECIPE)
    pattern = draft_pattern(wearer, recipe)
    points = sum(len(edge.curve.points) for panel in pattern.panels for edge in panel.edges)
    block, around, height = fan(365.0, 455.0, 155.0), np.linspace(0.0, 1.0, points), np.linspace(-0.5, 1.5, points)

    def floor() -> float:
        return float(np.sum(np.hypot(*np.diff(block.at(around, height), axis=0).T)))

    got, least = _median_ms(lambda: draft_pattern(wearer, recipe), WARM_RUNS), _median_ms(floor, WARM_RUNS)
    print(f"(a) warm draft, five panels, {points} points: {got:.1f} ms; floor {least:.3f} ms; ratio {got / least:.0f}")


def _run(*arguments: str) -> None:
    subprocess.run([sys.executable, *arguments], check=True, stdout=subprocess.DEVNULL)


def _fresh() -> None:
    modules = ", ".join(name for name in LIBRARIES.split(", ") if _importable(name))
    least = _median_ms(lambda: _run("-c", f"import {modules}"), FRESH_RUNS)
    with tempfile.TemporaryDirectory() as folder:
        out = str(Path(folder) / "out")
        command = ("-m", "fanblock", "draft", WEARER, RECIPE, "--out", out, "--paper", "a4", "--no-pictures")
        got = _median_ms(lambda: _run(*command), FRESH_RUNS)
    print(f"(b) draft in a fresh process: {got:.0f} ms; floor (imports alone) {least:.0f} ms; ratio {got / least:.2f}")


def _cloth() -> None:
    pattern = draft_pattern(read_wearer(wearer_text(WEARER), WEARER), open_recipe(RECIPE))
    for layer in layers_of(pattern):
        start = time.perf_counter()
        lay = next(lay for lay in lays_of(pattern, {}, "cm") if lay.layer == layer)
        seconds = time.perf_counter() - start
        least = lay.pieces_mm2 / lay.width_mm
        print(
            f"(d) {layer} on cloth {lay.width_mm:.0f} mm wide: {lay.length_mm:.0f} mm; in rows {lay.rows_mm:.0f} mm, "
            f"ratio {lay.length_mm / lay.rows_mm:.2f}; bare area {least:.0f} mm, ratio {lay.length_mm / least:.2f}; "
            f"{seconds:.1f} s for all layers"
        )


def _importable(name: str) -> bool:
    return subprocess.run([sys.executable, "-c", f"import {name}"], capture_output=True, check=False).returncode == 0


def _many() -> None:
    recipe = open_recipe(RECIPE)
    bodies = [_body(number) for number in range(260)]

    def draft(count: int) -> None:
        for wearer in bodies[:count]:
            draft_pattern(wearer, recipe)

    few, many = _median_ms(lambda: draft(26), 3), _median_ms(lambda: draft(260), 1)
    print(
        f"(c) 260 bodies in one process: {many / 1000.0:.2f} s, {260000.0 / many:.0f} bodies a second; "
        f"26 bodies {few / 1000.0:.2f} s; growth {many / few:.2f} for ten times the bodies"
    )


def _body(number: int) -> Wearer:
    """Return one of a regular spread of bodies: bust 76 to 122 cm, waist 14 to 26 % less."""
    bust = 76.0 + 46.0 * number / 259.0
    waist = bust * (0.74 + 0.12 * (number * 7 % 13) / 12.0)
    return read_wearer(
        f"wearer: 1\nname: spread {number}\ntaken: {{on: 2026-01-01, over: shift}}\nunits: cm\nmeasures:\n"
        f"  bust: {bust:.1f}\n  waist: {waist:.1f}\n  bust to waist: 16\n",
        "spread",
    )


if __name__ == "__main__":
    main()
