"""A header with faults hides none of the rows: one reading tells all that is to be put right."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from crewapp.imports.notes.rows import ALWAYS, COLUMNS
from crewapp.job.open_job import OpenJob
from models.errors import LevelNotesError, PlanFileError
from models.readers.level_notes.peg_page import read_peg_page
from models.readers.level_notes.reader import read_notes as read_levels
from models.readers.outlines.points_csv import read_offsets_csv, read_points_csv
from models.readers.outlines.sieve_csv import read_sieve_csv
from models.units import LengthUnit
from tests.crewapp.imports.notes.test_notes import CASES, DAY, page, problems_of

GOOD = [case["row"] for case in CASES]


def test_one_misspelt_column_is_one_thing_to_put_right(job: OpenJob) -> None:
    """On a good page, whichever column it is: its rows are not blamed for what they lack there."""
    good = page(*GOOD)
    header, rows = good.split("\r\n", 1)
    wrong = {}
    for column in COLUMNS:
        names = [f"{name}x" if name == column else name for name in header.split(",")]
        found = problems_of(job, f"{','.join(names)}\r\n{rows}")
        expected = [(1, f"{column}x")] + ([(1, column)] if column in ALWAYS else [])
        if [(row, place) for row, place, _ in found] != expected:
            wrong[column] = found
    assert wrong == {}


def test_header_and_rows_of_notes_are_told_together(job: OpenJob) -> None:
    """A column that is not known, a needed one that is missing, one that stands twice."""
    bad = f"{DAY},probe,A,S01,2,deep\n{DAY},nothing,,,,\nnever,note,,,,\n"
    assert problems_of(job, f"day,entry,pass,lines,at,dpth\n{bad}") == [
        (1, "dpth", "dpth"),
        (2, "pass", "A"),
        (3, "entry", "nothing"),
        (4, "day", "never"),
    ]
    assert problems_of(job, "entry,note,owner\nnote,x,perhaps\n") == [
        (1, "day", "entry, note, owner"),
        (2, "owner", "perhaps"),
    ]
    assert problems_of(job, "day,note\nnever,x\n") == [
        (1, "entry", "day, note"),
        (2, "day", "never"),
    ]
    assert problems_of(job, f"day,entry,note,note\n{DAY},note,,x\n") == [
        (1, "note", "note"),
        (2, "note", ""),
    ]


def test_the_nearest_column_is_offered(job: OpenJob) -> None:
    """Ninety names of columns are no help on a tablet's line; the one that was meant is."""
    from crewapp.imports.notes.notes import read_notes
    from crewapp.imports.problems import PaperError

    with pytest.raises(PaperError) as caught:
        read_notes(Path("notes.csv"), f"day,entry,dpth\n{DAY},note,\n", job)
    first = caught.value.problems[0].to_text()
    assert first.endswith("Accepted: depth, or another that `crewapp columns` lists.")


def test_a_page_of_something_else_is_told_by_its_header_alone(job: OpenJob) -> None:
    """Where no column is known there is nothing to read the rows by."""
    assert [row for row, _, _ in problems_of(job, "x,y\n1,2\n3,4\n")] == [1, 1, 1, 1]


READERS: dict[str, tuple[Callable[[str], object], str, list[str]]] = {
    "levels, a strange column": (
        lambda text: read_levels(text, LengthUnit.FT),
        "point,BS,FS,HI\nBM1,four,,1\nA,,3.10,\n,,2.00,\n",
        ["row 1, header: 'HI'", "row 2, BS: 'four'", "row 4, point: ''"],
    ),
    "levels, a column missing": (
        lambda text: read_levels(text, LengthUnit.FT),
        "BS,FS\nfour,\n,3.10\n",
        ["row 1, header: 'BS, FS'; a column point", "row 2, BS: 'four'"],
    ),
    "peg test": (
        lambda text: read_peg_page(text, LengthUnit.FT),
        "setup,peg,rod reading,far\nmidway,A,5.00,\nmidway,C,5.10,\nend,A,x,10\n",
        ["row 1, header: 'far'", "row 1, header: 'setup, peg", "row 3, peg: 'C'", "row 4, reading"],
    ),
    "points": (
        lambda text: read_points_csv(text, LengthUnit.FT),
        "x,height\n1,2\nabc,4\n",
        ["row 1, header: 'height'", "row 1, header: x, height; a column y", "row 3, x: 'abc'"],
    ),
    "offsets": (
        lambda text: read_offsets_csv(text, LengthUnit.FT),
        "sta,left,rihgt\n0+00,1,2\n0+10,abc,\n",
        ["row 1, header: 'rihgt'", "row 1, header: sta, left, rihgt", "row 3, left: 'abc'"],
    ),
    "sieve sheet, a strange column": (
        read_sieve_csv,
        "sieve mm,passing %,who\n2,100,\n1,lots,\nabc,5,\n",
        ["row 1, header: 'who'", "row 3, passing %: 'lots'", "row 4, sieve mm: 'abc'"],
    ),
    "sieve sheet, no figures": (
        read_sieve_csv,
        "sieve mm,retained\n2,1\nabc,5\n",
        ["header: retained alone", "row 3, sieve mm: 'abc'"],
    ),
}
"""A page with faults in its header and below it, and how the sentences of all of them begin."""


@pytest.mark.parametrize("name", READERS)
def test_header_and_rows_of_a_table_are_told_together(name: str) -> None:
    """Levels, peg tests, points, offsets and sieve sheets."""
    read, text, expected = READERS[name]
    with pytest.raises((LevelNotesError, PlanFileError)) as caught:
        read(text)

    problems = caught.value.context["problems"]
    assert isinstance(problems, tuple)
    found = [one.sentence for one in problems]
    assert len(found) == len(expected), found
    assert [one.startswith(start) for one, start in zip(found, expected, strict=True)] == [
        True
    ] * len(expected), found
