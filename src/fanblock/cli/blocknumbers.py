"""The main numbers of a block, in words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from fanblock.cli.screen import say, wrapped
from fanblock.units import format_length

if TYPE_CHECKING:
    from fanblock.block.ruled import Block
    from fanblock.wearer.body import Body


def say_numbers(block: Block, body: Body) -> None:
    """Tell a block's girths and centre lines, its turn and its corrections, and where its bust line comes from."""
    say(f"Block of {body.name}, over the {body.over}", style="head")
    lengths = (
        ("half waist", block.half_waist_mm),
        ("half bust", block.half_bust_mm),
        ("center front, waist to bust", block.center_front_mm),
        ("center back, waist to bust", block.center_back_mm),
    )
    for name, mm in lengths:
        say(f"  {name:28}{format_length(mm, body.units)}")
    say(f"  {'half the block turns':28}{abs(math.degrees(block.turn_rad)):.1f} degrees")
    for tilt in block.corrections:
        done = "taken out" if tilt.take_mm > 0.0 else "let out"
        say(f"  {f'{done} at {tilt.at}':28}{format_length(abs(tilt.take_mm), body.units)}")
    bust = "raised" if "raised" in body.lengths else "bust to waist"
    say(wrapped(f"Its bust line is where you measured `{bust}`."))
    for caution in body.cautions:
        say(wrapped(caution, "LOOK  "))
    say()
