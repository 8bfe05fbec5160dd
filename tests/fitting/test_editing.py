"""What somebody wrote stays as she wrote it: only the values that changed are changed, with her comments at every place."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.cli.main import main
from fanblock.draft.altering import TakeMore
from fanblock.fitting.editing import Edited, UneditableError
from fanblock.fitting.keeping import garment_edited, wearer_edited
from fanblock.garment.library import draft_garment, open_garment
from fanblock.garment.model import Change
from fanblock.garment.reading import read_garment
from fanblock.shipped import wearer_names, wearer_text
from fanblock.terms import Height, Length
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.model import Tilt, Wearer
from fanblock.wearer.reading import read_wearer

WEARER = """\
# Me, in June. Do not lend.
wearer: 1            # the format
name: me             # as the others call me

units: in            # inches!
taken: {on: 2026-06-01, over: shift}   # by Marthe
measures:
  # with the new tape
  bust: 36 1/4       # twice, the same
  waist: "29 1/8"    # after dinner
  bust to waist: 6 1/4

  raised: 7          # thumb

  underarm: 7 5/8
  back length: 15 1/4   # last
# what is peculiar
figure:
  # the sway
  - tilt: {at: center back, take: 3/8 in}   # from the first stays
notes:                 # mine
  - "a: b # no comment"   # really
# the end
"""

GARMENT = """\
# My stays. Second try.
garment: 1       # format
wearer: me.yaml  # that is me

recipe: stays-three-panels     # quick ones

draft: 1         # of many
dials:           # turned by me
  gap: 4 cm      # I like it narrow
  # point: 2 in
cloth:
  outer: {width: 54 in, nap: yes}    # the blue
changes:
  # from the trial
  - {take: {seam: side front, at: waist, more: 2 mm}, because: "a # b"}   # pins

notes:
  - keep the busk   # Anne's
# done
"""

NOTES = """\
fit: 1
draft: 1
units: in
gap: {waist: 1 1/4, top: 2}
notes:
  - folds across the back of the waist: 1/2 in
  - digs under the arm in front
  - the third eyelet tore
"""


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with files that are full of comments."""
    (tmp_path / "me.yaml").write_text(WEARER, encoding="utf-8", newline="")
    (tmp_path / "stays.yaml").write_text(GARMENT, encoding="utf-8", newline="")
    (tmp_path / "notes.yaml").write_text(NOTES, encoding="utf-8", newline="")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def comments(text: str) -> list[str]:
    """Return every line's comment, in order."""
    return [line[line.index("#") :] for line in text.splitlines() if "#" in line]


@pytest.mark.parametrize("ends", ["\n", "\r\n"], ids=["plain", "Windows"])
def test_comments_and_layout_stay(room: Path, capsys: pytest.CaptureFixture[str], ends: str) -> None:
    """Line for line the new files are the old ones, but for the values that changed and the lines that were added."""
    for name in ("me.yaml", "stays.yaml"):
        (room / name).write_text((room / name).read_text("utf-8"), encoding="utf-8", newline=ends)
    held = {path.name: path.read_bytes() for path in room.iterdir()}
    assert main(["fit", "stays.yaml", "notes.yaml"]) == 0
    capsys.readouterr()
    assert all((room / name).read_bytes() == data for name, data in held.items())
    me, stays = ((room / name).read_bytes().decode() for name in ("me-2.yaml", "stays-2.yaml"))
    assert me.count("\r\n") == (me.count("\n") if ends == "\r\n" else 0)
    me, stays = me.replace("\r\n", "\n"), stays.replace("\r\n", "\n")
    assert me.splitlines()[0] == "# me.yaml after the fitting of draft 1 of stays.yaml."
    assert comments(me)[1:] == comments(WEARER)
    old, new = WEARER.splitlines(), me.splitlines()[1:]
    changed = [(was, is_now) for was, is_now in zip(old, new, strict=True) if was != is_now]
    assert [was.split(":")[0].strip() for was, _ in changed] == ["waist", "- tilt"]
    assert changed[1][1] == "  - tilt: {at: center back, take: 0.8748 in}   # from the first stays"
    old, new = GARMENT.splitlines(), stays.splitlines()[1:]
    assert [line for line in old if line not in new] == ["wearer: me.yaml  # that is me", "draft: 1         # of many"]
    added = [line for line in new if line not in old]
    assert added[:2] == ['wearer: "me-2.yaml"  # that is me', "draft: 2         # of many"]
    assert all(line.startswith("  - {") for line in added[2:-1])
    assert added[-1] == '  - "the third eyelet tore"'
    assert new.index(added[2]) == new.index(old[-6]) + 1 or added[2].startswith("  - {")
    assert comments(stays)[1:3] == comments(GARMENT)[:2]


def test_a_second_fitting_begins_from_the_edited_files(room: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What was written reads back and draws, and can be fitted again."""
    assert main(["fit", "stays.yaml", "notes.yaml"]) == 0
    (room / "again.yaml").write_text(NOTES.replace("draft: 1", "draft: 2"), encoding="utf-8")
    assert main(["fit", "stays-2.yaml", "again.yaml"]) == 0
    capsys.readouterr()
    third = open_garment("stays-3.yaml")
    assert (third.garment.draft, third.garment.wearer) == (3, "me-3.yaml")
    assert third.garment.dials == {"gap": "4 cm"}
    assert draft_garment(third).title.draft == 3


@pytest.mark.parametrize("name", wearer_names())
@settings(max_examples=15, deadline=None, derandomize=True)
@given(
    mm=st.floats(-12.0, 12.0), take=st.floats(-14.0, 14.0), measure=st.sampled_from(["bust", "waist", "neck", "elbow"])
)
def test_any_change_of_a_wearer_reads_back(name: str, mm: float, take: float, measure: str) -> None:
    """The demo wearers' files, a measure changed or added and a correction added: in place, never anew."""
    text = wearer_text(name)
    before = read_wearer(text, "w.yaml")
    first = before.sets[0]
    sets = (
        replace(first, values=Fixed({**first.values, measure: first.values.get(measure, 360.0) + mm})),
        *before.sets[1:],
    )
    figure = (*before.figure, *([Tilt("center front", take, 0.25)] if abs(take) > 0.01 else []))
    after = replace(before, sets=sets, figure=figure)
    made = wearer_edited(text, before, after, "A change.")
    assert made.startswith("# A change.\n")
    assert set(comments(text)) <= set(comments(made))
    again = read_wearer(made, "w.yaml")
    assert again.sets[0].values[measure] == pytest.approx(sets[0].values[measure], abs=0.01)
    assert [tilt.take_mm for tilt in again.figure] == pytest.approx([tilt.take_mm for tilt in figure], abs=0.01)


@pytest.mark.parametrize(
    "text",
    [
        "{garment: 1, wearer: ferrywoman, recipe: stays-three-panels}   # all on one line\n",
        "garment: 1\nwearer: >-\n  ferrywoman\nrecipe: stays-three-panels\n",
        'garment: 1\n"wearer": ferrywoman\nrecipe: stays-three-panels\nchanges: []   # none yet\n',
        "garment: 1\nwearer: ferrywoman\nrecipe: stays-three-panels\nnotes: [one, 'it''s two']",
        "garment: 1\nwearer: ferrywoman\nrecipe: stays-three-panels\ndials: {gap: 4 cm}",
        "garment: 1\nwearer: ferrywoman\nrecipe: stays-three-panels\nchanges:\n- {spring: {seam: side back, more: 2 mm}}\n\n\ndraft: 1\n",
    ],
)
def test_every_way_of_writing_reads_back_to_what_was_meant(text: str) -> None:
    """In place where it can be, anew where not; never anything else than what the fitting made."""
    before = read_garment(text, "g.yaml")
    more = Change(TakeMore("side front", Height(landmark="waist"), Length(3.0)), 1, 'she said: "in"')
    after = replace(
        before, draft=2, wearer="ferrywoman-2.yaml", changes=(*before.changes, more), notes=(*before.notes, "x: y")
    )
    after = replace(after, dials={**before.dials, "gap": "3 cm"})
    made = garment_edited(text, before, after, "After.")
    assert read_garment(made, "g.yaml") == after
    assert "".join(comments(text)[:1]) in made or "Written anew" in made


def test_a_correction_that_is_undone_is_taken_out() -> None:
    """A wedge that comes to nothing leaves the file, and its line alone."""
    text = WEARER.replace("notes:", "  - tilt: {at: center front, take: 6 mm}\nnotes:", 1)
    before = read_wearer(text, "w.yaml")
    after: Wearer = replace(before, figure=before.figure[1:])
    made = wearer_edited(text, before, after, "Undone.")
    assert "Written anew" not in made
    assert [line for line in text.splitlines() if line not in made.splitlines()] == [
        "  - tilt: {at: center back, take: 3/8 in}   # from the first stays"
    ]


def test_what_cannot_be_changed_in_place_is_told() -> None:
    """A value over several lines is not touched by halves."""
    edited = Edited("a: |\n  one\n  two\nb: 1\n", "x.yaml")
    node = edited.top.get("a")
    assert node is not None
    with pytest.raises(UneditableError):
        edited.replace(node, "three")
