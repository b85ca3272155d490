"""Handlers of entries as such: write one, correct one, cross one out."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from crewapp.commands.entries import Correct, Strike
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, NewEntry, OpenJob
from models.entries.bodies.day import Struck
from models.entries.bodies.passes import PassCut
from models.entries.body import Body
from models.entries.envelope import AnyEntry, Entry, body_fields, build_body, build_kind
from models.entries.kind_names import PASS, PROBE
from models.errors import CrewError
from models.queries.layout.drive_pieces import TypedPiece, with_pieces


class NothingToStrikeError(CrewError, LookupError):
    """An entry was to be struck that is not there or is struck already."""

    code = "actions.nothing_to_strike"
    sentence = (
        "Nothing was struck: entry {id} {why}. "
        "An entry of this job that still stands would be accepted."
    )


class ReasonMissingError(CrewError, ValueError):
    """An entry was to be struck without a reason."""

    code = "actions.reason_missing"
    sentence = (
        "Nothing was struck: a reason is missing. Why the {kind} is wrong, in a few words, "
        "would be accepted."
    )


def write(job: OpenJob, body: Body, *, day: str | None = None) -> JobChanges:
    """Ink one new entry with a body, on a day other than today where one is named."""
    return job.ink(NewEntry(body, day=day))


@handles(Correct)
def correct(job: OpenJob, command: Correct) -> JobChanges:
    """Strike an entry and put a corrected one in its place, on the day of the first.

    Fields that are not given are carried over. Probes follow a pass that is corrected to
    other lines: each is struck and written again on the line that stands in its line's place.
    """
    old = _standing(job, command.entry_id)
    _need_reason(old, command.reason)
    assert old.body is not None
    fields = {**body_fields(old.body), **command.fields}
    body: Body
    if isinstance(old.body, PassCut) and "pieces" not in command.fields:
        body = _pass_with_pieces(job, cast("Entry[PassCut]", old), fields)
    else:
        body = build_body(old.kind, fields)
    why = command.reason.strip()
    moved = _probes_moved(job, old.body, body, why)
    return job.ink(*moved, NewEntry(body, strikes=(command.entry_id,), reason=why, day=old.day))


def _pass_with_pieces(job: OpenJob, old: Entry[PassCut], fields: dict[str, object]) -> PassCut:
    """Make a pass that is corrected, with the pieces that it comes to now, where that changes.

    A piece that was measured for itself keeps its length.
    """
    first = old.body
    new = build_kind(PASS, {name: fields[name] for name in fields if name != "pieces"})
    if _cuts_same(first, new):
        return new.model_copy(update={"pieces": first.pieces})
    typed = {one.line_id: TypedPiece(one.length_nm, one.typed) for one in first.pieces if one.typed}
    return with_pieces(job.state, new, typed, before=old)


def _cuts_same(old: PassCut, new: PassCut) -> bool:
    """Whether two passes say the same of what was cut."""
    return (old.surface_id, old.line_ids, old.machine_id, old.length_nm, old.length_typed) == (
        new.surface_id, new.line_ids, new.machine_id, new.length_nm, new.length_typed,
    )  # fmt: skip


def _probes_moved(job: OpenJob, old: Body, new: Body, why: str) -> list[NewEntry]:
    """Probes of a pass on the lines that it is corrected to, line for line.

    With more or fewer lines than before nobody can tell which is which: the probes
    stay, and a check names them.
    """
    if not isinstance(old, PassCut) or not isinstance(new, PassCut):
        return []
    if len(old.line_ids) != len(new.line_ids):
        return []
    kept = set(old.line_ids) & set(new.line_ids)
    left = [line_id for line_id in old.line_ids if line_id not in kept]
    come = [line_id for line_id in new.line_ids if line_id not in kept]
    places = dict(zip(left, come, strict=True))
    return [
        NewEntry(
            probe.body.model_copy(update={"line_id": places[probe.body.line_id]}),
            strikes=(probe.id,),
            reason=why,
            day=probe.day,
        )
        for probe in job.state.current(PROBE, old.pass_id)
        if probe.body.line_id in places
    ]


@handles(Strike)
def strike(job: OpenJob, command: Strike) -> JobChanges:
    """Cross out an entry; it stays readable, with the reason."""
    old = _standing(job, command.entry_id)
    _need_reason(old, command.reason)
    why = command.reason.strip()
    return job.ink(NewEntry(Struck(why=why), strikes=(command.entry_id,), reason=why, day=old.day))


def undo_last(job: OpenJob, changed: JobChanges) -> JobChanges:
    """Cross out what the last tap wrote; it stays in the book as a slip.

    What that tap had crossed out stands again, written anew in its old place:
    a strike is never taken back by striking it alone.
    """
    writings: list[NewEntry] = []
    for entry in changed.entries:
        if not job.state.is_struck(entry.id):
            writings.extend(_taken_back(job, entry))
    return job.ink(*writings) if writings else JobChanges(())


_SLIP = "slip, undone at once"


def _taken_back(job: OpenJob, entry: AnyEntry) -> list[NewEntry]:
    """What strikes an entry and puts back what it struck."""
    olds = [job.state.entries[id] for id in entry.strikes if id in job.state.entries]
    back = [
        NewEntry(old.body, strikes=(old.id,), reason=_SLIP, day=entry.day)
        for old in olds
        if old.body is not None and not isinstance(old.body, Struck)
    ]
    if not back:
        return [NewEntry(Struck(why=_SLIP), strikes=(entry.id,), reason=_SLIP, day=entry.day)]
    first = back[0]  # one alone strikes the slip, so that it is not struck twice over
    return [replace(first, strikes=(entry.id, *first.strikes)), *back[1:]]


def _standing(job: OpenJob, entry_id: str) -> AnyEntry:
    entry = job.state.entries.get(entry_id)
    if entry is None:
        raise NothingToStrikeError(id=entry_id, why="is not in this book")
    if job.state.is_struck(entry_id):
        raise NothingToStrikeError(id=entry_id, why="is struck already")
    if entry.body is None:
        raise NothingToStrikeError(id=entry_id, why="was written by a newer version")
    if isinstance(entry.body, Struck):  # what it crossed out would not stand again
        raise NothingToStrikeError(id=entry_id, why="only crosses out another; write that anew")
    return entry


def _need_reason(entry: AnyEntry, reason: str) -> None:
    if not reason.strip():
        raise ReasonMissingError(kind=entry.kind.replace("_", " "))
