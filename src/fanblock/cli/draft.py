"""``fanblock draft``: the pattern of a recipe for a wearer, or of a garment file that names both."""

from __future__ import annotations

from collections.abc import Mapping

import click

from fanblock.cli.arguments import (
    REFUSALS,
    draft_number,
    machine_option,
    paper_options,
    papers_of,
    settings_option,
)
from fanblock.cli.drafting import GarmentOrder, Order, draft_and_tell
from fanblock.sheet.paper import Paper
from fanblock.units import shown


@click.command(short_help="Draw the pattern of a recipe for a wearer.")
@click.argument("wearer", metavar="WEARER|GARMENT")
@click.argument("recipe", metavar="[RECIPE]", required=False)
@click.option(
    "--out",
    "folder",
    metavar="FOLDER",
    help="Where the files go. It is made if need be. A garment's go beside it, each draft into a folder of its own.",
)
@settings_option
@click.option(
    "--over",
    type=click.Choice(("shift", "stays")),
    default=None,
    help="Which of the wearer's measures to use. Left out, those over what the recipe says it is worn over; where none "
    "were taken over stays, they are predicted, and the notes say so.",
)
@click.option(
    "--number",
    metavar="N",
    callback=draft_number,
    help="The number of this draft, printed on every piece; 1 without it. Count up when you draft again after a fitting.",
)
@paper_options
@click.option(
    "--despite",
    type=click.Choice(REFUSALS),
    multiple=True,
    help="Draw what would be refused for this reason. The refusal tells you the word; think first.",
)
@click.option(
    "--guide",
    is_flag=True,
    help="Write how to draw every piece by hand as pages to print too, not only as guide.html.",
)
@click.option(
    "--toile",
    is_flag=True,
    help="Write the pattern of a toile too, with cloth to spare and strips to lace it by, and a correction sheet.",
)
@click.option(
    "--no-pictures",
    is_flag=True,
    help="Leave out report.html, sheet.png and guide.html: quicker, for other programs.",
)
@machine_option
def draft(
    wearer: str,
    recipe: str | None,
    folder: str | None,
    settings: Mapping[str, str],
    over: str | None,
    number: int | None,
    papers: tuple[str, ...],
    rolls: tuple[Paper, ...],
    despite: tuple[str, ...],
    guide: bool,
    toile: bool,
    no_pictures: bool,
    machine: bool,
) -> int:
    """Draw the pattern of RECIPE for WEARER and write all its files.

    WEARER is a file (begin one with `fanblock new wearer`) or a demo wearer (see `fanblock wearers`).
    RECIPE is the id of a shipped recipe (see `fanblock recipes`) or a file. A GARMENT file names both, with its dials,
    its cloth and what fittings have changed in it (begin one with `fanblock new garment`).

    Ends with SOUND when the pieces add up and sew up; whether they fit, only a toile tells. With NOT SOUND
    the files are written all the same, marked, and the exit code is 1.

    \b
    Example:
      fanblock draft me.yaml stays-five-panels --out my-stays --set "gap=4 cm" --paper a4
      fanblock draft my-stays.yaml
    """
    if recipe is None:
        _refuse_lone_wearer(wearer)
        _refuse_beside_garment({"--set": settings, "--over": over, "--number": number})
    elif folder is None:
        raise click.UsageError("Say where the files go, like --out my-stays.")
    chosen = papers_of(papers, rolls)
    pictures = not no_pictures
    if recipe is None:
        return draft_and_tell(GarmentOrder(wearer, folder, chosen, despite, machine, pictures, guide, toile))
    return draft_and_tell(
        Order(
            wearer, recipe, folder or "", settings, over, number or 1, chosen, despite, machine, pictures, guide, toile
        )
    )


def _refuse_lone_wearer(typed: str) -> None:
    """Refuse a demo wearer without a recipe: it is no garment."""
    from fanblock.shipped import wearer_names

    if typed in wearer_names():
        raise click.UsageError(f"Name a recipe after {shown(typed)}, and say where the files go, like --out my-stays.")


def _refuse_beside_garment(given: Mapping[str, object]) -> None:
    """Refuse options whose say is in the garment file."""
    names = [name for name, value in given.items() if value]
    if names:
        says = (
            f"Without a recipe the first name is that of a garment, which says {' and '.join(names)} in its own file."
        )
        raise click.UsageError(f"{says} Write it there, or name a recipe too.")
