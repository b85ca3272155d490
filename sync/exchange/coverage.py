"""Coverage of a job's entries by segments, and entries that were never signed here."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from models.book.row import Row, chain_hash
from models.counted import CountedNoun
from models.entries.tablet_code import code_of
from sync.exchange.entry_source import EntrySource
from sync.exchange.job_folder import JobFolder
from sync.segments.errors import SegmentError
from sync.segments.file_name import SegmentName
from sync.segments.reader import open_segment


@dataclass(frozen=True, slots=True)
class UnsignedEntries:
    """Entries of one stream that are in no segment, out of all that are wanted of it."""

    stream: str
    missing: int
    wanted: int

    def __str__(self) -> str:
        whose = code_of(self.stream) or self.stream
        return (
            f"Holds {self.wanted - self.missing} of "
            f"{CountedNoun(self.wanted):entry|entries} of {whose}: the others "
            "were never signed here. Make the hand-over on that tablet, or exchange first."
        )


def count_covered(names: Iterable[SegmentName]) -> int:
    """Count the entries in some segments, those that lie in several once."""
    return sum(_numbers(names).values())


def unsigned_entries(
    source: EntrySource,
    place: JobFolder,
    names: Sequence[SegmentName],
    is_wanted: Callable[[Row], bool] = lambda row: True,
) -> list[UnsignedEntries]:
    """Return, stream by stream, entries wanted that lie in none of some segments.

    A stream whose every number is in a segment is not looked at entry by entry.
    """
    numbers = _numbers(names)
    found = []
    for stream, (last, _) in sorted(source.heads().items()):
        if numbers[stream] == last:
            continue
        covered = hashes_in(place, [name for name in names if name.stream == stream])
        wanted = [row.hash for row in source.of_stream(stream) if is_wanted(row)]
        missing = sum(digest not in covered for digest in wanted)
        if missing:
            found.append(UnsignedEntries(stream, missing, len(wanted)))
    return found


def hashes_in(place: JobFolder, names: Iterable[SegmentName]) -> set[bytes]:
    """Return the hashes of all rows in some kept segments."""
    found: set[bytes] = set()
    for name in names:
        try:
            segment = open_segment(name, place.read(name))
        except SegmentError:
            continue  # no more what it was: its rows are sealed again
        running = segment.header.prev
        for line in segment.lines:
            running = chain_hash(running, line)
            found.add(running)
    return found


def _numbers(names: Iterable[SegmentName]) -> defaultdict[str, int]:
    """How many numbers of each stream some segments cover, those that lie in several once."""
    found: defaultdict[str, int] = defaultdict(int)
    reached: dict[str, int] = {}
    for name in sorted(names):
        begun = max(name.first, reached.get(name.stream, 0) + 1)
        found[name.stream] += max(0, name.last - begun + 1)
        reached[name.stream] = max(name.last, reached.get(name.stream, 0))
    return found
