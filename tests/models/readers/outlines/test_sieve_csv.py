"""Sieve sheets from CSV: three ways to give them, and a sentence for everything that is wrong."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import PlanFileError
from models.readers.outlines.sieve_csv import SieveSheet, read_sieve_csv
from models.readers.outlines.sieve_names import US_NUMBERS_UM, SieveNameError, opening_um
from models.science.materials.sieving import shares_retained

FAULTS: list[dict[str, Any]] = json.loads(
    (Path(__file__).parents[4] / "fixtures" / "sieves" / "faults.json").read_text("utf-8")
)
SIEVES = (2000, 1000, 500, 250, 150, 53)


def sheet(head: str, *rows: tuple[object, object]) -> SieveSheet:
    """A sheet read from rows."""
    return read_sieve_csv("\n".join([head, *(f"{name},{figure}" for name, figure in rows)]))


def test_three_ways_say_the_same() -> None:
    """Weights, shares held and shares passing of one sample give the same sheet."""
    grams = sheet("sieve mm,retained g", (2, 10), (1, 50), (0.5, 120), ("pan", 20))
    held = sheet("sieve um,retained %", (2000, 5), (1000, 25), (500, 60), ("pan", 10))
    passing = sheet("sieve no,passing %", (10, 95), (18, 70), (35, 10))

    assert grams.held == ((2000, 10_000), (1000, 50_000), (500, 120_000), (0, 20_000))
    assert held.held == passing.held == ((2000, 5000), (1000, 25_000), (500, 60_000), (0, 10_000))
    assert shares_retained(dict(grams.held)) == shares_retained(dict(held.held))


@pytest.mark.parametrize(
    ("head", "cells"),
    [
        ("sieve,retained g", ("No. 10", "#18", "no 35")),
        ("Sieve (mm) , Grams retained", ("2", "1.00", "0.5")),
        ("sieve,retained g", ("2 mm", "1000 um", "500 \u00b5m")),
        ("US sieve no.,retained (g)", ("10", "18", "35")),
        ("sieve no,retained g", ("10", "1 mm", "500um")),
    ],
)
def test_names_of_sieves(head: str, cells: tuple[str, str, str]) -> None:
    """A sieve may be named by number, millimetre or micrometre, as the header says."""
    read = sheet(head, *((cell, 10) for cell in cells), ("Pan", 1))

    assert [um for um, _ in read.held] == [2000, 1000, 500, 0]


def test_order_and_total_do_not_matter() -> None:
    """Rows may come smallest first, and a row of the whole sample is checked, not kept."""
    read = sheet("sieve mm,retained g", ("pan", 1), (1, 60), (2, 39.1), ("total", 100))

    assert read.held == ((2000, 39_100), (1000, 60_000), (0, 1000))
    lost = sheet("sieve mm,retained g", ("pan", 1), (1, 60), (2, 38), ("total", 100))
    assert sum(mg for _, mg in lost.held) == 99_000  # one percent of dust may be lost


@pytest.mark.parametrize(
    ("pan", "is_read"), [("11", True), ("11.1", False), ("9", True), ("8.9", False)]
)
def test_shares_come_to_a_hundred_within_one(pan: str, is_read: bool) -> None:
    """99 and 101 % are still read, since sheets print rounded shares; a tenth beyond is not."""
    rows: tuple[tuple[object, object], ...] = ((2, 10), (1, 80), ("pan", pan))
    if is_read:
        assert sheet("sieve mm,retained %", *rows).held[-1] == (0, int(Fraction(pan) * 1000))
    else:
        with pytest.raises(PlanFileError):
            sheet("sieve mm,retained %", *rows)


@given(st.lists(st.integers(0, 10**6), min_size=7, max_size=7).filter(any))
def test_what_is_held_is_what_was_weighed(held: list[int]) -> None:
    """Written as a sheet in grams and read back, every milligram is where it was."""
    rows = [(f"{um} um", f"{mg / 1000:.3f}") for um, mg in zip((*SIEVES,), held, strict=False)]
    read = sheet("sieve,retained g", *rows, ("pan", f"{held[-1] / 1000:.3f}"))

    assert read.held == tuple(zip((*SIEVES, 0), held, strict=True))


@pytest.mark.parametrize("fault", FAULTS, ids=[fault["what"] for fault in FAULTS])
def test_every_fault_has_its_sentence(fault: dict[str, Any]) -> None:
    """What is wrong is said with its place, what was met, and what would be accepted."""
    with pytest.raises(PlanFileError) as told:
        read_sieve_csv(fault["sheet"])

    assert fault["says"] in str(told.value)


def test_all_faults_are_told_at_once() -> None:
    """Two bad rows give two sentences."""
    with pytest.raises(PlanFileError) as told:
        sheet("sieve mm,retained g", ("x", 1), (1, "y"), ("pan", 1))

    assert len(told.value.context["problems"]) == 2  # type: ignore[arg-type]


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Nothing that somebody could save as a sheet ends in anything but a sheet or a sentence."""
    try:
        read = read_sieve_csv(text)
    except PlanFileError:
        return
    assert len(read.held) > 2


def test_numbers_grow_as_openings_shrink() -> None:
    """The table of sieve numbers runs one way, as sieve numbers do."""
    numbers = [float(number) for number in US_NUMBERS_UM]

    assert numbers == sorted(numbers)
    assert list(US_NUMBERS_UM.values()) == sorted(US_NUMBERS_UM.values(), reverse=True)


def test_a_half_inch_sieve_is_its_standard_opening() -> None:
    """1/2 in is 12.5 mm by the standard, not the 12.7 mm of arithmetic."""
    assert opening_um("1/2 in") == 12_500
    with pytest.raises(SieveNameError):
        opening_um("35")
