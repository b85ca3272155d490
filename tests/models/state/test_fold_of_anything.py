"""A fold goes on without any entry that it can't bear, and says which."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from models.checks.finding import Check, Finding, Severity
from models.checks.flag_board import FlagBoard
from models.entries.bodies.passes import PassCut
from models.entries.envelope import AnyEntry
from models.entries.kind_names import NOTE, SURFACE
from models.state import indexes
from models.state.indexes import PASSES, PASSES_ON
from models.state.job_state import MOST_REBUILDS, JobState
from tests.models.checks.written_job import written_entries

BAD = "too much"


def note(text: str, **envelope: Any) -> dict[str, Any]:
    """A note as a case writes it."""
    return {"kind": "note", "fields": {"text": text}, **envelope}


@pytest.fixture
def fails_at_bad(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make filing break at a note of certain words, as a fault of our own would."""
    whole = indexes.index_keys_of

    def index_keys_of(entry: AnyEntry) -> Iterator[tuple[str, str]]:
        if getattr(entry.body, "text", "").startswith(BAD):
            raise OverflowError(BAD)
        yield from whole(entry)

    monkeypatch.setattr("models.state.job_state.index_keys_of", index_keys_of)


def texts(state: JobState) -> list[str]:
    """What the current notes say."""
    return [body.text for body in state.bodies(NOTE)]


@pytest.mark.usefixtures("fails_at_bad")
def test_entry_that_fits_nowhere_costs_itself_alone() -> None:
    """All others are folded, that one is told of, and its strike has no say."""
    written = [note("a", id="a"), note(BAD, id="bad", strikes=["a"]), note("c")]
    state = JobState(written_entries(written))
    (told,) = [one for one in FlagBoard(state).findings() if one.check == "entry_not_read"]

    assert texts(state) == ["a", "c"]
    assert state.entries["bad"].unfit == "fold"
    assert told.entries == ("bad",)
    assert [entry.id for entry in state.days["2026-05-04"]][1] == "bad"


@pytest.mark.usefixtures("fails_at_bad")
def test_entry_that_comes_later_costs_itself_alone() -> None:
    """The same where it is taken into a state that stands."""
    entries = list(written_entries([note("a"), note(BAD, id="bad"), note("c")]))
    state = JobState(entries[:1])
    for entry in entries[1:]:
        assert state.add(entry)

    assert (texts(state), state.rebuilds) == (["a", "c"], 1)
    assert not state.add(entries[1])


@pytest.mark.usefixtures("fails_at_bad")
def test_too_many_of_them_are_only_listed() -> None:
    """With one more than the limit nothing is worked out, and every entry is still there."""
    few = [note(f"{BAD} {number}") for number in range(MOST_REBUILDS)]
    bearable = JobState(written_entries([note("a"), *few]))
    many = JobState(written_entries([note("a"), *few, note(f"{BAD} more"), note("z")]))

    assert (bearable.is_plain, texts(bearable)) == (False, ["a"])
    assert (many.is_plain, texts(many)) == (True, [])
    assert len(many.entries) == len(many.days["2026-05-04"]) == MOST_REBUILDS + 3
    assert len(many.streams["tablet-a"]) == MOST_REBUILDS + 3


def test_long_chain_of_corrections_comes_in_backwards() -> None:
    """Three thousand that each strike the one before, the newest first, are no deeper a fold."""
    written = [note("0", id="n0")]
    written += [note(f"{n}", id=f"n{n}", strikes=[f"n{n - 1}"]) for n in range(1, 3_000)]
    state = JobState(reversed(list(written_entries(written))))

    assert (texts(state), state.rebuilds) == (["2999"], 0)


def fail(body: object) -> None:
    """Break at a pass of 7 mm."""
    if isinstance(body, PassCut) and body.length_nm == 7_000_000:
        raise OverflowError("too long")


def breaking(where: str) -> Check:
    """A check that is too much for a pass of 7 mm, in one of its three parts."""

    def watched(state: JobState, entry: AnyEntry) -> list[str]:
        fail(entry.body if where == "watches" else None)
        return [getattr(entry.body, "surface_id", "")]

    def subjects(state: JobState) -> list[str]:
        for body in state.bodies(PASSES):
            fail(body if where == "subjects" else None)
        return state.every_name(SURFACE)

    def examine(state: JobState, subject: str) -> Iterator[Finding]:
        for entry in state.current(PASSES_ON, subject):
            fail(entry.body if where == "examine" else None)
        yield Finding("probed", subject, day="2026-05-04")

    return Check("probed", Severity.NOTE, "", "", "", "", {"pass": watched}, subjects, examine)


def job_with(*lengths: str) -> list[AnyEntry]:
    """A green, and a pass of each length."""
    surface = {"surface_id": "G7", "name": "Green seven", "use": "green", "lines": []}
    fields = {"surface_id": "G7", "line_ids": ["S01"], "pass_id": "P"}
    passes = [{"kind": "pass", "fields": {**fields, "length_nm": one}} for one in lengths]
    return list(written_entries([{"kind": "surface", "fields": surface}, *passes]))


@pytest.mark.parametrize("where", ["subjects", "examine"])
def test_check_that_fails_is_a_finding(where: str) -> None:
    """A failed check is a finding that names check, subject and entry; others go on."""
    entries = job_with("30 ft", "7 mm", "40 ft")
    board = FlagBoard(JobState(entries), (breaking(where),))
    (found,) = board.findings()

    assert (found.check, found.subject) == ("could_not_check", "probed")
    assert found.place == ("" if where == "subjects" else "G7")
    assert entries[2].id in found.entries
    assert "pass 3 of tablet-a" in str(found.facts["which"])
    assert board.findings_about("probed", "G7") == ()
    assert board.flags()[0].severity is Severity.FIX


@pytest.mark.parametrize("where", ["examine", "watches"])
def test_check_that_fails_at_a_new_entry_does_not_stop_it(where: str) -> None:
    """Taken in one by one, the board ends as it would if it had looked at all at once."""
    entries = job_with("30 ft", "7 mm", "40 ft")
    state = JobState(entries[:1])
    board = FlagBoard(state, (breaking(where),))
    for entry in entries[1:]:
        state.add(entry)
        board.update(entry)

    anew = FlagBoard(state, (breaking(where),))
    assert {one.key for one in board.findings()} == {one.key for one in anew.findings()}
