"""Kept segments into the book: judged all together first, then taken in one by one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from models.book.errors import EntryClashError
from models.book.row import Row
from models.errors import CrewError
from models.tablet_code import code_of
from sync.exchange.errors import ClashError, ForkGapError, GapError
from sync.exchange.ledger import Ledger
from sync.exchange.pending import (
    Pending,
    find_job,
    heads_allowed,
    note_pending,
    refusal,
    settle_members,
)
from sync.exchange.place import Place
from sync.exchange.shelf import EntryShelf
from sync.exchange.steps import Steps
from sync.segments.errors import SegmentBytesError, SegmentError, SegmentTooNewError
from sync.segments.name import SegmentName
from sync.segments.read import open_segment
from sync.trust.members import Job, Members

OnRows = Callable[[Sequence[Row]], None]


@dataclass(slots=True)
class Merged:
    """What came of it."""

    members: Members
    segments: int = 0
    rows: int = 0  # that were new


@dataclass(frozen=True, slots=True)
class Rules:
    """How to merge.

    ``on_rows`` is given the rows of each segment after they are in, known ones among them.
    ``own_stream`` is what this tablet writes now; ``on_own_rows`` is called before anything
    is taken in if segments hold entries of it that are not here: another tablet writes, or
    wrote, under its identity.
    """

    over_gaps: bool = False
    on_rows: OnRows | None = None
    own_stream: str = ""
    on_own_rows: Callable[[], None] | None = None


def merge(
    shelf: EntryShelf, place: Place, ledger: Ledger, job: Job, rules: Rules, steps: Steps
) -> Merged:
    """Take every kept segment in that may come in; note for each other one why not.

    Safe to cut anywhere: each segment goes in whole or not at all, and what is in already
    is met again without harm. Memory holds one segment at a time.

    Raises
    ------
    models.book.errors.BookError
        If the book itself can't take rows; segments before are in.
    """
    pending = _open_all(shelf, place, ledger, job, steps)
    job = ledger.pin(find_job(job, pending))
    members = settle_members(shelf, job, pending)
    allowed = heads_allowed(members, pending)
    welcome: list[Pending] = []
    for one in pending:
        why = refusal(one, members, allowed, shelf)
        if why is None:
            welcome.append(one)
        else:
            ledger.set_aside(one.name, why)
    _watch_identity(shelf, welcome, rules)
    done = Merged(members)
    waiting = _take_all(shelf, place, ledger, welcome, rules, steps, done)
    for one in waiting:
        ledger.set_aside(one.name, _gap(shelf, one))
    return done


def _open_all(
    shelf: EntryShelf, place: Place, ledger: Ledger, job: Job, steps: Steps
) -> list[Pending]:
    heads = shelf.heads()
    names = sorted(
        name
        for name in place.names()
        # A book put back from a backup may have lost what was taken in before.
        if str(name) not in ledger.taken or heads.get(name.stream, (0, b""))[0] < name.last
    )
    pending: list[Pending] = []
    for number, name in enumerate(names):
        steps.go("open", number, len(names))
        try:
            pending.append(note_pending(open_segment(name, place.read(name), job.key), job.key))
        except SegmentBytesError as fault:
            ledger.damaged.add(str(name))
            ledger.set_aside(name, fault)
        except SegmentTooNewError as fault:
            ledger.set_aside(name, fault)
        except SegmentError as fault:
            ledger.set_aside(name, fault, is_final=True)
    return pending


def _watch_identity(shelf: EntryShelf, welcome: Sequence[Pending], rules: Rules) -> None:
    if rules.on_own_rows is None:
        return
    for one in welcome:
        name = one.name
        if name.stream == rules.own_stream and one.head not in shelf.hashes_at(
            name.stream, name.last
        ):
            rules.on_own_rows()
            return


def _take_all(
    shelf: EntryShelf,
    place: Place,
    ledger: Ledger,
    welcome: Sequence[Pending],
    rules: Rules,
    steps: Steps,
    done: Merged,
) -> list[Pending]:
    """Take in what follows from what is here, round by round; return what still waits."""
    waiting, known = list(welcome), {bytes(32)}
    total = len(waiting)
    while waiting:
        before = len(waiting)
        left: list[Pending] = []
        for one in waiting:
            if one.prev in known or _follows(shelf, one) or rules.over_gaps:
                steps.go("merge", done.segments, total)
                if _take(shelf, place, ledger, one.name, rules, done):
                    known.add(one.head)
            else:
                left.append(one)
        waiting = left
        if len(waiting) == before:
            break
    return waiting


def _follows(shelf: EntryShelf, one: Pending) -> bool:
    return one.prev in shelf.hashes_at(one.name.stream, one.name.first - 1)


def _take(
    shelf: EntryShelf,
    place: Place,
    ledger: Ledger,
    name: SegmentName,
    rules: Rules,
    done: Merged,
) -> bool:
    try:
        rows = open_segment(name, place.read(name)).rows()
        done.rows += shelf.take_in(rows)
    except SegmentError as fault:
        ledger.set_aside(name, fault, is_final=not isinstance(fault, SegmentBytesError))
        return False
    except EntryClashError as fault:
        ledger.set_aside(name, ClashError(name=name.told, id=fault.context["id"]))
        return False
    ledger.take(name)
    done.segments += 1
    if rules.on_rows is not None:
        rules.on_rows(rows)
    return True


def _gap(shelf: EntryShelf, one: Pending) -> CrewError:
    """Say what is missing before a segment."""
    name = one.name
    tablet = code_of(name.stream)
    if shelf.hashes_at(name.stream, name.first - 1):
        return ForkGapError(name=name.told, before=name.first - 1, tablet=tablet)
    held = max((seq for seq in _numbers_before(shelf, name)), default=0)
    return GapError(name=name.told, first=held + 1, last=name.first - 1, tablet=tablet)


def _numbers_before(shelf: EntryShelf, name: SegmentName) -> list[int]:
    """Return the last number held of a stream, if it lies before a segment."""
    seq, _ = shelf.heads().get(name.stream, (0, b""))
    return [seq] if seq < name.first else []
