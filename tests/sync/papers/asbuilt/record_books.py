"""Books for the record of a job: the sample jobs with their ends written to them."""

from __future__ import annotations

from typing import Any

from models.entries.kind_names import GRADE_SHOT
from tests.sync.papers.day_writer import FT, IN, DayWriter
from tests.sync.papers.sample_day import us_book
from tests.sync.papers.sample_plan import us_plan

HOUR_MS = 3_600_000
RAIN_MS = 1_781_000_000_000


def plan_alone() -> DayWriter:
    """A job that is planned, and nothing of it cut."""
    book = DayWriter()
    us_plan(book)
    return book


def us_record() -> DayWriter:
    """The green in feet with lasting points, two ties to the outlet and one to the head."""
    book = us_book()
    for point_id, x, y in (("PP1", -10, -10), ("PP2", 30, -12)):
        book.write("permanent_point", point_id=point_id, where="pin", x_nm=x * FT, y_nm=y * FT)
    ties = (("outlet", "PP1", 8.06), ("outlet", "PP2", 33.54), ("head", "PP2", 47.68))
    for end, point_id, feet in ties:
        book.write(
            "tie",
            tied=f"collector_{end}",
            collector_id="C1",
            point_id=point_id,
            distance_nm=round(feet * 100) * FT // 100,
            distance_typed=f"{feet}",
        )
    return book


def after_rain(book: DayWriter) -> None:
    """A rain, two sightings, a ring test of 2 in in 1800 s, a top-up and a flushing."""
    book.on("2026-06-20")
    book.write("rain", depth_nm=IN, depth_typed="1.00", stopped_ms=RAIN_MS, gauge="by the shed")
    for hours, condition in ((1, "standing_water"), (3, "playable")):
        seen_ms = RAIN_MS + hours * HOUR_MS
        book.write("surface_seen", surface_id="G7", condition=condition, seen_ms=seen_ms)
    readings: list[dict[str, Any]] = [
        {"after_s": 0, "level_nm": 4 * IN},
        {"after_s": 900, "level_nm": 3 * IN, "refilled_to_nm": 4 * IN},
        {"after_s": 1800, "level_nm": 3 * IN},
    ]
    ring = {"method": "double_ring", "inner_nm": 12 * IN, "when": "after"}
    book.write("infiltration_test", surface_id="G7", where="over S03", **ring, readings=readings)
    book.write("sand_top_up", surface_id="G7", material_id="Sand A", volume_pl=10**14)
    book.write("repair", collector_id="C1", done="flushed", why="first flush")


def struck_shot_book() -> DayWriter:
    """The green in feet with the shot at 0+50 struck and shot again on grade."""
    book = us_record()
    wrong = next(
        entry
        for entry in book.state.current(GRADE_SHOT, "C1")
        if getattr(entry.body, "station_nm", 0) == 50 * FT
    )
    book.write(
        "grade_shot",
        strikes=(wrong.id,),
        reason="rod not plumb",
        setup_id="L1",
        collector_id="C1",
        station_nm=50 * FT,
        on="invert",
        reading_nm=104 * FT - (96 * FT + FT // 2),
    )
    return book
