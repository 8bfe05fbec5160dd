"""Blocks of words: lines of text set under one another, wrapped to a width, as text primitives."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from fanblock.sheet.drawing import Words
from fanblock.sheet.font import width_mm
from fanblock.sheet.space import Box

LEADING = 1.2
RISE = 0.75
"""How far capitals and digits rise over the base line, in sizes."""
SINK = 0.22
"""How far letters hang under the base line, in sizes."""
LEAST_MM = 2.4
"""The smallest text that still reads on the cutting table."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text and how large it is set."""

    text: str
    size_mm: float
    bold: bool = False

    @property
    def width_mm(self) -> float:
        """How wide the line runs."""
        return width_mm(self.text, self.size_mm, self.bold) if self.text.strip() else 0.0


@dataclass(frozen=True, slots=True)
class Block:
    """Lines under one another, centred, turned by ``angle_deg`` as a whole."""

    lines: tuple[Line, ...]
    angle_deg: float = 0.0

    @property
    def width_mm(self) -> float:
        """Width of the widest line."""
        return max(line.width_mm for line in self.lines)

    @property
    def height_mm(self) -> float:
        """Height from the top of the first line's capitals to the foot of the last line's tails."""
        steps = sum(self._step_mm(index) for index in range(1, len(self.lines)))
        return RISE * self.lines[0].size_mm + steps + SINK * self.lines[-1].size_mm

    def words(self, box: Box) -> tuple[Words, ...]:
        """Return the text, centred in the box and turned with it."""
        turn = np.radians(box.angle_deg)
        up = np.array([-np.sin(turn), np.cos(turn)])
        base = 0.5 * self.height_mm - RISE * self.lines[0].size_mm
        found = []
        for index, line in enumerate(self.lines):
            if index:
                base -= self._step_mm(index)
            if line.text.strip():
                x, y = np.array([box.x, box.y]) + up * base
                found.append(Words(line.text, float(x), float(y), line.size_mm, "middle", box.angle_deg, line.bold))
        return tuple(found)

    def _step_mm(self, index: int) -> float:
        """From the base line before to this one: room for the tails above and the capitals of this line."""
        return SINK * self.lines[index - 1].size_mm + (LEADING - SINK) * self.lines[index].size_mm

    def turned(self, angle_deg: float) -> Block:
        """Return the same lines, turned."""
        return Block(self.lines, angle_deg)


@lru_cache(maxsize=2048)
def wrapped(text: str, size_mm: float, within_mm: float, bold: bool = False) -> tuple[Line, ...]:
    """Return the text broken between words into lines no wider than ``within_mm``; a longer word stands alone."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_mm(longer, size_mm, bold) <= within_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(Line(line, size_mm, bold) for line in lines) or (Line("", size_mm, bold),)


def paragraphs(texts: Sequence[str], size_mm: float, within_mm: float, bold: bool = False) -> tuple[Line, ...]:
    """Return several texts, each beginning a line of its own, wrapped to one width."""
    return tuple(line for text in texts for line in wrapped(text, size_mm, within_mm, bold))


def choices(
    texts: Sequence[str], sizes_mm: Sequence[float], widths_mm: Sequence[float], bold: bool = False
) -> tuple[Block, ...]:
    """Return ways to set the texts, the best first: every size, level before upright, wide before narrow."""
    found: list[Block] = []
    for size in sizes_mm:
        ways = {width: paragraphs(texts, size, width, bold) for width in widths_mm}
        fitting = [lines for width, lines in ways.items() if max(line.width_mm for line in lines) <= width]
        found += [Block(lines, angle) for angle in (0.0, 90.0) for lines in dict.fromkeys(fitting)]
    return tuple(found)
