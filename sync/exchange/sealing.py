"""Sealing of new entries: rows of this tablet's own streams are put into signed segments."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from models.book.row import GENESIS, Row, chain_hash
from sync.exchange.coverage import hashes_in
from sync.exchange.entry_source import EntrySource
from sync.exchange.exchange_log import ExchangeLog
from sync.exchange.job_folder import JobFolder
from sync.segments.errors import EntryOutOfBoundsError, EntryTooLongError
from sync.segments.file_name import SegmentName
from sync.segments.limits import LINE_BYTES, WRITTEN_BYTES, WRITTEN_ENTRIES
from sync.segments.lines import line_fault
from sync.segments.writer import seal_rows
from sync.trust.keys import KeyRing, Signer


@dataclass(slots=True)
class SealResult:
    """Result of sealing new entries into segments."""

    segments: list[SegmentName] = field(default_factory=list)
    rows: int = 0
    notes: list[str] = field(default_factory=list)


@dataclass(slots=True)
class _Run:
    """Rows that follow from each other, on one branch of a stream."""

    prev: bytes
    rows: list[Row] = field(default_factory=list)
    size: int = 0

    @property
    def tail(self) -> bytes:
        return self.rows[-1].hash if self.rows else self.prev


def seal_new_rows(
    source: EntrySource, place: JobFolder, log: ExchangeLog, ring: KeyRing, job: str
) -> SealResult:
    """Make segments of every row whose stream's key is here and that no kept segment holds.

    Also of streams that this tablet wrote before it took a new identity: their last rows
    would otherwise never reach anyone.

    Raises
    ------
    LocalStorageError
        If a segment could not be kept; those before it are.
    """
    done = SealResult()
    for stream in sorted(source.heads()):
        signer = ring.signer(stream)
        if signer is not None:
            try:
                _seal_stream(source, place, log, signer, job, done)
            except (EntryTooLongError, EntryOutOfBoundsError) as fault:
                done.notes.append(str(fault))
    return done


def _seal_stream(
    source: EntrySource,
    place: JobFolder,
    log: ExchangeLog,
    signer: Signer,
    job: str,
    done: SealResult,
) -> None:
    kept = [name for name in place.names() if name.stream == signer.stream]
    start = log.sealed.get(signer.stream, 0)
    if not any(name.last == start for name in kept):
        start = 0  # the notes tell of segments that are gone
    covered = hashes_in(place, [name for name in kept if name.last > start])
    rows = (row for row in source.of_stream(signer.stream, start) if row.hash not in covered)
    for run in _runs(source, rows):
        segment = seal_rows(run.rows, run.prev, job, signer)
        place.save_segment(segment.name, segment.data)
        log.mark_accepted(segment.name)
        done.segments.append(segment.name)
        done.rows += len(run.rows)
        kept.append(segment.name)
    log.sealed[signer.stream] = max((name.last for name in kept), default=0)


def _runs(source: EntrySource, rows: Iterable[Row]) -> Iterator[_Run]:
    """Divide the rows of a stream into pieces, each unbroken and not too large for a segment."""
    runs: list[_Run] = []
    for row in rows:
        if len(row.raw) > LINE_BYTES:
            yield from runs  # what came before it goes out all the same
            raise EntryTooLongError(seq=row.seq, size=len(row.raw), limit=LINE_BYTES)
        if why := line_fault(row.raw):
            yield from runs
            raise EntryOutOfBoundsError(seq=row.seq, why=why)
        run = next((one for one in runs if chain_hash(one.tail, row.raw) == row.hash), None)
        if run is None:
            prev = _find_prev(source, row)
            if prev is None:
                continue  # nothing here proves where it belongs
            run = _Run(prev)
            runs.append(run)
        elif len(run.rows) >= WRITTEN_ENTRIES or run.size + len(row.raw) > WRITTEN_BYTES:
            yield run
            runs.remove(run)
            run = _Run(run.tail)
            runs.append(run)
        run.rows.append(row)
        run.size += len(row.raw)
    yield from runs


def _find_prev(source: EntrySource, row: Row) -> bytes | None:
    before = {GENESIS} if row.seq == 1 else source.hashes_at(row.stream, row.seq - 1)
    return next((one for one in before if chain_hash(one, row.raw) == row.hash), None)
