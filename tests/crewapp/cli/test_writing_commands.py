"""Commands that write or print: plan, log, levels, columns, schema."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.books import book_to_read
from crewapp.cli.main import main, make_parser
from models.entries.kind_names import SURFACE
from models.entries.schema import entry_schema
from tests.house.tree import ROOT

FIXTURES = Path(__file__).parents[3] / "fixtures"
PLAN = FIXTURES / "plans" / "small.json"
Captured = pytest.CaptureFixture[str]


@pytest.fixture
def book(tmp_path: Path, capsys: Captured) -> Path:
    """A planned book."""
    assert main(["plan", str(tmp_path / "b.book"), str(PLAN)]) == 0
    capsys.readouterr()
    return tmp_path / "b.book"


def put(folder: Path, text: str) -> str:
    """Put a CSV into a folder."""
    path = folder / "notes.csv"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_plan_makes_a_book(tmp_path: Path, capsys: Captured) -> None:
    """A plan with a job makes a new book."""
    assert main(["plan", str(tmp_path / "b.book"), str(PLAN), "--author", "Olga"]) == 0

    assert capsys.readouterr().out.startswith("11 plan entries inked into ")
    with book_to_read(tmp_path / "b.book") as job:
        assert {entry.author for entry in job.state.entries.values()} == {"Olga"}


def test_plan_again_strikes_the_plan_before(book: Path) -> None:
    """A plan read twice stands once."""
    assert main(["plan", str(book), str(PLAN)]) == 0

    with book_to_read(book) as job:
        assert len(list(job.state.bodies(SURFACE, "G7"))) == 1
        assert len(job.state.struck_by) == 11


def test_log_tells_what_it_wrote_and_raised(book: Path, tmp_path: Path, capsys: Captured) -> None:
    """Notes are inked and what they raise is told at once."""
    notes = put(
        tmp_path,
        "day,entry,surface,pass,lines,length,at,depth\n"
        "2026-05-11,pass,G7,A,S01,30,,\n2026-05-11,probe,,A,S01,,2,7\n",
    )

    assert main(["log", str(book), notes]) == 0
    out = capsys.readouterr().out
    assert out.startswith("2 entries inked.\n")
    assert "  flag: Pass A, line S01 at 2.0 ft: 7 in deep" in out


def test_log_tells_the_same_to_machines(book: Path, tmp_path: Path, capsys: Captured) -> None:
    """With --json the outcome can be read by a program, also when it is refused."""
    good = put(tmp_path, "day,entry,note\n2026-05-11,note,fine\n")
    assert main(["log", str(book), good, "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {"written": 1, "raised": []}
    bad = put(tmp_path, "day,entry,note\n2026-05-11,note,\n2026-05-11,nothing,x\n")

    assert main(["log", str(book), bad, "--json"]) == 2
    told = json.loads(capsys.readouterr().out)
    assert (told["code"], told["exit"]) == ("paper.unreadable", 2)
    assert [p["row"] for p in told["problems"]] == [2, 3]


def test_log_into_a_book_that_is_open_elsewhere(
    book: Path, tmp_path: Path, capsys: Captured
) -> None:
    """A book has one writer; the second is told so and writes nothing."""
    from crewapp.cli.books import book_to_write

    notes = put(tmp_path, "day,entry,note\n2026-05-11,note,fine\n")
    with book_to_write(book, "other") as job:
        before = job.book.count()
        assert main(["log", str(book), notes]) == 2
        assert job.book.count() == before
    assert "Nothing was written to" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("name", "words", "code"),
    [
        ("military_one_setup", (), 0),
        ("link_two_benchmarks", (), 1),
        ("link_two_benchmarks", ("--allow", "0.02/sqrt-setup", "--adjust", "no"), 0),
        ("link_two_benchmarks", ("--allow", "0.05ft-mile"), 1),
        ("rise_and_fall_metric", ("--unit", "m"), 0),
        ("military_missing_stake", ("--start", "365.01"), 0),
    ],
)
def test_levels_prints_a_page(
    capsys: Captured, name: str, words: tuple[str, ...], code: int
) -> None:
    """A page of level notes is printed as a level book does."""
    assert main(["levels", str(FIXTURES / "levels" / f"{name}.csv"), *words]) == code

    assert "Arithmetic: sum BS - sum FS" in capsys.readouterr().out


def test_levels_exits_1_when_a_closing_is_out(tmp_path: Path, capsys: Captured) -> None:
    """100 + 4 - 5 is 99; where 98 is known, the run is a foot out."""
    notes = put(tmp_path, "point,BS,FS,elevation,distance\nA,4,,100,\nB,,5,98,200\n")

    assert main(["levels", notes]) == 1
    assert "EC +1.00" in capsys.readouterr().out
    assert main(["levels", notes, "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert told["closings"][0]["ec_nm"] == 304_800_000


def test_levels_start_gives_the_first_elevation(tmp_path: Path, capsys: Captured) -> None:
    """A page without an elevation hangs from the one given beside it."""
    notes = put(tmp_path, "point,BS,FS\nA,4.00,\nB,,5.00\n")

    assert main(["levels", notes, "--start", "100 ft", "--json"]) == 0
    lines = json.loads(capsys.readouterr().out)["lines"]
    assert [line["elevation_nm"] for line in lines] == [30_480_000_000, 30_175_200_000]


@pytest.mark.parametrize(
    ("name", "words", "code", "error", "says"),
    [
        ("peg_test_metric", ("--unit", "m"), 1, 1000.0, "rises 40.0 mm in 40 m"),
        ("peg_test_feet", (), 1, -208.333, "falls 0.021 ft in 100 ft"),
        ("peg_test_feet", ("--peg-limit", "209"), 0, -208.333, "it may stand"),
    ],
)
def test_levels_works_a_peg_test_out(
    capsys: Captured, name: str, words: tuple[str, ...], code: int, error: float, says: str
) -> None:
    """A page with a column of pegs; its figures are P1 and P2 of fixtures/levels/two_peg.json."""
    notes = str(FIXTURES / "levels" / f"{name}.csv")

    assert main(["levels", notes, *words]) == code
    assert says in capsys.readouterr().out
    assert main(["levels", notes, *words, "--json"]) == code
    told = json.loads(capsys.readouterr().out)
    assert (told["error_millionths"], told["sound"]) == (error, code == 0)


def test_columns_tell_the_pages_of_level_notes(capsys: Captured) -> None:
    """What ``crewapp levels`` reads stands beside what ``crewapp log`` reads."""
    assert main(["columns"]) == 0
    assert "peg test         setup*, peg*, reading*, distance, remarks" in capsys.readouterr().out


def test_columns_are_those_of_the_rows(capsys: Captured) -> None:
    """The help for typing notes up names every row and marks what must be filled."""
    assert main(["columns", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert {name.rstrip("*") for row in told["rows"].values() for name in row} <= set(
        told["columns"]
    )

    assert main(["columns"]) == 0
    assert re.search(
        r"^  probe +pass\*, lines\*, at\*, depth\*, width$", capsys.readouterr().out, re.M
    )


def test_schema_is_that_of_the_entries(capsys: Captured) -> None:
    """The printed schema is the models' own, byte for byte the one that is on file."""
    assert main(["schema"]) == 0

    printed = capsys.readouterr().out
    assert json.loads(printed) == entry_schema()
    assert printed == (ROOT / "fixtures/schema/entries.schema.json").read_text("utf-8")


def test_every_command_has_help_and_a_module(capsys: Captured) -> None:
    """Each command of the parser can be run and says what it is for."""
    choices: dict[str, Any] = next(
        dict(action.choices)
        for action in make_parser()._actions
        if isinstance(action.choices, dict)
    )
    for name in choices:
        with pytest.raises(SystemExit):
            main([name, "--help"])
        assert capsys.readouterr().out.startswith("usage: crewapp")
