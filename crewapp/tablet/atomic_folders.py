"""Folders that are made whole beside their place and then put into it, or are as they were."""

from __future__ import annotations

import os
import shutil
import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from types import FrameType

from models.book.file.fsync_folder import make_folder_durably, make_folder_or_undo

MAKING = ".making"
_WHOLE, _BEFORE = "whole", "before"


@contextmanager
def atomic_folder(folder: Path) -> Iterator[Path]:
    """Give an empty folder to write into; at the end it takes the place of ``folder``.

    Until then nothing in ``folder`` changes, and if the writing ends in an exception nothing
    ever does; then all that was in it gives way. What a kill left beside it is taken away the
    next time. A folder that can't be moved, since a disk is mounted on it or somebody works
    in it, is given the content instead.

    Raises
    ------
    OSError
        If the storage refuses; ``folder`` is as it was.
    """
    place = folder.resolve()
    stays = place.is_dir() and (_is_fixed(place) or not os.access(place.parent, os.W_OK))
    scratch = place / MAKING if stays else place.with_name(f".{place.name}{MAKING}")
    _clear(scratch)
    fresh = scratch / _WHOLE
    with make_folder_or_undo(scratch.parent):
        try:
            make_folder_durably(fresh)
            yield fresh
            with _uninterrupted():
                if stays:
                    _put_content(fresh, place, scratch / _BEFORE)
                else:
                    _put_folder(fresh, place, scratch / _BEFORE)
        finally:
            with _uninterrupted(), suppress(OSError):
                _clear(scratch)


def is_left_over(path: Path) -> bool:
    """Whether this lies in a folder only because making it anew was killed."""
    return path.name == MAKING and path.is_dir() and not path.is_symlink()


def _is_fixed(place: Path) -> bool:
    """Whether a folder must stay the folder that it is: mounted on, or worked in from here."""
    return os.path.ismount(place) or Path.cwd().is_relative_to(place)


def _clear(scratch: Path) -> None:
    if scratch.exists():
        shutil.rmtree(scratch)


def _put_folder(fresh: Path, place: Path, before: Path) -> None:
    """Give the new folder the old one's name; a refusal gives it back."""
    if not place.exists():
        fresh.rename(place)
        return
    place.rename(before)
    try:
        fresh.rename(place)
    except BaseException:
        before.rename(place)
        raise


def _put_content(fresh: Path, place: Path, before: Path) -> None:
    """Put what is in the new folder where the old one's content was; a refusal puts it back."""
    moves: list[tuple[Path, Path]] = []
    before.mkdir()
    try:
        for old in [path for path in place.iterdir() if path.name != MAKING]:
            moves.append((old, old.rename(before / old.name)))
        for new in list(fresh.iterdir()):
            moves.append((new, new.rename(place / new.name)))
    except BaseException:
        for was, now in reversed(moves):
            now.rename(was)
        raise


@contextmanager
def _uninterrupted() -> Iterator[None]:
    """Let a Ctrl-C wait until a few names are changed; only the first thread is told of one."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    came: list[int] = []

    def note(number: int, _frame: FrameType | None) -> None:
        came.append(number)

    before = signal.signal(signal.SIGINT, note)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, signal.SIG_DFL if before is None else before)
        if came:
            signal.raise_signal(signal.SIGINT)
