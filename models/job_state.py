"""A job as it stands now: its entries, folded in order and kept up to date.

Truth is the entries alone; this is a view of them in memory that can be
thrown away and rebuilt. Every entry is filed in a few small drawers, such as
("probe", pass_id), so that a question about one pass costs what that pass
costs, however long the job has become.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import defaultdict
from collections.abc import Iterable, Iterator
from operator import attrgetter
from typing import Any

from models.entries.envelope import Entry
from models.entries.job import Job
from models.filing import drawers_of, shares_of

Drawer = tuple[str, str]

_ORDER = attrgetter("lc", "id")


class JobState:
    """Entries of one job, struck ones included, with drawers of the current ones.

    ``drawers`` hold current entries only, in the order of the book (Lamport
    counter, then id). ``days`` and ``entries`` hold the struck ones as well,
    since a sheet shows them crossed out. ``sums`` are running totals of the
    current entries by name, so that a balance is never added up anew.
    ``streams`` keep (seq, id) of every entry of each tablet's stream, struck or
    not. ``now_ms`` is the clock of whoever looks, set from outside; the checks of
    doubtful times compare with it.
    """

    def __init__(self, entries: Iterable[Entry] = ()) -> None:
        self.entries: dict[str, Entry] = {}
        self.struck_by: dict[str, list[str]] = {}
        self.drawers: dict[Drawer, list[Entry]] = defaultdict(list)
        self.days: dict[str, list[Entry]] = defaultdict(list)
        self.sums: dict[Drawer, int] = defaultdict(int)
        self.names: dict[str, dict[str, None]] = defaultdict(dict)
        self.streams: dict[str, list[tuple[int, str]]] = defaultdict(list)
        self.last_lc = 0
        self.now_ms: int | None = None
        for entry in entries:
            self.add(entry)

    def add(self, entry: Entry) -> bool:
        """Take in one entry; return False if it is here already.

        Entries may come in any order: one that arrives late is filed at its
        place, and a strike may arrive before what it strikes.
        """
        if entry.id in self.entries:
            return False
        self.entries[entry.id] = entry
        self.last_lc = max(self.last_lc, entry.lc)
        _file(self.days[entry.day], entry)
        _note_turn(self.streams[entry.stream], (entry.seq, entry.id))
        for struck in entry.strikes:
            self._strike(struck, entry.id)
        if entry.id not in self.struck_by:
            self._file_current(entry)
        return True

    def _strike(self, struck: str, by: str) -> None:
        first = struck not in self.struck_by
        self.struck_by.setdefault(struck, []).append(by)
        target = self.entries.get(struck)
        if first and target is not None and target.body is not None:
            for drawer in drawers_of(target):
                _take_out(self.drawers[drawer], target)
            for name, amount in shares_of(target):
                self.sums[name] -= amount

    def _file_current(self, entry: Entry) -> None:
        if entry.body is None:
            _file(self.drawers[("unknown", "")], entry)
            return
        for drawer in drawers_of(entry):
            _file(self.drawers[drawer], entry)
            self.names[drawer[0]][drawer[1]] = None
        for name, amount in shares_of(entry):
            self.sums[name] += amount

    def is_struck(self, entry_id: str) -> bool:
        """Whether another entry crosses this one out."""
        return entry_id in self.struck_by

    def current(self, kind: str, name: str = "") -> list[Entry]:
        """Current entries of a kind filed under a name, in the order of the book."""
        return self.drawers.get((kind, name), [])

    def bodies(self, kind: str, name: str = "") -> Iterator[Any]:
        """Bodies of the current entries of a kind filed under a name."""
        return (entry.body for entry in self.current(kind, name))

    def latest(self, kind: str, name: str = "") -> Any | None:
        """Body of the newest current entry of a kind under a name, or None."""
        filed = self.drawers.get((kind, name))
        return filed[-1].body if filed else None

    def all_names(self, kind: str) -> list[str]:
        """Names under which current entries of a kind are filed, oldest first."""
        return [name for name in self.names[kind] if self.drawers.get((kind, name))]

    @property
    def job(self) -> Job | None:
        """The job as last written, or None in a book that has none yet."""
        found = self.latest("job")
        return found if isinstance(found, Job) else None

    def is_closed(self, day: str) -> bool:
        """Whether a day stands closed: closed, and not reopened since."""
        acts = self.current("day_acts", day)
        return bool(acts) and acts[-1].kind == "day_closed"


def _file(drawer: list[Entry], entry: Entry) -> None:
    """Put an entry in its place; nearly always that is the end."""
    if not drawer or _ORDER(drawer[-1]) < _ORDER(entry):
        drawer.append(entry)
    else:
        insort(drawer, entry, key=_ORDER)


def _note_turn(stream: list[tuple[int, str]], turn: tuple[int, str]) -> None:
    if not stream or stream[-1] < turn:
        stream.append(turn)
    else:
        insort(stream, turn)


def _take_out(drawer: list[Entry], entry: Entry) -> None:
    place = bisect_left(drawer, _ORDER(entry), key=_ORDER)
    if place < len(drawer) and drawer[place].id == entry.id:
        del drawer[place]
