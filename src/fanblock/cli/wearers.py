"""``fanblock wearers``: the invented bodies to try things on."""

from __future__ import annotations

import click

from fanblock.cli.screen import say, wrapped


@click.command(short_help="List invented bodies to try things on.")
def wearers() -> int:
    """List the demo wearers: invented bodies to try a recipe on.

    \b
    Example:
      fanblock wearers
    """
    from fanblock.shipped import wearer_names
    from fanblock.units import format_length
    from fanblock.wearer.library import open_wearer

    for name in wearer_names():
        wearer = open_wearer(name)
        say(name, style="head")
        for measures in wearer.sets:
            three = ("bust", "waist", "bust to waist")
            sizes = ", ".join(f"{key} {format_length(measures.values[key], wearer.units)}" for key in three)
            say(wrapped(sizes, f"  over the {measures.over}: "))
        for note in wearer.notes:
            say(wrapped(note, "  "))
        say()
    say(wrapped("Write down a body of your own with `fanblock new wearer`."))
    return 0
