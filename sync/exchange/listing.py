"""Normalises a store's listing of a job: duplicates, part files, letter case."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Final

from sync.exchange.job_key import KEY_FORM, is_job_key
from sync.segments.file_name import SegmentName
from sync.stores.contract import ListedFile, Store

SEGMENTS: Final = "seg"
BLOBS: Final = "blob"
THUMBS: Final = "thumb"
_DIGEST = re.compile(r"[0-9a-f]{64}")
_THUMB = re.compile(r"[0-9a-f]{64}-[0-9a-f]{64}")


@dataclass(slots=True)
class JobListing:
    """Files of a job in a store, by what their names say."""

    segments: dict[SegmentName, list[ListedFile]] = field(default_factory=dict)
    photos: dict[str, list[ListedFile]] = field(default_factory=dict)
    thumbs: dict[str, list[ListedFile]] = field(default_factory=dict)
    strange: int = 0  # files with other names, which are left alone

    def names(self) -> set[str]:
        """Return every name of ours in the listing, wherever in the folder it lies."""
        return {str(name) for name in self.segments} | set(self.photos) | set(self.thumbs)


def list_job(store: Store, key: str) -> JobListing:
    """List the folder of a job.

    Raises
    ------
    sync.stores.errors.StoreError
        If the store can't be listed.
    """
    return normalise_listing(store.list(key))


def normalise_listing(listed: Iterable[ListedFile]) -> JobListing:
    """Put the files of a job in order; the same file twice counts once."""
    shown = JobListing()
    for one in sorted(set(listed), key=lambda one: (one.name, one.size)):
        last = one.name.rpartition("/")[2].lower()
        segment = SegmentName.find(one.name)
        if segment is not None:
            shown.segments.setdefault(segment, []).append(one)
        elif _DIGEST.fullmatch(last):
            shown.photos.setdefault(last, []).append(one)
        elif _THUMB.fullmatch(last):
            shown.thumbs.setdefault(last, []).append(one)
        else:
            shown.strange += 1
    return shown


@dataclass(frozen=True, slots=True)
class JobInStore:
    """A job that a store has a folder of."""

    key: str
    segments: int
    size: int

    @property
    def name(self) -> str:
        """Return the readable part of its key."""
        found = KEY_FORM.fullmatch(self.key)
        return self.key[: -len(found["digest"]) - 1] if found else self.key


def find_jobs(store: Store) -> list[JobInStore]:
    """List the jobs that a store has segments of, by key; nothing of them is read yet.

    Raises
    ------
    sync.stores.errors.StoreError
        If the store can't be listed.
    """
    found: dict[str, list[int]] = {}
    for one in set(store.list("")):
        key = one.name.partition("/")[0].lower()
        if is_job_key(key) and SegmentName.find(one.name) is not None:
            found.setdefault(key, []).append(one.size)
    return [JobInStore(key, len(sizes), sum(sizes)) for key, sizes in sorted(found.items())]
