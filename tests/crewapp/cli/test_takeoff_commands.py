"""Commands of the plan's figures: take-off, gates, sieve sheets. Looking changes nothing."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.books import book_to_read
from crewapp.cli.main import main
from models.entries.kind_names import SIEVE_TEST

Captured = pytest.CaptureFixture[str]
GOOD = "sieve no,retained g\n6,0\n10,1\n18,7\n35,27\n60,46\n100,13\n270,4\npan,2\n"
FINE = "sieve no,retained g\n6,0\n10,1\n18,7\n35,27\n60,30\n100,29\n270,4\npan,2\n"


def examples_text(capsys: Captured, *words: object, code: int = 0) -> Any:
    """Run a command with --json and return what it tells."""
    assert main([*map(str, words), "--json"]) == code
    return json.loads(capsys.readouterr().out)


@pytest.fixture
def own_book(demo_book: Path, tmp_path: Path) -> Path:
    """A copy of the demo's book, to be written into."""
    return Path(shutil.copy(demo_book, tmp_path / "own.book"))


def test_takeoff_tells_quantities_with_their_arithmetic(demo_book: Path, capsys: Captured) -> None:
    """Every line has its amount as shown and how it came about; parts come before the whole."""
    found = examples_text(capsys, "plan", "takeoff", demo_book)
    lines = {line["item"]: line for line in found["lines"]}

    assert lines["sand slits"]["shown"].endswith(" ft")
    assert lines["slits cut"]["arithmetic"].endswith(f"= {lines['slits cut']['shown']}")
    assert [part["subject"] for part in found["parts"]] == ["G5", "F2", "C1"]


def test_takeoff_with_a_change_tells_what_moves(demo_book: Path, capsys: Captured) -> None:
    """One changed input moves its own lines alone, and the book stays as it was."""
    before = demo_book.read_bytes()
    found = examples_text(capsys, "plan", "takeoff", demo_book, "--with", "swell=77%")

    assert {one["item"] for one in found["moved"]} <= {"spoil, loose", "truck loads of spoil"}
    assert "spoil, loose" in {one["item"] for one in found["moved"]}
    assert demo_book.read_bytes() == before


def test_takeoff_prints_for_people(demo_book: Path, capsys: Captured) -> None:
    """Printed, it has parts, the whole job and what it rests on; a trial says what moves."""
    assert main(["plan", "takeoff", str(demo_book)]) == 0
    out = capsys.readouterr().out
    assert "Whole job" in out
    assert "Reckoned with" in out
    assert main(["plan", "takeoff", str(demo_book), "--with", "slit-depth=12 in"]) == 0
    both = capsys.readouterr()
    assert " -> " in both.out
    assert "Nothing was written." in both.err


def test_takeoff_writes_both_files(demo_book: Path, tmp_path: Path, capsys: Captured) -> None:
    """With --out the PDF and the workbook lie in the folder."""
    found = examples_text(capsys, "plan", "takeoff", demo_book, "--out", tmp_path / "plan")

    assert [Path(name).suffix for name in found["files"]] == [".pdf", ".xlsx"]
    assert all(Path(name).stat().st_size > 1000 for name in found["files"])


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--with", "swel=3%"], "Cannot change swel: no input is so named"),
        (["--with", "swell=3"], "Cannot change swell: '3' is not read"),
    ],
)
def test_takeoff_refuses_a_change_that_makes_no_sense(
    demo_book: Path, words: list[str], says: str, capsys: Captured
) -> None:
    """What can't be read exits 2 with a sentence."""
    assert main(["plan", "takeoff", str(demo_book), *words]) == 2
    assert says in capsys.readouterr().err


def test_takeoff_refuses_a_folder_that_is_a_file(
    demo_book: Path, tmp_path: Path, capsys: Captured
) -> None:
    """A file in the way of the folder is told."""
    (tmp_path / "plan").write_text("in the way")

    assert main(["plan", "takeoff", str(demo_book), "--out", str(tmp_path / "plan")]) == 2
    assert "The take-off was not written into" in capsys.readouterr().err


def test_gates_say_that_they_are_an_estimate(demo_book: Path, capsys: Captured) -> None:
    """Every surface's gates come with whose the design is, in words and as JSON."""
    found = examples_text(capsys, "plan", "gates", demo_book)
    assert {one["estimate"][:11] for one in found["surfaces"]} == {"An estimate"}
    assert main(["plan", "gates", str(demo_book)]) == 0
    out = capsys.readouterr().out
    assert out.count("licensed engineer") == len(found["surfaces"])


def test_gates_of_one_surface(demo_book: Path, capsys: Captured) -> None:
    """One surface alone; one that is not there exits 2 with those that are."""
    assert [
        one["surface"]
        for one in examples_text(capsys, "plan", "gates", demo_book, "--surface", "F2")["surfaces"]
    ] == ["F2"]
    assert main(["plan", "gates", str(demo_book), "--surface", "X"]) == 2
    assert "Its surfaces are: G5, F2" in capsys.readouterr().err


def sieve(book: Path, text: str, *words: str) -> list[str]:
    """The words of a command on a sheet."""
    path = book.parent / "sheet.csv"
    path.write_text(text, "utf-8")
    return ["sieve", str(book), str(path), "--material", "slit sand", *words]


def test_sieve_keeps_a_sheet_and_judges_it(own_book: Path, capsys: Captured) -> None:
    """A good sheet is kept, exits 0 and tells sizes, bands and what was not measured."""
    found = examples_text(capsys, *sieve(own_book, GOOD, "--edition", "USGA 2004"))

    assert (found["verdict"], found["kept"]) == ("OK", True)
    assert found["sizes_um"]["D50"] > 250
    with book_to_read(own_book) as job:
        newest: Any = job.state.latest(SIEVE_TEST, "slit sand")
        assert newest.edition == "USGA 2004"
        assert [one.opening_um for one in newest.weights][-2:] == [53, 0]


def test_sieve_exits_one_where_the_sand_is_out(own_book: Path, capsys: Captured) -> None:
    """29 % of fine sand is out of the table: told, kept, exit 1, and the book has its flag."""
    assert main(sieve(own_book, FINE, "--edition", "USGA 1993")) == 1
    out = capsys.readouterr().out
    assert "slit sand: OUT" in out
    assert "fine sand 0.15-0.25 mm: 29.0 % (at most 20) OUT" in out
    with book_to_read(own_book) as job:
        assert job.board.findings_about("sand_grading", "slit sand")


def test_sieve_can_look_without_writing(own_book: Path, capsys: Captured) -> None:
    """A dry run judges and writes nothing."""
    before = own_book.read_bytes()
    assert main(sieve(own_book, GOOD, "--dry-run")) == 0
    assert "Nothing was written." in capsys.readouterr().out
    assert own_book.read_bytes() == before


@pytest.mark.parametrize(
    ("text", "words", "says"),
    [
        ("sieve mm,retained\n2,1\n", [], "say which: retained g"),
        (GOOD, ["--edition", "USGA 1821"], "the table USGA 1821 is not held here"),
        (GOOD, ["--material", "gold"], "this job has no material gold"),
    ],
)
def test_sieve_refuses_with_a_sentence(
    own_book: Path, text: str, words: list[str], says: str, capsys: Captured
) -> None:
    """A bad sheet, table or material exits 2 and writes nothing."""
    before = own_book.read_bytes()
    assert main(sieve(own_book, text, *words)) == 2
    assert says in capsys.readouterr().err
    assert own_book.read_bytes() == before


def test_progress_tells_the_last_day_worked(demo_book: Path, capsys: Captured) -> None:
    """Rates, what is left, a range that says it is thin, the sand, and the next day's lines."""
    found = examples_text(capsys, "progress", demo_book)

    assert found["day"] == "2026-05-13"
    assert found["finish"] == sorted(found["finish"])
    assert found["is_thin"]
    assert {use["use"] for use in found["uses"]} == {"sand_slit", "piped_slit", "collector"}
    rounded_nm = [use["planned_nm"] - use["done_nm"] - use["left_nm"] for use in found["uses"]]
    assert all(0 <= nm < 40 * 304_800_000 for nm in rounded_nm)  # under a foot for each line cut
    assert found["sand"][0]["material"] == "slit sand"
    assert found["tomorrow"]["day"] == "2026-05-14"


def test_progress_prints_for_people(demo_book: Path, capsys: Captured) -> None:
    """Printed, every use has its line, and the record is said to be thin."""
    assert main(["progress", str(demo_book), "--day", "2026-05-12"]) == 0
    out = capsys.readouterr().out
    assert "a machine-hour over" in out
    assert "half of the trials by" in out
    assert "The record is thin (2 days worked)" in out
    assert main(["progress", str(demo_book), "--day", "2031-01-01"]) == 2
