"""The office from the command line: take, list, report, print, rebuild."""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections import defaultdict
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.main import main

Captured = pytest.CaptureFixture[str]
DAY = "2026-05-12"


def examples_text(capsys: Captured, *words: object, code: int = 0) -> Any:
    """Run a command with --json and return what it tells."""
    capsys.readouterr()
    assert main([*map(str, words), "--json"]) == code
    return json.loads(capsys.readouterr().out)


@pytest.fixture
def store(tmp_path: Path, demo_book: Path) -> Path:
    """A folder to which the demo's book was sent."""
    book = tmp_path / "sent" / "larkfield.book"
    book.parent.mkdir()
    shutil.copy(demo_book, book)
    folder = tmp_path / "store"
    folder.mkdir()
    assert main(["sync", str(book), "--store", str(folder), "--json"]) == 0
    return folder


@pytest.fixture
def office(tmp_path: Path, store: Path, capsys: Captured) -> Path:
    """A database that took the store in."""
    path = tmp_path / "office.db"
    assert main(["office", "take", "--db", str(path), "--store", str(store)]) == 0
    assert "entries" in capsys.readouterr().out
    return path


def test_take_a_store_twice(tmp_path: Path, store: Path, capsys: Captured) -> None:
    """The first time everything is new, the second time nothing; figures are made once."""
    path = tmp_path / "office.db"
    first = examples_text(capsys, "office", "take", "--db", path, "--store", store)
    second = examples_text(capsys, "office", "take", "--db", path, "--store", store)

    assert first["jobs"][0]["new_entries"] == first["entries"] > 300
    assert first["figures_made"] == 1
    assert (second["jobs"][0]["new_entries"], second["figures_made"]) == (0, 0)
    assert second["entries"] == first["entries"]


def test_a_book_and_its_store_are_one_job(
    office: Path, demo_folder: Path, demo_book: Path, capsys: Captured
) -> None:
    """What came from the store is not new from the book, and a hand-over adds nothing either."""
    handed = office.with_name("one.crew")
    book = office.parent / "sent" / "larkfield.book"
    assert main(["handover", "make", str(book), "--out", str(handed)]) == 0

    answer = examples_text(capsys, "office", "take", "--db", office, "--files", demo_book, handed)

    assert [one["new_entries"] for one in answer["jobs"]] == [0, 0]
    assert len({one["job"] for one in answer["jobs"]}) == 1


def test_sheet_is_the_tablet_s(
    office: Path, tmp_path: Path, demo_book: Path, capsys: Captured
) -> None:
    """Every form of the sheet has the same bytes as the book's own, and the same check code."""
    ours = examples_text(capsys, "sheet", demo_book, "--day", DAY, "--out", tmp_path / "tablet")
    words = ("--db", office, "--job", "larkfield", "--day", DAY, "--out", tmp_path / "again")

    theirs = examples_text(capsys, "office", "sheet", *words)

    assert theirs["check_code"] == ours["check_code"]
    assert len(theirs["files"]) == 3
    for one, other in zip(ours["files"], theirs["files"], strict=True):
        assert Path(one).name == Path(other).name
        assert Path(one).read_bytes() == Path(other).read_bytes()


def test_jobs_and_report(office: Path, capsys: Captured) -> None:
    """The list names the job; the report has its figures by job, crew and week, its sand, flags."""
    jobs = examples_text(capsys, "office", "jobs", "--db", office)["jobs"]
    report = {
        by: examples_text(capsys, "office", "report", "--db", office, "--by", by)
        for by in ("job", "crew", "week")
    }

    assert jobs[0]["name"].startswith("Larkfield")
    lines = [report[by]["production"] for by in ("job", "crew", "week")]
    for figure in ("sand_slit_nm", "probes", "crew_min", "placed_ul"):
        assert len({sum(line[figure] for line in one) for one in lines}) == 1
    assert lines[0][0]["probes"] > 0
    assert report["job"]["sand"][0]["delivered_ul"] >= report["job"]["sand"][0]["placed_ul"]
    assert [flag["check"] for flag in report["job"]["flags"]]


def test_right_the_first_time_by_the_rows_of_the_demo(
    office: Path, demo_book: Path, capsys: Captured
) -> None:
    """Days worked and probes right at first, counted from the raw rows of the demo's book.

    Every probe again is at the same distance there, so a place is told by it; the slip of
    the first day was struck in the crew's own words, so it stays the reading taken first.
    """
    with sqlite3.connect(f"file:{demo_book}?mode=ro", uri=True) as book:
        rows = [json.loads(raw) for (raw,) in book.execute("SELECT raw FROM entry ORDER BY lc, id")]
    bodies = {kind: [one for one in rows if one["kind"] == kind] for kind in ("probe", "surface")}
    slits: dict[tuple[str, str], dict[str, int]] = {}
    for one in bodies["surface"]:
        for planned in one["body"]["lines"]:
            pattern = one["body"][f"{planned['use']}s"]
            slits[one["body"]["surface_id"], planned["line_id"]] = pattern
    places: dict[tuple[str, str, int], list[tuple[bool, str]]] = defaultdict(list)
    for one in bodies["probe"]:
        read = one["body"]
        pattern = slits[read["pass_id"].split("-")[0], read["line_id"]]
        low, high = (
            pattern["depth_nm"] - pattern["under_nm"],
            pattern["depth_nm"] + pattern["over_nm"],
        )
        is_in = low <= read["depth_nm"] <= high
        places[read["pass_id"], read["line_id"], read["along_nm"]].append((is_in, one["id"]))
    crossed = {id for one in rows for id in one["strikes"]}
    last = [[is_in for is_in, id in taken if id not in crossed][-1] for taken in places.values()]
    worked = {one["day"] for one in rows if one["kind"] in {"pass", "probe", "grade_shot"}}

    line = examples_text(capsys, "office", "report", "--db", office)["production"][0]
    counted = line["quality"]["depth probe"]

    assert counted["places"] == len(places) == 184
    assert counted["first_in"] == sum(taken[0][0] for taken in places.values()) == 180
    assert counted["last_in"] == sum(last) == 184
    again = [taken for taken in places.values() if not taken[0][0] and len(taken) > 1]
    assert counted["reworked"] == len(again) == 4
    assert (line["days"], line["written_days"]) == (len(worked), len({one["day"] for one in rows}))
    assert line["days"] == 3


def test_report_in_words_with_a_page(office: Path, tmp_path: Path, capsys: Captured) -> None:
    """The terminal shows tables and flags; the page is one file, the same at every run."""
    pages = [tmp_path / "one.html", tmp_path / "two.html"]
    for page in pages:
        words = ["--from", DAY, "--to", DAY, "--units", "metric", "--html", str(page)]
        assert main(["office", "report", "--db", str(office), *words]) == 0
    said = capsys.readouterr().out

    assert "Production by job" in said
    assert "Sand to date" in said
    assert f"1 job, {DAY} to {DAY}" in said
    assert "stand open" in said
    assert pages[0].read_bytes() == pages[1].read_bytes()


def test_rebuild(office: Path, capsys: Captured) -> None:
    """The figures thrown away and made anew are the same."""
    before = examples_text(capsys, "office", "report", "--db", office)
    made = examples_text(capsys, "office", "rebuild", "--db", office)

    assert made["jobs"] == 1
    assert examples_text(capsys, "office", "report", "--db", office) == before
    assert main(["office", "rebuild", "--db", str(office)]) == 0
    assert "The figures of 1 job were worked out anew" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["take"], "nothing was named"),
        (["take", "--store", "gone://x"], "gone"),
        (["take", "--files", "gone.book"], "there is no gone.book"),
        (["take", "--db", "mysql://h/n", "--store", "."], "that kind is not served"),
        (["jobs", "--db", "gone.db"], "office take"),
        (["report", "--db", "gone.db"], "office take"),
        (["report", "--from", "2026-13-01"], "2026-13-01"),
        (["report", "--from", "2026-05-02", "--to", "2026-05-01"], "lies before"),
        (["sheet", "--job", "nobody", "--day", DAY], "no job called 'nobody'"),
        (["sheet", "--job", "larkfield", "--day", "2020-01-01"], "2020-01-01"),
        (["report", "--html", "gone/page.html"], "was not written"),
    ],
)
def test_bad_input_is_a_sentence(
    office: Path,
    words: list[str],
    says: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: Captured,
) -> None:
    """Exit 2 and a sentence that says what was met; nothing is printed beside it."""
    monkeypatch.chdir(office.parent)
    capsys.readouterr()

    assert main(["office", *words]) == 2
    met = capsys.readouterr()

    assert says in met.err
    assert met.out == ""


def test_a_store_that_does_not_answer(tmp_path: Path, capsys: Captured) -> None:
    """A server that is not there is no bad input: exit 1, and the database is made all the same."""
    where = "davs://crew@127.0.0.1:1/turf"
    answer = examples_text(
        capsys, "office", "take", "--db", tmp_path / "o.db", "--store", where, code=1
    )

    assert answer["jobs"][0]["cut"]
    assert answer["entries"] == 0
