"""Files onto the disk: a whole set or nothing, and never half a file.

A set is written into a hidden folder first and moved into place when all of it is there. What stood in the way
under the same names comes back if a move fails. Nothing else in the folder is touched.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from fanblock.problems import ExportError, Problem


def write_all(folder: str | Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write all ``files`` (bytes by plain name) into a folder and return their paths, in order.

    The folder is made when it is not there. Files of the same names are replaced. Raises ExportError, with
    the folder as it was, when one of them cannot be written; ValueError for a name that is a path.
    """
    for name in files:
        if not name or Path(name).name != name or name in (".", "..") or "\\" in name:
            raise ValueError(f"{name!r} is not a plain file name")
    target = Path(folder)
    with _plainly(target):
        refuse_file(target)
        if target.is_dir():
            _replace(target, files)
        else:
            _make(target, files)
    return tuple(target / name for name in files)


def write_new(path: str | Path, data: bytes) -> Path:
    """Write one new file and return its path; ExportError when something of that name is there already."""
    target = Path(path)
    refuse_existing([target])
    with _plainly(target), _hidden(target.parent, target.name) as working:
        (working / target.name).write_bytes(data)
        refuse_existing([target])
        (working / target.name).replace(target)
    return target


def refuse_file(folder: str | Path) -> None:
    """Raise ExportError when what should be a folder is a file; what is not there yet is welcome."""
    target = Path(folder)
    if os.path.lexists(target) and not target.is_dir():
        says = f"“{target}” is a file, and files cannot be put into it."
        raise ExportError([Problem("out-is-file", "out", says, "Name a folder.")])


def refuse_existing(paths: Iterable[Path]) -> None:
    """Raise ExportError with a problem for every path at which something is already."""
    problems = []
    for path in paths:
        if os.path.lexists(path):
            folder = path.is_dir()
            kind = "a folder" if folder else "already there, and was left as it is"
            remedy = "Name a file in it." if folder else "Name another, or move it away first."
            problems.append(Problem("file-exists", "", f"“{path}” is {kind}.", remedy))
    if problems:
        raise ExportError(problems)


def _make(target: Path, files: Mapping[str, bytes]) -> None:
    """Make a folder with all files in it, or nothing."""
    made = [parent for parent in target.parents if not parent.exists()]
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with _hidden(target.parent, target.name) as working:
            whole = working / "whole"
            whole.mkdir()
            for name, data in files.items():
                (whole / name).write_bytes(data)
            whole.rename(target)
    except BaseException:
        for parent in made:
            try:
                parent.rmdir()
            except OSError:
                break
        raise


def _replace(target: Path, files: Mapping[str, bytes]) -> None:
    """Put all files into a folder that is there; on any failure put back what was there."""
    with _hidden(target, "new") as working:
        new, old = working / "new", working / "old"
        new.mkdir()
        old.mkdir()
        for name, data in files.items():
            (new / name).write_bytes(data)
        moved: list[str] = []
        try:
            for name in files:
                if (target / name).is_dir():
                    raise IsADirectoryError(0, "a folder of that name is in the way", str(target / name))
                moved.append(name)
                if os.path.lexists(target / name):
                    (target / name).replace(old / name)
                (new / name).replace(target / name)
        except BaseException:
            for name in reversed(moved):
                if os.path.lexists(old / name):
                    (old / name).replace(target / name)
                elif not os.path.lexists(new / name):
                    (target / name).unlink(missing_ok=True)
            raise


@contextmanager
def _hidden(parent: Path, name: str) -> Iterator[Path]:
    """Make a hidden folder of our own beside the target, and take it away at the end whatever happens."""
    number = 0
    while True:
        working = parent / f".{name}.{os.getpid()}-{number}.part"
        try:
            working.mkdir()
            break
        except FileExistsError:
            number += 1
    try:
        yield working
    finally:
        shutil.rmtree(working, ignore_errors=True)


@contextmanager
def _plainly(target: Path) -> Iterator[None]:
    """Turn what the system says about a file or folder into a problem a person can act on."""
    try:
        yield
    except (OSError, ValueError) as error:
        reason = (error.strerror or "unknown reason") if isinstance(error, OSError) else "it is not a file name"
        at = Path(str(error.filename)) if isinstance(error, OSError) and error.filename else target
        named = f" at “{at.name}”" if at.parent == target else ""
        says = f"“{target}” cannot be written ({reason[:1].lower()}{reason[1:]}{named})."
        remedy = "Name a folder you may write to, with room on its disk, and close its files in other programs."
        raise ExportError([Problem("cannot-write", "out", says, remedy)]) from error
