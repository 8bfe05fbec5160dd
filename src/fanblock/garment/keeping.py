"""Drafts are kept: each in a folder of its own, and none is written over another."""

from __future__ import annotations

import json
from pathlib import Path

from fanblock.pattern.model import Title
from fanblock.problems import ExportError, Problem

PATTERN_FILE = "pattern.json"
"""The file by which a folder is known to hold a draft."""


def draft_folder(garment_path: str, draft: int) -> str:
    """Return the folder a garment's draft goes into, beside its file: all drafts of one garment under one name.

    >>> draft_folder("room/my-stays.yaml", 1), draft_folder("room/my-stays-2.yaml", 2)
    ('room/my-stays-draft-1', 'room/my-stays-draft-2')
    """
    path = Path(garment_path)
    return str(path.parent / f"{path.stem.removesuffix(f'-{draft}')}-draft-{draft}")


def refuse_other_draft(folder: str, title: Title) -> None:
    """Raise ExportError when a folder holds a draft of another number or of other input than ``title`` says."""
    path = Path(folder) / PATTERN_FILE
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
        held = (data["draft"], data["code"])
    except (OSError, ValueError, KeyError, TypeError):
        return
    if held != (title.draft, title.code):
        what = (
            f"“{folder}” holds draft {held[0]} with the code {held[1]}, and this is draft {title.draft} with the code "
            f"{title.code}. Drafts are kept."
        )
        remedy = "Count up `draft` in the garment file, or name another folder with --out."
        raise ExportError([Problem("draft-kept", "out", what, remedy)])
