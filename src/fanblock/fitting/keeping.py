"""The files a fitting leaves: a new garment and, if anything went into the wearer, a new wearer, beside the old ones."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from fanblock.fitting.fit import Fitted
from fanblock.garment.library import Opened
from fanblock.garment.writing import garment_text
from fanblock.output import refuse_existing
from fanblock.wearer.writing import wearer_text

_COUNTED = re.compile(r"-([0-9]+)$")


def next_name(path: str) -> str:
    """Return the name of the next version of a file: a number is counted up, or 2 is put behind the name.

    >>> next_name("me.yaml"), next_name("my-stays-2.yaml")
    ('me-2.yaml', 'my-stays-3.yaml')
    """
    stem, ending = Path(path).stem, Path(path).suffix or ".yaml"
    found = _COUNTED.search(stem)
    number = int(found.group(1)) + 1 if found else 2
    return f"{_COUNTED.sub('', stem)}-{number}{ending}"


def files_of(opened: Opened, fitted: Fitted) -> Mapping[str, bytes]:
    """Return the new files by their names, to stand in the garment's folder.

    ExportError when one of those names is taken: nothing is ever written over.
    """
    files: dict[str, bytes] = {}
    garment, path = fitted.opened.garment, Path(opened.path)
    if fitted.opened.wearer != opened.wearer:
        name = next_name(garment.wearer if garment.wearer.endswith((".yaml", ".yml")) else f"{garment.wearer}.yaml")
        heading = f"{opened.garment.wearer} after the fitting of draft {opened.garment.draft} of {path.name}."
        files[name] = wearer_text(fitted.opened.wearer, heading).encode()
        garment = replace(garment, wearer=name)
    heading = f"{path.name} after the fitting of draft {opened.garment.draft}."
    files[next_name(path.name)] = garment_text(garment, heading).encode()
    refuse_existing(path.parent / name for name in files)
    return files
