"""A section that can't be made says so in its place; the paper and its check code are made."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest

from models.checks.flag_board import FlagBoard
from models.entries.kind_names import SURFACE
from models.state.check_code import check_code
from sync.papers.asbuilt.features import gather
from sync.papers.asbuilt.package import build_package
from sync.papers.asbuilt.pdf_file import build_as_built_pdf
from sync.papers.asbuilt.records import facts as asbuilt_facts
from sync.papers.day import pdf_file as pdf_day
from sync.papers.day import pdf_sections
from sync.papers.day import tables as day_tables
from sync.papers.day.day_files import SheetFormat, build_day_sheet
from sync.papers.day.facts import day as day_facts
from sync.papers.stakeout.facts import PadQuestion, gather_stakeout
from sync.papers.wording.missing_sections import MissingSections
from tests.sync.papers.asbuilt.record_books import us_record
from tests.sync.papers.pdf_reading import text_of
from tests.sync.papers.sample_day import US_DAY as DAY
from tests.sync.papers.sample_day import us_book

SAID = "This section could not be made: "
PARTS = [
    (day_facts, "loads_of", "loads"),
    (day_facts, "bar_of", "status"),
    (day_facts, "flags_of", "flags"),
    (day_facts, "quantities_of", "quantities"),
    (pdf_sections, "_passes", "Passes, and depths along each line"),
    (pdf_day, "needs_band", "needs band"),
    (pdf_day, "draw_plan", ""),
]


def broken(name: str) -> Callable[..., object]:
    """A builder that breaks, as one would at what nobody foresaw."""

    def fail(*_: object, **__: object) -> object:
        raise OverflowError("date value out of range")

    fail.__name__ = name
    return fail


@pytest.mark.parametrize(("module", "function", "name"), PARTS, ids=[part[1] for part in PARTS])
def test_day_sheet_is_printed_without_a_section(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, module: object, function: str, name: str
) -> None:
    """The section says that it could not be made; the code stands on the sheet all the same."""
    state = us_book().state
    monkeypatch.setattr(module, function, broken(function))
    path = tmp_path / "day.pdf"
    path.write_bytes(build_day_sheet(state, FlagBoard(state), DAY))
    text = " ".join(text_of(path).split())

    assert f"{SAID}{name}" in text
    assert "(OverflowError)" in text
    assert check_code(state, DAY) in text


def test_workbook_of_a_day_keeps_its_tabs(monkeypatch: pytest.MonkeyPatch) -> None:
    """A table that can't be made says so under its own name."""
    state = us_book().state
    monkeypatch.setattr(day_tables, "_loads", broken("_loads"))
    data = build_day_sheet(state, FlagBoard(state), DAY, format=SheetFormat.XLSX)
    book = openpyxl.load_workbook(io.BytesIO(data))

    assert book["loads"]["A2"].value == f"{SAID}loads (OverflowError)."
    assert book["entries"].max_row > 2


def test_record_is_printed_without_a_table_and_without_features(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A table, features of the ground, and pages that can't be laid out: each says so."""
    book = us_record()
    monkeypatch.setattr(asbuilt_facts, "load_record", broken("load_record"))
    monkeypatch.setattr(gather, "joints_of", broken("joints_of"))
    monkeypatch.setattr("sync.papers.asbuilt.pdf_file.profile_pages", broken("profile_pages"))
    facts = asbuilt_facts.gather_facts(book.state, FlagBoard(book.state))
    path = tmp_path / "record.pdf"
    path.write_bytes(build_as_built_pdf(facts))
    text = " ".join(text_of(path).split())

    for name in ("loads", "joints", "profiles"):
        assert f"{SAID}{name} (OverflowError)." in text
    assert facts.head.code in text


def test_package_lists_a_file_that_can_not_be_made(monkeypatch: pytest.MonkeyPatch) -> None:
    """The other files are there, and the list says which is not and why."""
    book = us_record()
    monkeypatch.setattr("sync.papers.asbuilt.package.build_as_built_xlsx", broken("xlsx"))
    files = {
        file.name: file.data for file in build_package(book.state, FlagBoard(book.state)).files()
    }

    assert "asbuilt.xlsx" not in files
    assert {"asbuilt.pdf", "asbuilt.dxf", "contents.txt"} <= set(files)
    assert f"asbuilt.xlsx: {SAID}asbuilt.xlsx (OverflowError)." in files["contents.txt"].decode()


def test_stake_out_goes_on_without_a_surface(monkeypatch: pytest.MonkeyPatch) -> None:
    """The surface says that it could not be made, and so does the cut sheet."""
    state = us_record().state
    monkeypatch.setattr("sync.papers.stakeout.facts.stake_out", broken("stake_out"))
    monkeypatch.setattr("sync.papers.stakeout.cut_sheet.cut_sheet", broken("cut_sheet"))
    sheet = gather_stakeout(state, PadQuestion())

    assert {one.name for one in sheet.surfaces} == {
        f"{SAID}{name} (OverflowError)." for name in state.every_name(SURFACE)
    }
    assert sheet.cuts[0].rows[0].items[0].shown == f"{SAID}cut sheets (OverflowError)."


def test_what_was_asked_wrongly_is_still_refused() -> None:
    """An error that is told to whoever asked is none of the entries' and goes through."""
    with pytest.raises(day_facts.SheetDayError):
        MissingSections().make_or_notice(
            "day",
            None,
            day_facts.gather_day,
            us_book().state,
            None,  # type: ignore[arg-type]
            "noon",
        )
