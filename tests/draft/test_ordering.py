"""The order of panels: front to back at every height, also where seams end on one another."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, TOP, recipe, seam, side_back, side_front, worked

from fanblock.draft.slicing import inside_at

CROSSED = {
    "a piece at the centre front": ("side front, 55%", "2%, waist", "3%, hem"),
    "a piece behind": ("side front, 55%", "30%, waist", "32%, hem"),
    "a yoke in front": ("8%, top edge", "side front, 40%"),
    "a corner at the back": ("86%, top edge", "lacing edge, 60%"),
    "a corner at the front": ("8%, top edge", "center front, 40%"),
}


@pytest.mark.parametrize("name", CROSSED)
def test_at_every_height_panels_stand_from_front_to_back(name: str) -> None:
    """Of two panels at one height the one with the lower number is nearer to the front."""
    names = "separate: {panels: [one, two, three, four]}"
    work = worked(recipe(GAP, TOP, HEM, side_front(), side_back(), seam("dart", *CROSSED[name]), names))
    for height in (-0.3, -0.1, 0.1, 0.3, 0.5, 0.7, 0.9, 1.1, 1.3):
        inside = [inside_at(work.traces[panel.name], height) for panel in work.panels]
        starts = [stretches[0][0] for stretches in inside if stretches]
        assert starts == sorted(starts)
    assert [panel.number for panel in work.panels] == [1, 2, 3, 4]
