"""Draw the pictures of these pages again and write the tables that are taken from the program.

``python docs/make.py`` does all of it; ``python docs/make.py tabs fan`` draws the pictures so called and nothing else.
"""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

DOCS = Path(__file__).resolve().parent
FIGURES = DOCS / "figures"
SHARED = frozenset({"house", "stages"})
"""Files in the folder that draw no picture of their own."""

for _folder in (DOCS, FIGURES):
    if str(_folder) not in sys.path:
        sys.path.insert(0, str(_folder))

import tables  # noqa: E402  (found only once its folder is known)


def pages() -> tuple[Path, ...]:
    """Return all pages, sorted."""
    return tuple(sorted(DOCS.rglob("*.md")))


def figure_names() -> tuple[str, ...]:
    """Return the names of all pictures, sorted."""
    return tuple(sorted(path.stem for path in FIGURES.glob("*.py") if path.stem not in SHARED))


def drawn(name: str) -> str:
    """Return one picture as SVG, drawn anew."""
    spec = importlib.util.spec_from_file_location(f"figure_{name.replace('-', '_')}", FIGURES / f"{name}.py")
    if spec is None or spec.loader is None:
        raise ImportError(name)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return str(module.draw().svg())


def main(names: list[str]) -> int:
    """Write the pictures named, or all pictures and all tables; returns 0."""
    for name in names or figure_names():
        (FIGURES / f"{name}.svg").write_text(drawn(name), encoding="utf-8")
        sys.stdout.write(f"figures/{name}.svg\n")
    for name, text in ({} if names else tables.new_recipe_pages(DOCS / "recipes")).items():
        (DOCS / "recipes" / name).write_text(text, encoding="utf-8")
    for page in () if names else pages():
        text = page.read_text(encoding="utf-8")
        made = tables.with_tables(text)
        if made != text:
            page.write_text(made, encoding="utf-8")
            sys.stdout.write(f"{page.relative_to(DOCS)}\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
