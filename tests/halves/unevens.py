"""A wearer for these tests alone, whose left and right differ, with every measure taken that a garment here asks for."""

from __future__ import annotations

from collections.abc import Mapping

from fanblock.wearer.model import Wearer
from fanblock.wearer.reading import read_wearer

SIDES = {
    "bust": (465, 450),
    "waist": (375, 359),
    "hip": (500, 480),
    "underarm": (200, 186),
    "front arc": (244, 232),
    "across back": (178, 170),
    "across front": (168, 162),
    "front length": (450, 440),
    "shoulder": (124, 118),
    "armhole": (430, 416),
    "upper arm": (290, 278),
    "elbow": (265, 258),
    "arm length": (580, 572),
    "shoulder to elbow": (330, 326),
    "hip depth": (200, 188),
}
"""Left and right in millimetres: of girths and arcs the halves."""

COMMON = {
    "bust to waist": 160,
    "raised": 180,
    "bust to waist at back": 160,
    "back length": 410,
    "neck": 370,
    "wrist": 160,
}
"""What is one for both halves."""

WHOLE = {"bust", "waist", "hip", "front arc", "across back", "across front"}
"""The measures whose two halves add up."""


def text(sides: Mapping[str, tuple[float, float]], over: str = "shift", more: str = "", common: bool = True) -> str:
    """Return a wearer's file with these measures left and right, and those that are one for both."""
    lines = [f"  {name}: {{left: {left:g}, right: {right:g}}}" for name, (left, right) in sides.items()]
    lines += [f"  {name}: {mm:g}" for name, mm in COMMON.items() if name not in sides and common]
    if over == "stays":
        lines = [line for line in lines if "raised" not in line]
    return (
        f"wearer: 1\nname: sample\nunits: mm\ntaken: {{on: 2026-03-01, over: {over}}}\n{more}measures:\n"
        + "\n".join(lines)
    )


def uneven(over: str = "shift", more: str = "", **other: tuple[float, float]) -> Wearer:
    """Return the wearer with left and right as above, or with other sides for some measures."""
    return read_wearer(
        text({**SIDES, **{name.replace("_", " "): both for name, both in other.items()}}, over, more), "w.yaml"
    )


def swapped(over: str = "shift") -> Wearer:
    """Return the wearer as she is seen in a mirror."""
    return read_wearer(text({name: (right, left) for name, (left, right) in SIDES.items()}, over), "w.yaml")


def alike(side: int, over: str = "shift") -> Wearer:
    """Return a wearer whose halves are both like the left (0) or the right (1) one, each measure written as one."""
    lines = [f"  {name}: {both[side] * (2 if name in WHOLE else 1):g}" for name, both in SIDES.items()]
    lines += [f"  {name}: {mm:g}" for name, mm in COMMON.items() if over == "shift" or name != "raised"]
    head = f"wearer: 1\nname: sample\nunits: mm\ntaken: {{on: 2026-03-01, over: {over}}}\nmeasures:\n"
    return read_wearer(head + "\n".join(lines), "w.yaml")
