"""Sample wearers and recipes that tests of the engine share: bodies as they come and as they hardly ever come."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from functools import cache

from fanblock.block.from_body import block_of
from fanblock.block.ruled import Block
from fanblock.draft.model import Draft
from fanblock.draft.work import Work
from fanblock.make import draft_pattern, run_steps
from fanblock.pattern.model import Pattern
from fanblock.problems import GeometryError
from fanblock.recipe.dials import with_dials
from fanblock.recipe.library import open_recipe
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_recipe
from fanblock.shipped import recipe_ids
from fanblock.wearer.body import Body, body_of
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.model import Measures, Tilt, Wearer

RECIPES = recipe_ids()
"""The ids of the recipes that come with the program."""

STAYS = ("stays-five-panels", "stays-three-panels")
"""Two of them that serve every body of the catalogue."""

FILE = "r.yaml"
"""The name under which sample recipes are read."""


def wearer(bust: float, waist: float, length: float, *figure: Tilt, **others: float) -> Wearer:
    """Return a wearer with these measures in millimetres; ``length`` is bust to waist, ``_`` stands for a blank."""
    values = {"bust": bust, "waist": waist, "bust to waist": length}
    values.update({name.replace("_", " "): mm for name, mm in others.items()})
    return Wearer("sample", (Measures("shift", "2026-01-01", Fixed(values)),), figure, (), "mm")


def arms(hole: float, upper: float, elbow: float, wrist: float, long: float) -> dict[str, float]:
    """Return the measures that sleeves are drawn from."""
    return {"armhole": hole, "upper_arm": upper, "elbow": elbow, "wrist": wrist, "arm_length": long}


USUAL = {
    "raised": 175.0, "underarm": 200.0, "back_length": 400.0, "hip": 960.0, **arms(430.0, 290.0, 275.0, 160.0, 570.0)
}  # fmt: skip
BACK, FRONT = "center back", "center front"


def tilted(*figure: Tilt, **others: float) -> Wearer:
    """Return the ordinary body with corrections of its figure."""
    return wearer(880.0, 680.0, 160.0, *figure, **{**USUAL, **others})


BODIES: Mapping[str, Wearer] = {
    "ordinary": tilted(),
    "bust is waist": wearer(900.0, 900.0, 160.0, **USUAL),
    "bust under waist": wearer(1000.0, 1080.0, 160.0, **{**USUAL, "hip": 1080.0}),
    "drop of a hair": wearer(900.0, 899.999, 160.0, **USUAL),
    "large drop": wearer(1200.0, 950.0, 160.0, raised=185.0, underarm=195.0, back_length=420.0, hip=1250.0,
                         **arms(510.0, 390.0, 340.0, 185.0, 575.0)),
    "very long": wearer(920.0, 740.0, 220.0, raised=235.0, underarm=250.0, back_length=480.0, hip=1000.0,
                        **arms(440.0, 295.0, 280.0, 162.0, 630.0)),
    "very short": wearer(840.0, 700.0, 110.0, raised=120.0, underarm=150.0, back_length=340.0, hip=940.0,
                         **arms(400.0, 275.0, 265.0, 155.0, 510.0)),
    "very small": wearer(720.0, 580.0, 140.0, raised=152.0, underarm=175.0, back_length=365.0, hip=820.0,
                         **arms(365.0, 235.0, 230.0, 140.0, 520.0)),
    "very large": wearer(1400.0, 1250.0, 165.0, raised=200.0, underarm=200.0, back_length=440.0, hip=1450.0,
                         **arms(600.0, 460.0, 400.0, 205.0, 590.0)),
    "short in the back": tilted(Tilt(BACK, 19.0)),
    "long in the back": tilted(Tilt(BACK, -12.0, 0.3)),
    "short in front": tilted(Tilt(FRONT, 10.0, 0.7)),
    "long in front": tilted(Tilt(FRONT, -8.0)),
    "short in the back to the side": tilted(Tilt(BACK, 12.0, 0.5, "side"), front_arc=470.0),
    "short in front to the side": tilted(Tilt(FRONT, 8.0, 0.5, "side")),
    "uneven": tilted(Tilt(FRONT, 5.0, 1.0), bust_to_waist_at_side=150.0, bust_to_waist_at_back=146.0, front_arc=455.0),
    "measures of the least": wearer(900.0, 760.0, 160.0),
}  # fmt: skip
"""Bodies by what is peculiar to them. The last has nothing but what a block needs; the one before it has a block whose
levels turn unevenly, as one traced from a drawing would."""

DESPITE = ("waist",)
"""The refusal that has to be overridden to draw stays for the body whose bust is under its waist."""


@cache
def drafted(body: str, recipe: str) -> Pattern:
    """Return the pattern of a shipped recipe for a body of the catalogue."""
    return draft_pattern(BODIES[body], open_recipe(recipe), despite=DESPITE)


SOME = ("ordinary", "bust under waist", "large drop", "very short", "short in the back", "uneven")
"""Bodies as unlike as can be, where the whole catalogue would take too long."""


def drawn(recipe: str) -> dict[str, Pattern]:
    """Return the patterns of a shipped recipe by body, without the bodies for which it is refused.

    The stays are drawn for the whole catalogue, other recipes for some bodies.
    """
    found = {}
    for name in BODIES if recipe in STAYS else SOME:
        with suppress(GeometryError):
            found[name] = drafted(name, recipe)
    return found


@cache
def body(name: str = "ordinary") -> Body:
    """Return a body of the catalogue."""
    return body_of(BODIES[name])


@cache
def block(name: str = "ordinary") -> Block:
    """Return the block of a body of the catalogue."""
    return block_of(body(name))


GAP = "lacing gap: {at: center back, width: 50 mm}"
TOP = """top edge:
      through:
        - [center front, bust + 30 mm]
        - [22%, bust + 15 mm]
        - [36%, underarm - 30 mm]
        - [56%, underarm - 25 mm]
        - [78%, bust + 40 mm]
        - [center back, bust + 90 mm]"""
HEM = "hem: {height: waist - 80 mm}"
RED = "waist reduction: {by: 3%}"


def seam(name: str, *places: str, **options: str) -> str:
    """Return a seam step through places such as ``24%, top edge``; it is sewn below the waist unless it says otherwise."""
    chosen = {"below_waist": "sewn", **options}
    rest = "".join(f", {key.replace('_', ' ')}: {value}" for key, value in chosen.items())
    return f"seam: {{name: {name}, through: [{', '.join(f'[{place}]' for place in places)}]{rest}}}"


def side_front(**options: str) -> str:
    """Return the front of two seams that the sample garments have."""
    return seam("side front", "24%, top edge", "14%, waist", "19%, hem", **{"share": "2", "spring": "20 mm", **options})


def side_back(**options: str) -> str:
    """Return the back of two seams that the sample garments have."""
    return seam("side back", "70%, top edge", "68%, waist", "70%, hem", **{"share": "1", "spring": "25 mm", **options})


def separate(*names: str) -> str:
    """Return the step that cuts the draft apart."""
    return f"separate: {{panels: [{', '.join(names)}]}}"


ONE, THREE = separate("whole"), separate("front", "side", "back")
FOUR = separate("one", "two", "three", "four")


def recipe_text(*steps: str, makes: str = "jacket") -> str:
    """Return a recipe file of these steps; the first step stands in line 5."""
    return f"recipe: 1\nname: Sample\nmakes: {makes}\nsteps:\n" + "".join(f"  - {step}\n" for step in steps)


def recipe(*steps: str, makes: str = "jacket") -> Recipe:
    """Return a recipe of these steps, read from its text."""
    return read_recipe(recipe_text(*steps, makes=makes), FILE)


def garment(
    *extra: str, gap: str = GAP, top: str = TOP, hem: str = HEM, seams: tuple[str, ...] | None = None
) -> Recipe:
    """Return a recipe for a garment of three panels a side, with its parts exchanged; ``extra`` comes before `separate`."""
    drawn = (side_front(), side_back()) if seams is None else seams
    return recipe(*(step for step in (gap, top, hem, *drawn, *extra, RED, THREE) if step))


def made(read: Recipe, name: str = "ordinary", *, despite: tuple[str, ...] = DESPITE) -> Pattern:
    """Return the pattern of a recipe for a body of the catalogue."""
    return draft_pattern(BODIES[name], read, despite=despite)


def worked(read: Recipe, name: str = "ordinary") -> Work:
    """Return the separated panels of a recipe for a body of the catalogue, not yet finished."""
    return run_steps(Draft(body(name), block(name)), with_dials(read))


def failed(pattern: Pattern) -> list[str]:
    """Return the codes of all checks that fail."""
    return [finding.code for finding in pattern.findings if finding.state == "fails"]
