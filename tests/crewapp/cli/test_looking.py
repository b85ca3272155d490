"""Commands that look at a book: check, sheet, verify. They change nothing."""

from __future__ import annotations

import json
import shutil
import sqlite3
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.books import book_to_read
from crewapp.cli.main import main
from crewapp.demo.story import STREAM
from models.state.check_code import check_code

MONDAY, TUESDAY, WEDNESDAY = "2026-05-11", "2026-05-12", "2026-05-13"
Captured = pytest.CaptureFixture[str]


def examples_text(capsys: Captured, *words: object, code: int = 0) -> Any:
    """Run a command with --json and return what it tells."""
    assert main([*map(str, words), "--json"]) == code
    return json.loads(capsys.readouterr().out)


def code_of(book: Path, day: str) -> str:
    """Return the check code of a day."""
    with book_to_read(book) as job:
        return check_code(job.state, day)


def test_check_lists_what_stands_open(demo_book: Path, capsys: Captured) -> None:
    """The demo ends with two things to put right and the notes about them."""
    flags = examples_text(capsys, "check", demo_book)["flags"]

    assert [flag["flag"].split("/")[0] for flag in flags if flag["severity"] == "fix"] == [
        "delivery_without_ticket",
        "sand_moist",
    ]
    assert {flag["severity"] for flag in flags} == {"fix", "note"}


def test_check_shows_answered_flags_when_asked(demo_book: Path, capsys: Captured) -> None:
    """With --all the belly shows with its answer; answered, it no longer stops."""
    flags = examples_text(capsys, "check", demo_book, "--all")["flags"]

    belly = next(flag for flag in flags if flag["flag"].startswith("belly"))
    assert (belly["severity"], belly["answer"]) == ("stop", "rework")


def test_check_prints_sentences(demo_book: Path, capsys: Captured) -> None:
    """Printed for people, a flag says what was found, why it matters and what to do."""
    assert main(["check", str(demo_book), "--all"]) == 0

    out = capsys.readouterr().out
    assert "FIX   2026-05-13  Sand put into F2-09 was damp" in out
    assert "      why: " in out
    assert "answered: rework. First thing tomorrow" in out


def test_check_stops_while_a_stop_is_open(tmp_path: Path, capsys: Captured) -> None:
    """Exit 1 says that something stops the work."""
    notes = tmp_path / "n.csv"
    notes.write_text(
        "day,entry,surface,pass,lines,length,at,depth\n"
        "2026-05-11,pass,G7,A,S01,30,,\n2026-05-11,probe,,A,S01,,2,7\n"
    )
    plan = Path(__file__).parents[3] / "fixtures" / "plans" / "small.json"
    book = tmp_path / "b.book"
    assert main(["plan", str(book), str(plan)]) == 0
    assert main(["log", str(book), str(notes)]) == 0
    capsys.readouterr()

    assert "depth_shallow/A" in str(examples_text(capsys, "check", book, code=1))


def test_check_of_a_quiet_job_says_so(tmp_path: Path, capsys: Captured) -> None:
    """A job without faults is told in one line."""
    plan = Path(__file__).parents[3] / "fixtures" / "plans" / "small.json"
    main(["plan", str(tmp_path / "b.book"), str(plan)])
    capsys.readouterr()

    assert main(["check", str(tmp_path / "b.book")]) == 0
    assert capsys.readouterr().out == "Hollow green: nothing stands open.\n"


@pytest.mark.parametrize(("day", "files"), [(MONDAY, 3), (TUESDAY, 3), ("2026-05-08", 3)])
def test_sheet_is_written_in_every_form(
    demo_book: Path, tmp_path: Path, capsys: Captured, day: str, files: int
) -> None:
    """A sheet comes as PDF, XLSX and CSV, with the code that proves it."""
    out = examples_text(capsys, "sheet", demo_book, "--day", day, "--out", tmp_path / "s")

    assert sorted(Path(path).suffix for path in out["files"]) == [".csv", ".pdf", ".xlsx"]
    assert all(Path(path).stat().st_size for path in out["files"])
    assert out["check_code"] == code_of(demo_book, day)


def test_sheet_without_a_day_is_of_the_last_one_worked(
    demo_book: Path, tmp_path: Path, capsys: Captured
) -> None:
    """The last day worked is what one asks for most."""
    assert main(["sheet", str(demo_book), "--out", str(tmp_path / "s")]) == 0

    assert f"Sheet of {WEDNESDAY}, check code" in capsys.readouterr().out


def test_unknown_day_says_which_there_are(demo_book: Path, capsys: Captured) -> None:
    """A day on which nothing was written is answered by those that there are."""
    assert main(["sheet", str(demo_book), "--day", "2026-05-10"]) == 2

    assert (
        "Its days are: 2026-05-08, 2026-05-11, 2026-05-12, 2026-05-13." in capsys.readouterr().err
    )


def test_verify_proves_book_and_days(demo_book: Path, capsys: Captured) -> None:
    """With nothing named, the chain and every signed day are proven."""
    out = examples_text(capsys, "verify", demo_book)

    assert out["sound"]
    assert [(one["day"], one["outcome"]) for one in out["proofs"]] == [
        (day, "proven") for day in (MONDAY, TUESDAY, WEDNESDAY)
    ]


@pytest.mark.parametrize("typed", [str.lower, lambda code: code.replace("-", " ")])
def test_verify_proves_a_code_however_typed(demo_book: Path, capsys: Captured, typed: Any) -> None:
    """A code typed in small letters or other groups is the same code."""
    out = examples_text(capsys, "verify", demo_book, "--code", typed(code_of(demo_book, MONDAY)))

    assert (out["proofs"][0]["outcome"], out["proofs"][0]["day"]) == ("proven", MONDAY)


def test_verify_tells_a_code_of_another_day(demo_book: Path, capsys: Captured) -> None:
    """A code is proven for its own day alone."""
    code = code_of(demo_book, MONDAY)

    out = examples_text(capsys, "verify", demo_book, "--code", code, "--day", TUESDAY, code=1)

    assert f"belongs to {MONDAY}, not to {TUESDAY}" in out["proofs"][0]["sentence"]


def test_verify_tells_a_code_of_no_day(demo_book: Path, capsys: Captured) -> None:
    """A code that this book never had is not proven."""
    out = examples_text(capsys, "verify", demo_book, "--code", "7KQ2-01XM-9P3A-TTB4-6WZE", code=1)

    assert out["proofs"][0]["outcome"] == "not proven"


def test_verify_shows_what_came_after_a_sheet(demo_book: Path, capsys: Captured) -> None:
    """The first sheet of a reopened day is not proven, and what came since is listed."""
    with book_to_read(demo_book) as job:
        first = next(entry.body for entry in job.state.days[TUESDAY] if entry.kind == "day_closed")
    code = first.check_code  # type: ignore[union-attr]

    assert main(["verify", str(demo_book), "--code", code]) == 1
    out = capsys.readouterr().out
    assert f"Not proven: {TUESDAY} has changed; 1 entry was written for it since." in out
    assert "since then: " in out


def test_verify_names_a_row_that_was_tampered_with(
    demo_book: Path, tmp_path: Path, capsys: Captured
) -> None:
    """A row that says something else than was hashed is named, and no sheet is proven by it."""
    book = tmp_path / "t.book"
    shutil.copy(demo_book, book)
    with sqlite3.connect(book) as file:
        triggers = file.execute(
            "SELECT name, sql FROM sqlite_master WHERE type='trigger'"
        ).fetchall()
        for name, _ in triggers:
            file.execute(f"DROP TRIGGER {name}")
        file.execute("UPDATE entry SET author = 'nobody' WHERE seq = 100")
        for _, sql in triggers:
            file.execute(sql)
    file.close()

    out = examples_text(capsys, "verify", book, code=1)
    assert [fault.startswith(f"entry 100 of stream {STREAM}") for fault in out["faults"]] == [True]
    assert out["proofs"] == []
    assert main(["verify", str(book)]) == 1
    assert "not as it was written" in capsys.readouterr().out


def test_sheet_of_a_book_that_was_tampered_with_says_so(
    demo_book: Path, tmp_path: Path, capsys: Captured
) -> None:
    """A changed reading still prints, but never without a word, and never with exit 0."""
    book = tmp_path / "t.book"
    shutil.copy(demo_book, book)
    with sqlite3.connect(book) as file:
        file.execute("DROP TRIGGER entry_no_update")
        file.execute("UPDATE entry SET raw = replace(CAST(raw AS TEXT), '9', '8') WHERE seq = 100")
    file.close()

    assert main(["sheet", str(book), "--day", TUESDAY, "--out", str(tmp_path)]) == 1
    assert "this sheet proves nothing" in capsys.readouterr().err
    assert examples_text(capsys, "sheet", demo_book, "--out", tmp_path)["book_is_sound"]
