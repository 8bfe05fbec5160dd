"""Draw the pictures of these pages again and write the tables that are taken from the program.

``python docs/make.py`` does all of it; ``python docs/make.py tabs fan`` draws the pictures so called.
"""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

DOCS = Path(__file__).resolve().parent
FIGURES = DOCS / "figures"
SHARED = frozenset({"house", "stages"})
"""Files in the folder that draw no picture of their own."""


def figure_names() -> tuple[str, ...]:
    """Return the names of all pictures, sorted."""
    return tuple(sorted(path.stem for path in FIGURES.glob("*.py") if path.stem not in SHARED))


def drawn(name: str) -> str:
    """Return one picture as SVG, drawn anew."""
    if str(FIGURES) not in sys.path:
        sys.path.insert(0, str(FIGURES))
    spec = importlib.util.spec_from_file_location(f"figure_{name.replace('-', '_')}", FIGURES / f"{name}.py")
    if spec is None or spec.loader is None:
        raise ImportError(name)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    board = module.draw()
    return str(board.svg())


def main(names: list[str]) -> int:
    """Write the pictures named, or all of them."""
    for name in names or figure_names():
        (FIGURES / f"{name}.svg").write_text(drawn(name), encoding="utf-8")
        sys.stdout.write(f"figures/{name}.svg\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
