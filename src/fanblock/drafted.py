"""A pattern that shows itself: as a picture in a notebook, as a line of text elsewhere, as files on the disk."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from dataclasses import fields
from html import escape
from pathlib import Path

from fanblock.bundle import pattern_bundle
from fanblock.output import write_all
from fanblock.pattern.model import Pattern
from fanblock.picture import picture_svg
from fanblock.sheet import phrases
from fanblock.sheet.paper import Paper, paper
from fanblock.sheet.tapes import tape_sentence
from fanblock.sheet.telling import telling


class Drafted(Pattern):
    """A pattern with the few things one does with it at a desk; in all else the pattern it was made of."""

    @classmethod
    def of(cls, pattern: Pattern) -> Drafted:
        """Return the same pattern as one that shows itself."""
        return cls(**{field.name: getattr(pattern, field.name) for field in fields(pattern)})

    def picture(self) -> str:
        """Return the whole pattern in one picture, as SVG with its letters in it."""
        return picture_svg(self, embed_font=True)

    def save(self, folder: str | Path, papers: Sequence[str | Paper] = ()) -> tuple[Path, ...]:
        """Write all files into a folder and return their paths.

        ``papers`` are names (``a4``, ``letter``, ``a3``, ``a0``, ``roll 914``, ``projector``) or papers; without them the usual ones.
        Raises ExportError, with nothing written, when the pattern does not fit a paper or the folder cannot be written.
        """
        chosen = [paper(one) if isinstance(one, str) else one for one in papers]
        bundle = pattern_bundle(self, chosen)
        return write_all(folder, {made.name: made.data for made in bundle.files})

    def _repr_html_(self) -> str:
        picture = base64.b64encode(self.picture().encode()).decode("ascii")
        says = f"{escape(tape_sentence(self))} {escape(phrases.verdict(self))}"
        name = escape(f"{self.title.garment} for {self.title.wearer}", quote=True)
        source = f"data:image/svg+xml;base64,{picture}"
        return f'<img alt="{name}" style="width:100%;max-width:1100px;background:#fff" src="{source}"/><p>{says}</p>'

    def __repr__(self) -> str:
        verdict = "SOUND" if self.sound else phrases.NOT_SOUND
        title = self.title
        return f"<{title.garment} for {title.wearer}, {phrases.stamp(title)}: {len(self.panels)} panels {telling(self).counted}, {verdict}>"
