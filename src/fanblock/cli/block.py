"""``fanblock block``: a wearer's block by itself, printed and to be drawn by hand."""

from __future__ import annotations

import click

from fanblock.cli.arguments import paper_options, papers_of
from fanblock.cli.drafting import say_files
from fanblock.cli.screen import say, working, wrapped
from fanblock.sheet.paper import Paper


@click.command(short_help="Draw a wearer's block, and how to draw it by hand.")
@click.argument("wearer")
@click.option("--out", "folder", required=True, metavar="FOLDER", help="Where the files go. It is made if need be.")
@click.option(
    "--over",
    type=click.Choice(("shift", "stays")),
    default="shift",
    show_default=True,
    help="Which of the wearer's measures to use.",
)
@paper_options
def block(wearer: str, folder: str, over: str, papers: tuple[str, ...], rolls: tuple[Paper, ...]) -> int:
    """Draw the block of WEARER, before any garment, and tell how to draw it by hand.

    The guide needs no printer: a ruler, a pin and a string or lath, or points on a grid, or the tapes alone.

    \b
    Example:
      fanblock block ferrywoman --out ferrywoman-block
    """
    with working("reading"):
        from fanblock.block.from_body import block_of
        from fanblock.bundle import block_bundle
        from fanblock.cli.blocknumbers import say_numbers
        from fanblock.output import write_all
        from fanblock.wearer.body import body_of
        from fanblock.wearer.library import open_wearer

    body = body_of(open_wearer(wearer), over)
    drawn = block_of(body)
    bundle = block_bundle(drawn, body, papers_of(papers, rolls), working)
    write_all(folder, {made.name: made.data for made in bundle.files})
    say_numbers(drawn, body)
    say_files(bundle, folder)
    say(wrapped("A block is no garment and no size: it is where garments begin. Whether it fits, only a toile tells."))
    return 0
