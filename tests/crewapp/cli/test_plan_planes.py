"""Longitudes brought into a plan: where its plane begins is said once, never chosen by a file."""

from __future__ import annotations

from pathlib import Path

import pyproj
import pytest

from models.entries.kind_names import LAYOUT, SURFACE
from tests.crewapp.cli.test_plan_drawings import FIELD, book, bring, latest
from tests.models.readers.outlines.geo_text import SQUARE, feature, polygon, text

GEOD = pyproj.Geod(ellps="WGS84")
Captured = pytest.CaptureFixture[str]

__all__ = ["book"]


def test_geojson_keep_outs_need_the_plane_of_the_taped_ground(book: Path, capsys: Captured) -> None:
    """A bunker by longitude over ground that was taped: never at a place the file chooses."""
    assert (
        bring(book, "taped.csv", "point,x,y\n1,0,0\n2,90,0\n3,90,200\n4,0,200\n5,0,0\n", *FIELD)
        == 0
    )
    keep_outs = ("--surface", "F9", "--as", "keep-outs")
    ring = [[7.00008, 45.00018], [7.00012, 45.00018], [7.0001, 45.0002], [7.00008, 45.00018]]
    data = text(feature(polygon(ring), "bunker"))
    capsys.readouterr()

    assert bring(book, "bunker.geojson", data, *keep_outs) == 2
    assert "F9 is drawn in a plane" in capsys.readouterr().err
    assert not latest(book, LAYOUT).keep_outs
    assert bring(book, "bunker.geojson", data, *keep_outs, "--plane", "45, 7") == 0

    (bunker,) = latest(book, LAYOUT).keep_outs
    east, along = GEOD.inv(7, 45, 7.00008, 45)[2], GEOD.inv(7, 45, 7, 45.00018)[2]
    corner = min(bunker.ring, key=lambda one: (one.x_nm, one.y_nm))
    assert corner.x_nm / 1e9 == pytest.approx(east, abs=1e-3)
    assert corner.y_nm / 1e9 == pytest.approx(along, abs=1e-3)


def test_a_plane_that_lies_elsewhere_is_not_passed_over(book: Path, capsys: Captured) -> None:
    """What the plan says of its plane, said again, is taken; another place is refused."""
    data = text(feature(polygon(SQUARE), "square"))
    assert bring(book, "a.geojson", data, *FIELD, "--plane", "45, 7") == 0
    assert bring(book, "a.geojson", data, *FIELD, "--plane", "45.0 N, 7 E") == 0
    before = latest(book, SURFACE)
    capsys.readouterr()

    assert bring(book, "a.geojson", data, *FIELD, "--plane", "45.0001, 7") == 2

    told = capsys.readouterr().err
    assert "begins at 45, 7 (latitude, longitude), and 45.0001, 7 was given" in told
    assert latest(book, SURFACE) == before
