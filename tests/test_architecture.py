"""The house rules that a program can see: one direction of imports, one adapter a library, tolerances by name."""

from __future__ import annotations

import ast
import io
import tokenize
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

import fanblock
from fanblock.cli.arguments import REFUSALS

SOURCE = Path(fanblock.__file__).parent
CHECKOUT = Path(__file__).resolve().parents[1]
MODULES = sorted(path for path in SOURCE.rglob("*.py"))

ROOMS = (
    "version", "problems", "tolerances", "terms", "units", "shipped", "geometry", "yamlfile", "ownfile", "tracing", "wearer",
    "block",
    "pattern", "draft", "skirts", "sleeves", "shaping", "finish", "fronts", "steps", "recipe", "checks", "halves", "make", "garment", "sheet", "cloth", "picture", "bundle", "output",
    "drafted", "gallery", "proving", "adopting", "fitting", "cli", "",
)  # fmt: skip
"""From the ground up; a room may use what stands before it. The last, without a name, is the package itself."""

ADAPTERS = {
    "click": ("cli/",),
    "defusedxml": ("tracing/bare.py",),
    "ezdxf": ("sheet/dxf.py",),
    "fontpkg_source_sans_3": ("sheet/font.py",),
    "networkx": ("pattern/joins.py",),
    "pikepdf": ("sheet/pdf_content.py", "sheet/pdf_file.py", "sheet/pdf_font.py"),
    "resvg_py": ("sheet/png.py",),
    "scipy": ("geometry/",),
    "shapely": ("geometry/",),
    "svgelements": ("tracing/lines.py",),
    "uharfbuzz": ("sheet/font.py", "sheet/pdf_font.py"),
    "spyrrow": ("cloth/nesting.py",),
    "yaml": ("yamlfile.py",),
}
"""The only places that may know each library; numpy is everywhere's."""

LONGEST = 400


def name_of(path: Path) -> str:
    """Return a module's place within the package, with slashes."""
    return path.relative_to(SOURCE).as_posix()


def room_of(path: Path) -> str:
    """Return the room a module belongs to."""
    first = path.relative_to(SOURCE).parts[0].removesuffix(".py")
    return "" if first == "__init__" else "cli" if first == "__main__" else first


def imports(path: Path) -> Iterator[str]:
    """Yield the full name of every module imported anywhere in a file, also within functions."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name_of(path)} imports relatively"
            module = node.module or ""
            yield module
            for alias in node.names:
                if (SOURCE.parent / module.replace(".", "/") / f"{alias.name}.py").is_file():
                    yield f"{module}.{alias.name}"


def test_every_room_stands_in_the_order() -> None:
    """A new room must be given its place before it can be used."""
    assert {room_of(path) for path in MODULES} == set(ROOMS)


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_module_imports_only_from_its_own_room_and_those_before_it(path: Path) -> None:
    """Nothing flows back, not even within a function."""
    own = ROOMS.index(room_of(path))
    for name in imports(path):
        if name.split(".")[0] == "fanblock":
            room = name.split(".")[1] if "." in name else ""
            assert ROOMS.index(room) <= own, f"{name_of(path)} imports {name}"


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_library_is_known_to_its_adapter_only(path: Path) -> None:
    """What wraps a library is the only place that imports it."""
    for name in imports(path):
        allowed = ADAPTERS.get(name.split(".")[0])
        if allowed is not None:
            assert name_of(path).startswith(allowed), f"{name_of(path)} imports {name}"


def test_rooms_have_no_circles() -> None:
    """Within a room too, no two modules need each other at import time."""
    needs = {path: at_import(path) for path in MODULES}
    while needs:
        free = [path for path, others in needs.items() if not others & needs.keys()]
        assert free, "these need each other: " + ", ".join(name_of(path) for path in needs)
        for path in free:
            del needs[path]


def at_import(path: Path) -> set[Path]:
    """Return the modules of the package that a module imports at its top, those for types alone left out."""
    found = set()
    for node in ast.parse(path.read_text("utf-8")).body:
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("fanblock"):
            base = SOURCE.parent / (node.module or "").replace(".", "/")
            inner = [base / f"{alias.name}.py" for alias in node.names]
            found |= {file for file in (base.with_suffix(".py"), *inner) if file.is_file()}
    return found - {path}


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_small_numbers_have_names(path: Path) -> None:
    """A number such as 1e-9 is a tolerance and stands, with its reason, where all tolerances stand."""
    if name_of(path) == "tolerances.py":
        return
    tokens = tokenize.generate_tokens(io.StringIO(path.read_text("utf-8")).readline)
    small = [token.string for token in tokens if token.type == tokenize.NUMBER and "e-" in token.string.lower()]
    assert small == []


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_module_can_be_read_in_one_sitting(path: Path) -> None:
    """No module is longer than 400 lines, and each says at its top what it is about."""
    text = path.read_text("utf-8")
    assert len(text.splitlines()) <= LONGEST
    assert ast.get_docstring(ast.parse(text))


def test_the_bug_report_names_the_libraries_the_project_asks_for() -> None:
    """A report without the version of a library would be a riddle."""
    from fanblock.cli.bug import LIBRARIES

    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text("utf-8"))["project"]
    asked = {line.split(">")[0].strip() for line in project["dependencies"]}
    assert set(LIBRARIES) == asked


def test_every_refusal_that_can_be_overridden_is_an_option() -> None:
    """The words that refusals tell the maker to give are the words the command line takes."""
    text = "".join(path.read_text("utf-8") for path in (SOURCE / "checks").glob("*.py"))
    told = {part.split("`")[0].split('"')[0] for part in text.split("--despite ")[1:]}
    assert told == set(REFUSALS)
