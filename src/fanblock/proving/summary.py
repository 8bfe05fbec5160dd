"""What a trial comes to: how many bodies are sound, what went wrong with the others, and of what kind they are."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from fanblock.proving.kinds import Range, kinds, ranges
from fanblock.proving.people import UNREADABLE, Person
from fanblock.proving.trial import BROKEN, NOT_SOUND, REFUSED, SOUND, STATES, Outcome, Trial

CAVEAT = (
    "This proves that the drawing is sound for these bodies: its pieces add up and sew up. "
    "It does not prove that it fits any of them; only a toile tells."
)
NOBODY = (
    "These bodies are invented: a spread made by a formula from published size tables, and well beyond them both ways. "
    "Nobody was measured."
)
MOST_TOLD, MOST_ROWS_TOLD = 8, 12
"""Most groups of causes, and most rows of one, that are told in words; the table of rows holds all."""

_LEVEL = re.compile(r"girth-\d+$")


@dataclass(frozen=True, slots=True)
class Group:
    """All bodies that one check or one refusal stopped, and one of them as the example."""

    state: str
    code: str
    outcomes: tuple[Outcome, ...]
    example: Person
    says: str
    ranges: tuple[Range, ...]
    kinds: tuple[str, ...]


def groups(trial: Trial) -> tuple[Group, ...]:
    """Return what stopped bodies: failed checks, then refusals, then faults of our own, the commonest first.

    A body that several checks fail stands in several groups; the sums at all levels count as one check.
    """
    sound = [outcome.person for outcome in trial.of(SOUND)]
    found: list[Group] = []
    for state in (NOT_SOUND, REFUSED, BROKEN):
        by_code: dict[str, list[Outcome]] = {}
        for outcome in trial.of(state):
            for code in dict.fromkeys(_code(cause.code) for cause in outcome.causes):
                by_code.setdefault(code, []).append(outcome)
        for code, some in sorted(by_code.items(), key=lambda item: (-len(item[1]), item[0])):
            persons = [outcome.person for outcome in some]
            says = next(cause.says for cause in some[0].causes if _code(cause.code) == code)
            told = kinds(persons, sound, trial.people.units) if code != UNREADABLE else ()
            found.append(Group(state, code, tuple(some), persons[0], says, ranges(persons), told))
    return tuple(found)


def _rows(outcomes: Sequence[Outcome]) -> str:
    numbers = [str(outcome.person.row) for outcome in outcomes]
    told, more = numbers[:MOST_ROWS_TOLD], len(numbers) - MOST_ROWS_TOLD
    return f"{'row' if len(numbers) == 1 else 'rows'} {', '.join(told)}{f' and {more} more' if more > 0 else ''}"


def _code(code: str) -> str:
    return _LEVEL.sub("girth", code)


def verdict(trial: Trial) -> str:
    """Return in one line how many bodies are sound, and how many not for which reason."""
    tried = len(trial.outcomes)
    if not tried:
        return "No body was tried."
    sound = len(trial.of(SOUND))
    rest = [f"{len(trial.of(state))} {words}" for state, words in _WORDS if trial.of(state)]
    bodies = f"{'body' if tried == 1 else 'bodies'}{' tried' if trial.stopped else ''}"
    head = f"SOUND for all {tried} {bodies}" if sound == tried > 1 else f"SOUND for {sound} of {tried} {bodies}"
    if sound == tried:
        return f"{head}."
    return f"{head} ({percent(sound, tried)}); {', '.join(rest)}."


_WORDS = ((NOT_SOUND, "NOT SOUND"), (REFUSED, "refused"), (BROKEN, "broken by a fault of our own"))


def percent(part: int, whole: int) -> str:
    """Return a share for reading; it is never rounded up to all or down to none.

    >>> percent(299, 300), percent(1, 500), percent(0, 5)
    ('99%', '1%', '0%')
    """
    if part in (0, whole):
        return "0%" if part == 0 else "100%"
    return f"{min(max(round(100 * part / whole), 1), 99)}%"


def sentences(trial: Trial) -> Iterator[tuple[str, str]]:
    """Yield the summary as (how it is set, text): ``head``, ``good``, ``bad``, ``item``, ``more``, ``plain``."""
    recipe, units = trial.recipe, trial.people.units
    yield "head", f"{recipe.name} ({recipe.id})"
    yield "good" if len(trial.of(SOUND)) == len(trial.outcomes) > 0 else "bad", verdict(trial)
    if trial.stopped:
        missing = len(trial.people.persons) - len(trial.outcomes)
        were = "body was" if len(trial.people.persons) == 1 else "bodies was" if missing == 1 else "bodies were"
        yield "plain", f"Stopped before the end: {missing} of {len(trial.people.persons)} {were} not tried."
    told = groups(trial)
    for group in told[:MOST_TOLD]:
        yield "item", f"{len(group.outcomes)} {group.state} ({group.code})"
        yield "more", f"for example {group.example.name}: {group.says}"
        if group.code == UNREADABLE:
            yield "more", _rows(group.outcomes)
            continue
        yield "more", ", ".join(one.words(units) for one in group.ranges)
        for says in group.kinds:
            yield "more", says
    if len(told) > MOST_TOLD:
        yield "item", f"and {len(told) - MOST_TOLD} more causes: the table of rows has them all."


def document(trial: Trial, files: Sequence[str] = ()) -> dict[str, Any]:
    """Return a trial as plain data for other programs; lengths in mm."""
    counts = {state.replace(" ", "_"): len(trial.of(state)) for state in STATES}
    return {
        "recipe": trial.recipe.id,
        "name": trial.recipe.name,
        "over": trial.over,
        "people": {
            "source": trial.people.source,
            "invented": trial.people.invented,
            "rows": len(trial.people.persons),
            "left_out": list(trial.people.left_out),
        },
        **counts,
        "not_tried": len(trial.people.persons) - len(trial.outcomes),
        "stopped": trial.stopped,
        "causes": [_group_record(group) for group in groups(trial)],
        "bodies": [_body_record(outcome) for outcome in trial.outcomes],
        "proves": CAVEAT,
        "files": list(files),
    }


def _group_record(group: Group) -> dict[str, Any]:
    return {
        "result": group.state,
        "code": group.code,
        "bodies": [outcome.person.row for outcome in group.outcomes],
        "example": group.says,
        "ranges": {one.name: [round(one.least_mm, 2), round(one.most_mm, 2)] for one in group.ranges},
        "kinds": list(group.kinds),
    }


def _body_record(outcome: Outcome) -> dict[str, Any]:
    return {
        "row": outcome.person.row,
        "name": outcome.person.name,
        "measures": {name: round(mm, 2) for name, mm in outcome.person.values.items()},
        "result": outcome.state,
        "causes": [{"code": cause.code, "says": cause.says} for cause in outcome.causes],
    }
