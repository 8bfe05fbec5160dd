"""Opening a wearer by name or by path."""

from __future__ import annotations

from pathlib import Path

import pytest

from fanblock.problems import WearerError
from fanblock.shipped import wearer_names
from fanblock.wearer.library import open_wearer
from fanblock.yamlfile import LARGEST_BYTES

TEXT = "wearer: 1\nname: x\nunits: cm\nmeasures: {bust: 92, waist: 74, bust to waist: 16}\n"


@pytest.mark.parametrize("name", wearer_names())
def test_every_demo_wearer_opens_by_name(name: str) -> None:
    """The demo wearers are called by their part."""
    assert open_wearer(name).name == name


def test_a_name_is_never_made_a_path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file beside us with the bare name of a demo wearer does not take its place."""
    monkeypatch.chdir(tmp_path)
    Path("pilot").write_text(TEXT, encoding="utf-8")
    assert open_wearer("pilot").name == "pilot"
    assert open_wearer("./pilot").name == "x"


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("pilt", "there is no demo wearer “pilt”, and no file of that name. Did you mean “pilot”?"),
        ("me.yaml", "there is no wearer file “me.yaml”. "
         "Look at its name and folder, or begin one with `fanblock new wearer`."),
        ("wearers/pilot.yaml", "there is no wearer file “wearers/pilot.yaml”. Write `pilot` for the demo wearer."),
        ("folder", "the wearer “folder” cannot be opened (it is a folder). "
         "Name a wearer file, or one of the demo wearers."),
        ("f/me.yaml", "there is no wearer file “f/me.yaml”. "
         "Look at its name and folder, or begin one with `fanblock new wearer`."),
        ("a\0b", "the wearer “a\0b” cannot be opened (not a file name). "
         "Name a wearer file, or one of the demo wearers."),
    ],
)  # fmt: skip
def test_what_cannot_be_opened_is_said_plainly(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, typed: str, says: str
) -> None:
    """A name that is none, a file that is not there, a folder."""
    monkeypatch.chdir(tmp_path)
    Path("folder").mkdir()
    Path("f").write_text("")
    with pytest.raises(WearerError) as caught:
        open_wearer(typed)
    assert str(caught.value) == says


def test_no_more_of_a_file_is_read_than_is_ever_used(tmp_path: Path) -> None:
    """A huge file is refused by its size."""
    path = tmp_path / "w.yaml"
    path.write_bytes(b"#" * (LARGEST_BYTES + 10))
    with pytest.raises(WearerError, match="is the most that is read"):
        open_wearer(str(path))
