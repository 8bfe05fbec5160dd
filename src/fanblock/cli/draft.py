"""``fanblock draft``: the pattern of a recipe for a wearer."""

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
from fanblock.cli.drafting import Order, draft_and_tell
from fanblock.sheet.paper import Paper


@click.command(short_help="Draw the pattern of a recipe for a wearer.")
@click.argument("wearer")
@click.argument("recipe")
@click.option("--out", "folder", required=True, metavar="FOLDER", help="Where the files go. It is made if need be.")
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
    default="1",
    show_default=True,
    help="The number of this draft, printed on every piece. Count up when you draft again after a fitting.",
)
@paper_options
@click.option(
    "--despite",
    type=click.Choice(REFUSALS),
    multiple=True,
    help="Draw what would be refused for this reason. The refusal tells you the word; think first.",
)
@click.option("--no-pictures", is_flag=True, help="Leave out report.html and sheet.png: quicker, for other programs.")
@machine_option
def draft(
    wearer: str,
    recipe: str,
    folder: str,
    settings: Mapping[str, str],
    over: str | None,
    number: int,
    papers: tuple[str, ...],
    rolls: tuple[Paper, ...],
    despite: tuple[str, ...],
    no_pictures: bool,
    machine: bool,
) -> int:
    """Draw the pattern of RECIPE for WEARER and write all its files.

    WEARER is a file (begin one with `fanblock new wearer`) or a demo wearer (see `fanblock wearers`).
    RECIPE is the id of a shipped recipe (see `fanblock recipes`) or a file.

    Ends with SOUND when the pieces add up and sew up; whether they fit, only a toile tells. With NOT SOUND
    the files are written all the same, marked, and the exit code is 1.

    \b
    Example:
      fanblock draft me.yaml stays-five-panels --out my-stays --set "gap=4 cm" --paper a4
    """
    chosen = papers_of(papers, rolls)
    order = Order(wearer, recipe, folder, settings, over, number, chosen, despite, machine, not no_pictures)
    return draft_and_tell(order)
