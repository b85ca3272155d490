"""Stake-out: offsets that lead back to the plan, passes in order, cuts that agree with the rod."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.entries.bodies.surfaces import Collector, Surface
from models.entries.keys import day_place
from models.entries.kind_names import COLLECTOR, SURFACE
from models.errors import CalculationInputError
from models.queries.layout.stakeout import cut_sheet, stake_out
from models.science.shapes.rings import PointNm
from models.science.shapes.rotated_frame import Frame
from models.science.shapes.staking import Baseline, baseline_of, bearing_of, station_offset
from models.state.indexes import DUG_AT
from models.state.job_state import JobState
from tests.models.checks.any_fields_around import IN
from tests.models.checks.any_job import DESIGN, FT, PATTERN
from tests.models.checks.written_job import written_entries

places = st.builds(PointNm, st.integers(-(10**11), 10**11), st.integers(-(10**11), 10**11))


def line(name: str, x_in: int, low_ft: int, high_ft: int) -> dict[str, object]:
    """Return a sand slit that runs north at so many inches east."""
    return {
        "line_id": name, "use": "sand_slit", "x1_nm": x_in * IN, "y1_nm": low_ft * FT,
        "x2_nm": x_in * IN, "y2_nm": high_ft * FT, "length_nm": (high_ft - low_ft) * FT,
    }  # fmt: skip


LINES = [line(f"S{n:02d}", 16 * n, 10 + n % 2, 40) for n in range(1, 7)]


def state(*more: dict[str, object]) -> JobState:
    """Return a field of six slits, a twin machine, a collector, and what else is written."""
    plan = [
        {"kind": "machine", "fields": {"machine_id": "twin", "legs": 2, "leg_spacing_nm": 48 * IN}},
        {
            "kind": "surface",
            "fields": {
                "surface_id": "F1", "name": "Field", "use": "field",
                "sand_slits": PATTERN, "lines": LINES,
            },
        },
        {
            "kind": "collector",
            "fields": {
                "collector_id": "C1", "name": "Main",
                "design": {**DESIGN, "stationed_from": "outlet"},
            },
        },
        {"kind": "benchmark", "fields": {"benchmark_id": "BM1", "elevation_nm": 10 * FT}},
        {
            "kind": "setup",
            "fields": {
                "setup_id": "L1", "collector_id": "C1", "on_point": "BM1", "plane": "level",
                "backsight_nm": 2 * FT,
            },
        },
    ]  # fmt: skip
    return JobState(written_entries([*plan, *more]))


def surface_of(job: JobState) -> Surface:
    """Return the field."""
    found = job.latest(SURFACE, "F1")
    assert isinstance(found, Surface)
    return found


def collector_of(job: JobState) -> Collector:
    """Return the collector."""
    found = job.latest(COLLECTOR, "C1")
    assert isinstance(found, Collector)
    return found


def test_offsets_are_measured_from_the_line_that_reaches_furthest_back() -> None:
    """By hand: zero at the first line; S02 begins at the very back, S01 a foot in."""
    job = state()
    found = stake_out(job, surface_of(job), "sand_slit")

    assert found is not None
    first, second = (staked_pass.legs[0][0] for staked_pass in found.passes[:2])
    assert (first.start.station_nm, first.start.offset_nm, first.end.offset_nm) == (0, FT, 30 * FT)
    assert (second.start.station_nm, second.start.offset_nm) == (16 * IN, 0)
    assert found.baseline.length_nm == 80 * IN


def test_passes_follow_the_interleave_to_and_fro() -> None:
    """Two legs 4 ft apart over 16 in: lines 1 and 4, 2 and 5, 3 and 6, there and back."""
    job = state()
    found = stake_out(job, surface_of(job), "sand_slit")

    assert found is not None
    names = [[leg[0].line_id for leg in one.legs] for one in found.passes]
    assert names == [["S01", "S04"], ["S02", "S05"], ["S03", "S06"]]
    assert [one.is_along for one in found.passes] == [True, False, True]
    assert not found.has_drives


def test_a_kept_layout_gives_the_order() -> None:
    """Drives of the layout are taken as they are, turns too."""
    drive = {
        "use": "sand_slit", "start": {"x_nm": 0, "y_nm": 0}, "end": {"x_nm": 0, "y_nm": 9},
        "driven_nm": 9, "across_nm": 0, "turn_nm": 7,
    }  # fmt: skip
    names = [one["line_id"] for one in LINES]
    drives = [{**drive, "number": n + 1, "legs": [[name]]} for n, name in enumerate(names[::-1])]
    job = state({"kind": "layout", "fields": {"surface_id": "F1", "drives": drives}})
    found = stake_out(job, surface_of(job), "sand_slit")

    assert found is not None
    assert found.has_drives
    assert [one.legs[0][0].line_id for one in found.passes] == names[::-1]
    assert {one.turn_nm for one in found.passes} == {7}


def test_lines_cut_are_known() -> None:
    """A pass whose lines are cut is done; the rest is the morning's work."""
    cut = {"pass_id": "F1-01", "surface_id": "F1", "line_ids": ["S01", "S04"], "length_nm": 30 * FT}
    job = state({"kind": "pass", "fields": cut})
    found = stake_out(job, surface_of(job), "sand_slit")

    assert found is not None
    assert [one.is_done for one in found.passes] == [True, False, False]


def test_nothing_to_stake_is_none() -> None:
    """A use the plan has no line of gives no sheet."""
    job = state()

    assert stake_out(job, surface_of(job), "piped_slit") is None
    with pytest.raises(CalculationInputError, match="no line to stake"):
        baseline_of([], 0)
    with pytest.raises(CalculationInputError, match="one point"):
        bearing_of(PointNm(1, 1), PointNm(1, 1))


@given(point=places, zero=places, bearing=st.integers(0, 359_999_999))
def test_station_and_offset_lead_back_to_the_point(
    point: PointNm, zero: PointNm, bearing: int
) -> None:
    """What is staked from the sheet stands where the plan has it, to a hundredth of a mm."""
    place = station_offset(point, Baseline(zero, zero, bearing, 0))
    back = Frame(zero, bearing).point(place.station_nm, place.offset_nm)

    assert abs(back.x_nm - point.x_nm) < 10_000
    assert abs(back.y_nm - point.y_nm) < 10_000


def test_cut_sheet_agrees_with_the_rod() -> None:
    """Height of instrument less rod on grade is the design invert, at every station.

    By hand: benchmark 10 ft and backsight 2 ft put the plane at 12 ft; the invert at
    0+20 lies 0.2 ft up, so the rod reads 11.8 ft there.
    """
    job = state()
    rows = cut_sheet(job, collector_of(job), 10 * FT, "L1")

    assert [row.station_nm for row in rows] == [n * 10 * FT for n in range(5)]
    assert all(row.rod_on_invert_nm == 12 * FT - row.invert_nm for row in rows)
    assert all(row.rod_on_floor_nm == 12 * FT - row.floor_nm for row in rows)
    assert rows[2].rod_on_invert_nm == Fraction(118 * FT, 10)


def test_cut_is_measured_from_the_hub_where_one_was_shot() -> None:
    """By hand: a hub read at 3 ft stands at 9 ft; the invert at 0+10 is 0.1 ft: cut 8.9 ft."""
    shot = {
        "setup_id": "L1", "collector_id": "C1", "station_nm": 10 * FT, "on": "hub",
        "reading_nm": 3 * FT,
    }  # fmt: skip
    job = state({"kind": "grade_shot", "fields": shot})
    rows = {row.station_nm: row for row in cut_sheet(job, collector_of(job), 10 * FT)}

    assert rows[10 * FT].hub_nm == 9 * FT
    assert rows[10 * FT].cut_to_invert_nm == Fraction(89 * FT, 10)
    assert rows[0].hub_nm is None
    assert rows[0].cut_to_invert_nm == FT  # from the planned ground
    assert rows[0].rod_on_invert_nm is None


def test_a_hub_is_no_digging() -> None:
    """Reading the rod on a hub opens no ground and is no shot of the pipe."""
    shot = {
        "setup_id": "L1", "collector_id": "C1", "station_nm": 0, "on": "hub", "reading_nm": FT,
    }  # fmt: skip
    job = state({"kind": "grade_shot", "fields": shot})

    assert not job.current(DUG_AT, day_place("2026-05-04", "C1"))
