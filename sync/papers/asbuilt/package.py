"""As-built package: PDF, workbook, data files and a list of them, made one after another."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from models.checks.flag_board import FlagBoard
from models.counted import CountedNoun
from models.state.job_state import JobState
from sync.papers.asbuilt.data_files import data_files, unavailable_files
from sync.papers.asbuilt.pages.photo_files import PhotoFile
from sync.papers.asbuilt.pdf_file import build_as_built_pdf, no_photo_files
from sync.papers.asbuilt.plans.paper_sizes import PaperSize, Scale
from sync.papers.asbuilt.records.facts import Facts, gather_facts
from sync.papers.asbuilt.records.heading import STATEMENT, UNSOUND
from sync.papers.asbuilt.xlsx_file import build_as_built_xlsx
from sync.papers.wording.missing_sections import MissingSections
from sync.papers.wording.safe_text import single_line

PDF, XLSX, CONTENTS = "asbuilt.pdf", "asbuilt.xlsx", "contents.txt"
_ABOUT = {PDF: "plans, profiles, tables and photos, for keeping", XLSX: "every table, a tab each"}
_TABLES = (
    *("about", "surfaces", "keep_outs", "lines", "probes", "collectors", "collectors_laid"),
    *("stations", "inverts", "joints", "released", "utilities", "points", "ties", "photos"),
    *("outlets", "struck"),
)
BEGINS = "As built: "
"""How the list of files begins: by it an earlier one is known."""
READING = (
    "Reading the files in ten years: asbuilt.pdf needs any PDF reader; the csv files are plain "
    "UTF-8 text with commas, a head line with the unit in each column's name; asbuilt.gpkg is an "
    "SQLite file. Where two files should ever differ, the PDF is the record."
)


@dataclass(frozen=True, slots=True)
class MadeFile:
    """A file of the package as it is made; ``place`` of ``count``, from 1."""

    name: str
    about: str
    data: bytes
    place: int
    count: int


def file_names() -> frozenset[str]:
    """Names that a package may hold, below its folder; ``csv`` is the only folder in it."""
    named = {PDF, XLSX, CONTENTS, "asbuilt.dxf", "asbuilt.geojson", "asbuilt.kml"}
    return frozenset(
        {*named, "asbuilt.gpkg", "pipe-run.xml", *(f"csv/{one}.csv" for one in _TABLES)}
    )


@dataclass(frozen=True, slots=True)
class Package:
    """A package about to be made, on its paper and to its scale."""

    facts: Facts
    paper: PaperSize | None = None
    scale: Scale | None = None
    file_of: PhotoFile = no_photo_files

    @property
    def unavailable_files(self) -> tuple[tuple[str, str], ...]:
        """Files that can't be made of this job or on this device, each with its sentence."""
        return unavailable_files(self.facts.job)

    def files(self) -> Iterator[MadeFile]:
        """Make every file in turn, so that whoever asks can say how far it is.

        Raises
        ------
        ScaleTooLargeError
            If the scale asked for would take more sheets than can be laid out; nothing was made.
        """
        made = MissingSections()
        data = made.make_or_notice("data files", (), data_files, self.facts.job)
        missing = [*self.unavailable_files, *(("data files", text) for text in made.told)]
        count = len(data) + 3
        named = (
            (XLSX, _ABOUT[XLSX]),
            *((file.name, file.about) for file in data if "/" not in file.name),
            ("csv/*.csv", "the same features as tables of plain text"),
            (CONTENTS, "every file with its digest"),
        )
        builders: list[_Builder] = [
            (PDF, _ABOUT[PDF], lambda: self._pdf(named)),
            (XLSX, _ABOUT[XLSX], lambda: build_as_built_xlsx(self.facts)),
            *((file.name, file.about, partial(file.build, self.facts.job)) for file in data),
        ]
        listed: list[tuple[str, str, bytes]] = []
        for place, (name, about, build) in enumerate(builders, start=1):
            made = MissingSections()
            written = made.make_or_notice(name, None, build)
            missing += [(name, text) for text in made.told]
            if written is not None:
                listed.append((name, about, written))
                yield MadeFile(name, about, written, place, count)
        contents = _contents(self.facts, listed, tuple(missing))
        yield MadeFile(
            CONTENTS, "what is here, with the digest of each file", contents, count, count
        )

    def _pdf(self, named: tuple[tuple[str, str], ...]) -> bytes:
        return build_as_built_pdf(
            self.facts, paper=self.paper, scale=self.scale, file_of=self.file_of, files=named
        )


_Builder = tuple[str, str, Callable[[], bytes]]


def build_package(
    state: JobState,
    board: FlagBoard,
    *,
    paper: PaperSize | None = None,
    scale: Scale | None = None,
    file_of: PhotoFile = no_photo_files,
    is_sound: bool = True,
) -> Package:
    """Gather a job for its package; a file is made only when ``files`` comes to it.

    A book that was not found sound is told as such on every sheet.
    """
    return Package(gather_facts(state, board, is_sound=is_sound), paper, scale, file_of)


def _contents(
    facts: Facts, listed: list[tuple[str, str, bytes]], missing: tuple[tuple[str, str], ...]
) -> bytes:
    """List of files with their digests, what was left out and why, how to read and prove it."""
    head = facts.head
    lines = [f"{BEGINS}{single_line(head.job)}", f"Work done: {head.worked}"]
    lines += [
        f"Check code {head.code}, made from {CountedNoun(head.entries):entry|entries}.",
        "",
        STATEMENT,
        "",
    ]
    lines += [] if head.is_sound else [UNSOUND, ""]
    for name, about, data in listed:
        lines.append(f"{hashlib.sha256(data).hexdigest()}  {name}  ({len(data)} bytes; {about})")
    if missing:
        lines += ["", "Left out:", *(f"{name}: {why}" for name, why in missing)]
    lines += ["", READING, "", f"Prove it: crewapp verify BOOK --code {head.code}"]
    return ("\r\n".join(lines) + "\r\n").encode()
