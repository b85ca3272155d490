"""Job state: the entries of a job folded in order and kept up to date.

Truth is the entries alone; this is a view of them in memory that can be
thrown away and rebuilt. Every entry is filed in a few indexes, such as
("probe", pass_id), so that a question about one pass costs what that pass
costs, however long the job has become.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import defaultdict
from collections.abc import Iterable, Iterator
from operator import attrgetter, itemgetter
from typing import Any, Protocol

from models.entries.bodies.job import Job
from models.entries.envelope import AnyEntry, Entry
from models.entries.index import B, Index, K, Total
from models.entries.kind_names import JOB
from models.state.gc_pause import gc_paused
from models.state.indexes import DAY_ACTS, UNREAD, IndexKey, amounts_of, index_keys_of

Turn = tuple[int, str]
Place = tuple[Turn, Turn]
NameTurn = tuple[int, str, int]
"""Turn of the entry that gave a name first, and the place of the name in it."""

_ORDER = attrgetter("lc", "id")
MOST_REBUILDS = 32
"""Entries that fit nowhere, each of which costs a fold; with more, all are only listed."""


class StateListener(Protocol):
    """Reader of a job that wants to hear of every entry that comes to count, or does no more."""

    def entry_in(self, entry: AnyEntry) -> None:
        """Take note that an entry counts from now on, or stands in another place."""

    def entry_out(self, entry: AnyEntry) -> None:
        """Take note that an entry was crossed out."""

    def state_emptied(self) -> None:
        """Forget all: the state is folded again."""


class JobState:
    """Entries of one job, struck ones included, with indexes of the current ones.

    ``indexes`` hold current entries only, in the order of the book (Lamport
    counter, then id); a correction stands in the place of what it corrects, so
    that a slip put right later is not taken for newer work. ``days`` and
    ``entries`` hold the struck ones as well, since a sheet shows them crossed
    out. ``totals`` are running totals of the current entries by name, so that a
    balance is never added up anew.
    ``streams`` keep (seq, id) of every entry of each tablet's stream, struck or
    not. ``now_ms`` is the clock of whoever looks, set from outside; the checks of
    doubtful times compare with it. ``memo`` keeps what several checks work out of
    one state; every new entry empties it.
    """

    def __init__(self, entries: Iterable[AnyEntry] = ()) -> None:
        self.now_ms: int | None = None
        self.rebuilds = 0
        self.listeners: list[StateListener] = []
        self._empty()
        with gc_paused():
            for entry in entries:
                if entry.id not in self.entries:
                    try:
                        self._take(entry if self.rebuilds <= MOST_REBUILDS else _listed(entry))
                    except Exception:  # half filed, so nothing here is to be trusted
                        self._build_anew(entry)

    def _empty(self) -> None:
        for listener in self.listeners:
            listener.state_emptied()
        self.entries: dict[str, AnyEntry] = {}
        self.struck_by: dict[str, list[str]] = {}
        self.indexes: dict[IndexKey, list[AnyEntry]] = defaultdict(list)
        self.days: dict[str, list[AnyEntry]] = defaultdict(list)
        self.totals: dict[IndexKey, int] = defaultdict(int)
        self.names: dict[str, dict[str, NameTurn]] = defaultdict(dict)
        self._names_in_disorder: set[str] = set()
        self.streams: dict[str, list[tuple[int, str]]] = defaultdict(list)
        self._roots: dict[str, Turn] = {}
        self.last_lc = 0
        self.memo: dict[tuple[str, str], Any] = {}

    @property
    def is_plain(self) -> bool:
        """Whether so many entries fit nowhere that they are only listed: nothing is worked out."""
        return self.rebuilds > MOST_REBUILDS

    def add(self, entry: AnyEntry) -> bool:
        """Take an entry in; return False if it is here already.

        Entries may come in any order: one that arrives late is filed at its
        place, and a strike may arrive before what it strikes. One that can't be
        put among the others, whatever the reason, costs itself alone: it stands
        as not read, and the state is built anew without it.
        """
        if entry.id in self.entries:
            return False
        try:
            self._take(_listed(entry) if self.is_plain else entry)
        except Exception:  # half filed, so nothing here is to be trusted
            self._build_anew(entry)
        return True

    def _build_anew(self, bad: AnyEntry) -> None:
        """Fold everything again with one entry more that fits nowhere; too many, and none is read.

        Each rebuild sets one more entry aside, so this comes to an end.
        """
        while True:
            self.rebuilds += 1
            kept = {**self.entries, bad.id: _listed(bad)}
            self._empty()
            try:
                for entry in kept.values():
                    self._take(_listed(entry) if self.is_plain else entry)
            except Exception:
                if self.is_plain:
                    raise
                self.entries = {**kept, **self.entries}
                bad = entry
            else:
                return

    def _take(self, entry: AnyEntry) -> None:
        self.memo.clear()
        self.entries[entry.id] = entry
        self.last_lc = max(self.last_lc, entry.lc)
        _file_by_turn(self.days[entry.day], entry)
        _note_turn(self.streams[entry.stream], (entry.seq, entry.id))
        if entry.strikes:
            for struck in entry.strikes:
                self._strike(struck, entry.id)
            self._take_root(entry)
        if entry.id not in self.struck_by:
            self._file_current(entry)
        else:
            self._note_names(entry)
            self._move_strikers(entry)

    def place_of(self, entry: AnyEntry) -> Place:
        """Place of an entry in the order of the book: by what it corrects, then by itself."""
        turn = (entry.lc, entry.id)
        return self._roots.get(entry.id, turn), turn

    def strikers_of(self, entry: AnyEntry) -> list[AnyEntry]:
        """Entries that strike this one, those that strike them, and so on."""
        found: dict[str, AnyEntry] = {}
        waiting = list(self.struck_by.get(entry.id, ()))
        while waiting:
            id = waiting.pop()
            if id not in found and id in self.entries:
                found[id] = self.entries[id]
                waiting.extend(self.struck_by.get(id, ()))
        return list(found.values())

    def _take_root(self, entry: AnyEntry) -> bool:
        """Give a correction the place of what it corrects; return whether it moved."""
        corrected = [self.entries[id] for id in entry.strikes if id in self.entries]
        first = min(
            [self.place_of(one)[0] for one in corrected if one.kind == entry.kind],
            default=(entry.lc, entry.id),
        )
        moved = first < self.place_of(entry)[0]
        if moved:
            self._roots[entry.id] = first
        return moved

    def _move_strikers(self, entry: AnyEntry) -> None:
        """Move corrections that were here before what they correct came in."""
        moved = [entry]
        while moved:
            for id in self.struck_by[moved.pop().id]:
                striker = self.entries[id]
                if id in self.struck_by:
                    if self._take_root(striker):
                        moved.append(striker)
                elif striker.body is not None:
                    self._move(striker)

    def _move(self, entry: AnyEntry) -> None:
        for key in index_keys_of(entry):
            self._take_out(self.indexes[key], entry)
        self._take_root(entry)
        for key in index_keys_of(entry):
            self._file(self.indexes[key], entry)
        for listener in self.listeners:
            listener.entry_in(entry)

    def _file(self, filed: list[AnyEntry], entry: AnyEntry) -> None:
        """Put an entry in its place; nearly always that is the end."""
        if not filed or (filed[-1].lc < entry.lc and entry.id not in self._roots):
            filed.append(entry)
        else:
            insort(filed, entry, key=self.place_of)

    def _take_out(self, filed: list[AnyEntry], entry: AnyEntry) -> None:
        place = bisect_left(filed, self.place_of(entry), key=self.place_of)
        if place < len(filed) and filed[place].id == entry.id:
            del filed[place]

    def _strike(self, struck: str, by: str) -> None:
        first = struck not in self.struck_by
        insort(self.struck_by.setdefault(struck, []), by, key=self._turn_of)
        target = self.entries.get(struck)
        if not first or target is None:
            return
        if target.body is None:
            self._take_out(self.indexes[(UNREAD.name, "")], target)
        else:
            for key in index_keys_of(target):
                self._take_out(self.indexes[key], target)
            for name, amount in amounts_of(target):
                self.totals[name] -= amount
            for listener in self.listeners:
                listener.entry_out(target)

    def _file_current(self, entry: AnyEntry) -> None:
        if entry.body is None:
            self._file(self.indexes[(UNREAD.name, "")], entry)
            return
        for number, key in enumerate(index_keys_of(entry)):
            self._file(self.indexes[key], entry)
            self._note_name(key, (entry.lc, entry.id, number))
        for name, amount in amounts_of(entry):
            self.totals[name] += amount
        for listener in self.listeners:
            listener.entry_in(entry)

    def _note_names(self, entry: AnyEntry) -> None:
        """Note the names that an entry gave, though it was struck before it came in."""
        if entry.body is not None:
            for number, key in enumerate(index_keys_of(entry)):
                self._note_name(key, (entry.lc, entry.id, number))

    def _note_name(self, key: IndexKey, turn: NameTurn) -> None:
        """Note a key with the turn in which it was given first, whenever it came in."""
        index, name = key
        names = self.names[index]
        known = names.get(name)
        if known is None or turn < known:
            if names and (known is not None or turn < names[next(reversed(names))]):
                self._names_in_disorder.add(index)
            names[name] = turn

    def _turn_of(self, entry_id: str) -> Turn:
        """Turn in which an entry was written."""
        entry = self.entries[entry_id]
        return entry.lc, entry.id

    def is_struck(self, entry_id: str) -> bool:
        """Whether another entry crosses this one out."""
        return entry_id in self.struck_by

    def current(
        self,
        index: Index[B, K],
        key: K = "",  # type: ignore[assignment]  # "" is the key where there is only one
    ) -> list[Entry[B]]:
        """Current entries filed in an index under a key, in the order of the book."""
        filed: Any = self.indexes.get((index.name, key), [])
        return filed  # type: ignore[no-any-return]  # as the index declares

    def bodies(
        self,
        index: Index[B, K],
        key: K = "",  # type: ignore[assignment]
    ) -> Iterator[B]:
        """Bodies of the current entries filed in an index under a key."""
        return (entry.body for entry in self.current(index, key))

    def latest(
        self,
        index: Index[B, K],
        key: K = "",  # type: ignore[assignment]
    ) -> B | None:
        """Body of the newest current entry filed in an index under a key, or None."""
        filed = self.current(index, key)
        return filed[-1].body if filed else None

    def every_name(self, index: Index[B, K]) -> list[K]:
        """Keys under which current entries are filed in an index, oldest first."""
        if index.name in self._names_in_disorder:
            in_order = sorted(self.names[index.name].items(), key=itemgetter(1))
            self.names[index.name] = dict(in_order)
            self._names_in_disorder.discard(index.name)
        names: Any = self.names[index.name]
        return [key for key in names if self.indexes.get((index.name, key))]

    def entries_in_order(self) -> list[AnyEntry]:
        """Every entry in the order of the book, struck ones too, whatever order they came in."""
        return sorted(self.entries.values(), key=_ORDER)

    def is_used(self, index: Index[B, K], key: K) -> bool:
        """Whether a key was ever given, though what bore it may be struck since."""
        return key in self.names[index.name]

    def total(
        self,
        total: Total[K],
        key: K = "",  # type: ignore[assignment]
    ) -> int:
        """Sum over the current entries of what they add to a total under a key."""
        return self.totals.get((total.name, key), 0)

    @property
    def job(self) -> Job | None:
        """The job as last written, or None in a book that has none yet."""
        return self.latest(JOB)

    def is_closed(self, day: str) -> bool:
        """Whether a day is closed, and not reopened since."""
        acts = self.current(DAY_ACTS, day)
        return bool(acts) and acts[-1].kind == "day_closed"


def _listed(entry: AnyEntry) -> AnyEntry:
    """An entry as it stands in a plain list: it is there, and means nothing."""
    return entry._replace(body=None, unfit="fold", strikes=())


def _file_by_turn(filed: list[AnyEntry], entry: AnyEntry) -> None:
    """Put an entry where it was written; nearly always that is the end."""
    if not filed or _ORDER(filed[-1]) < _ORDER(entry):
        filed.append(entry)
    else:
        insort(filed, entry, key=_ORDER)


def _note_turn(stream: list[tuple[int, str]], turn: tuple[int, str]) -> None:
    if not stream or stream[-1] < turn:
        stream.append(turn)
    else:
        insort(stream, turn)
