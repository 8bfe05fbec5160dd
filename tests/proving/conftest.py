"""A small trial that several tests look at, and bodies for it."""

from __future__ import annotations

import pytest

from fanblock.proving.csvfile import read_people
from fanblock.proving.people import People
from fanblock.proving.trial import Trial, prove
from fanblock.recipe.library import open_recipe

COMPANY = """\
name,bust (cm),waist (cm),bust to waist (cm),hip (cm)
ferrywoman,92,74,16.5,99
innkeeper,112,118,15,120
apprentice,80,,17,88
=pilot,100,92,16,104
bell,130,80,13,120
"""
"""Two plain bodies, one with a waist over the bust, one not measured whole, and one that makes a bell."""


@pytest.fixture(scope="session")
def company() -> People:
    """Return five bodies of which two can be drawn."""
    return read_people(COMPANY, "company.csv")


@pytest.fixture(scope="session")
def small(company: People) -> Trial:
    """Return the stays in five panels tried on the company."""
    return prove(open_recipe("stays-five-panels"), company, workers=1)
