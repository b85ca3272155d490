"""A hand-over file from anybody, read as a store: nothing in it names a path or a size we trust.

Its members are stored as they are, so nothing unpacks here; what is inside them is judged
like anything else that comes from a store.
"""

from __future__ import annotations

import struct
import zipfile
from collections.abc import Sequence
from pathlib import Path
from typing import IO, Final

from models.closing import Closing
from models.plain_files import open_plain
from sync.exchange.photos import PHOTO_BYTES
from sync.handover.errors import HandoverUnreadableError
from sync.stores.contract import ListedFile, is_name
from sync.stores.errors import NotInStoreError, StoreRefusedError, TooLargeError

LIST_BYTES: Final = 8 * 1024 * 1024
_END = struct.Struct("<4s4H2LH")  # end of central directory, without a comment
_LOCATOR = b"PK\x06\x07"
_LOCAL_HEADER_BYTES = 30
_ENCRYPTED = 0x1


class HandoverStore(Closing):
    """An opened hand-over file; it can be listed and read, and nothing is written to it.

    Raises
    ------
    HandoverUnreadableError
        If it is no hand-over file, or one that no crewapp makes.
    """

    def __init__(self, path: Path) -> None:
        self._name = path.name
        self._members: dict[str, zipfile.ZipInfo] = {}
        self.strange = 0  # members with names that no store takes; they are left alone
        try:
            self._file: IO[bytes] = open_plain(path)
        except OSError as fault:
            raise self._refused(fault.strerror or str(fault)) from fault
        try:
            list_at = self._require_small_list()
            self._zip = zipfile.ZipFile(self._file)
            self._require_plain(self._zip.infolist(), list_at)
        except (
            zipfile.BadZipFile,
            struct.error,
            OSError,
            ValueError,
            NotImplementedError,
        ) as fault:
            self._file.close()
            if isinstance(fault, HandoverUnreadableError):
                raise
            raise self._refused("it is no archive, or is cut short") from fault

    def list(self, folder: str) -> list[ListedFile]:
        """Return the members below a folder; "" is the whole file."""
        start = f"{folder}/" if folder else ""
        return [
            ListedFile(name, info.file_size)
            for name, info in sorted(self._members.items())
            if name.startswith(start)
        ]

    def read(self, name: str, limit: int) -> bytes:
        """Return the bytes of a member, of which there may be at most ``limit``."""
        info = self._members.get(name)
        if info is None:
            raise NotInStoreError(name=name, where=self._name)
        if info.file_size > limit:
            raise TooLargeError(name=name, where=self._name, limit=limit)
        try:
            with self._zip.open(info) as member:
                return member.read(limit)
        except (zipfile.BadZipFile, OSError, EOFError, ValueError, NotImplementedError) as fault:
            raise NotInStoreError(name=name, where=self._name) from fault

    def write(self, name: str, data: bytes) -> None:
        """Refuse: what was handed over is not changed."""
        raise StoreRefusedError(
            where=self._name, act="take anything", why="it is a hand-over", remedy="Make a new one"
        )

    def close(self) -> None:
        """Close the hand-over file."""
        self._zip.close()
        self._file.close()

    def _require_small_list(self) -> int:
        """Look at the end of the file by ourselves: the library would believe any size.

        Returns where the list of members begins.
        """
        size = self._file.seek(0, 2)
        if size < _END.size:
            raise self._refused("it is no archive, or is cut short")
        back = min(size, _END.size + 20)
        self._file.seek(size - back)
        tail = self._file.read(back)
        mark, _, _, _, _, list_size, at, comment = _END.unpack(tail[-_END.size :])
        if mark != b"PK\x05\x06" or comment or _LOCATOR in tail[: -_END.size]:
            raise self._refused("it is no archive, or not one that crewapp makes")
        if list_size > LIST_BYTES or at + list_size + _END.size != size:
            raise self._refused("its list of members is larger than a hand-over needs, or moved")
        self._file.seek(0)
        return int(at)

    def _require_plain(self, infos: Sequence[zipfile.ZipInfo], list_at: int) -> None:
        end = 0
        for info in sorted(infos, key=lambda info: info.header_offset):
            plain = info.compress_type == zipfile.ZIP_STORED
            if not plain or info.file_size != info.compress_size or info.flag_bits & _ENCRYPTED:
                raise self._refused("a member is packed or encrypted")
            if info.header_offset < end:
                raise self._refused("one member lies over another")
            end = info.header_offset + _LOCAL_HEADER_BYTES + info.compress_size
            if end > list_at:
                raise self._refused("a member is said to reach past the place of all members")
            if info.file_size > PHOTO_BYTES:
                raise self._refused("a member is larger than any photo")
            if not is_name(info.filename):
                self.strange += 1
            elif info.filename in self._members:
                raise self._refused("two members have one name")
            else:
                self._members[info.filename] = info

    def _refused(self, why: str) -> HandoverUnreadableError:
        return HandoverUnreadableError(name=self._name, why=why)
