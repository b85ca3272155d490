"""Bad input gives a sentence and exit 2, no traceback, and nothing is written."""

from __future__ import annotations

import csv
import hashlib
import io
import json
import shutil
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from crewapp.cli.main import BAD_INPUT, main
from crewapp.commands.grade import SetUpLaser
from crewapp.commands.passes import LogPass
from crewapp.commands.ties import AddPermanentPoint
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.imports.notes.rows import COLUMNS
from crewapp.imports.plan.plan_file import read_plan
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import SetClock
from models.book.store import Book
from tests.crewapp.bad_input_cases import CELLS, LEVELS, NOTES, PLANS
from tests.crewapp.conftest import DAY, FIXTURES, plan_text

FT = 304_800_000
SMALL_PLAN = FIXTURES / "plans" / "small.json"
BESIDE = (".lock", "-wal", "-shm", ".ballast")
"""What stands beside a book while and after it is open; none of it is a record."""


@pytest.fixture(scope="module")
def model_book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One small book with a pass and a setup, copied for every case."""
    path = tmp_path_factory.mktemp("model") / "small.book"
    clock = SetClock("America/Chicago", 0)
    clock.set_to(DAY, 480)
    job = OpenJob(Book.create(path, stream="tablet-a", reserve_bytes=4096), clock, "foreman")
    set_up_all(job, read_plan(Path("small.json"), plan_text()))
    do(
        job,
        LogPass(
            surface_id="G7",
            line_ids=("S01",),
            length_nm=30 * FT,
            length_typed="30",
            pass_id="G7-01",
        ),
    )
    do(job, SetUpLaser(on_point="BM1", backsight_nm=4 * FT))
    do(job, AddPermanentPoint(where="corner of the shed", point_id="PP1"))
    job.close()
    return path


@pytest.fixture
def book(model_book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the small book in a folder of its own, on a tablet of its own."""
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path / "home"))
    folder = tmp_path / "site"
    folder.mkdir()
    path = folder / "small.book"
    shutil.copy(model_book, path)
    return path


def print_of(folder: Path) -> dict[str, str]:
    """Return a fingerprint of every file of a folder but those beside a book."""
    return {
        str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.name.endswith(BESIDE)
    }


@pytest.fixture
def refused(book: Path, capsys: pytest.CaptureFixture[str]) -> Callable[..., str]:
    """Run a command, hold that it is refused without a trace, and return its sentence."""

    def run(*words: object) -> str:
        before = print_of(book.parent)
        capsys.readouterr()
        try:
            code = main([str(word) for word in words])
        except SystemExit as stopped:  # the parser of the command line itself
            code = int(stopped.code or 0)
        out, err = capsys.readouterr()
        assert code == BAD_INPUT
        assert err.strip()
        assert "Traceback" not in err
        assert "Traceback" not in out
        assert print_of(book.parent) == before
        return err

    return run


def put(book: Path, name: str, data: bytes) -> Path:
    """Put a file beside the book."""
    path = book.with_name(name)
    path.write_bytes(data)
    return path


def row_text(row: dict[str, str]) -> bytes:
    """Write one row as a page of notes."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, restval="")
    writer.writeheader()
    writer.writerow({"day": DAY, **row})
    return out.getvalue().encode()


def test_there_are_a_hundred_cases() -> None:
    """The tables hold at least a hundred malformed inputs."""
    assert len(CELLS) + len(NOTES) + len(LEVELS) + len(PLANS) >= 100


def test_rows_are_good_until_they_are_spoilt(book: Path) -> None:
    """Every row that the table spoils would be written if it were left alone."""
    rows = {id(row): row for row, _, _ in CELLS}.values()
    for row in rows:
        assert main(["log", str(book), str(put(book, "n.csv", row_text(row)))]) == 0


@pytest.mark.parametrize(
    ("row", "column", "text"),
    CELLS,
    ids=[f"{row['entry']}-{column}-{text[:12]!r}" for row, column, text in CELLS],
)
def test_cell_that_cannot_be_read(
    book: Path, refused: Callable[..., str], row: dict[str, str], column: str, text: str
) -> None:
    """A spoilt cell is told by its row, its column, what was read and what would be accepted."""
    notes = put(book, "notes.csv", row_text({**row, column: text}))

    told = refused("log", book, notes)

    assert f"row 2, column {column}: " in told
    assert "Accepted: " in told


@pytest.mark.parametrize("name", NOTES)
def test_page_of_notes_that_cannot_be_read(
    book: Path, refused: Callable[..., str], name: str
) -> None:
    """A page that is no page of notes writes nothing."""
    assert "othing was written" in refused("log", book, put(book, "notes.csv", NOTES[name]))


@pytest.mark.parametrize("name", LEVELS)
def test_level_notes_that_cannot_be_reduced(
    book: Path, refused: Callable[..., str], name: str
) -> None:
    """A page of level notes that can't be read or reduced is told by its faults."""
    told = refused("levels", put(book, "levels.csv", LEVELS[name]))

    assert told.startswith("crewapp: Cannot read the level notes")


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("is_new", [False, True])
def test_plan_that_cannot_be_used(
    book: Path, refused: Callable[..., str], name: str, is_new: bool
) -> None:
    """A bad plan changes no book, and makes none."""
    told = PLANS[name]
    text = told if isinstance(told, str) else json.dumps(told)
    target = book.with_name("new.book") if is_new and name != "another job" else book

    assert "Nothing was written" in refused(
        "plan", target, put(book, "plan.json", text.encode("utf-8", "surrogatepass"))
    )


def spoil(book: Path, way: str) -> Path:
    """Make a file that is no good book, in one of several ways."""
    path = book.with_name("bad.book")
    data = book.read_bytes()
    if way == "missing":
        return path
    if way == "folder":
        path.mkdir()
        return path
    if way in {"newer", "another database"}:
        path.write_bytes(data if way == "newer" else b"")
        with sqlite3.connect(path) as file:
            file.execute("PRAGMA user_version = 99" if way == "newer" else "CREATE TABLE t (x)")
        file.close()
        return path
    made = {
        "empty": b"",
        "text": b"day,entry\n",
        "cut short": data[: len(data) // 2],
        "one page": data[:4096],
        "header alone": data[:16],
        "zeros behind the header": data[:100] + bytes(len(data) - 100),
        "noise": bytes(range(256)) * 64,
    }
    path.write_bytes(made[way])
    return path


WAYS = ["missing", "folder", "newer", "another database", "empty", "text", "cut short", "one page"]
WAYS += ["header alone", "zeros behind the header", "noise"]


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("command", ["check", "sheet", "verify", "log"])
def test_file_that_is_no_book(
    book: Path, refused: Callable[..., str], way: str, command: str
) -> None:
    """A file that can't be opened as a book is named, and left as it is."""
    path = spoil(book, way)
    rest: list[object] = []
    if command == "log":
        rest = [put(book, "notes.csv", NOTES["header alone"])]
    rest = ["--out", book.with_name("out")] if command == "sheet" else rest

    assert "bad.book" in refused(command, path, *rest)


@pytest.mark.parametrize(
    "words",
    [
        ("sheet", "BOOK", "--day", "yesterday"),
        ("sheet", "BOOK", "--day", "2026-02-30"),
        ("sheet", "BOOK", "--day", "2031-01-01"),
        ("sheet", "BOOK", "--day", "1999-12-31"),
        ("progress", "BOOK", "--day", "2101-01-01"),
        ("verify", "BOOK", "--day", "11.5.2026"),
        ("verify", "BOOK", "--day", "2031-01-01"),
        ("verify", "BOOK", "--code", ""),
        ("verify", "BOOK", "--code", "1234-5678"),
        ("verify", "BOOK", "--code", "\U0001f600" * 20),
        ("levels", "nowhere.csv"),
        ("levels", "BOOK"),
        ("levels", "BOOK", "--unit", "furlong"),
        ("log", "BOOK", "nowhere.csv"),
        ("log", "BOOK", "BOOK"),
        ("log", "BOOK", "/dev/zero"),
        ("levels", "/dev/zero"),
        ("plan", "/nowhere/new.book", "PLAN"),
        ("plan", "BOOK", "nowhere.json"),
        ("plan", "BOOK", "BOOK"),
        ("dance",),
        ("check",),
        ("sheet", "BOOK", "--out", "BOOK"),
        ("demo", "--out", "FOLDER"),
    ],
)
def test_words_of_the_command_line(
    book: Path, refused: Callable[..., str], words: tuple[str, ...]
) -> None:
    """A word of the command line that can't be used is answered by a sentence."""
    named = {"BOOK": str(book), "FOLDER": str(book.parent), "PLAN": str(SMALL_PLAN)}

    refused(*(named.get(word, word) for word in words))


@pytest.mark.parametrize("author", ["", "  ", "A" * 81, "half \udcff"])
def test_author_that_no_entry_can_carry(
    book: Path, refused: Callable[..., str], author: str
) -> None:
    """An entry needs an author that can be written in a file."""
    notes = put(book, "notes.csv", row_text({"entry": "note", "note": "fine"}))

    assert "Nothing was written: the author" in refused("log", book, notes, "--author", author)


def test_start_that_is_no_elevation(book: Path, refused: Callable[..., str]) -> None:
    """The elevation given beside level notes is read like any other length."""
    notes = put(book, "levels.csv", b"point,BS,FS\nA,4.00,\nB,,5.00\n")

    assert "'high'" in refused("levels", notes, "--start", "high")
