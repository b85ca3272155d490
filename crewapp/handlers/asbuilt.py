"""Writing the as-built package of a job into a folder; nothing is inked by it."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from crewapp.handlers.photos import LARGEST_BYTES, photo_folder
from crewapp.job.open_job import OpenJob
from crewapp.tablet.atomic_files import NotSavedError, write_atomically
from crewapp.tablet.atomic_folders import atomic_folder, is_left_over
from models.errors import CrewError
from models.plain_files import open_plain
from models.state.check_code import book_code

if TYPE_CHECKING:
    from sync.papers.asbuilt.plans.paper_sizes import PaperSize, Scale

TABLES = "csv"


class AsBuiltFolderError(CrewError, OSError):
    """An as-built was to be written where something else lives."""

    code = "asbuilt.folder"
    sentence = (
        "The as-built was not written: {folder} {why}. Nothing was changed. A new or empty "
        "folder, or one that holds only an earlier as-built, would be accepted."
    )


class AsBuiltNotWrittenError(CrewError, OSError):
    """A file of an as-built could not be put into its folder."""

    code = "asbuilt.not_written"
    sentence = (
        "The as-built was not made: {name} was not written, {why}. What lies in {folder} is as it "
        "was. Free some room, or name a folder that can be written into, and make it again."
    )


class PaperUnknownError(CrewError, ValueError):
    """A paper was named that no sheet is laid out for."""

    code = "asbuilt.paper"
    sentence = "Cannot print on {text!r}: it is no paper known here. Accepted: {accepted}."


@dataclass(frozen=True, slots=True)
class AsBuiltResult:
    """As-built package as written: its files, what was left out and why, and the job's state."""

    files: tuple[Path, ...]
    left_out: tuple[tuple[str, str], ...]
    check_code: str
    open_stops: int
    open_flags: int


Progress = Callable[[str, int, int], None]
"""Called after each file: its name, its place, how many there are."""


def ignore_progress(name: str, place: int, count: int) -> None:
    """Take reports of progress and drop them, where nobody follows the work."""


def make_as_built(
    job: OpenJob, *, folder: str, paper: str = "", scale: str = "", told: Progress = ignore_progress
) -> AsBuiltResult:
    """Write the whole package beside its folder, then put it there: an earlier one gives way whole.

    A book that is not as it was written is told as such on every sheet.

    Raises
    ------
    AsBuiltFolderError
        If the folder holds anything but an earlier package; nothing was changed.
    AsBuiltNotWrittenError
        If a file can't be written.
    PaperUnknownError
        If no sheet of that paper is laid out.
    ScaleUnreadableError
        If the scale is none.
    ScaleTooLargeError
        If the scale would take more sheets than can be laid out; nothing was changed.
    """
    from models.checks.finding import Severity
    from sync.papers.asbuilt.package import build_package

    place = Path(folder)
    chosen, size = _scale(job, scale), _paper(paper)
    _refuse_foreign(place)
    package = build_package(
        job.state,
        job.board,
        paper=size,
        scale=chosen,
        file_of=_photo_files(job),
        is_sound=job.book.verify().is_sound,
    )
    names: list[str] = []
    with _making(place) as fresh:
        for file in package.files():
            _put(fresh, place, file.name, file.data)
            names.append(file.name)
            told(file.name, file.place, file.count)
    open_flags = job.board.open_flags()
    return AsBuiltResult(
        files=tuple(place / name for name in names),
        left_out=package.unavailable_files,
        check_code=book_code(job.state),
        open_stops=sum(flag.severity is Severity.STOP for flag in open_flags),
        open_flags=len(open_flags),
    )


def _scale(job: OpenJob, text: str) -> Scale | None:
    from sync.papers.asbuilt.plans.paper_sizes import read_scale

    is_us = job.state.job is None or job.state.job.unit_system == "us"
    return read_scale(text, is_us) if text else None


def _paper(text: str) -> PaperSize | None:
    from sync.papers.asbuilt.plans.paper_sizes import PaperSize

    accepted = [size.value for size in PaperSize]
    if text and text.lower() not in accepted:
        raise PaperUnknownError(text=text[:40], accepted=", ".join(accepted))
    return PaperSize(text.lower()) if text else None


def _photo_files(job: OpenJob) -> Callable[[str], bytes | None]:
    """Files of photos beside the book, by name; None for one that is not there or not itself."""
    folder = photo_folder(job.book.path)

    def file_of(name: str) -> bytes | None:
        try:
            with open_plain(folder / Path(name).name) as file:
                data = file.read(LARGEST_BYTES + 1)
        except OSError:
            return None
        is_itself = hashlib.sha256(data).hexdigest() == name.partition(".")[0]
        return data if is_itself else None

    return file_of


def _refuse_foreign(folder: Path) -> None:
    """Refuse a folder that holds anything that no package would put there."""
    try:
        if folder.exists() and not folder.is_dir():
            raise AsBuiltFolderError(folder=folder, why="is no folder")
        ours = _our_names(folder)
        for path in _all_below(folder) if folder.exists() else ():
            name = path.relative_to(folder).as_posix()
            if is_left_over(path):
                continue
            if name not in ours or path.is_symlink() or path.is_dir() != (name == TABLES):
                raise AsBuiltFolderError(folder=folder, why=f"holds {name}, which is no as-built's")
    except AsBuiltFolderError:
        raise
    except OSError as fault:
        why = f"can't be used ({fault.strerror or fault})"
        raise AsBuiltFolderError(folder=folder, why=why) from fault


def _all_below(folder: Path) -> list[Path]:
    """What lies in a folder and in its tables."""
    tables = folder / TABLES
    inside = tables.iterdir() if tables.is_dir() and not tables.is_symlink() else ()
    return sorted([*folder.iterdir(), *inside])


def _our_names(folder: Path) -> frozenset[str]:
    """Names that an earlier package put here; parts left by a cut count as well.

    Tables have names that anybody may use: they are a package's beside its PDF alone, which
    is the first file of it. What an earlier version called otherwise stands in its list.
    """
    from sync.papers.asbuilt.package import BEGINS, CONTENTS, PDF, file_names

    listed = _text_of(folder / CONTENTS)
    named = file_names() if not listed or listed.startswith(BEGINS) else file_names() - {CONTENTS}
    if not (folder / PDF).is_file():
        named = frozenset(name for name in named if "/" not in name)
    before = re.findall(r"^[0-9a-f]{64}  (csv/[a-z_]+\.csv)  ", listed, re.MULTILINE)
    whole = {TABLES, *named, *(before if CONTENTS in named else ())}
    return frozenset({*whole, *(re.sub(r"([^/]+)$", r".\1.part", name) for name in whole)})


def _text_of(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8", errors="replace") if path.is_file() else ""
    except OSError:
        return ""


@contextmanager
def _making(folder: Path) -> Iterator[Path]:
    """Give the folder that the package is made in before it takes its place."""
    try:
        with atomic_folder(folder) as fresh:
            yield fresh
    except (CrewError, BrokenPipeError):
        raise
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise AsBuiltNotWrittenError(folder=folder, name=folder.name, why=why) from fault


def _put(fresh: Path, folder: Path, name: str, data: bytes) -> None:
    try:
        write_atomically(fresh / name, data, is_lasting=False)
    except NotSavedError as fault:
        why = fault.context["why"]
        raise AsBuiltNotWrittenError(folder=folder, name=name, why=why) from fault
