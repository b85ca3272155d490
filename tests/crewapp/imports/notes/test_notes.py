"""Typed-up field notes: every kind of row becomes its entry, and every fault is told at once."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from typing import Any

import pytest

from crewapp.commands.day import CloseDay
from crewapp.commands.entries import Strike
from crewapp.imports.notes.notes import read_notes
from crewapp.imports.notes.rows import COLUMNS, ROWS
from crewapp.imports.problems import MOST_TOLD, PaperError
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from models.entries.kind_names import SURFACE

DAY = "2026-05-11"
CASES: list[dict[str, Any]] = json.loads(
    (Path(__file__).parents[4] / "fixtures" / "notes" / "good_rows.json").read_text("utf-8")
)
"""Rows in the order of a day, with the entry each becomes; the figures were worked by hand:
1 in = 25,400,000 nm, 1 short ton = 907,184,740,000 ug, 1 yd3 = 764,554,857,984,000 pl."""


def page(*rows: dict[str, str], columns: tuple[str, ...] = COLUMNS) -> str:
    """Write rows as a CSV, on the first day unless they say another."""
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, restval="")
    writer.writeheader()
    writer.writerows({"day": DAY, **row} for row in rows)
    return out.getvalue()


def problems_of(job: OpenJob, text: str) -> list[tuple[int, str, str]]:
    """Return row, column and text of every problem of a page that can't be read."""
    with pytest.raises(PaperError) as caught:
        read_notes(Path("notes.csv"), text, job)
    return [(one.row, one.column, one.read) for one in caught.value.problems]


@pytest.fixture
def written(job: OpenJob) -> list[Any]:
    """Every good row, written at once."""
    text = page(*(case["row"] for case in CASES))
    return list(job.ink(*read_notes(Path("notes.csv"), text, job)).entries)


def test_every_kind_of_row_has_a_case() -> None:
    """No kind of row is left out of the cases."""
    words = {case["row"]["entry"].lower().replace("_", " ") for case in CASES}

    assert words == {row.word for row in ROWS}


@pytest.mark.parametrize(
    ("place", "case"), list(enumerate(CASES)), ids=[c["row"]["entry"] for c in CASES]
)
def test_row_becomes_its_entry(written: list[Any], place: int, case: dict[str, Any]) -> None:
    """A row is inked as an entry of its kind with its fields, on its own day."""
    entry = written[place]
    stored = json.loads(entry.raw)

    assert (entry.kind, entry.day) == (case["kind"], DAY)
    assert {name: stored["body"][name] for name in case["fields"]} == case["fields"]


def test_rows_without_columns_they_leave_empty_read_the_same(job: OpenJob) -> None:
    """A page may have only the columns that it uses, in any order and case."""
    text = "Lost ,ENTRY,day, what\n30 min,delay,2026-05-12,rain\n"

    writings = read_notes(Path("notes.csv"), text, job)

    assert [(one.day, one.body.kind) for one in writings] == [("2026-05-12", "delay")]


@pytest.mark.parametrize("sign", [";", "\t"])
def test_cells_are_parted_as_the_spreadsheet_parts_them(job: OpenJob, sign: str) -> None:
    """By semicolons where a comma is the decimal sign, or by tabs."""
    text = (
        f"day{sign}entry{sign}what{sign}lost\n2026-05-12{sign}delay{sign}rain, hail{sign}30 min\n"
    )

    (delay,) = read_notes(Path("notes.csv"), text, job)

    assert delay.body.model_dump()["cause"] == "rain, hail"


def test_lines_that_are_like_the_one_typed_are_named_first(job: OpenJob) -> None:
    """A slip is met with what was likely meant, though it stands last in the plan."""
    surface = job.state.latest(SURFACE, "G7")
    assert surface is not None
    last = max(line.line_id for line in surface.lines)
    assert last not in sorted(line.line_id for line in surface.lines)[:8]
    row = {"entry": "pass", "surface": "G7", "pass": "A", "lines": f"{last}9", "length": "30"}
    with pytest.raises(PaperError) as told:
        read_notes(Path("notes.csv"), page(row), job)

    assert f"is no line of that pass or surface. Accepted: {last}, " in str(told.value)


def test_every_problem_is_told_at_once(job: OpenJob) -> None:
    """One reading of a page finds all that is wrong in it, cell by cell."""
    text = page(
        {"entry": "pass", "surface": "G9", "pass": "A", "lines": "S01", "length": "thirty"},
        {"entry": "probe", "pass": "B", "lines": "S01", "at": "2", "depth": ""},
        {"entry": "dance"},
        {"entry": "note", "note": "fine", "day": "2026-02-30"},
        {"entry": "note", "note": "fine"},
        {"entry": "delay", "what": "rain", "lost": "1 h", "sky": "rain"},
    )

    assert problems_of(job, text) == [
        (2, "length", "thirty"),
        (2, "surface", "G9"),
        (3, "depth", ""),
        (3, "pass", "B"),
        (4, "entry", "dance"),
        (5, "day", "2026-02-30"),
        (7, "sky", "rain"),
    ]


def test_one_bad_row_holds_back_all(job: OpenJob) -> None:
    """All or nothing: a page with one fault writes no entry."""
    before = job.book.count()
    text = page({"entry": "note", "note": "fine"}, {"entry": "note", "note": ""})

    assert problems_of(job, text) == [(3, "note", "")]
    assert job.book.count() == before


@pytest.mark.parametrize(
    ("row", "column"),
    [
        ({"entry": "probe", "pass": "Z", "lines": "S01", "at": "2", "depth": "9"}, "pass"),
        ({"entry": "watered", "surface": "G9"}, "surface"),
        ({"entry": "turf", "surface": "G7", "lines": "S77", "step": "lifted"}, "lines"),
        ({"entry": "sand", "surface": "G7", "material": "gold", "amount": "1 t"}, "material"),
        ({"entry": "setup", "setup": "L1", "point": "BM9"}, "point"),
        ({"entry": "check shot", "setup": "L9", "point": "BM1", "reading": "4"}, "setup"),
        (
            {"entry": "hold point", "collector": "C9", "from": "0", "to": "1", "by": "A"},
            "collector",
        ),
        ({"entry": "pipe", "material": "pipe", "length": "3"}, "collector"),
        (
            {"entry": "pass", "surface": "G7", "pass": "N1", "lines": "S01", "length": "30"}
            | {"machine": "twinn"},
            "machine",
        ),
    ],
)
def test_unknown_names_are_refused(job: OpenJob, row: dict[str, str], column: str) -> None:
    """A row that refers to something nobody knows is refused at that column."""
    assert [found for _, found, _ in problems_of(job, page(row))] == [column]


def test_names_made_known_by_earlier_rows_may_be_used(job: OpenJob) -> None:
    """A probe may follow its pass on the same page, but not go before it."""
    cut = {"entry": "pass", "surface": "G7", "pass": "A", "lines": "S01", "length": "30"}
    probe = {"entry": "probe", "pass": "A", "lines": "S01", "at": "2", "depth": "9"}

    assert len(read_notes(Path("notes.csv"), page(cut, probe), job)) == 2
    assert problems_of(job, page(probe, cut)) == [(2, "pass", "A")]


def test_pass_is_not_logged_twice(job: OpenJob) -> None:
    """A page that is typed up twice is noticed by the names of its passes."""
    cut = {"entry": "pass", "surface": "G7", "pass": "A", "lines": "S01", "length": "30"}

    assert problems_of(job, page(cut, cut)) == [(3, "pass", "A")]


def test_closed_day_takes_no_row(job: OpenJob) -> None:
    """A row for a day that stands closed is a problem of that row."""
    do(job, CloseDay(day=DAY))

    assert problems_of(job, page({"entry": "note", "note": "late"})) == [(2, "day", DAY)]


def test_refused_field_is_told_by_its_column(job: OpenJob) -> None:
    """What the entry itself refuses is told by the column that people see."""
    text = page({"entry": "weather", "sky": "rain", "ground": "wet", "rain": f"0.{'4' * 50}"})

    assert [column for _, column, _ in problems_of(job, text)] == ["rain"]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "holds no rows"),
        ("day,entry\n", "holds no rows"),
        ("entry,note\nnote,hi\n", "has no column day"),
        ("day,entry,note,note\n", "stands twice in the header"),
        ("day,entry,colour\n", "is not a column of field notes"),
        ("day,entry\n2026-05-11,note,too,many\n", "is a cell too many"),
        ('day,entry,note\n2026-05-11,note,"open\n', "is not CSV"),
    ],
)
def test_page_that_is_no_page_of_notes(job: OpenJob, text: str, says: str) -> None:
    """A file that can't be taken as notes is refused in a sentence."""
    with pytest.raises(PaperError, match=says):
        read_notes(Path("notes.csv"), text, job)


def test_long_list_of_problems_is_cut_short(job: OpenJob) -> None:
    """The sentence stays readable however many rows are wrong; the facts keep them all."""
    with pytest.raises(PaperError) as caught:
        read_notes(Path("notes.csv"), page(*[{"entry": "x"}] * (MOST_TOLD + 5)), job)

    assert len(caught.value.problems) == MOST_TOLD + 5
    assert str(caught.value).endswith("... and 5 more")


def test_names_that_readings_hang_from_are_not_given_twice(job: OpenJob) -> None:
    """A second setup, point or pass of one name would move what was read from the first."""
    setup = {"entry": "setup", "setup": "L1", "point": "BM1", "reading": "4.00"}
    turn = {"entry": "turning point", "setup": "L1", "point": "TP1", "reading": "5.00"}
    known = {"entry": "benchmark", "point": "BM1", "reading": "90.00"}
    job.ink(*read_notes(Path("monday.csv"), page(setup, turn), job))

    assert problems_of(job, page(setup, turn, known)) == [
        (2, "setup", "L1"),
        (3, "point", "TP1"),
        (4, "point", "BM1"),
    ]


def test_graded_plane_is_read_along_its_collector_alone(job: OpenJob) -> None:
    """Where the height of a graded plane is not known, a row is refused."""
    graded = {"entry": "setup", "point": "BM1", "reading": "4.00", "grade": "1 %"}
    text = page(
        {**graded, "setup": "L1"},
        {**graded, "setup": "L2", "collector": "C1"},
        {"entry": "turning point", "setup": "L2", "point": "TP1", "reading": "5.00"},
    )

    assert problems_of(job, text) == [(2, "collector", ""), (4, "setup", "L2")]


def test_page_handed_in_twice_is_refused(job: OpenJob) -> None:
    """The same loads are not counted twice by mistake; struck ones may be written anew."""
    load = {"entry": "spoil", "amount": "2 yd3"}
    text = page(load, load)
    first = job.ink(*read_notes(Path("notes.csv"), text, job)).entries

    assert problems_of(job, text) == [(0, "", "notes.csv")]
    assert len(read_notes(Path("notes.csv"), page(load, load, load), job)) == 3
    assert len(read_notes(Path("notes.csv"), text, job, again=True)) == 2
    do(job, Strike(entry_id=first[0].id, reason="typed by mistake"))
    assert len(read_notes(Path("notes.csv"), text, job)) == 2


LASER = {"entry": "instrument", "instrument": "laser 1", "what": "pipe laser", "read to": "0.01"}
SETUP = {"entry": "setup", "setup": "L1", "point": "BM1", "reading": "4.00"}


def test_the_only_laser_is_taken_and_one_of_two_is_asked_for(job: OpenJob) -> None:
    """With one instrument on the job a setup names it; with two the cell stays as it is filled."""
    text = page(LASER, SETUP, {**LASER, "instrument": "laser 2"}, {**SETUP, "setup": "L2"})
    setups = [one.body for one in read_notes(Path("notes.csv"), text, job)][1::2]

    assert [getattr(body, "instrument_id", None) for body in setups] == ["laser 1", ""]


def test_peg_test_names_a_laser_of_the_job_and_two_distances(job: OpenJob) -> None:
    """An unknown laser, and a second setup that is as far from A as from B, are refused."""
    test = dict.fromkeys(("midway a", "midway b", "end a", "end b"), "5.00")
    test |= {"entry": "peg test", "instrument": "laser 9", "to a": "90", "to b": "90"}

    assert problems_of(job, page({**SETUP, "instrument": "laser 9"}, test)) == [
        (2, "instrument", "laser 9"),
        (3, "instrument", "laser 9"),
        (3, "to b", "90"),
    ]
