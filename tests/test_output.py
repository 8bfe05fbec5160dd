"""Files onto the disk: all of a set or nothing, and nothing that is there is lost."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from fanblock.output import write_all, write_new
from fanblock.problems import ExportError

FILES = {"a.txt": b"new a\n", "b.txt": b"new b\n"}


def contents(folder: Path) -> dict[str, bytes]:
    """Return everything in a folder, hidden files too, folders as empty."""
    return {path.name: path.read_bytes() if path.is_file() else b"" for path in folder.iterdir()}


def test_a_new_folder_holds_exactly_the_set(tmp_path: Path) -> None:
    """Folders above are made as needed; beside the target nothing is left behind."""
    written = write_all(tmp_path / "deep" / "down", FILES)
    assert written == (tmp_path / "deep" / "down" / "a.txt", tmp_path / "deep" / "down" / "b.txt")
    assert contents(tmp_path / "deep" / "down") == FILES
    assert [path.name for path in (tmp_path / "deep").iterdir()] == ["down"]


def test_files_of_the_same_name_are_replaced_and_others_kept(tmp_path: Path) -> None:
    """In a folder that is there, what is not ours stays."""
    (tmp_path / "a.txt").write_bytes(b"old a")
    (tmp_path / "mine.txt").write_bytes(b"mine")
    write_all(tmp_path, FILES)
    assert contents(tmp_path) == {**FILES, "mine.txt": b"mine"}


def test_when_one_file_cannot_be_placed_all_come_back(tmp_path: Path) -> None:
    """A folder in the way of the second file: the first is as it was, and nothing hidden is left."""
    (tmp_path / "a.txt").write_bytes(b"old a")
    (tmp_path / "b.txt").mkdir()
    with pytest.raises(ExportError) as caught:
        write_all(tmp_path, FILES)
    assert "(a folder of that name is in the way at “b.txt”)" in str(caught.value)
    assert contents(tmp_path) == {"a.txt": b"old a", "b.txt": b""}


def test_a_file_new_to_the_folder_goes_again_when_the_next_fails(tmp_path: Path) -> None:
    """Nothing of a failed set stays, even where nothing stood before."""
    (tmp_path / "b.txt").mkdir()
    with pytest.raises(ExportError):
        write_all(tmp_path, FILES)
    assert contents(tmp_path) == {"b.txt": b""}


@pytest.mark.parametrize("fault", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_a_full_disk_or_an_interrupt_leaves_no_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: BaseException
) -> None:
    """Whatever stops the writing, the folders made for it are taken away again."""
    real = Path.write_bytes

    def failing(path: Path, data: bytes) -> int:
        if path.name == "b.txt":
            raise fault
        return real(path, data)

    monkeypatch.setattr(Path, "write_bytes", failing)
    with pytest.raises((ExportError, KeyboardInterrupt)) as caught:
        write_all(tmp_path / "one" / "two", FILES)
    assert contents(tmp_path) == {}
    if isinstance(caught.value, ExportError):
        assert str(caught.value) == (
            f"out › “{tmp_path / 'one' / 'two'}” cannot be written (no space left on device). Name a folder "
            "you may write to, with room on its disk, and close its files in other programs."
        )


def test_a_file_where_the_folder_should_be_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file is not turned into a folder, nor one made inside it."""
    monkeypatch.chdir(tmp_path)
    Path("f").write_bytes(b"mine")
    for folder in ("f", "f/inner"):
        with pytest.raises(ExportError):
            write_all(folder, FILES)
    assert contents(tmp_path) == {"f": b"mine"}


@pytest.mark.parametrize("name", ["../a", "a/b", "..", ".", "", "a\\b", "/a"])
def test_a_name_is_never_a_path(tmp_path: Path, name: str) -> None:
    """No file can be written outside the folder by its name."""
    with pytest.raises(ValueError, match="is not a plain file name"):
        write_all(tmp_path / "f", {name: b""})
    assert contents(tmp_path) == {}


@pytest.mark.skipif(sys.platform == "win32", reason="permissions work otherwise there")
def test_folder_and_files_have_the_rights_any_new_file_has(tmp_path: Path) -> None:
    """Nothing of the temporary place shows in who may read the files."""
    write_all(tmp_path / "ours", FILES)
    (tmp_path / "plain").mkdir()
    (tmp_path / "plain" / "a.txt").write_bytes(b"")
    for inside in ("", "a.txt"):
        assert os.stat(tmp_path / "ours" / inside).st_mode == os.stat(tmp_path / "plain" / inside).st_mode


def test_a_new_file_is_written_once_and_never_over_another(tmp_path: Path) -> None:
    """The second time the file is left as it was; a folder is no file."""
    path = write_new(tmp_path / "x.yaml", b"one")
    for target in (path, tmp_path):
        with pytest.raises(ExportError):
            write_new(target, b"two")
    assert contents(tmp_path) == {"x.yaml": b"one"}


def test_a_new_file_in_no_folder_is_a_plain_problem(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder that is not there is named as what it is."""
    monkeypatch.chdir(tmp_path)
    with pytest.raises(ExportError) as caught:
        write_new(Path("gone") / "x.yaml", b"")
    assert "cannot be written (no such file or directory)." in str(caught.value)
