"""Makes up small jobs for laws: entries of every kind, with strikes and corrections."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from models.entries.envelope import AnyEntry
from models.entries.kinds import KINDS
from tests.models.checks.any_fields_around import AROUND, IN, amounts, inches, sands, surfaces
from tests.models.checks.written_job import Written, written_entries

FT = 12 * IN
DAYS = ["2026-05-04", "2026-05-05"]
LINES = ["S01", "S02", "S03", "S04", "P01", "P02", "S99"]

lines = st.sampled_from(LINES)
some_lines = st.lists(lines, min_size=1, max_size=3)
passes = st.sampled_from(["G7-01", "G7-02", "G7-03", "G8-01"])
maybe_pass = st.sampled_from(["", "G7-01", "G7-02"])
coils = st.sampled_from(["", "K1", "K2"])
moistures = st.sampled_from(["dry", "damp", "wet"])
setups = st.sampled_from(["L1", "L2"])
lasers = st.sampled_from(["laser 1", "laser 2"])
points = st.sampled_from(["BM1", "BM2", "TP1", "TP2"])
days = st.sampled_from(DAYS)
stations = st.sampled_from([0, 10 * FT, 20 * FT, 30 * FT])
layers = st.sampled_from(["bedding", "pipe", "tracer_wire", "surround", "fabric", "sand", "sod"])


def planned_line(name: str, use: str) -> dict[str, Any]:
    """A planned line; the plan's points don't matter to a check."""
    ends = {"x1_nm": 0, "y1_nm": 0, "x2_nm": 0, "y2_nm": 20 * FT}
    return {"line_id": name, "use": use, "length_nm": 20 * FT, **ends}


PATTERN = {
    "spacing_nm": 16 * IN,
    "width_nm": IN,
    "width_tolerance_nm": 0,
    "depth_nm": 9 * IN,
    "under_nm": IN,
    "over_nm": IN,
    "probe_every_nm": 10 * FT,
    "probe_end_nm": 2 * FT,
}
PLANS = [
    [planned_line(name, "piped_slit" if name[0] == "P" else "sand_slit") for name in LINES[:-1]],
    [planned_line(name, "sand_slit") for name in LINES[1:3]],
]
DESIGN = {
    "start_nm": 0,
    "length_nm": 40 * FT,
    "start_invert_nm": 0,
    "fall_nm": FT,
    "run_nm": 100 * FT,
    "high_nm": IN // 2,
    "low_nm": IN // 2,
    "least_grade_fall_nm": FT // 2,
    "shot_every_nm": 10 * FT,
    "bore_nm": 4 * IN,
    "outside_nm": 5 * IN,
    "trench_width_nm": 8 * IN,
    "bedding_nm": IN,
    "bedding_least_nm": IN,
    "cover_least_nm": 6 * IN,
    "protection_depth_nm": 4 * FT,
    "ground": [{"station_nm": 0, "level_nm": FT}, {"station_nm": 40 * FT, "level_nm": FT}],
}
span = {"from_nm": st.sampled_from([0, 10 * FT]), "to_nm": st.sampled_from([20 * FT, 40 * FT])}

FIELDS: dict[str, dict[str, st.SearchStrategy[Any]]] = {
    "job": {"job_id": st.just("demo"), "name": st.just("Demo")},
    "benchmark": {"benchmark_id": points, "elevation_nm": inches(0, 60)},
    "material": {
        "material_id": sands,
        "use": st.sampled_from(["sand", "pipe"]),
        "bulk_density_g_per_m3": st.sampled_from([None, 1_600_000]),
        "coil_nm": st.sampled_from([None, 20 * FT]),
        "suitable": st.booleans(),
    },
    "locate_ticket": {
        "ticket": st.sampled_from(["T1", "T2"]),
        "surfaces": st.lists(st.sampled_from(["G7", "C1"]), max_size=1),
        "valid_from": days,
        "expires_on": days,
    },
    "person": {"person_id": st.just("ann"), "name": st.just("Ann")},
    "machine": {"machine_id": st.just("T1"), "legs": st.just(2)},
    "surface": {
        "surface_id": surfaces,
        "name": st.just("Green"),
        "use": st.just("green"),
        "sand_slits": st.sampled_from([None, PATTERN]),
        "piped_slits": st.sampled_from([None, PATTERN, {**PATTERN, "pipe_outside_nm": IN}]),
        "lines": st.sampled_from(PLANS),
        "collector_id": st.sampled_from(["", "C1"]),
    },
    "collector": {
        "collector_id": st.just("C1"),
        "name": st.just("Main"),
        "design": st.sampled_from(["outlet", "head"]).map(
            lambda end: {**DESIGN, "stationed_from": end}
        ),
        "joins": st.sampled_from(
            [None, {"outlet_id": "O1"}, {"collector_id": "C1", "station_nm": 10 * FT}]
        ),
    },
    "pass": {
        "pass_id": passes,
        "surface_id": surfaces,
        "line_ids": some_lines,
        "machine_id": st.sampled_from(["", "T1"]),
        "length_nm": inches(0, 260),
        "shift_nm": st.sampled_from([None, 0, 16 * IN, 32 * IN]),
    },
    "probe": {
        "pass_id": passes,
        "line_id": lines,
        "along_nm": st.sampled_from([0, 2 * FT, 10 * FT, 19 * FT]),
        "depth_nm": inches(7, 11),
        "width_nm": st.sampled_from([None, IN, 2 * IN]),
    },
    "turf_strip": {
        "surface_id": surfaces,
        "pass_id": maybe_pass,
        "line_ids": some_lines,
        "step": st.sampled_from(["lifted", "put_back", "rolled"]),
    },
    "sand_placed": {
        "surface_id": surfaces,
        "pass_id": maybe_pass,
        "material_id": sands,
        "moisture": moistures,
    },
    "watered_in": {"surface_id": surfaces, "pass_id": maybe_pass},
    "pipe_laid": {
        "surface_id": surfaces,
        "line_id": st.sampled_from(["", "P01", "P02"]),
        "collector_id": st.sampled_from(["", "C1"]),
        "material_id": sands,
        "coil_id": coils,
        "length_nm": inches(0, 300),
        "connected": st.booleans(),
        "end_capped": st.booleans(),
    },
    "delivery": {
        "material_id": sands,
        "ticket": st.sampled_from(["", "41"]),
        "coil_id": coils,
        "moisture": st.sampled_from([None, "wet"]),
    },
    "spoil": {"volume_pl": st.just(10**15)},
    "blade_set": {
        "machine_id": st.just("T1"),
        "leg": st.integers(0, 2),
        "what": st.just("depth_set"),
    },
    "instrument": {
        "instrument_id": lasers,
        "what": st.just("rotating_laser"),
        "rod_step_nm": st.just(3_048_000),
    },
    "instrument_event": {
        "instrument_id": lasers,
        "what": st.sampled_from(["dropped", "serviced", "calibrated", "other"]),
    },
    "peg_test": {
        "instrument_id": lasers,
        **{name: st.just(4 * FT) for name in ("mid_a_nm", "mid_b_nm", "end_b_nm")},
        "end_a_nm": st.sampled_from([4 * FT, 5 * FT]),
        "to_a_nm": st.sampled_from([100 * FT, 0]),
        "to_b_nm": st.just(0),
    },
    "setup": {
        "setup_id": setups,
        "instrument_id": st.sampled_from(["", "laser 1"]),
        "collector_id": st.sampled_from(["", "C1"]),
        "on_point": points,
        "backsight_nm": st.sampled_from([None, 4 * FT, 40 * FT]),
        "plane": st.sampled_from(["level", "graded"]),
        "fall_nm": st.just(FT),
        "run_nm": st.just(100 * FT),
        "calibrated_on": st.sampled_from([None, "2025-01-01"]),
    },
    "turning_point": {"setup_id": setups, "point_id": points, "foresight_nm": inches(0, 60)},
    "check_shot": {"setup_id": setups, "on_point": points, "reading_nm": inches(0, 60)},
    "grade_shot": {
        "setup_id": setups,
        "collector_id": st.just("C1"),
        "station_nm": stations,
        "on": st.sampled_from(["trench_floor", "bedding", "invert", "obvert", "ground"]),
        "reading_nm": inches(0, 60),
    },
    "layer_check": {
        "collector_id": st.just("C1"),
        **span,
        "layer": layers,
        "thickness_nm": st.sampled_from([None, IN // 2, IN]),
        "continuous": st.sampled_from([None, True, False]),
    },
    "hold_point": {"collector_id": st.just("C1"), **span, "released_by": st.just("Owner")},
    "trench_protection": {
        "collector_id": st.just("C1"),
        **span,
        "depth_nm": inches(0, 60),
        "protection": st.sampled_from(["sloped", "nobody_enters"]),
        "judged_by": st.just("Ann"),
    },
    "go_ahead": {
        "place": st.sampled_from(["G7", "C1"]),
        "missing": st.sampled_from(["locate_ticket", "trench_protection"]),
        "reason": st.just("locator was here"),
    },
    "utility": {
        "event": st.sampled_from(["found", "hit"]),
        "what": st.just("irrigation"),
        "where": st.just("by the bunker"),
        "placed_by": st.sampled_from([None, "position"]),
    },
    "outlet_seen": {
        "outlet_id": st.sampled_from(["C1", "O1"]),
        "flows": st.just("free"),
        "invert_nm": st.sampled_from([None, 0]),
        "water_nm": st.sampled_from([None, -FT, FT]),
    },
    "hours": {"of": st.just("person"), "who": st.just("ann"), "run_min": st.just(60)},
    "weather": {"sky": st.just("clear"), "ground": st.just("dry")},
    "delay": {"cause": st.just("rain"), "lost_min": st.just(30)},
    "note": {"text": st.just("so far")},
    "photo": {"sha256": st.just("0" * 64)},
    "tomorrow": {"work": st.just("cut on")},
    "disposition": {
        "flag": st.just("depth_shallow/G7-01"),
        "figures": st.just(""),
        "answer": st.just("accept"),
        "why": st.just("agreed"),
    },
    "signature": {
        "of_day": days,
        "role": st.sampled_from(["foreman", "owner"]),
        "name": st.just("Ann"),
        "meaning": st.just("true_record"),
        "strokes": st.just([[[0, 0], [9, 9]]]),
    },
    "day_closed": {"of_day": days, "open_flags": st.integers(0, 2), "check_code": st.just("")},
    "day_reopened": {"of_day": days, "why": st.just("forgot a load")},
    **AROUND,
    "struck": {"why": st.just("slip")},
}
OFTEN = ["pass", "probe", "sand_placed", "turf_strip", "pipe_laid", "grade_shot", "surface"]


@st.composite
def pieces(draw: st.DrawFn, line_id: str) -> dict[str, Any]:
    """Fields of a piece that a pass cut in a line."""
    from_nm = draw(st.sampled_from([-2 * FT, 0, 5 * FT]))
    return {
        "line_id": line_id,
        "leg": draw(st.integers(0, 2)),
        "from_nm": from_nm,
        "to_nm": from_nm + draw(st.sampled_from([IN, 10 * FT, 20 * FT, 23 * FT])),
        "by": draw(st.sampled_from(["measured", "drive", "plan", "old"])),
    }


@st.composite
def bodies(draw: st.DrawFn, kind: str) -> dict[str, Any]:
    """Fields of a body of a kind."""
    fields = {name: draw(strategy) for name, strategy in FIELDS[kind].items()}
    if kind == "sand_placed":
        fields[draw(st.sampled_from(["volume_pl", "mass_ug"]))] = draw(amounts)
    if kind == "pass" and draw(st.booleans()):
        names = dict.fromkeys(fields["line_ids"])
        fields["pieces"] = [draw(pieces(name)) for name in names]
        fields |= {"line_ids": list(names), "is_along": draw(st.sampled_from([None, True, False]))}
    if kind == "delivery":
        name = draw(st.sampled_from(["volume_pl", "mass_ug", "length_nm"]))
        fields[name] = 20 * FT if name == "length_nm" else draw(amounts)
    return fields


@st.composite
def written(draw: st.DrawFn, number: int) -> Written:
    """One thing written; now and then it strikes what was written before."""
    kind = draw(st.sampled_from([*KINDS, *OFTEN, *OFTEN]))
    strikes = []
    if number > 1 and (kind == "struck" or draw(st.integers(0, 3)) == 0):
        strikes = [f"e{draw(st.integers(1, number - 1)):06d}"]
    return {
        "kind": kind,
        "fields": draw(bodies(kind)),
        "day": draw(days),
        "stream": draw(st.sampled_from(["tablet-a", "tablet-b"])),
        "strikes": strikes,
    }


@st.composite
def jobs(draw: st.DrawFn, most: int = 24) -> list[AnyEntry]:
    """Entries of a small job with a plan of its first green, in the order of writing."""
    size = draw(st.integers(1, most))
    plan = [
        {"kind": "surface", "fields": draw(bodies("surface"))},
        {"kind": "collector", "fields": draw(bodies("collector"))},
    ]
    rest = [draw(written(number)) for number in range(len(plan) + 1, size + len(plan) + 1)]
    return list(written_entries([*plan, *rest]))
