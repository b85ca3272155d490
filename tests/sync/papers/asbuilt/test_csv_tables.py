"""CSV tables, read back by the standard reader and by GDAL."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
import shapely

from sync.papers.asbuilt.csv_tables import build_about_table, build_table
from sync.papers.asbuilt.layers.survey_layers import layers_of
from tests.sync.papers.asbuilt.reading_back import features_in
from tests.sync.papers.asbuilt.small_green import CUT_FT, OFF_PLAN_FT, green


def rows_of(name: str) -> list[dict[str, str]]:
    """Rows of a table of the green."""
    data = build_table(green(), name).decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(data, newline="")))


def test_lines_add_up_to_the_book() -> None:
    """Cut lengths add up; a line on no plan has no ends, and says why."""
    lines = rows_of("lines")

    assert sum(float(one["cut_length_ft"]) for one in lines) == CUT_FT
    assert (lines[-1]["start_east_ft"], lines[-1]["place"]) == ("", "on no plan: no place known")


def test_shapes_read_back_as_well_known_text() -> None:
    """Course, pipe as laid and outline come back with their lengths, level and area."""
    (planned,), (laid,), (surface,) = (
        rows_of(name) for name in ("collectors", "collectors_laid", "surfaces")
    )
    pipe = shapely.from_wkt(laid["wkt_ft"])

    assert shapely.from_wkt(planned["wkt_ft"]).length == 50
    assert [z for _, _, z in shapely.get_coordinates(pipe, include_z=True)] == pytest.approx(
        [100, 100.1, 100 + 1 / 3, 100.45, 100.5], abs=1e-6
    )
    assert shapely.from_wkt(surface["wkt_ft"]).area == 800


def test_inverts_have_their_deviation() -> None:
    """Station, invert, off design and verdict stand side by side, in feet."""
    shots = [(one["station"], one["off_design_ft"], one["verdict"]) for one in rows_of("inverts")]

    assert shots == [
        ("0+00.0", "0.0", "OK"),
        ("0+10.0", "0.0", "OK"),
        ("0+40.0", "0.05", "OUT"),
        ("0+50.0", "0.0", "OK"),
    ]


@pytest.mark.parametrize("layer", [one.name for one in layers_of(green())])
def test_another_reader_reads_every_table(layer: str, tmp_path: Path) -> None:
    """GDAL finds the same rows and columns in each table."""
    path = tmp_path / f"{layer}.csv"
    path.write_bytes(build_table(green(), layer))
    found = features_in(path, with_shapes=False)

    assert len(found) == len(rows_of(layer))
    assert set(found[0]) - {"shape"} == set(rows_of(layer)[0])


def test_tables_say_what_they_are_in() -> None:
    """Units, plane and total stand in a table of their own."""
    said = dict(csv.reader(io.StringIO(build_about_table(green()).decode("utf-8-sig"))))

    assert said["units"] == "ft, in"
    assert said["cut_length"] == f"{CUT_FT - OFF_PLAN_FT}.0 ft"
    assert said["cut_off_plan"] == f"{OFF_PLAN_FT}.0 ft"
    assert said["plane"].startswith("Local plane, origin at latitude 41.98")
