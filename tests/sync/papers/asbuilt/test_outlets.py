"""Outlets on the as-built: where they are planned, at what level, and what nobody may do there."""

from __future__ import annotations

import json

import pytest

from models.entries.bodies.outlets import BAD_AIR
from sync.papers.asbuilt.features.gather import as_built
from sync.papers.asbuilt.geodata.geojson import build_geojson
from sync.papers.asbuilt.records.facts import gather_facts
from sync.papers.tables.record_table import Record
from tests.sync.papers.asbuilt.small_green import written_green
from tests.sync.papers.day_writer import DayWriter, M


def green_with(what: str) -> DayWriter:
    """The small green with an outlet that was planned and seen, its levels measured."""
    book = written_green("Green 1", is_tied=True)
    at = {"x_nm": 3 * M, "y_nm": -2 * M}
    book.write("outlet", outlet_id="O1", name="end", what=what, at=at, permission="given")
    levels = {"invert_nm": 30 * M, "water_nm": 30_250_000_000}
    book.write("outlet_seen", outlet_id="O1", flows="free", **levels)
    return book


def outlets_of(book: DayWriter) -> Record:
    """The table of outlets."""
    facts = gather_facts(book.state, book.board())
    return next(one for one in facts.tables if one.name == "outlets")


@pytest.mark.parametrize(("what", "caution"), [("basin", BAD_AIR), ("ditch", "")])
def test_danger_stands_under_the_outlets_of_a_chamber(what: str, caution: str) -> None:
    """The table of a job with a basin ends with the danger of bad air; with a ditch it does not."""
    assert outlets_of(green_with(what)).note == caution


def test_place_of_the_plan_and_levels_as_seen() -> None:
    """Without a position an outlet stands where it is planned, with what was measured there."""
    job = as_built(green_with("basin").state)
    seen = next(one for one in job.outlets if one.outlet_id == "O1")

    assert seen.at is not None
    assert (seen.at.x_nm, seen.at.y_nm) == (3 * M, -2 * M)
    assert (seen.invert_nm, seen.water_nm) == (30 * M, 30_250_000_000)


def test_geodata_hold_the_levels_and_the_danger() -> None:
    """A stranger who opens the file alone reads the level of the water, and stays out."""
    book = green_with("basin")
    told = json.loads(build_geojson(as_built(book.state)))
    found = [one["properties"] for one in told["features"] if "flows" in one["properties"]]
    own = next(one for one in found if one["outlet_id"] == "O1")

    assert any(str(value).startswith("DANGER") for value in own.values())
    assert any(name.startswith("water") and value for name, value in own.items())
