"""A disk that loses its power: from a recorded log to what a later start may find.

The rules are those of a journalling file system such as ext4, read on the harsh side:

- What was written to a file is certain only after a sync of that file. Until then each
  write and each change of size, by itself, may be kept, be lost, or be torn: some of its
  sectors of 512 bytes reach the disk and others do not. What is kept keeps its order.
- A name (made, renamed, linked, removed) is certain only after a sync of its folder. Names
  are journalled in order: a cut keeps the first of those that are not certain, however
  many, and none of the later; the sync of a folder makes certain what came before, too.
  A rename is done or not done. (Real ext4 settles names at any sync; that is not relied on.)
- A name may be certain while its contents are not, and the other way round.
- A sync that fails leaves what it was to save uncertain for ever, although a later sync
  succeeds: Linux marks such pages as clean.

A sync that succeeds is taken at its word.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from tests.power.wire import CREATING, EMPTYING, Deed

SECTOR_BYTES = 512
CHANCES_TO_KEEP = (0.0, 0.1, 0.5, 0.9, 1.0)


class NoRuleError(Exception):
    """The log holds something that the rules do not cover: nothing can be said about it."""


@dataclass(slots=True)
class Change:
    """One write, or one change of size, of a file."""

    place: int
    data: bytes | None  # None: the file was cut, or drawn out, to this place
    is_certain: bool = False
    is_doomed: bool = False  # a sync failed: no later one can be trusted to save it

    def sectors(self) -> list[Change]:
        """Take a write apart where a disk does; a change of size is of one piece."""
        if self.data is None:
            return [self]
        end = self.place + len(self.data)
        first = (self.place // SECTOR_BYTES + 1) * SECTOR_BYTES
        bounds = [self.place, *range(first, end, SECTOR_BYTES), end]
        return [
            Change(a, self.data[a - self.place : b - self.place])
            for a, b in zip(bounds, bounds[1:], strict=False)
        ]

    def apply(self, data: bytearray) -> None:
        """Carry it out on the bytes of a file."""
        end = self.place + len(self.data or b"")
        data.extend(bytes(max(0, end - len(data))))
        if self.data is None:
            del data[end:]
        else:
            data[self.place : end] = self.data


Files = dict[str, bytes | None]
"""A folder with all that is below it, by path; a folder in it is None."""

Survivors = Callable[[Change], Sequence[Change]]
"""Tells which parts of a change that is not certain are on the disk."""


@dataclass(slots=True, eq=False)
class Contents:
    """One file, whatever its names: what is certain of it and what is not yet."""

    certain: bytearray = field(default_factory=bytearray)
    changes: list[Change] = field(default_factory=list)

    def sync(self) -> None:
        """Make everything certain, save what an earlier sync failed to save."""
        for change in self.changes:
            change.is_certain = not change.is_doomed
        if all(change.is_certain for change in self.changes):
            self.certain = self.after(keep_all)
            self.changes = []

    def fail_to_sync(self) -> None:
        """Leave what is not certain by now uncertain for good."""
        for change in self.changes:
            change.is_doomed = not change.is_certain

    def after(self, survivors: Survivors) -> bytearray:
        """Return the bytes that are there, given what becomes of the uncertain changes."""
        data = bytearray(self.certain)
        for change in self.changes:
            for piece in [change] if change.is_certain else survivors(change):
                piece.apply(data)
        return data


@dataclass(frozen=True, slots=True)
class NameChange:
    """One step of the journal of names: what is no longer called so, and what is now."""

    frees: str | None = None
    binds: str | None = None
    to: Contents | None = None  # None: a folder

    def touches(self, folder: str) -> bool:
        """Whether a sync of this folder saves it."""
        return any(parent_of(name) == folder for name in (self.frees, self.binds) if name)

    def apply(self, names: dict[str, Contents | None]) -> None:
        """Carry it out."""
        if self.frees is not None:
            names.pop(self.frees, None)
        if self.binds is not None:
            names[self.binds] = self.to


class Disk:
    """The watched folder, followed deed by deed: what is there, and what of it is certain."""

    def __init__(self, files: Files | None = None) -> None:
        self.told: list[str] = []
        self._certain: dict[str, Contents | None] = {
            name: None if data is None else Contents(bytearray(data))
            for name, data in (files or {}).items()
        }
        self._names = dict(self._certain)
        self._waiting: list[NameChange] = []
        self._open: dict[int, Contents | str] = {}
        self._rules: dict[str, Callable[[Deed], None]] = {
            "A": lambda deed: self.told.append(deed.name),
            "C": lambda deed: self._close(deed.fd),
            "D": self._open_folder,
            "O": self._open_file,
            "W": lambda deed: self._change(deed.fd, Change(deed.place, deed.first)),
            "T": lambda deed: self._change(deed.fd, Change(deed.place, None)),
            "S": self._sync,
            "E": self._fail_to_sync,
            "R": self._rename,
            "L": lambda deed: self._name(NameChange(None, deed.new_name, self._file(deed.name))),
            "U": lambda deed: self._name(NameChange(deed.name)),
            "V": lambda deed: self._name(NameChange(deed.name)),
            "M": lambda deed: self._name(NameChange(None, deed.name)),
        }

    def do(self, deed: Deed) -> None:
        """Take in the next deed of the log.

        Raises
        ------
        NoRuleError
            If it is one that the rules do not cover.
        """
        if deed.what not in self._rules:
            raise NoRuleError(f"the program called {deed.name}")
        self._rules[deed.what](deed)

    def now(self) -> Files:
        """Return the folder as the running program sees it; a folder in it is None."""
        return _filled(self._names, keep_all)

    def after_a_cut(self, dice: random.Random) -> Files:
        """Return the folder as the next start may find it if the power goes now."""
        chance = dice.choice(CHANCES_TO_KEEP)
        names = dict(self._certain)
        lasting = {0.0: 0, 1.0: len(self._waiting)}.get(chance)
        if lasting is None:
            lasting = dice.randint(0, len(self._waiting))
        for change in self._waiting[:lasting]:
            change.apply(names)
        return _filled(names, _chosen_by(dice, chance))

    def _open_file(self, deed: Deed) -> None:
        found = self._names.get(deed.name)
        if found is None:
            if not deed.place & CREATING:
                raise NoRuleError(f"{deed.name} was there before the recording")
            found = Contents()
            self._name(NameChange(None, deed.name, found))
        self._open[deed.fd] = found
        if deed.place & EMPTYING:
            self._change(deed.fd, Change(0, None))

    def _open_folder(self, deed: Deed) -> None:
        self._open[deed.fd] = deed.name

    def _close(self, fd: int) -> None:
        del self._open[fd]

    def _change(self, fd: int, change: Change) -> None:
        contents = self._open[fd]
        assert isinstance(contents, Contents)
        contents.changes.append(change)

    def _sync(self, deed: Deed) -> None:
        synced = self._open[deed.fd]
        if isinstance(synced, Contents):
            synced.sync()
            return
        touching = [n for n, change in enumerate(self._waiting, 1) if change.touches(synced)]
        for change in self._waiting[: max(touching, default=0)]:
            change.apply(self._certain)
        del self._waiting[: max(touching, default=0)]

    def _fail_to_sync(self, deed: Deed) -> None:
        synced = self._open[deed.fd]
        if isinstance(synced, Contents):
            synced.fail_to_sync()

    def _rename(self, deed: Deed) -> None:
        self._name(NameChange(deed.name, deed.new_name, self._file(deed.name)))

    def _file(self, name: str) -> Contents:
        found = self._names[name]
        if found is None:
            raise NoRuleError(f"the folder {name} was renamed")
        return found

    def _name(self, change: NameChange) -> None:
        change.apply(self._names)
        self._waiting.append(change)


@dataclass(frozen=True, slots=True)
class Image:
    """What one power cut left: the files, and what had been acknowledged before it."""

    place: int
    told: tuple[str, ...]
    files: Files

    def lay(self, folder: Path) -> Path:
        """Write it out as a folder, for a program to start on."""
        for name, data in self.files.items():
            path = folder / name
            if data is None:
                path.mkdir(parents=True, exist_ok=True)
            else:
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(data)
        return folder


def cut(
    deeds: Sequence[Deed], count: int, seed: int, before: Image | None = None
) -> Iterator[Image]:
    """Yield images of so many power cuts, half of them right after an acknowledgement.

    A program that started on what an earlier cut left has that image before it.
    """
    dice = random.Random(seed)
    told = [place for place, deed in enumerate(deeds, 1) if deed.what == "A"]
    places = [dice.choice(told) for _ in range(count // 2)]
    places += [dice.randint(1, len(deeds)) for _ in range(count - len(places))]
    earlier = before.told if before else ()
    disk, done = Disk(before.files if before else None), 0
    for place in sorted(places):
        for deed in deeds[done:place]:
            disk.do(deed)
        done = place
        yield Image(place, (*earlier, *disk.told), disk.after_a_cut(dice))


def keep_all(change: Change) -> Sequence[Change]:
    """Return all of it: the running program sees what it wrote."""
    return [change]


def parent_of(name: str) -> str:
    """Return the folder that a name stands in; the watched folder itself is empty text."""
    return name.rpartition("/")[0]


def _chosen_by(dice: random.Random, chance: float) -> Survivors:
    def survivors(change: Change) -> Sequence[Change]:
        if dice.random() < chance:
            return [change]
        if chance == 0.0 or dice.random() < 0.5:
            return []
        return [sector for sector in change.sectors() if dice.random() < 0.5]

    return survivors


def _filled(names: dict[str, Contents | None], survivors: Survivors) -> Files:
    # Files under two names are filled once, so that both names show the same bytes.
    files = {id(found): found for found in names.values() if found is not None}
    filled = {key: bytes(found.after(survivors)) for key, found in files.items()}
    return {name: None if to is None else filled[id(to)] for name, to in names.items()}
