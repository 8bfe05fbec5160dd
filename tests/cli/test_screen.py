"""Writing to a screen: width, words for states, and reports without what is private."""

from __future__ import annotations

import pytest

from fanblock.cli.bug import bug_report, discreet
from fanblock.cli.checktable import tally
from fanblock.cli.screen import columns, wrapped
from fanblock.pattern.model import Finding


def finding(state: str) -> Finding:
    """A finding in the given state."""
    return Finding("code", "girth", state, 0.0, 0.0, "mm", "says")


@pytest.mark.parametrize(
    ("states", "words"),
    [
        ((), "0 hold, none fails"),
        (("holds", "holds"), "2 hold, none fails"),
        (("holds", "warns"), "1 hold, 1 wants a look, none fails"),
        (("warns", "warns", "fails"), "0 hold, 2 want a look, 1 fails"),
        (("fails", "fails"), "0 hold, 2 fail"),
    ],
)
def test_the_tally_counts_every_state_in_words(states: tuple[str, ...], words: str) -> None:
    """How many checks hold, want a look and fail is one short line."""
    assert tally([finding(state) for state in states]) == words


@pytest.mark.parametrize(("wide", "used"), [("20", 50), ("72", 72), ("400", 100)])
def test_text_is_set_to_the_screen_within_reason(wide: str, used: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Lines are as wide as the screen, but never narrower than 50 nor wider than 100 columns."""
    monkeypatch.setenv("COLUMNS", wide)
    assert columns() == used
    assert max(len(line) for line in wrapped("waist and bust " * 40, "- ").splitlines()) <= used


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("no such file: '/home/anna/me.yaml'", "no such file: '…'"),
        (r"C:\Users\pilot\me.yaml is locked", "me.yaml is locked"),
        ("bust 92,1 cm > 100.5", "bust # cm > #"),
        ('KeyError: "pilot"', "KeyError: '…'"),
        ("“pilot” is blank", "'…' is blank"),
    ],
)
def test_a_message_loses_names_numbers_and_folders(said: str, kept: str) -> None:
    """What may be private in a message is taken out before it is shown for pasting."""
    assert discreet(said) == kept


def test_a_report_keeps_the_options_but_not_their_values() -> None:
    """Of the command line only commands and names of options remain."""
    error = ValueError("x")
    report = bug_report(error, ["draft", "anna.yaml", "--out=secret", "--set", "gap=4 cm"], ["draft"])
    assert "command: fanblock draft … --out --set …\n" in report


def test_a_report_tells_the_causes_first() -> None:
    """An error that came from another is shown after it."""
    try:
        try:
            raise KeyError("inner")
        except KeyError as inner:
            raise TypeError("outer") from inner
    except TypeError as outer:
        report = bug_report(outer, [], [])
    assert report.index("KeyError") < report.index("TypeError")
