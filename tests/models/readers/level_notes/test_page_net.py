"""A page of level notes adjusted by least squares."""

from __future__ import annotations

import pytest

from models.errors import LevelNotesError
from models.readers.level_notes import LEAST_SQUARES, LevelBook, reduce_notes
from models.science.levelling.adjustment import AdjustBy
from models.units import LengthUnit

LOOP = """point,BS,IS,FS,elevation
BM,1.500,,,100
TP1,1.620,,1.320,
A,,1.208,,
TP2,1.410,,1.655,
BM,,,1.543,100
"""
TWO_WAYS = LOOP.replace("BM,,,1.543,100", "BM,1.500,,1.543,100") + "TP1,,,1.326,\n"


def page(notes: str) -> LevelBook:
    """A page in metres, adjusted by least squares."""
    return reduce_notes(notes, LengthUnit.M, adjust_by=LEAST_SQUARES)


def test_one_loop_is_adjusted_as_by_set_ups() -> None:
    """Every line, the intermediate sight with it, takes the share of its set-up."""
    by_share = reduce_notes(LOOP, LengthUnit.M, adjust_by=AdjustBy.SETUPS)

    assert page(LOOP).corrections_nm == by_share.corrections_nm
    assert page(LOOP).adjusted_by == LEAST_SQUARES


def test_a_point_read_twice_has_one_level() -> None:
    """A turning point met again closes a loop of its own, and comes out alike on both lines."""
    book = page(TWO_WAYS)
    net = book.net
    assert net is not None

    levels = [
        round(level, -5)
        for line, level in zip(book.run.lines, book.adjusted_nm, strict=True)
        if line.sight.point == "TP1"
    ]
    assert len(levels) == 2
    assert len(set(levels)) == 1
    assert net.freedom == 2


def test_longer_sights_take_more() -> None:
    """Of two set-ups the one with the longer sights takes more of the misclosure."""
    notes = "point,BS,IS,FS,elevation,distance\nBM,2,,,100,\nTP,1,,1,,20\nBM,,,2.010,100,200\n"
    book = page(notes)

    assert 0 < book.corrections_nm[1] < 1_000_000  # of 10 mm; half of it by set-ups
    assert book.net is not None
    assert book.net.freedom == 1


def test_a_page_that_hangs_from_nothing_is_refused() -> None:
    """Without a known elevation there is nothing to adjust to."""
    with pytest.raises(LevelNotesError):
        page("point,BS,IS,FS,elevation\nA,1,,,\nB,,,1,\n")
