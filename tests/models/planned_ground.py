"""An invented job in metres with round figures, planned and shot, for take-off and drainage."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from models.state.job_state import JobState
from tests.models.checks.written_job import Written, written_entries

MM, M = 10**6, 10**9
M3, TONNE = 10**15, 10**12


def written(kind: str, day: str = "2026-06-08", **fields: Any) -> Written:
    """One entry."""
    return {"kind": kind, "fields": fields, "day": day}


def job() -> Written:
    """The job, in metres."""
    return written("job", job_id="j", name="Job", unit_system="metric", station_style="metric_100m")


def pattern(spacing_mm: int, pipe_mm: int = 0, **changed: Any) -> dict[str, Any]:
    """Slits of 25 by 200 mm."""
    return {
        "spacing_nm": spacing_mm * MM,
        "width_nm": 25 * MM,
        "width_tolerance_nm": 5 * MM,
        "depth_nm": 200 * MM,
        "under_nm": 10 * MM,
        "over_nm": 20 * MM,
        "probe_every_nm": 5 * M,
        "probe_end_nm": M,
        "pipe_outside_nm": pipe_mm * MM,
        **changed,
    }


def line(name: str, use: str, length_m: int, across_m: int = 0) -> dict[str, Any]:
    """A line that runs east."""
    y_nm = across_m * M
    ends = {"x1_nm": 0, "y1_nm": y_nm, "x2_nm": length_m * M, "y2_nm": y_nm}
    return {"line_id": name, "use": use, "length_nm": length_m * M, **ends}


def lines(sand: Iterable[int] = (), piped: Iterable[int] = ()) -> list[dict[str, Any]]:
    """Lines of so many metres each."""
    made = [line(f"S{number}", "sand_slit", metres) for number, metres in enumerate(sand, 1)]
    return made + [line(f"P{number}", "piped_slit", m) for number, m in enumerate(piped, 1)]


def square(side_m: int) -> list[dict[str, int]]:
    """Outline of a square."""
    corners = ((0, 0), (side_m, 0), (side_m, side_m), (0, side_m))
    return [{"x_nm": x * M, "y_nm": y * M} for x, y in corners]


def surface(own: str = "F1", use: str = "field", **changed: Any) -> Written:
    """A field of 20 by 20 m with sand slits at 400 mm and piped slits at 1.2 m."""
    fields = {
        "surface_id": own,
        "name": f"Field {own}",
        "use": use,
        "outline": square(20),
        "sand_slits": pattern(400),
        "piped_slits": pattern(1200, pipe_mm=25),
        "lines": lines((20, 20), (20,)),
        "collector_id": "C1",
    }
    return written("surface", **{**fields, **changed})


def collector(name: str = "C1", **changed: Any) -> Written:
    """40 m at 1 % under level ground, 0.6 m deep at the outlet, 0.2 m at its head."""
    design = {
        "stationed_from": "outlet",
        "start_nm": 0,
        "length_nm": 40 * M,
        "start_invert_nm": 99_400 * MM,
        "fall_nm": 1,
        "run_nm": 100,
        "high_nm": 5 * MM,
        "low_nm": 5 * MM,
        "least_grade_fall_nm": 0,
        "shot_every_nm": 10 * M,
        "bore_nm": 100 * MM,
        "outside_nm": 110 * MM,
        "trench_width_nm": 200 * MM,
        "bedding_nm": 25 * MM,
        "bedding_least_nm": 20 * MM,
        "cover_least_nm": 50 * MM,
        "protection_depth_nm": 1200 * MM,
        "ground": [{"station_nm": at * M, "level_nm": 100 * M} for at in (0, 40)],
    }
    joins = {"outlet_id": "O1"}
    return written(
        "collector", collector_id=name, name=name, joins=joins, design={**design, **changed}
    )


def outlet(name: str = "O1", **changed: Any) -> Written:
    """A ditch whose water stands well below the pipe."""
    fields = {"outlet_id": name, "name": name, "what": "ditch", "tailwater_nm": 99 * M}
    return written("outlet", **{**fields, "permission": "not_needed", **changed})


def sand(name: str = "sand", **changed: Any) -> Written:
    """Sand of 1.6 t in a cubic metre, in hoppers of half a cubic metre."""
    fields = {"material_id": name, "use": "sand", "bulk_density_g_per_m3": 1_600_000}
    return written("material", **{**fields, "hopper_pl": M3 // 2, **changed})


def terms(**changed: Any) -> Written:
    """What the take-off reckons with."""
    fields = {
        "overbreak_permille": 0,
        "swell_permille": 250,
        "sand_waste_permille": 100,
        "sand_truck_ug": TONNE,
        "gravel_truck_ug": TONNE,
        "gravel_density_g_per_m3": 1_500_000,
        "spoil_truck_pl": M3,
        "slit_coil_nm": 15 * M,
        "collector_coil_nm": 6 * M,
        "surround_over_nm": 25 * MM,
        "sand_slit_a_day_nm": 100 * M,
        "piped_slit_a_day_nm": 50 * M,
        "collector_a_day_nm": 20 * M,
    }
    return written("takeoff_terms", **{**fields, **changed})


def drainage(name: str = "F1", **changed: Any) -> Written:
    """Sand of 500 mm an hour, n of 0.015, 20 mm of rain in an hour."""
    fields = {
        "surface_id": name,
        "sand_um_per_h": 500_000,
        "roughness_millionths": 15_000,
        "rain_nm": 20 * MM,
        "rain_min": 60,
        "pipe_bore_nm": 22 * MM,
        "pipe_fall_millionths": 10_000,
    }
    return written("drainage_terms", **{**fields, **changed})


def shots(*levels_mm: int) -> list[Written]:
    """Inverts as shot every 10 m from the outlet, in mm above the design's first."""
    made = [
        written("benchmark", benchmark_id="BM1", elevation_nm=100 * M),
        written(
            "setup",
            setup_id="L1",
            collector_id="C1",
            on_point="BM1",
            backsight_nm=M,
            at_station_nm=0,
            plane="level",
            reading_error_nm=MM,
        ),
    ]
    for number, level_mm in enumerate(levels_mm):
        made.append(
            written(
                "grade_shot",
                setup_id="L1",
                collector_id="C1",
                station_nm=number * 10 * M,
                on="invert",
                reading_nm=(1600 - level_mm) * MM,
            )
        )
    return made


def state_of(*entries: Written) -> JobState:
    """The job after some entries, the job's own first."""
    return JobState(written_entries([job(), outlet(), *entries]))
