"""A green of 40 x 20 ft with all that an as-built can hold, written entry by entry.

Four sand slits of 40 ft, two piped slits of 20 ft, a collector of 50 ft with a bend, laid at
one percent from its outlet at 100 ft. What became of each line:

S1 cut well, S2 cut with a shallow probe accepted, S3 cut with a deep probe that stands open,
S4 planned, P1 cut, piped and joined, P2 cut; X9 is on no plan and was cut all the same.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.features.gather import as_built
from tests.sync.papers.day_writer import FT, IN, DayWriter
from tests.sync.papers.sample_plan import collector, pattern

ORIGIN = {"lon_ndeg": -93_123_456_789, "lat_ndeg": 41_987_654_321}
OFF_PLAN_FT = 7
CUT_FT = 3 * 40 + 2 * 20 + OFF_PLAN_FT
"""Three sand slits, two piped slits, and seven feet on no plan."""


def point(x: int, y: int) -> dict[str, int]:
    """Point of a plan, in feet."""
    return {"x_nm": x * FT, "y_nm": y * FT}


def line(name: str, use: str, ends: tuple[int, int, int, int]) -> dict[str, Any]:
    """Line of a plan, in feet."""
    x1, y1, x2, y2 = (way * FT for way in ends)
    length = abs(x2 - x1) + abs(y2 - y1)
    places = {"x1_nm": x1, "y1_nm": y1, "x2_nm": x2, "y2_nm": y2, "length_nm": length}
    return {"line_id": name, "use": use, **places}


def write_plan(book: DayWriter, name: str, *, is_tied: bool) -> None:
    """Job, surface, layout, collector and permanent points; ``name`` goes wherever one may."""
    book.on("2026-06-05")
    book.write("job", job_id="J1", name=name, site=name, owner=name, zone="UTC", datum=name)
    if is_tied:
        book.write("local_plane", **ORIGIN, how=name)
    book.write("benchmark", benchmark_id="BM1", elevation_nm=104 * FT)
    lines = [line(f"S{n}", "sand_slit", (0, 4 * n, 40, 4 * n)) for n in range(1, 5)]
    lines += [line(f"P{n}", "piped_slit", (15 * n, 0, 15 * n, 20)) for n in (1, 2)]
    book.write(
        "surface",
        surface_id="G1",
        name=name,
        use="green",
        # clockwise on purpose: files that want it the other way have to turn it
        outline=[point(0, 0), point(0, 20), point(40, 20), point(40, 0)],
        sand_slits=pattern(IN, 48, 9),
        piped_slits=pattern(IN, 180, 9, IN),
        lines=lines,
        collector_id="C1",
        note=name,
    )
    ring = [point(30, 17), point(34, 17), point(34, 19), point(30, 19)]
    island = [point(31, 18), point(32, 18), point(32, 19)]
    kept = {"name": name[:80], "ring": ring, "islands": [island], "clearance_nm": FT}
    end = {"number": 1, "line_id": "P1", "station_nm": 20 * FT, "at": point(15, -2)}
    book.write("layout", surface_id="G1", setback_nm=FT, keep_outs=[kept], ends=[end])
    path = [(-5 * FT, -2 * FT), (25 * FT, -2 * FT), (25 * FT, -22 * FT)]
    design = collector(FT, 50, path) | {"start_invert_nm": 100 * FT}
    book.write("collector", collector_id="C1", name=name, outlet=name, design=design)
    book.write("permanent_point", point_id="PP1", where=name, **point(-10, 0))
    book.write("permanent_point", point_id="PP2", where="oak by the path")


def write_slits(book: DayWriter, name: str) -> None:
    """Passes, probes, sand and pipe; the third probe of S1 was typed wrong and struck."""
    book.on("2026-06-08")
    for number, (cut, feet) in enumerate(
        {"S1": 40, "S2": 40, "S3": 40, "P1": 20, "P2": 20}.items()
    ):
        book.write(
            "pass", pass_id=f"G1-{number + 1}", surface_id="G1", line_ids=[cut], length_nm=feet * FT
        )
    book.write("pass", pass_id="G1-X", surface_id="G1", line_ids=["X9"], length_nm=7 * FT)
    probe = {"pass_id": "G1-1", "line_id": "S1"}
    book.write("probe", **probe, along_nm=2 * FT, depth_nm=9 * IN, depth_typed="9", width_nm=IN)
    book.write("probe", **probe, along_nm=38 * FT, depth_nm=8 * IN)
    book.write("probe", **probe, along_nm=38 * FT, depth_nm=9 * IN)  # cut again, probed again
    slip = book.write("probe", **probe, along_nm=20 * FT, depth_nm=19 * IN)
    right = {"along_nm": 20 * FT, "depth_nm": 9 * IN}
    book.write("probe", **probe, **right, strikes=[slip.id], reason=name)
    book.write("probe", pass_id="G1-2", line_id="S2", along_nm=20 * FT, depth_nm=8 * IN)
    book.write("probe", pass_id="G1-3", line_id="S3", along_nm=20 * FT, depth_nm=11 * IN)
    book.write("sand_placed", surface_id="G1", pass_id="G1-1", material_id="A", volume_pl=10**15)
    pipe = {"surface_id": "G1", "line_id": "P1", "material_id": name[:80], "length_nm": 22 * FT}
    book.write("pipe_laid", **pipe, connected=True, end_capped=True)


def write_collector(book: DayWriter, name: str) -> None:
    """Inverts at 0, 10, 40 and 50 ft: 1 % but for 0.05 ft too high at 40; 10 was shot twice."""
    book.on("2026-06-09")
    book.write("setup", setup_id="L1", collector_id="C1", on_point="BM1", backsight_nm=FT)
    shots = ((0, 500), (10, 450), (10, 490), (40, 455), (50, 450))
    for station, hundredths in shots:
        book.write(
            "grade_shot",
            setup_id="L1",
            collector_id="C1",
            station_nm=station * FT,
            on="invert",
            reading_nm=hundredths * FT // 100,
        )
    pipe = {"collector_id": "C1", "material_id": "Pipe 4", "length_nm": 50 * FT}
    book.write("pipe_laid", **pipe)
    span = {"from_nm": 0, "to_nm": 40 * FT}
    book.write("hold_point", collector_id="C1", **span, released_by=name[:80], note=name)


def write_finds(book: DayWriter, name: str) -> None:
    """Utilities with and without a place, an outlet, ties, a photo, an answer to a flag of S2."""
    met = {"event": "found", "what": name[:80], "where": name}
    book.write("utility", **met, depth_nm=14 * IN, **point(12, 9), action=name)
    book.write("utility", event="hit", what="irrigation", where="by the bunker")
    book.write("outlet_seen", outlet_id="C1", flows="free", note=name)
    tie = {"point_id": "PP1", "surface_id": "G1", "line_id": "S1"}
    book.write("tie", tied="line_start", **tie, distance_nm=int(10.77 * FT), distance_typed="10.77")
    book.write(
        "tie", tied="collector_outlet", collector_id="C1", point_id="PP2", distance_nm=9 * FT
    )
    book.write("photo", sha256="ab" * 32, caption=name, where=name)
    for flag in book.board().flags():
        if flag.finding.key.startswith("depth_shallow/G1-2"):
            facts = {"flag": flag.finding.key, "figures": flag.finding.figures}
            book.write("disposition", **facts, answer="accept", why=name)


def written_green(name: str = "Green 1", *, is_tied: bool = True) -> DayWriter:
    """The whole book, with one name wherever a person may type one."""
    book = DayWriter(author=name)
    write_plan(book, name, is_tied=is_tied)
    write_slits(book, name)
    write_collector(book, name)
    write_finds(book, name)
    return book


@cache
def green(name: str = "Green 1", *, is_tied: bool = True) -> AsBuilt:
    """Features of the green, made once."""
    return as_built(written_green(name, is_tied=is_tied).state)
