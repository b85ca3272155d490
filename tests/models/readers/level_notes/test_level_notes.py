"""Reading pages of level notes: forms that are read, and every fault named at once."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import LevelNotesError, UnreadableError
from models.readers.level_notes import NoteProblem, read_allowance, read_notes, reduce_notes
from models.science.levelling.adjustment import AdjustBy
from models.science.levelling.closure import ALLOWANCES, AllowanceKind
from models.science.quality.verdict import Verdict
from models.units import LengthUnit

FT = LengthUnit.FT
GOOD = "point,BS,IS,FS,elevation,distance,remarks\nBM,5,,,100,,start\nA,,4,,,,\nB,,,2,103.02,500,\n"


def problems_of(data: str | bytes) -> list[NoteProblem]:
    """The faults that a page is refused for."""
    with pytest.raises(LevelNotesError) as caught:
        reduce_notes(data, FT)
    problems = caught.value.context["problems"]
    assert isinstance(problems, tuple)
    for problem in problems:
        assert problem.sentence in str(caught.value)
        assert problem.accepted
    return list(problems)


@pytest.mark.parametrize(
    "data",
    [
        GOOD,
        GOOD.encode("utf-8-sig"),
        GOOD.replace("\n", "\r\n"),
        GOOD.replace(",", ";"),
        GOOD.replace(",", "\t"),
        GOOD.replace("point,BS,IS,FS", "Station , backsight,I.S.,Fore  Sight"),
        GOOD.replace("elevation,distance,remarks", "RL,DIST,Notes"),
        "\n\n" + GOOD + ",,,,,,\n\n",
        GOOD.replace("BM,5,", 'BM,"5\'0""",'),
    ],
    ids=["plain", "bom", "crlf", "semicolons", "tabs", "aliases", "rl", "blank rows", "inches"],
)
def test_forms_that_are_read(data: str | bytes) -> None:
    """Each gives the same sights."""
    sights = read_notes(data, FT).sights

    assert sights == read_notes(GOOD, FT).sights
    assert [(s.bs_nm or 0) // 304_800_000 for s in sights] == [5, 0, 0]


def test_a_bare_number_is_in_the_unit_given() -> None:
    """The same page in metres is another page."""
    metres = read_notes(GOOD, LengthUnit.M).sights[0]

    assert metres.bs_nm == 5_000_000_000


@pytest.mark.parametrize(
    ("data", "read"),
    [
        ("", "nothing"),
        (b"", "nothing"),
        (" \n\r\n", "nothing"),
        ("point,BS,FS\n", "a header alone"),
        (b"PK\x03\x04\x00\x00", "character 3"),
        ("point,BS,FS\nA\x00,1,\n", "character 0"),
        ("point,BS,FS\n\x1b[31mA,1,\n", "character 27"),
        (GOOD.encode("utf-16"), "UTF-16 text"),
        ("point,BS,FS\nB\u00e4r,1,".encode("latin-1"), "byte b'\\xe4'"),
        (b"x" * 1_000_001, "1000001 bytes"),
    ],
)
def test_a_file_that_is_no_table_is_refused(data: str | bytes, read: str) -> None:
    """The fault is that of the file, and says what to give instead."""
    (problem,) = problems_of(data)

    assert (problem.row, problem.column, problem.read) == (None, "the file", read)


@pytest.mark.parametrize(
    ("header", "faults"),
    [
        ("point,BS,FS,HI,who", ["HI", "who"]),
        ("point,BS,bs,FS", ["BS"]),
        ("BS,FS", ["BS, FS"]),
        ("a,b", ["a", "b", "a, b", "a, b", "a, b"]),
        ("point,,BS,FS", [""]),
    ],
)
def test_a_header_is_refused_with_all_its_faults(header: str, faults: list[str]) -> None:
    """Unknown, doubled and missing columns are named together."""
    found = problems_of(f"{header}\n{','.join('1' for _ in header.split(','))}\n")

    assert [problem.read for problem in found] == faults
    assert {problem.column for problem in found} == {"header"}


def test_every_bad_cell_is_named_at_once() -> None:
    """Row, column and what was read, for all rows, in one go."""
    rows = "BM,1.2x,,,100,,\n,1,2,,,,\nB,,,,,,\nC,,abc,,1e5,-4,\nD,,1,2,,,\nE,-1,,,,,\n"
    found = problems_of("point,BS,IS,FS,elevation,distance,remarks\n" + rows)

    assert [(p.row, p.column, p.read) for p in found] == [
        (2, "BS", "1.2x"),
        (3, "point", ""),
        (4, "BS, IS, FS", ""),
        (5, "IS", "abc"),
        (5, "elevation", "1e5"),
        (5, "distance", "-4"),
        (6, "IS", "1"),
        (7, "BS", "-1"),
    ]


def test_a_row_wider_than_the_header_is_named() -> None:
    """A cell without a column is never dropped."""
    (problem,) = problems_of("point,BS,FS\nA,1,,,x\n")

    assert problem.row == 2


def test_an_open_quotation_mark_is_named() -> None:
    """The table ends inside a cell."""
    (problem,) = problems_of('point,BS,FS\nA,"1,\n')

    assert "quotation" in problem.accepted


@pytest.mark.parametrize(
    ("rows", "row", "words"),
    [
        ("A,,1\n", 2, "opens without a backsight"),
        ("\nA,1,\n", 3, "not known"),
    ],
)
def test_a_run_that_cannot_be_reduced_is_named_by_its_row(rows: str, row: int, words: str) -> None:
    """The row is that of the file, blank rows counted."""
    (problem,) = problems_of("point,BS,FS\n" + rows)

    assert problem.row == row
    assert words in problem.accepted


@given(st.text(max_size=200))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Nothing but the one error comes out, whatever goes in."""
    for data in (text, f"point,BS,FS,elevation\nBM,1,,{text}\n", text.encode("utf-8", "replace")):
        with suppress(LevelNotesError):
            reduce_notes(data, FT)


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    """Bytes that are no table give a sentence."""
    with pytest.raises(LevelNotesError):
        reduce_notes(data, FT)


def test_closing_is_judged_by_the_allowance_chosen() -> None:
    """By hand: EC -0.02 ft; 500 ft allow 0.0154 ft, two setups' worth of 0.02 would do."""
    default = reduce_notes(GOOD, FT)
    fixed = reduce_notes(GOOD, FT, read_allowance("0.02", FT))

    assert default.closings[0].ec_nm == -6_096_000
    assert (default.closings[0].verdict, default.is_sound) == (Verdict.OUT, False)
    assert (fixed.closings[0].verdict, fixed.is_sound) == (Verdict.OK, True)
    assert default.adjusted_nm[-1] == default.closings[0].known_nm


def test_a_rule_by_distance_without_distances_gives_no_verdict() -> None:
    """An allowance that can't be worked out is not yet measured, never a pass."""
    book = reduce_notes(GOOD.replace(",500,", ",,"), FT, read_allowance("0.05ft-mile", FT))

    assert book.closings[0].verdict is Verdict.NOT_MEASURED
    assert book.closings[0].allowed_nm is None
    assert not book.is_sound


def test_a_page_without_distances_is_judged_by_its_setups() -> None:
    """By hand: EC -0.02 ft over one setup, which allows 0.012: no page goes unjudged."""
    book = reduce_notes(GOOD.replace(",500,", ",,"), FT)
    closing = book.closings[0]

    assert book.allowance.name == "0.012 ft x sqrt(setups)"
    assert (closing.setups, closing.allowed_nm) == (1, 3_657_600)
    assert closing.verdict is Verdict.OUT


def test_adjusting_by_distance_without_distances_is_refused() -> None:
    """The line that lacks its distance is named."""
    with pytest.raises(LevelNotesError, match="line 3"):
        reduce_notes(GOOD.replace(",500,", ",,"), FT, adjust_by=AdjustBy.DISTANCE)


def test_a_run_can_be_left_unadjusted() -> None:
    """Without an adjustment every correction is nothing."""
    book = reduce_notes(GOOD, FT, adjust_by=None)

    assert set(book.corrections_nm) == {0}
    assert book.adjusted_by is None


@pytest.mark.parametrize(
    ("text", "kind", "amount_nm"),
    [
        ("third", AllowanceKind.ROOT_DISTANCE, 12_000_000),
        ("0.02", AllowanceKind.FIXED, 6_096_000),
        ("5 mm / setup", AllowanceKind.SETUPS, 5_000_000),
        ("0.01/sqrt-setup", AllowanceKind.ROOT_SETUPS, 3_048_000),
        ("0.05/sqrt-mile", AllowanceKind.ROOT_DISTANCE, 15_240_000),
    ],
)
def test_allowances_by_name(text: str, kind: AllowanceKind, amount_nm: int) -> None:
    """A rule's name, or an amount with what it grows with."""
    rule = read_allowance(text, FT)

    assert (rule.kind, rule.amount_nm) == (kind, amount_nm)


def test_the_mile_rule_typed_out_is_the_named_one() -> None:
    """The same amount over the same distance."""
    typed, named = read_allowance("0.05 ft/sqrt-mile", FT), ALLOWANCES["0.05ft-mile"]

    assert (typed.amount_nm, typed.per_nm) == (named.amount_nm, named.per_nm)


@pytest.mark.parametrize(
    "text", ["", "much", "0.02/mile", "0.02/", "/setup", "-0.02", "0.02/a/setup"]
)
def test_an_allowance_that_is_none_is_refused(text: str) -> None:
    """The refusal is the one for any quantity."""
    with pytest.raises(UnreadableError):
        read_allowance(text, FT)


def test_an_allowance_that_lets_anything_close_is_refused() -> None:
    """Five, meant as millimetres and read as metres, is no tolerance; a foot still is one."""
    with pytest.raises(UnreadableError, match="no tolerance of levels"):
        read_allowance("5", LengthUnit.M)
    with pytest.raises(UnreadableError, match="no tolerance of levels"):
        read_allowance("1.001 ft/setup", FT)

    assert read_allowance("5 mm", LengthUnit.M).amount_nm == 5_000_000
    assert read_allowance("1", FT).amount_nm == 304_800_000
