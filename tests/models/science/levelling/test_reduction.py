"""Reducing level runs: laws, legs, pages and refusals."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import LevelRunError
from models.science.levelling.level_run import Sight
from models.science.levelling.reduction import reduce_levels, rises_nm

ROD = st.integers(0, 5_000_000_000)
SETUPS = st.lists(st.tuples(ROD, st.lists(ROD, max_size=3), ROD), min_size=1, max_size=8)


def run_of(start_nm: int, setups: list[tuple[int, list[int], int]]) -> list[Sight]:
    """Sights of a run whose setups are (backsight, intermediate sights, foresight)."""
    sights: list[Sight] = []
    foresight: int | None = None
    for turn, (back, between, fore) in enumerate(setups):
        known = start_nm if turn == 0 else None
        sights.append(Sight(f"T{turn}", bs_nm=back, fs_nm=foresight, known_nm=known))
        sights += [Sight(f"I{turn}.{i}", is_nm=reading) for i, reading in enumerate(between)]
        foresight = fore
    return [*sights, Sight("END", fs_nm=foresight)]


@given(ROD, SETUPS)
def test_both_methods_agree(start_nm: int, setups: list[tuple[int, list[int], int]]) -> None:
    """Heights of instrument give the elevations that rises and falls add up to."""
    sights = run_of(start_nm, setups)
    run = reduce_levels(sights)
    level_nm = start_nm
    for line, rise in zip(run.lines[1:], rises_nm(sights)[1:], strict=True):
        assert rise is not None
        level_nm += rise
        assert line.elevation_nm == level_nm
    assert run.page_agrees
    assert run.rise_and_fall_agrees


@given(ROD, SETUPS, st.integers(-(10**12), 10**12))
def test_a_run_shifts_with_its_datum(
    start_nm: int, setups: list[tuple[int, list[int], int]], shift_nm: int
) -> None:
    """Raising the benchmark raises every point by as much."""
    low = reduce_levels(run_of(start_nm, setups)).lines
    high = reduce_levels(run_of(start_nm + shift_nm, setups)).lines

    assert [b.elevation_nm - a.elevation_nm for a, b in zip(low, high, strict=True)] == [
        shift_nm
    ] * len(low)


@given(ROD, SETUPS)
def test_last_less_first_is_the_sum_of_the_readings(
    start_nm: int, setups: list[tuple[int, list[int], int]]
) -> None:
    """Intermediate sights do not enter sum BS - sum FS."""
    run = reduce_levels(run_of(start_nm, setups))
    expected_nm = sum(back - fore for back, _, fore in setups)

    assert run.lines[-1].elevation_nm - start_nm == expected_nm
    assert run.sum_bs_nm - run.sum_fs_nm == expected_nm
    assert run.setups == len(setups)


def test_the_page_check_sees_a_wrong_elevation() -> None:
    """A page whose last elevation is not what the readings give fails both checks."""
    run = reduce_levels(run_of(100, [(5, [4], 2)]))
    wrong = replace(run, lines=(*run.lines[:-1], replace(run.lines[-1], elevation_nm=104)))

    assert not wrong.page_agrees
    assert not wrong.rise_and_fall_agrees


def test_rise_and_fall_sees_a_wrong_intermediate_elevation() -> None:
    """The page check is blind to intermediate sights; rise and fall is not."""
    run = reduce_levels(run_of(100, [(5, [4], 2)]))
    bad = replace(run.lines[1], elevation_nm=0)
    wrong = replace(run, lines=(run.lines[0], bad, run.lines[2]))

    assert wrong.page_agrees
    assert not wrong.rise_and_fall_agrees


def test_a_page_can_be_carried_over() -> None:
    """A backsight alone on the point of the last foresight goes on with the run."""
    sights = [Sight("BM", bs_nm=5, known_nm=100), Sight("R", fs_nm=2), Sight("r ", bs_nm=1)]
    run = reduce_levels([*sights, Sight("S", fs_nm=4)])

    assert [line.elevation_nm for line in run.lines] == [100, 103, 103, 100]
    assert [line.starts_leg for line in run.lines] == [True, False, False, False]
    assert [line.setup for line in run.lines] == [1, 1, 2, 2]
    assert run.page_agrees


def test_a_new_leg_starts_on_a_known_point() -> None:
    """A second backsight on the benchmark starts from its known elevation again."""
    sights = [Sight("BM", bs_nm=5, known_nm=100), Sight("A", fs_nm=2)]
    run = reduce_levels([*sights, Sight("BM", bs_nm=7), Sight("B", fs_nm=1)])

    assert [line.elevation_nm for line in run.lines] == [100, 103, 100, 106]
    assert run.gain_nm == 9
    assert run.page_agrees
    assert run.rise_and_fall_agrees


def test_a_known_point_met_again_is_a_closing() -> None:
    """EC is computed less known, and the run carries on with what was computed."""
    sights = [Sight("BM", bs_nm=5, known_nm=100), Sight("T", bs_nm=3, fs_nm=2)]
    run = reduce_levels([*sights, Sight("bm", bs_nm=1, fs_nm=4), Sight("X", fs_nm=1)])

    assert [(c.line, c.computed_nm, c.ec_nm) for c in run.closings] == [(2, 102, 2)]
    assert run.lines[-1].elevation_nm == 102


@pytest.mark.parametrize(
    ("sights", "line", "why"),
    [
        ([], 0, "no sights"),
        ([Sight("A", fs_nm=1)], 1, "opens without a backsight"),
        ([Sight("A", bs_nm=1)], 1, "elevation is not known"),
        ([Sight("A", bs_nm=1, known_nm=9)], 1, "no foresight"),
        ([Sight("A", bs_nm=1, known_nm=9), Sight("B", is_nm=1)], 2, "no foresight"),
        ([Sight("A", bs_nm=1, known_nm=9), Sight("A", bs_nm=1)], 1, "no foresight"),
        ([Sight("A", bs_nm=1, known_nm=9), Sight("B")], 2, "nothing was read"),
        ([Sight("A", bs_nm=1, is_nm=1, known_nm=9)], 1, "beside another"),
        (
            [Sight("A", bs_nm=1, known_nm=9), Sight("B", fs_nm=1), Sight("C", is_nm=1)],
            3,
            "no backsight came after",
        ),
        (
            [Sight("A", bs_nm=1, known_nm=9), Sight("B", fs_nm=1), Sight("C", bs_nm=1)],
            3,
            "not known",
        ),
        (
            [Sight("A", bs_nm=1, known_nm=9), Sight("a", fs_nm=1, known_nm=8)],
            2,
            "another known elevation",
        ),
    ],
)
def test_a_run_that_cannot_be_reduced_is_refused(sights: list[Sight], line: int, why: str) -> None:
    """The refusal names the line and what stops the arithmetic."""
    with pytest.raises(LevelRunError) as caught:
        reduce_levels(sights)

    assert caught.value.context["line"] == line
    assert why in str(caught.value.context["why"])
