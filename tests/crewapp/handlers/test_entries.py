"""Acts on entries as such: correct, strike, undo, and what they refuse."""

from __future__ import annotations

import pytest

from crewapp.commands.day import CloseDay, LogDelay, LogNote, ReopenDay
from crewapp.commands.entries import Correct, Strike, given_fields
from crewapp.handlers.entries import (
    NothingToStrikeError,
    ReasonMissingError,
    undo_last,
    write,
)
from crewapp.handlers.plan.plan_entries import set_up
from crewapp.job.dispatch import do
from crewapp.job.open_job import DayClosedError, NewEntry, OpenJob
from crewapp.tablet.clock import SetClock
from models.entries.bodies.day import Delay, Note
from models.entries.envelope import EntryRefusedError, body_fields
from models.entries.kind_names import NOTE, SURFACE

DAY, NEXT_DAY = "2026-05-11", "2026-05-12"


def note(job: OpenJob, text: str = "rain coming") -> str:
    """Write a note and return the id of its entry."""
    return do(job, LogNote(text=text)).entries[0].id


def test_written_entry_carries_the_moment(job: OpenJob) -> None:
    """An entry knows its author, its local day, its offset and its zone."""
    entry = job.state.entries[note(job)]

    assert (entry.author, entry.day, entry.offset_min, entry.zone, entry.job) == (
        "foreman",
        DAY,
        -300,
        "America/Chicago",
        "small",
    )


def test_written_entry_is_in_the_book(job: OpenJob) -> None:
    """What a command says it wrote can be read back from the file, byte for byte."""
    entry = job.state.entries[note(job)]

    assert [row.raw for row in job.book.rows()][-1] == entry.raw


def test_correct_keeps_the_day_and_what_was_not_changed(job: OpenJob, clock: SetClock) -> None:
    """A correction made tomorrow belongs to the day of the first, and strikes it."""
    first = note(job, "ticket 17")
    clock.set_to(NEXT_DAY, 7 * 60)

    changed = do(job, Correct(entry_id=first, reason=" misheard ", fields={"text": "ticket 71"}))

    entry = changed.entries[0]
    assert (entry.day, entry.strikes, entry.reason) == (DAY, (first,), "misheard")
    assert entry.body == Note(text="ticket 71", needs_owner=False)
    assert job.state.is_struck(first)


def test_correct_refuses_a_field_that_does_not_fit(job: OpenJob) -> None:
    """A correction that can't be written leaves the first standing."""
    first = note(job)
    with pytest.raises(EntryRefusedError, match="text of this note"):
        do(job, Correct(entry_id=first, reason="empty", fields={"text": ""}))

    assert not job.state.is_struck(first)


def test_strike_crosses_out_and_keeps(job: OpenJob) -> None:
    """A struck entry is no longer current, and is still in its day."""
    first = note(job)

    do(job, Strike(entry_id=first, reason="said by mistake"))

    assert list(job.state.bodies(NOTE)) == []
    assert first in {entry.id for entry in job.state.days[DAY]}


@pytest.mark.parametrize("reason", ["", "  ", "\n"])
def test_strike_needs_a_reason(job: OpenJob, reason: str) -> None:
    """Without a reason nothing is struck."""
    first = note(job)
    with pytest.raises(ReasonMissingError, match="Why the note is wrong"):
        do(job, Strike(entry_id=first, reason=reason))

    assert not job.state.is_struck(first)


def test_nothing_is_struck_twice(job: OpenJob) -> None:
    """An entry that is struck already can't be struck or corrected again."""
    first = note(job)
    do(job, Strike(entry_id=first, reason="wrong"))
    before = job.book.count()

    for act in (Strike, Correct):
        with pytest.raises(NothingToStrikeError, match="is struck already"):
            do(job, act(entry_id=first, reason="again"))
    assert job.book.count() == before


def test_a_strike_is_not_struck(job: OpenJob) -> None:
    """Crossing out a strike would look like taking it back, and put nothing back."""
    crossing = do(job, Strike(entry_id=note(job), reason="wrong")).entries[0].id

    for act in (Strike, Correct):
        with pytest.raises(NothingToStrikeError, match="only crosses out another"):
            do(job, act(entry_id=crossing, reason="not so"))


def test_unknown_entry_is_not_struck(job: OpenJob) -> None:
    """An id that the book doesn't have is refused in a sentence."""
    with pytest.raises(NothingToStrikeError, match="entry nowhere is not in this book"):
        do(job, Strike(entry_id="nowhere", reason="wrong"))


def test_undo_last_strikes_everything_the_tap_wrote(job: OpenJob) -> None:
    """Undo takes back all entries of one act, as a slip."""
    changed = job.ink(NewEntry(Note(text="one")), NewEntry(Note(text="two")))

    undone = undo_last(job, changed)

    assert [entry.strikes for entry in undone.entries] == [(e.id,) for e in changed.entries]
    assert {entry.reason for entry in undone.entries} == {"slip, undone at once"}
    assert list(job.state.bodies(NOTE)) == []


def test_undo_twice_writes_nothing(job: OpenJob) -> None:
    """A second undo of the same tap finds nothing to do."""
    changed = do(job, LogNote(text="one"))
    undo_last(job, changed)
    before = job.book.count()

    assert undo_last(job, changed).entries == ()
    assert job.book.count() == before


def test_closed_day_refuses_every_kind_but_two(job: OpenJob) -> None:
    """Nothing is written for a day that stands closed, until it is reopened."""
    first = note(job)
    do(job, CloseDay(day=DAY))
    before = job.book.count()

    for act in (
        lambda: note(job),
        lambda: do(job, Strike(entry_id=first, reason="wrong")),
        lambda: do(job, Correct(entry_id=first, reason="wrong", fields={"text": "other"})),
        lambda: write(job, Delay(cause="rain", lost_min=5)),
    ):
        with pytest.raises(DayClosedError, match=f"{DAY} is closed and its sheet stands"):
            act()
    assert job.book.count() == before
    do(job, ReopenDay(day=DAY, why="forgot the rain"))
    note(job)


def test_closed_day_holds_back_the_whole_act(job: OpenJob) -> None:
    """When one entry of an act belongs to a closed day, none is written."""
    note(job)
    do(job, CloseDay(day=DAY))
    with pytest.raises(DayClosedError):
        job.ink(NewEntry(Note(text="new day"), day=NEXT_DAY), NewEntry(Note(text="old"), day=DAY))

    assert NEXT_DAY not in job.state.days


@pytest.mark.parametrize("fields", [None, {"text": "late"}], ids=["strike", "correct"])
def test_undo_of_a_strike_or_a_correction_puts_the_first_back(
    job: OpenJob, fields: dict[str, str] | None
) -> None:
    """What was crossed out by mistake stands again, once, before what was written after it."""
    first = note(job, "first")
    note(job, "second")

    slip = {"entry_id": first, "reason": "a slip"}
    undo_last(job, do(job, Strike(**slip) if fields is None else Correct(**slip, fields=fields)))

    assert [body.text for body in job.state.bodies(NOTE)] == ["first", "second"]
    assert job.state.is_struck(first)
    assert job.board.open_flags() == []


def test_undo_of_a_changed_plan_puts_the_old_plan_back(job: OpenJob, clock: SetClock) -> None:
    """A surface is not gone when its change is undone, though its first day is closed."""
    surface = job.state.latest(SURFACE, "G7")
    assert surface is not None
    do(job, CloseDay(day=DAY))
    clock.set_to(NEXT_DAY, 7 * 60)

    changed = set_up(job, "surface", **{**body_fields(surface), "name": "another"})
    undo_last(job, changed)

    assert list(job.state.bodies(SURFACE, "G7")) == [surface]


def test_what_a_form_left_open_corrects_nothing() -> None:
    """A field without an answer is not among those that a correction writes anew."""
    command = LogDelay(cause="rain", lost_min=0, start_min=None, note="")

    assert given_fields(command) == {"cause": "rain", "lost_min": 0}
