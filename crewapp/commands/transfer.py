"""Requests for a transfer: an exchange with a store, or with one file."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path


class TransferKind(StrEnum):
    """Kind of a transfer: exchange with a store, look into it, or work with one file."""

    EXCHANGE = "exchange"
    FIND_JOBS = "find_jobs"
    JOIN_STORE = "join_store"
    TAKE_FILE = "take_file"
    JOIN_FILE = "join_file"
    MAKE_FILE = "make_file"


@dataclass(frozen=True, slots=True, kw_only=True)
class TransferRequest:
    """Transfer that a page requests; each kind reads the fields that it needs."""

    kind: TransferKind
    key: str = ""  # the job that is joined
    path: Path = Path()  # the file that is taken or joined
    day: str = ""  # the last day that a made file holds, "" for all
    with_photos: bool = True
    allow_less: bool = False
    over_gaps: bool = False
