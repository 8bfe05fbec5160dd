"""``fanblock adopt``: lines moved on a drawing become a recipe of the maker's own."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from fanblock.cli.arguments import machine_option
from fanblock.cli.screen import say, say_document, working, wrapped

if TYPE_CHECKING:
    from fanblock.adopting.adopt import Adopted


@click.command(short_help="Make a recipe of lines that you moved on a drawing.")
@click.argument("drawing")
@click.option(
    "--from", "folder", metavar="FOLDER", required=True, help="The folder of the draft that the drawing comes from."
)
@click.option(
    "--out", "out", metavar="RECIPE.yaml", help="The recipe to write. Without it, what was moved is only told."
)
@click.option("--name", default="", help="What the new recipe is called.")
@click.option(
    "--recipe",
    "recipe",
    metavar="RECIPE",
    help="The recipe of your own that the draft was made by, if it lies elsewhere.",
)
@machine_option
def adopt(drawing: str, folder: str, out: str | None, name: str, recipe: str | None, machine: bool) -> int:
    """Read DRAWING back: a draft's pattern.svg in which you have moved lines, or drawn your own, with a vector editor.

    What was moved is told, and how far. With --out it becomes a recipe based on the one that the draft was made by, its
    lines placed so that they run there on any body. Nothing that is there is overwritten.

    \b
    Example:
      fanblock adopt my-stays.svg --from my-stays --out lower-stays.yaml
    """
    with working("reading"):
        from fanblock.adopting.adopt import adopted
        from fanblock.adopting.finding import origin_of
        from fanblock.adopting.kept import open_kept
        from fanblock.output import refuse_existing, write_new

    if out is not None:
        refuse_existing([Path(out)])
    kept = open_kept(folder)
    data = _opened(drawing)
    origin = origin_of(kept.recipe, recipe, folder, out)
    with working("comparing"):
        found = adopted(data, drawing, kept, origin, name)
    if out is not None and found.text:
        write_new(out, found.text.encode())
    if machine:
        say_document(_document(found, out))
    else:
        _tell(found, kept.wearer, out)
    return 0


def _opened(path: str) -> bytes:
    from fanblock.problems import GeometryError, Problem
    from fanblock.tracing.bare import LARGEST_BYTES
    from fanblock.units import shown

    try:
        with Path(path).open("rb") as file:
            return file.read(LARGEST_BYTES + 1)
    except (OSError, ValueError) as error:
        what = f"the drawing {shown(path)} cannot be opened."
        raise GeometryError([Problem("no-drawing", "", what, "Look at its name and folder.")]) from error


def _tell(found: Adopted, wearer: str, out: str | None) -> None:
    from fanblock.adopting.placing import SAME_MM
    from fanblock.adopting.writing import table_lines
    from fanblock.shipped import wearer_names

    if found.rows:
        say("Moved:", style="head")
        for line in table_lines(found.rows):
            say(f"  {line}")
    else:
        say(wrapped(f"Nothing that can be adopted was moved by more than {SAME_MM:g} mm or drawn new."))
    for note in found.notes:
        say(wrapped(f"{note[:1].upper()}{note[1:]}.", "LOOK  "), style="look")
    if not found.text:
        if out is not None:
            say("No recipe is written: there is nothing to put into one.")
    elif out is None:
        say(wrapped("Nothing was written. To make it a recipe of your own, add --out and the name of a new file."))
    else:
        who = wearer if wearer in wearer_names() else "me.yaml"
        path = f'"{out}"' if " " in out else out
        say(wrapped(f"{out} is written. Draw it: fanblock draft {who} {path} --out redrawn"))


def _document(found: Adopted, out: str | None) -> dict[str, Any]:
    return {
        "moved": [
            {"line": row.line, "at": row.at, "moved": row.moved, "mm": round(row.mm, 2), "left": round(row.left_mm, 2)}
            for row in found.rows
        ],
        "notes": list(found.notes),
        "recipe": found.text,
        "written": out if found.text else None,
    }
