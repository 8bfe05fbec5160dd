"""``fanblock new``: files to begin from. Nothing that is there is ever overwritten."""

from __future__ import annotations

from pathlib import Path

import click

from fanblock.cli.arguments import Commands
from fanblock.cli.demo import DEMO_RECIPE
from fanblock.cli.screen import say, wrapped


@click.group(cls=Commands, short_help="Begin a file of your own, or print a form for measuring.")
def new() -> None:
    """Begin a wearer, a recipe, a garment, or a form for taking measures.

    What is there already is never overwritten.
    """


@new.command(short_help="A file for the measures of one body.")
@click.argument("path", default="wearer.yaml")
@click.option("--name", help="What the wearer is called. A part or a nickname will do; it stands on every piece.")
@click.option(
    "--units",
    type=click.Choice(("cm", "in", "mm")),
    default="cm",
    show_default=True,
    help="What a bare number in the file means.",
)
def wearer(path: str, name: str | None, units: str) -> int:
    """Write a file for the measures of one body, with how to take each beside it.

    \b
    Example:
      fanblock new wearer me.yaml --units in
    """
    from fanblock.output import write_new
    from fanblock.wearer.starter import starter_wearer

    write_new(path, starter_wearer(_called(name, path, "wearer") or "me", units).encode(errors="replace"))
    say(wrapped(f"{path} is written. Open it in any text editor, fill in bust, waist and bust to waist, save it."))
    say(wrapped(f"Then: fanblock draft {_typed(path)} {DEMO_RECIPE} --out my-first"))
    return 0


@new.command(short_help="A small recipe to change into your own.")
@click.argument("path", default="recipe.yaml")
@click.option("--name", help="What the recipe is called.")
@click.option(
    "--from",
    "drawing",
    metavar="DRAWING",
    help="Half a block with lines drawn on it, as SVG: they become the recipe's edges and seams.",
)
def recipe(path: str, name: str | None, drawing: str | None) -> int:
    """Write a small recipe, with every part explained, to change into your own.

    With --from it is made of a drawing: half a block with a top edge, a hem and seams drawn over it.

    \b
    Example:
      fanblock new recipe my-stays.yaml --name "My stays"
      fanblock new recipe my-bodice.yaml --from my-half.svg
    """
    if drawing is not None:
        return _recipe_of(drawing, path, name)
    from fanblock.output import write_new
    from fanblock.recipe.starter import starter_recipe

    write_new(path, starter_recipe(_called(name, path, "recipe")).encode(errors="replace"))
    say(wrapped(f"{path} is written. Change it in any text editor."))
    say(wrapped(f"See whether it is well written: fanblock check {_typed(path)}"))
    say(wrapped(f"Draw it: fanblock draft ferrywoman {_typed(path)} --out trial"))
    return 0


def _recipe_of(drawing: str, path: str, name: str | None) -> int:
    """Write the recipe of a drawing, which lies in its folder or below."""
    from fanblock.adopting.firstdraft import first_recipe
    from fanblock.output import refuse_existing, write_new
    from fanblock.problems import ExportError, Problem
    from fanblock.recipe.bases import drawings_beside
    from fanblock.recipe.phrase import UnreadableError

    refuse_existing([Path(path)])
    try:
        file, data = drawings_beside(path)(drawing)
    except UnreadableError as error:
        raise ExportError([Problem("no-drawing", "from", error.what, error.remedy)]) from None
    made = first_recipe(data, file, drawing, _called(name, path, "recipe") or "My recipe")
    write_new(path, made.text.encode())
    say(wrapped(f"{path} is written, of the lines of {drawing}. Say in it what it makes, and name its pieces."))
    for note in made.notes:
        say(wrapped(f"{note[:1].upper()}{note[1:]}.", "LOOK  "), style="look")
    say(wrapped(f"Draw it: fanblock draft me.yaml {_typed(path)} --out trial"))
    return 0


@new.command(short_help="A garment: one wearer, one recipe, its dials, its cloth.")
@click.argument("path", default="garment.yaml")
@click.option("--wearer", "wearer_name", required=True, help="A demo wearer, or a wearer file in the same folder.")
@click.option("--recipe", "recipe_name", required=True, help="A shipped recipe, or a recipe file in the same folder.")
def garment(path: str, wearer_name: str, recipe_name: str) -> int:
    """Write a file for one garment, which keeps its dials, its cloth and what fittings have changed in it.

    \b
    Example:
      fanblock new garment my-stays.yaml --wearer me.yaml --recipe stays-five-panels
    """
    from fanblock.garment.starter import starter_garment
    from fanblock.output import write_new

    write_new(path, starter_garment(path, wearer_name, recipe_name).encode(errors="replace"))
    say(wrapped(f"{path} is written. Open it in any text editor to turn its dials and to tell its cloth."))
    say(wrapped(f"Draw it: fanblock draft {_typed(path)}"))
    return 0


@new.command(short_help="Notes of a fitting, and a correction sheet to print.")
@click.argument("garment")
@click.option("--out", "path", metavar="FILE", help="The notes file; without it, one beside the garment.")
def fitting(garment: str, path: str | None) -> int:
    """Begin the notes of a fitting of GARMENT, and print a correction sheet that asks for the same.

    \b
    Example:
      fanblock new fitting my-stays.yaml
    """
    from fanblock.fitting.form import correction_sheet
    from fanblock.fitting.questions import questions_of
    from fanblock.fitting.starter import starter_notes
    from fanblock.garment.library import draft_garment, open_garment
    from fanblock.output import refuse_existing, write_all
    from fanblock.sheet import phrases
    from fanblock.sheet.paper import A4, LETTER
    from fanblock.sheet.pdf import sheets

    opened = open_garment(garment)
    draft, home = opened.garment.draft, Path(garment)
    notes = Path(path) if path else home.parent / f"{home.stem}-fitting-{draft}.yaml"
    pattern = draft_garment(opened)
    words = f"{opened.recipe.name} · {opened.wearer.name} · {phrases.stamp(pattern.title)}"
    names = [notes.name, *(f"{notes.stem}-{paper.name.lower()}.pdf" for paper in (A4, LETTER))]
    refuse_existing(notes.parent / name for name in names)
    asked = questions_of(pattern)
    sheet = [sheets(correction_sheet(paper, words, asked)) for paper in (A4, LETTER)]
    files = dict(zip(names, (starter_notes(draft, asked, pattern.title.code).encode(), *sheet), strict=True))
    for written in write_all(notes.parent, files):
        say(wrapped(f"{written} is written."))
    say(
        wrapped(
            "Print the sheet for your paper and fill it in at the mirror; then type what you ticked into the notes."
        )
    )
    say(wrapped(f"Then: fanblock fit {_typed(garment)} {_typed(str(notes))} --dry"))
    return 0


@new.command(short_help="A form to print and fill in beside the tape.")
@click.option("--out", "folder", default=".", show_default=True, metavar="FOLDER", help="Where the two files go.")
def form(folder: str) -> int:
    """Write a form to print and fill in beside the tape, for A4 and for Letter paper.

    \b
    Example:
      fanblock new form
    """
    from fanblock.bundle import form_bundle
    from fanblock.output import refuse_existing, write_all

    bundle = form_bundle()
    refuse_existing(Path(folder) / made.name for made in bundle.files)
    for path in write_all(folder, {made.name: made.data for made in bundle.files}):
        say(wrapped(f"{path} is written."))
    say(wrapped("Print the one for your paper. It tells how to take each measure, alone or with a friend."))
    return 0


def _called(name: str | None, path: str, usual: str) -> str:
    """The name that was given, else that of the file; nothing when the file has the usual name."""
    stem = Path(path).stem
    return (name or "").strip() or ("" if stem == usual else stem)


def _typed(path: str) -> str:
    """A path as it is typed on a command line."""
    return f'"{path}"' if " " in path else path
