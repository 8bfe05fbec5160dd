"""The pages to read first: however long a text is, none of it runs under the test square of its page."""

from __future__ import annotations

import pytest
from tests.sheet.real import drafted

from fanblock.sheet.cover import cover
from fanblock.sheet.drawing import Words
from fanblock.sheet.ink import ink_points
from fanblock.sheet.layout import tiled_layout
from fanblock.sheet.paper import A4, LETTER, Paper
from fanblock.sheet.squares import SQUARE_NAME
from fanblock.shipped import recipe_ids


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
@pytest.mark.parametrize("recipe", recipe_ids())
def test_no_words_run_under_the_test_square(recipe: str, paper: Paper) -> None:
    """Every line of words that reaches into the square's columns stands above it."""
    pattern = drafted("ferrywoman", recipe)
    drawing, plan = tiled_layout(pattern, paper)
    for page in cover(pattern, paper, drawing, plan)[1:]:
        squares = [group for group in page.groups if group.name == SQUARE_NAME]
        for square in squares:
            low, high = ink_points((square,)).min(axis=0), ink_points((square,)).max(axis=0)
            for group in (group for group in page.groups if group.name != SQUARE_NAME):
                for words in (item for item in group.items if isinstance(item, Words)):
                    reach = ink_points((type(group)("one", (words,)),))
                    right = float(reach[:, 0].max()) if len(reach) else words.x
                    beside = right < low[0] or words.x > high[0]
                    assert beside or words.y > high[1] or words.y < low[1], words.text
