"""``fanblock demo``: the whole walk with an invented wearer."""

from __future__ import annotations

import click

from fanblock.cli.arguments import machine_option
from fanblock.cli.drafting import Order, draft_and_tell
from fanblock.cli.screen import say, wrapped

DEMO_WEARER, DEMO_RECIPE = "ferrywoman", "stays-five-panels"
"""Who is dressed, and in what."""


@click.command(short_help="Draw stays for an invented wearer: begin here.")
@click.option(
    "--out",
    "folder",
    default="fanblock-demo",
    show_default=True,
    metavar="FOLDER",
    help="Where the files go. It is made if need be.",
)
@machine_option
def demo(folder: str, machine: bool) -> int:
    """Draw stays for an invented wearer, and say what to open.

    \b
    Example:
      fanblock demo
    """
    code = draft_and_tell(Order(DEMO_WEARER, DEMO_RECIPE, folder, machine=machine))
    if not machine:
        say()
        begin, then = "fanblock new wearer me.yaml", f"fanblock draft me.yaml {DEMO_RECIPE} --out my-first"
        say(wrapped(f"The same for a body of your own: `{begin}`, fill in three measures, then `{then}`."))
    return code
