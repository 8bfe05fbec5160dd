"""A place on the block put into a recipe's words, as near as can be to the words that stood there before.

What was said of a landmark is said of it again, with another amount; a share stays a share of the same measure. Amounts
are rounded to a tenth of a millimetre, shares to a hundredth of a percent: half of either is less than a pencil line.
"""

from __future__ import annotations

from dataclasses import replace

from fanblock.draft.model import Draft
from fanblock.draft.places import height_on, measure_mm, place_of
from fanblock.terms import Amount, Around, Height, Length, Position, Share

SHARE_DECIMALS, MM_DECIMALS = 4, 1

NEAR_LANDMARK = 0.5
"""Heights nearer to the waist than half way to the bust are told from the waist, others from the bust."""


def exact(around: float, height: float) -> Position:
    """Return a place as a position, whatever its words."""
    return Position(Around(ratio=around), Height(share=Share(height)))


def height_words(draft: Draft, was: Height, around: float, height: float) -> Height:
    """Return a height, at this around, in the words of ``was``, whose dials are set."""
    ruling = float(draft.block.ruling_length_mm(around))
    if was.plus is None and was.share is not None:
        whole = measure_mm(draft.body, was.share.of) / ruling if was.share.of else 1.0
        return Height(share=Share(round(height / whole, SHARE_DECIMALS), was.share.of))
    bare = replace(was, plus=None, sign=1)
    mm = (height - height_on(draft, bare, around)) * ruling
    plus, sign = _plus(draft, was.plus, mm, "bust to waist")
    return replace(bare, plus=plus, sign=sign)


def around_words(draft: Draft, was: Around, around: float, height: float) -> Around:
    """Return an around, at this height, in the words of ``was``, whose dials are set."""
    if was.plus is None and was.ratio is not None:
        return Around(ratio=round(around, SHARE_DECIMALS))
    bare = replace(was, plus=None, sign=1)
    base, _ = place_of(draft, Position(bare, Height(share=Share(height))))
    mm = draft.block.level_part_mm(height, base, around)
    plus, sign = _plus(draft, was.plus, mm, "bust")
    return replace(bare, plus=plus, sign=sign)


def _plus(draft: Draft, was: Amount | None, mm: float, of: str) -> tuple[Amount | None, int]:
    """Return how much more or less, of the kind that ``was`` is."""
    sign = -1 if mm < 0.0 else 1
    if isinstance(was, Share):
        ratio = round(abs(mm) / measure_mm(draft.body, was.of or of), SHARE_DECIMALS)
        return (Share(ratio, was.of or of), sign) if ratio else (None, 1)
    size = round(abs(mm), MM_DECIMALS)
    return (Length(size), sign) if size else (None, 1)


def new_position(draft: Draft, like: Height, around: float, height: float) -> Position:
    """Return a place that no words stood for, its height told like that of the place beside it."""
    rounded = round(around, SHARE_DECIMALS - 1)
    if like.landmark in ("hem", "top edge", "") and not (like.share is not None and like.share.of):
        like = Height(landmark="waist" if height < NEAR_LANDMARK else "bust")
    if like.share is not None:
        like = replace(like, plus=None, sign=1)
    return Position(Around(ratio=rounded), height_words(draft, like, rounded, height))
