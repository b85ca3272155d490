"""An invented job for the tests of the day sheet: a green in feet, a field in metres."""

from __future__ import annotations

from tests.sync.papers.day_writer import FT, IN, M3, MM, TON, TONNE, YD3, DayWriter, M
from tests.sync.papers.sample_plan import metric_plan, us_plan

US_DAY = "2026-06-09"
METRIC_DAY = "2026-06-10"
EMPTY_DAY = "2026-06-13"
SIGNED = (
    ((60, 300), (90, 700), (130, 820), (150, 500), (120, 250), (200, 420), (240, 640)),
    ((260, 380), (300, 600), (340, 330), (390, 610), (450, 340), (560, 480), (700, 450)),
)


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
