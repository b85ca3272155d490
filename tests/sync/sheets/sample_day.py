"""An invented job for the tests of the day sheet: a green in feet, a field in metres."""

from __future__ import annotations

from math import cos, pi, sin
from typing import Any

from tests.sync.sheets.day_writer import FT, IN, M3, MM, TON, TONNE, YD3, DayWriter, M

US_DAY = "2026-06-09"
METRIC_DAY = "2026-06-10"
EMPTY_DAY = "2026-06-13"
SIGNED = (
    ((60, 300), (90, 700), (130, 820), (150, 500), (120, 250), (200, 420), (240, 640)),
    ((260, 380), (300, 600), (340, 330), (390, 610), (450, 340), (560, 480), (700, 450)),
)


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
    book.write("collector", collector_id="C1", name="Collector C1", outlet="basin", design=design)


def cut(
    book: DayWriter, number: int, names: tuple[str, ...], eighths: tuple[int, ...], sand: int
) -> None:
    """One pass with three probes a line and its sand, hundredths of a yard."""
    pass_id = f"G7-{number:02d}"
    long = 70 if names[0][0] == "S" else 50
    fields = {"surface_id": "G7", "line_ids": names, "machine_id": "Cutter 2", "run_min": 18}
    book.write("pass", pass_id=pass_id, length_nm=long * FT, length_typed=f"{long}", **fields)
    for place, depth in enumerate(eighths):
        book.write(
            "probe",
            pass_id=pass_id,
            line_id=names[place % len(names)],
            along_nm=(3 + (long - 6) // 2 * (place // len(names))) * FT,
            depth_nm=depth * IN // 8,
            depth_typed=f"{depth / 8}",
            width_nm=IN + (place % 3) * IN // 8,
        )
    sand_fields = {"surface_id": "G7", "pass_id": pass_id, "material_id": "Sand A"}
    book.write("sand_placed", volume_pl=sand * YD3 // 100, **sand_fields)


def shoot(book: DayWriter, offs: dict[int, int], on: str = "invert") -> None:
    """Inverts at stations in feet, each some hundredths of a foot off its design."""
    for station, off in offs.items():
        design = 96 * FT + station * FT // 100 + off * FT // 100
        book.write(
            "grade_shot",
            setup_id="L1",
            collector_id="C1",
            station_nm=station * FT,
            station_typed=f"0+{station:02d}",
            on=on,
            reading_nm=104 * FT - design,
        )


def us_day_before(book: DayWriter) -> None:
    """Monday: four passes."""
    book.on("2026-06-08")
    book.write("delivery", material_id="Sand A", ticket="48090", mass_ug=12 * TON)
    for number in range(1, 5):
        names = (f"S{2 * number - 1:02d}", f"S{2 * number:02d}")
        cut(book, number, names, (72, 70, 71, 74, 72, 73), 33)
    book.write("spoil", surface_id="G7", volume_pl=3 * YD3, to="pit")


def us_day(book: DayWriter) -> DayWriter:
    """Tuesday: an ordinary day with the faults that ordinary days have."""
    book.on(US_DAY)
    book.write("weather", sky="clear", ground="firm", low_tenths_c=140, high_tenths_c=270)
    book.write("delivery", material_id="Pipe 4", ticket="9000", length_nm=100 * FT)
    book.write("delivery", material_id="Pipe 1", ticket="9001", length_nm=250 * FT, coil_id="K1")
    for number in range(5, 9):
        depths = (72, 70, 71, 74, 73, 71) if number < 8 else (70, 71, 64, 70, 71, 72)
        cut(book, number, (f"S{2 * number - 1:02d}", f"S{2 * number:02d}"), depths, 33)
    place = {"pass_id": "G7-08", "line_id": "S15", "along_nm": 60 * FT}
    wrong = book.write("probe", depth_nm=19 * IN, **place)
    book.write("probe", strikes=(wrong.id,), reason="keyed 19 for 9", depth_nm=9 * IN, **place)
    cut(book, 9, ("P01",), (72, 73, 72), 11)
    pipe = {"material_id": "Pipe 1", "coil_id": "K1", "connected": True, "end_capped": True}
    book.write("pipe_laid", surface_id="G7", line_id="P01", length_nm=50 * FT, **pipe)
    book.write("turf_strip", surface_id="G7", pass_id="G7-05", line_ids=("S09",), step="put_back")
    book.write("setup", setup_id="L1", collector_id="C1", on_point="BM1", backsight_nm=4 * FT)
    shoot(book, {0: 0, 10: 1, 20: -2, 30: -1, 40: 2, 50: -9, 60: 2, 70: 1, 80: 0})
    book.write("check_shot", setup_id="L1", on_point="BM1", reading_nm=4 * FT)
    book.write("pipe_laid", collector_id="C1", material_id="Pipe 4", length_nm=80 * FT)
    day_of_people(book)
    return book


def day_of_people(book: DayWriter) -> None:
    """Hours, words, tomorrow and two signatures."""
    for who in ("RO", "TM", "JL"):
        book.write("hours", of="person", who=who, run_min=510)
    book.write("hours", of="machine", who="Cutter 2", run_min=240, idle_min=45)
    book.write("delay", cause="Mowers on the green", start_min=615, lost_min=35)
    book.write("utility", event="found", what="irrigation", where="2 ft north of S14, east end")
    book.write("spoil", surface_id="G7", volume_pl=4 * YD3, to="pit behind the shop")
    book.write("note", text="Where should the spare sod go?", needs_owner=True)
    book.write("photo", sha256="ab" * 32, caption="Joint at 0+40, looking east", where="C1")
    clear = "Green 7 until noon; no mowing near the collector"
    book.write("tomorrow", work="Passes 10 to 14, finish P02 to P04", must_be_clear=clear)


def answer_all(book: DayWriter, why: str = "Agreed on site with the owner") -> None:
    """Answer every flag that stands open."""
    for flag in book.board().open_flags():
        book.write(
            "disposition",
            flag=flag.finding.key,
            figures=flag.finding.figures,
            said="",
            answer="accept",
            why=why,
        )


def sign(book: DayWriter, code: str) -> None:
    """Foreman and owner sign, and the day is closed."""
    signed = {"of_day": book.day, "strokes": SIGNED, "check_code": code}
    book.write("signature", role="foreman", name="Ruth Okafor", meaning="true_record", **signed)
    book.write("signature", role="owner", name="A. Lindqvist", meaning="received", **signed)
    book.write("day_closed", of_day=book.day, open_flags=0, check_code=code)


def us_book() -> DayWriter:
    """The whole job in feet, up to its Tuesday."""
    book = DayWriter()
    us_plan(book)
    us_day_before(book)
    return us_day(book)


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


def metric_book() -> DayWriter:
    """A field in metres, one day of it."""
    book = DayWriter(author="A. Brandt")
    metric_plan(book)
    book.on(METRIC_DAY)
    for number in range(1, 8):
        metric_pass(book, number)
    book.write("delivery", material_id="Sand 0/2", ticket="7741", mass_ug=27 * TONNE)
    book.write("delivery", material_id="Sand 0/2", ticket="", mass_ug=27 * TONNE)
    book.write("spoil", surface_id="F1", volume_pl=22 * M3, to="Mulde")
    book.write("weather", sky="cloud", ground="soft", rain_nm=4 * MM, wind="light")
    book.write("hours", of="person", who="Brandt", run_min=540)
    book.write("tomorrow", work="Passes 8 to 16", sand_ug=54 * TONNE)
    return book


def metric_pass(book: DayWriter, number: int) -> None:
    """One pass of two slits with its probes and its sand."""
    names = (f"S{2 * number - 1:03d}", f"S{2 * number:03d}")
    one = {"pass_id": f"F1-{number:02d}", "surface_id": "F1"}
    book.write("pass", line_ids=names, length_nm=100 * M, **one)
    for place, depth in enumerate((228, 233, 231, 236, 224, 230)):
        book.write(
            "probe",
            pass_id=one["pass_id"],
            line_id=names[place % 2],
            along_nm=(1 + 49 * (place // 2)) * M,
            depth_nm=(depth - 2 * number) * MM,
        )
    book.write("sand_placed", material_id="Sand 0/2", mass_ug=TONNE * 18 // 10, **one)


def long_book() -> DayWriter:
    """A day of four hundred probes, sixty deliveries and a long note."""
    book = us_book()
    for number in range(20, 60):
        depths = tuple(68 + (number * 7 + place * 3) % 11 for place in range(10))
        cut(book, number, ("S01", "S02"), depths, 10)
    for number in range(60):
        book.write("delivery", material_id="Sand A", ticket=f"T{number:04d}", mass_ug=TON)
    book.write("note", text=("The ground gave way by the edge and was made good. " * 42)[:2000])
    return book
