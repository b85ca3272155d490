"""Plans of the invented jobs: a green in feet with its collector, a field in metres."""

from __future__ import annotations

from math import cos, pi, sin
from typing import Any

from tests.sync.papers.day_writer import FT, IN, MM, TONNE, YD3, DayWriter, M


def pattern(unit: int, spacing: int, depth: int, pipe: int = 0) -> dict[str, Any]:
    """Slit pattern in eighths of an inch or in millimetres."""
    return {
        "spacing_nm": spacing * unit,
        "width_nm": IN,
        "width_tolerance_nm": IN // 4,
        "depth_nm": depth * unit,
        "under_nm": IN // 2,
        "over_nm": IN,
        "probe_every_nm": 35 * FT if unit == IN else 60 * M,
        "probe_end_nm": 5 * FT,
        "pipe_outside_nm": pipe,
    }


def lines(unit: int, wide: int, high: int, sand: int, piped: int) -> list[dict[str, Any]]:
    """Sand slits from left to right, piped slits from bottom to top."""
    made = []
    for number in range(1, sand + 1):
        y = high * unit * number // (sand + 1)
        ends = {"x1_nm": 0, "y1_nm": y, "x2_nm": wide * unit, "y2_nm": y}
        made.append(
            {"line_id": f"S{number:02d}", "use": "sand_slit", "length_nm": wide * unit, **ends}
        )
    for number in range(1, piped + 1):
        x = wide * unit * number // (piped + 1)
        ends = {"x1_nm": x, "y1_nm": 0, "x2_nm": x, "y2_nm": high * unit}
        made.append(
            {"line_id": f"P{number:02d}", "use": "piped_slit", "length_nm": high * unit, **ends}
        )
    return made


def collector(unit: int, length: int, path: list[tuple[int, int]]) -> dict[str, Any]:
    """Collector at one percent, stationed from its outlet."""
    return {
        "stationed_from": "outlet",
        "start_nm": 0,
        "length_nm": length * unit,
        "start_invert_nm": 96 * FT,
        "fall_nm": 1,
        "run_nm": 100,
        "high_nm": FT * 3 // 100,
        "low_nm": FT * 3 // 100,
        "least_grade_fall_nm": 0,
        "shot_every_nm": 10 * FT,
        "bore_nm": 4 * IN,
        "outside_nm": 4 * IN + IN // 2,
        "trench_width_nm": 8 * IN,
        "bedding_nm": IN,
        "bedding_least_nm": IN // 2,
        "cover_least_nm": 8 * IN,
        "protection_depth_nm": 4 * FT,
        "path": [{"x_nm": x, "y_nm": y} for x, y in path],
    }


def rounded(unit: int, wide: int, high: int, margin: int) -> list[dict[str, int]]:
    """Edge of a green: a rectangle with very round corners, a margin outside its lines."""
    return [
        {
            "x_nm": int(unit * (wide / 2 + (wide / 2 + margin) * _corner(cos(pi * turn / 20)))),
            "y_nm": int(unit * (high / 2 + (high / 2 + margin) * _corner(sin(pi * turn / 20)))),
        }
        for turn in range(40)
    ]


def _corner(share: float) -> float:
    return (abs(share) ** 0.4) * (1 if share > 0 else -1)


def us_plan(book: DayWriter) -> None:
    """Job, plan, material and people of the green."""
    book.on("2026-06-05")
    book.write(
        "job",
        job_id="J1",
        name="Willow Bend: greens 7 and 9",
        site="Willow Bend, east nine",
        owner="Willow Bend grounds",
        contractor="Okafor Turf Drainage",
        zone="America/Chicago",
        planned_finish="2026-06-17",
    )
    book.write("benchmark", benchmark_id="BM1", elevation_nm=100 * FT, where="Lid by tee 7")
    sand = {"use": "sand", "bulk_density_g_per_m3": 1_550_000, "planned_volume_pl": 9 * YD3}
    book.write("material", material_id="Sand A", **sand)
    book.write("material", material_id="Pipe 1", use="pipe", coil_nm=250 * FT)
    book.write("material", material_id="Pipe 4", use="pipe")
    book.write("locate_ticket", ticket="L-2209", valid_from="2026-06-01", expires_on="2026-06-11")
    book.write("person", person_id="RO", name="Ruth Okafor", role="foreman")
    book.write("person", person_id="TM", name="Tomas Meier", role="operator")
    book.write("person", person_id="JL", name="Jun Li", role="labourer")
    book.write("machine", machine_id="Cutter 2", legs=2, leg_spacing_nm=48 * IN)
    book.write("machine", machine_id="Trencher", legs=0)
    book.write(
        "surface",
        surface_id="G7",
        name="Green 7",
        use="green",
        outline=rounded(FT, 70, 50, 3),
        sand_slits=pattern(IN, 16, 9),
        piped_slits=pattern(IN, 48, 9, IN),
        lines=lines(FT, 70, 50, 24, 8),
        collector_id="C1",
    )
    path = [(-3 * FT, -6 * FT), (20 * FT, -6 * FT), (77 * FT, -4 * FT)]
    design = collector(FT, 80, path)
    way_out(book)
    joins = {"outlet_id": "O1"}
    fields = {"collector_id": "C1", "name": "Collector C1", "outlet": "basin", "joins": joins}
    book.write("collector", **fields, design=design)


def way_out(book: DayWriter) -> None:
    """Outlet that was looked at before the first pipe, and needs nobody's leave."""
    fields = {"what": "ditch", "invert_nm": 95 * FT, "permission": "not_needed"}
    book.write("outlet", outlet_id="O1", name="ditch", **fields)
    book.write("outlet_seen", outlet_id="O1", flows="free")


def metric_plan(book: DayWriter) -> None:
    """Job, sand and field in metres."""
    book.on("2026-06-08")
    job = {"unit_system": "metric", "station_style": "metric_1000m", "planned_finish": "2026-07-03"}
    book.write("job", job_id="J2", name="Sportplatz Nord", owner="Gemeinde", zone="UTC", **job)
    sand = {"bulk_density_g_per_m3": 1_600_000, "planned_mass_ug": 400 * TONNE}
    book.write("material", material_id="Sand 0/2", use="sand", **sand)
    corners = ((0, 0), (60, 0), (60, 100), (0, 100))
    book.write(
        "surface",
        surface_id="F1",
        name="Platz 1",
        use="field",
        outline=[{"x_nm": x * M, "y_nm": y * M} for x, y in corners],
        sand_slits=pattern(MM, 400, 230),
        lines=[
            {
                "line_id": f"S{n:03d}",
                "use": "sand_slit",
                "x1_nm": n * 400 * MM,
                "y1_nm": 0,
                "x2_nm": n * 400 * MM,
                "y2_nm": 100 * M,
                "length_nm": 100 * M,
            }
            for n in range(1, 149)
        ],
    )
