"""What the tablet's position placed: on the as-built with its accuracy, never as surveyed."""

from __future__ import annotations

import csv
import io
import json
from math import dist
from pathlib import Path

import pytest

from sync.papers.asbuilt.csv_tables import build_table
from sync.papers.asbuilt.features.gather import as_built
from sync.papers.asbuilt.geodata.geojson import build_geojson
from sync.papers.asbuilt.geodata.landxml import build_landxml
from sync.papers.asbuilt.pdf_file import build_as_built_pdf
from sync.papers.asbuilt.records.facts import Facts, gather_facts
from sync.papers.drawing.primitives import Dash, Mark, Polyline, Shape, Text
from sync.papers.tables.record_table import Record
from tests.sync.papers.asbuilt.plans.test_plan_sheet import drawn, planned
from tests.sync.papers.asbuilt.small_green import ORIGIN, written_green
from tests.sync.papers.day_writer import DayWriter, M
from tests.sync.papers.pdf_reading import outside_margins, text_of

GOOD = "by position, good to 16 ft: dig by hand well beyond it"
NORTH_NDEG = 27_000
"""3 m north of the origin: 111.13 km a degree at 45 degrees, so 27 millionths are 3.00 m."""


def found_green(*, is_tied: bool = True, good_to_nm: int | None = 5 * M) -> DayWriter:
    """The small green with a drain found and an outlet seen, both by position."""
    book = written_green("Green 1", is_tied=is_tied)
    place = {
        "placed_by": "position",
        "lat_ndeg": ORIGIN["lat_ndeg"] + NORTH_NDEG,
        "lon_ndeg": ORIGIN["lon_ndeg"],
        "placed_sd_nm": good_to_nm,
    }
    book.write("utility", event="found", what="old drain", where="low side", **place)
    book.write("outlet_seen", outlet_id="C1", flows="slow", note="under the willow", **place)
    return book


def facts_of(book: DayWriter) -> Facts:
    """The record of a book."""
    return gather_facts(book.state, book.board())


def near(one: tuple[float, float], other: tuple[float, float], away_mm: float) -> bool:
    """Whether two points of a drawing lie so far apart, to a hundredth of a millimetre."""
    return abs(dist(one, other) - away_mm) < 0.01


def table(facts: Facts, name: str) -> Record:
    """One table of it."""
    return next(one for one in facts.tables if one.name == name)


def test_tables_say_how_well_a_place_is_known() -> None:
    """Latitude and longitude, the accuracy in the job's unit, and what it means to a digger."""
    facts = facts_of(found_green())
    where = table(facts, "utilities").rows[-1].items[3].shown
    seen = [item.shown for item in table(facts, "outlets").rows[0].items]

    lat, lon = (ORIGIN[name] / 10**9 for name in ("lat_ndeg", "lon_ndeg"))
    assert where == f"low side. {lat + 27e-6:.6f}, {lon:.6f} {GOOD}"
    assert seen[:2] == ["C1", "slow"]
    assert seen[2].endswith(GOOD)


def test_plan_draws_a_broken_ring_as_wide_as_it_may_be_off() -> None:
    """Three metres north of the origin, a ring of five round it, and the words beside it."""
    facts = facts_of(found_green())
    plan = planned(facts)
    drawing = drawn(facts, plan)
    rings = [one for one in drawing if isinstance(one, Polyline) and one.dash is Dash.DASHED]
    words = " ".join(one.text for one in drawing if isinstance(one, Text))

    corners = [point for ring in rings if len(ring.points) > 9 for point in ring.points]
    on_paper = 5 * 1000 / plan.sheeting.scale.denominator
    middle = next(
        one.at
        for one in drawing
        if isinstance(one, Mark) and one.shape is Shape.CROSS and near(one.at, corners[0], on_paper)
    )
    assert len(corners) > 30
    assert all(near(middle, corner, on_paper) for corner in corners)
    assert "U3 S old drain, by position" in words


def test_untied_plane_keeps_latitude_and_longitude_alone() -> None:
    """No place on a plan that is tied to nothing; the degrees stand in table and file."""
    book = found_green(is_tied=False)
    job = as_built(book.state)
    text = build_table(job, "utilities").decode("utf-8-sig")
    row = list(csv.DictReader(io.StringIO(text)))[-1]

    assert (job.utilities[-1].at, job.outlets[0].at) == (None, None)
    assert row["latitude"] == f"{(ORIGIN['lat_ndeg'] + NORTH_NDEG) / 1e9:.6f}"
    assert row["placed"] == GOOD


@pytest.mark.parametrize(
    ("good_to_nm", "said"),
    [(5 * M, GOOD), (None, "by position, accuracy not known: dig by hand well around it")],
)
def test_files_carry_the_words_with_the_place(good_to_nm: int | None, said: str) -> None:
    """In every file a place by position says so beside its coordinates."""
    job = as_built(found_green(good_to_nm=good_to_nm).state)
    told = json.loads(build_geojson(job))["features"]
    found = next(one for one in told if one["properties"].get("what") == "old drain")

    assert found["properties"]["placed"] == said
    assert found["geometry"]["coordinates"][1] == pytest.approx(
        (ORIGIN["lat_ndeg"] + NORTH_NDEG) / 1e9, abs=1e-8
    )
    landxml = build_landxml(job).decode()
    assert said in landxml
    assert landxml.count("<CgPoint ") == 1  # the permanent point that was measured in


def test_print_says_it_and_stays_inside_its_margins(tmp_path: Path) -> None:
    """The record prints the words, and nothing runs off the sheet."""
    path = tmp_path / "as-built.pdf"
    path.write_bytes(build_as_built_pdf(facts_of(found_green())))

    assert "dig by hand well beyond it" in " ".join(text_of(path).split())
    assert outside_margins(path) == []


def test_mark_of_an_outlet_by_position_is_no_outlet_of_the_plan() -> None:
    """The collector's own outlet keeps its disc; the one by position is another mark."""
    facts = facts_of(found_green())
    marks = [one.shape for one in drawn(facts, planned(facts)) if isinstance(one, Mark)]

    assert Shape.DISC in marks
    assert Shape.SQUARE in marks
