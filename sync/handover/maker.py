"""Making a hand-over: every segment that is held, and photos, into one file."""

from __future__ import annotations

import contextlib
import os
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from models.book.file.fsync_folder import fsync_folder
from models.book.row import Row, entry_of
from models.book.store import Book
from models.entries.bodies.day import Photo
from sync.exchange.coverage import count_covered, unsigned_entries
from sync.exchange.errors import LocalStorageError
from sync.exchange.exchange_log import ExchangeLog, known_job
from sync.exchange.job_folder import JobFolder
from sync.exchange.listing import BLOBS, SEGMENTS
from sync.exchange.photos import PHOTO_BYTES
from sync.exchange.progress import OnStep
from sync.exchange.sealing import seal_new_rows
from sync.handover.errors import HandoverEmptyError, HandoverNotMadeError
from sync.segments.errors import SegmentError
from sync.segments.file_name import SegmentName
from sync.segments.reader import open_segment
from sync.trust.keys import KeyRing

SUFFIX = ".crew"
_MADE = (1980, 1, 1, 0, 0, 0)  # the same entries give the same bytes, whenever it is made
_MODE = 0o644 << 16
_REMEDY = "A folder with room that may be written to would do"
STANDS_ON = frozenset({"job", "surface", "collector", "material", "tablet_added", "tablet_revoked"})


@dataclass(frozen=True, slots=True)
class Handover:
    """A finished hand-over file, with its counts of entries, segments and photos."""

    path: Path
    segments: int
    photos: int
    size: int
    notes: tuple[str, ...] = ()
    entries: int = 0


def make_handover(
    book: Book,
    ring: KeyRing,
    out: Path,
    *,
    day: str = "",
    with_photos: bool = True,
    on_step: OnStep | None = None,
) -> Handover:
    """Put a job into one new file: all of it, or all that leads up to a day.

    Parameters
    ----------
    book : Book
        The job's book.
    ring : KeyRing
        Keys of this tablet's streams, for what is not in a segment yet.
    out : Path
        The file to make.
    day : str
        Leave out what came in segments after this day, and photos of all other days.
    with_photos : bool
        Whether photos go along.
    on_step : callable, optional
        Told ``("seal" or "pack", done, total)``.

    Raises
    ------
    NoJobYetError
        If the book holds no job.
    HandoverNotMadeError
        If there is a file of that name, no room, or too much for one file; nothing is left.
    HandoverEmptyError
        If no entry could go into it; nothing is left.
    """
    _require_place(out)
    place = JobFolder.of_book(book.path)
    log = ExchangeLog.read(place.log)
    job = log.remember_job(known_job(book))
    # The notes are not written: an exchange of this book may be going on, and they are its.
    try:
        sealed = seal_new_rows(book, place, log, ring, job.key)
    except LocalStorageError as fault:
        why = f"what goes into it is sealed beside {book.path.name} first ({fault.context['why']})"
        raise _not_made(
            out, why, "A book in a folder with room that may be written to would do"
        ) from fault
    names = [name for name in sorted(place.names()) if not log.is_refused(name)]
    if day:
        names = list(_up_to(place, names, day))
    short = unsigned_entries(book, place, names, lambda row: _is_wanted(row, day))
    if not names:
        raise HandoverEmptyError(name=out.name, why=" ".join(map(str, short)) or "It is empty.")
    photos = list(_photos(book, place, day)) if with_photos else []
    _write(out, place, job.key, names, photos, on_step)
    notes = (*sealed.notes, *map(str, short))
    return Handover(out, len(names), len(photos), out.stat().st_size, notes, count_covered(names))


def _require_place(out: Path) -> None:
    """See before any work whether a new file can be made here; a full disk shows later.

    Raises
    ------
    HandoverNotMadeError
        If something has the name, or the folder is none or is locked.
    """
    try:
        out.lstat()
    except FileNotFoundError:
        pass
    except OSError as fault:
        raise _refused(out, fault) from fault
    else:
        if out.is_dir():
            raise _not_made(
                out, "that is a folder", f"A file in it such as {out / 'job'}{SUFFIX} would do"
            )
        raise _not_made(out, "there is a file of that name", "Choose another name")
    if not out.parent.is_dir():
        raise _not_made(out, f"there is no folder {out.parent}", _REMEDY)
    if not os.access(out.parent, os.W_OK | os.X_OK):
        raise _not_made(out, f"the folder {out.parent} may not be written to", _REMEDY)


def _is_wanted(row: Row, day: str) -> bool:
    """Whether a hand-over up to a day needs an entry; of the whole job it needs all."""
    return not day or row.day <= day or row.kind in STANDS_ON


def _up_to(place: JobFolder, names: Iterable[SegmentName], day: str) -> Iterator[SegmentName]:
    """Leave out segments at the end of a stream that hold nothing the day needs.

    That is what was written up to it, and the job, its tablets and its plan, whenever
    they were written: without them nobody could take the file in.
    """
    kept = list(names)
    last: dict[str, int] = {}
    for name in kept:
        try:
            rows = open_segment(name, place.read(name)).rows()
        except SegmentError:
            continue
        if any(_is_wanted(row, day) for row in rows):
            last[name.stream] = max(last.get(name.stream, 0), name.last)
    return (name for name in kept if name.last <= last.get(name.stream, 0))


def _photos(book: Book, place: JobFolder, day: str) -> Iterator[Path]:
    found: set[Path] = set()
    for row in book.of_kinds(["photo"]):
        body = entry_of(row).body
        if isinstance(body, Photo) and (not day or row.day == day):
            found.add(place.photos / f"{body.sha256}.{body.suffix}")
    return (path for path in sorted(found) if path.is_file() and path.stat().st_size <= PHOTO_BYTES)


def _write(
    out: Path,
    place: JobFolder,
    key: str,
    names: list[SegmentName],
    photos: list[Path],
    on_step: OnStep | None,
) -> None:
    part = out.with_name(f".{out.name}.part")
    try:
        with part.open("wb") as file:
            with zipfile.ZipFile(file, "w", zipfile.ZIP_STORED, allowZip64=False) as archive:
                total = len(names) + len(photos)
                for number, (path, data) in enumerate(_members(place, key, names, photos)):
                    if on_step is not None:
                        on_step("pack", number, total)
                    archive.writestr(_info(path), data)
            file.flush()
            os.fsync(file.fileno())
        fsync_folder(out.parent)  # refused now rather than when the file has its name
        part.replace(out)
        with contextlib.suppress(OSError):
            fsync_folder(out.parent)
    except zipfile.LargeZipFile as fault:
        raise _not_made(out, "it is more than one file can hold", "Leave the photos out") from fault
    except OSError as fault:
        raise _refused(out, fault) from fault
    finally:
        with contextlib.suppress(OSError):  # half of a large file would keep a full disk full
            part.unlink(missing_ok=True)


def _members(
    place: JobFolder, key: str, names: Iterable[SegmentName], photos: Iterable[Path]
) -> Iterator[tuple[str, bytes]]:
    for name in names:
        yield f"{key}/{SEGMENTS}/{name}", place.read(name)
    for photo in photos:
        yield f"{key}/{BLOBS}/{photo.stem[:2]}/{photo.stem}", photo.read_bytes()


def _info(path: str) -> zipfile.ZipInfo:
    info = zipfile.ZipInfo(path, _MADE)
    info.external_attr = _MODE
    info.create_system = 3
    return info


def _refused(out: Path, fault: OSError) -> HandoverNotMadeError:
    why = f"{fault.strerror or fault}, in {out.parent}"
    return _not_made(out, why, _REMEDY)


def _not_made(out: Path, why: str, remedy: str) -> HandoverNotMadeError:
    return HandoverNotMadeError(name=out.name, why=why, remedy=remedy)
