"""``fanblock block``: a wearer's block by itself, printed and to be drawn by hand."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from fanblock.cli.arguments import paper_options, papers_of
from fanblock.cli.drafting import say_files
from fanblock.cli.screen import say, working, wrapped
from fanblock.sheet.paper import Paper

if TYPE_CHECKING:
    from fanblock.bundle import Bundle


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

    The guide needs no printer: a ruler, a pin and a string or lath, or points on a grid, or the tapes alone. Of a wearer
    whose left and right differ by more than may be averaged there are two blocks, in folders of their own.

    \b
    Example:
      fanblock block ferrywoman --out ferrywoman-block
    """
    with working("reading"):
        from fanblock.block.from_body import block_of
        from fanblock.bundle import block_bundle
        from fanblock.cli.blocknumbers import say_numbers
        from fanblock.halves.bodies import bodies_of, is_alike
        from fanblock.wearer.library import open_wearer
        from fanblock.wearer.model import HALVES

    wearer_read = open_wearer(wearer)
    bodies = bodies_of(wearer_read, over)
    chosen = papers_of(papers, rolls)
    blocks = [block_of(half) for half in bodies.halves]
    apart = any(one.apart_mm > wearer_read.may_differ_mm for one in bodies.uneven)
    if apart and not is_alike(*blocks):
        for half, side, drawn in zip(bodies.halves, HALVES, blocks, strict=True):
            own = replace(half, name=f"{half.name}, {side} half")
            _write(block_bundle(drawn, own, chosen, working, side), str(Path(folder) / side))
            say_numbers(drawn, own)
    else:
        drawn = block_of(bodies.even)
        _write(block_bundle(drawn, bodies.even, chosen, working), folder)
        say_numbers(drawn, bodies.even)
        for one in bodies.uneven:
            say(wrapped(f"averaged: {one.words(bodies.even.units)}", "LOOK  "))
    say(wrapped("A block is no garment and no size: it is where garments begin. Whether it fits, only a toile tells."))
    return 0


def _write(bundle: Bundle, folder: str) -> None:
    """Write all files of a block and tell of them."""
    from fanblock.output import write_all

    write_all(folder, {made.name: made.data for made in bundle.files})
    say_files(bundle, folder)
