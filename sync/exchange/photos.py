"""Exchange of photos under the names of their content, after the entries; small ones first."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from models.book.row import entry_of
from models.entries.bodies.day import Photo
from sync.exchange.entry_source import EntrySource
from sync.exchange.job_folder import JobFolder, write_atomically
from sync.exchange.listing import BLOBS, THUMBS, JobListing
from sync.exchange.progress import ProgressReporter
from sync.exchange.sending import SendResult, write_and_verify
from sync.stores.contract import ListedFile, Store
from sync.stores.errors import NotInStoreError, TooLargeError

PHOTO_BYTES: Final = 25 * 1024 * 1024
THUMB_BYTES: Final = 256 * 1024
NO_THUMBNAILS: Final = (
    "No small pictures could be made here, so photos go whole and are seen when they have come."
)
Thumbnail = Callable[[bytes], bytes | None]
_NAME = re.compile(r"(?P<digest>[0-9a-f]{64})\.(?P<suffix>jpg|png)")


@dataclass(slots=True)
class PhotoResult:
    """Result of an exchange of pictures."""

    came: int = 0
    sent: int = 0
    awaited: int = 0  # photos of the book that are neither here nor in the store
    notes: list[str] = field(default_factory=list)
    sent_names: list[str] = field(default_factory=list)  # proven in the store, without folders


def wanted_photos(source: EntrySource) -> dict[str, str]:
    """Return the photos that entries tell of: content hash to kind of file."""
    found: dict[str, str] = {}
    for row in source.of_kinds(["photo"]):
        body = entry_of(row).body
        if isinstance(body, Photo):
            found[body.sha256] = body.suffix
    return found


@dataclass(frozen=True, slots=True)
class PhotoExchange:
    """Exchange of pictures, a single one in memory at a time.

    Its two parts raise what the store raises when it stops answering, and LocalStorageError;
    pictures before that are where they should be.
    """

    store: Store
    shown: JobListing
    place: JobFolder
    key: str
    steps: ProgressReporter
    sends: bool
    done: PhotoResult

    def exchange_thumbs(self, wanted: Iterable[str], make: Thumbnail | None) -> None:
        """Bring small pictures in and out; they are made here of photos that are here.

        What a store shows as one is nobody's signed word, so our own goes first, and goes out
        beside any other.
        """
        here = {name.partition("-")[0]: name for name in _files_in(self.place.thumbs)}
        away: dict[str, list[str]] = {}
        for name in sorted(self.shown.thumbs):
            away.setdefault(name.partition("-")[0], []).append(name)
        digests = sorted(set(wanted))
        for number, digest in enumerate(digests):
            self.steps.next_step("thumbs", number, len(digests))
            if digest not in here:
                name = self._make_thumb(digest, make) or self._fetch_thumb(away.get(digest, []))
                if name:
                    here[digest] = name
            if self.sends and digest in here and here[digest] not in self.shown.thumbs:
                self._send_thumb(here[digest])

    def exchange_photos(self, wanted: dict[str, str]) -> None:
        """Bring whole photos in and out."""
        names = _files_in(self.place.photos)
        here = {found["digest"] for name in names if (found := _NAME.fullmatch(name))}
        for number, (digest, suffix) in enumerate(sorted(wanted.items())):
            self.steps.next_step("photos", number, len(wanted))
            path = self.place.photos / f"{digest}.{suffix}"
            if digest not in here:
                self._fetch_photo(path, digest)
            elif self.sends:
                self._send_photo(path, digest)

    def _fetch_thumb(self, names: Iterable[str]) -> str:
        for name in names:
            digest = name.partition("-")[2]
            data = _read_named(self.store, self.shown.thumbs[name], digest, THUMB_BYTES)
            if data is not None:
                write_atomically(self.place.thumbs / name, data)
                self.done.came += 1
                return name
        return ""

    def _make_thumb(self, digest: str, make: Thumbnail | None) -> str:
        paths = [self.place.photos / f"{digest}.{suffix}" for suffix in ("jpg", "png")]
        photo = next((path for path in paths if path.is_file()), None)
        whole = _bytes_of(photo) if make is not None and photo is not None else b""
        is_true = hashlib.sha256(whole).hexdigest() == digest
        data = make(whole) if make is not None and is_true else None
        if data is None or len(data) > THUMB_BYTES:
            return ""
        name = f"{digest}-{hashlib.sha256(data).hexdigest()}"
        write_atomically(self.place.thumbs / name, data)
        return name

    def _send_thumb(self, name: str) -> None:
        data = (self.place.thumbs / name).read_bytes()
        if hashlib.sha256(data).hexdigest() == name.partition("-")[2]:
            self._send(f"{self.key}/{THUMBS}", name, data)

    def _fetch_photo(self, path: Path, digest: str) -> None:
        files = self.shown.photos.get(digest, [])
        data = _read_named(self.store, files, digest, PHOTO_BYTES)
        if data is None:
            self.done.awaited += 1
        else:
            write_atomically(path, data)
            self.done.came += 1

    def _send_photo(self, path: Path, digest: str) -> None:
        size = path.stat().st_size if path.is_file() else 0
        if any(file.size == size for file in self.shown.photos.get(digest, ())):
            return
        data = _bytes_of(path)
        if hashlib.sha256(data).hexdigest() == digest:
            self._send(f"{self.key}/{BLOBS}", digest, data)
        else:
            self.done.notes.append(f"Photo {path.name} was not sent: it is damaged here.")

    def _send(self, folder: str, name: str, data: bytes) -> None:
        sent = SendResult()
        write_and_verify(self.store, folder, f"{name[:2]}/{name}", data, sent)
        self.done.sent += sent.files
        self.done.sent_names += [name] if sent.files else []
        self.done.notes += sent.notes


def _read_named(store: Store, files: Iterable[ListedFile], digest: str, limit: int) -> bytes | None:
    """Return the bytes that hash to a name, from whichever file has them."""
    for file in files:
        try:
            data = store.read(file.name, limit)
        except (NotInStoreError, TooLargeError):
            continue
        if hashlib.sha256(data).hexdigest() == digest:
            return data
    return None


def _bytes_of(photo: Path) -> bytes:
    """Return the bytes of a photo; none if there is no file, or one larger than any photo."""
    size = photo.stat().st_size if photo.is_file() else 0
    return photo.read_bytes() if 0 < size <= PHOTO_BYTES else b""


def _files_in(folder: Path) -> list[str]:
    try:
        return sorted(os.listdir(folder))
    except OSError:
        return []
