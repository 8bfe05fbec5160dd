"""What a recipe is once it has been read: its steps in order, its dials, and what it is about."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, get_args

from fanblock.draft.starting import BlockSpec
from fanblock.problems import Place
from fanblock.terms import Length, Share
from fanblock.wearer.model import SHIFT

FORMATS = (1,)
"""The recipe formats this version reads."""

Makes = Literal[
    "band",
    "bodice",
    "bodies",
    "cape",
    "collar",
    "cuff",
    "doublet",
    "flounce",
    "gown bodice",
    "jacket",
    "jumps",
    "kirtle bodice",
    "ruffle",
    "short stays",
    "sleeve",
    "spencer",
    "stays",
    "stomacher",
    "waistcoat",
    "yoke",
]
"""The kinds of thing a recipe may make."""

MAKES: tuple[str, ...] = get_args(Makes)

WornOver = Literal["shift", "stays"]
"""The layers a garment may be worn over, and so be cut to the measures taken over them."""

Construction = Literal["whipped", "sewn"]
"""The ways in which panels become one garment."""

SOURCE_KINDS = ("published", "common practice", "from memory")
"""How a line of ``sources`` begins: where its numbers come from."""


@dataclass(frozen=True, slots=True)
class DialSpec:
    """An amount the maker may turn: its name, default, least, most and purpose.

    Default, least and most are all lengths or all shares; ``of`` is the measure the shares are of, if any.
    """

    name: str
    default: Length | Share
    least: Length | Share | None = None
    most: Length | Share | None = None
    of: str = ""
    purpose: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One step: its kind, its options, its number in the recipe (from 1) and where it stands in the file.

    The place takes no part in comparing two steps.
    """

    kind: str
    options: object
    place: Place = field(compare=False)
    number: int


@dataclass(frozen=True, slots=True)
class Recipe:
    """One recipe, read and found sound.

    ``id`` is its file's name without the ending, ``units`` the unit of its bare numbers, if any. ``worn_over`` says which
    of the wearer's sets of measures it is drawn from. ``construction`` is how its pieces are put together, empty where that
    is left to the maker.
    ``block`` is what its block is made of, None where that is the wearer's bust and waist.
    ``sources`` tell where its numbers come from, ``watch`` what to look at on the mock-up. ``based_on`` names the recipes
    it was made from, the nearest first; it takes no part in comparing two recipes, for all that they said is in here.
    """

    id: str
    name: str
    makes: str
    needs: tuple[str, ...]
    dials: tuple[DialSpec, ...]
    steps: tuple[Step, ...]
    period: str = ""
    about: str = ""
    units: str = ""
    worn_over: str = SHIFT
    construction: str = ""
    sources: tuple[str, ...] = ()
    watch: tuple[str, ...] = ()
    block: BlockSpec | None = None
    based_on: tuple[str, ...] = field(default=(), compare=False)
