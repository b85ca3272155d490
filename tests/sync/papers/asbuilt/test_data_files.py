"""The list of data files: what a job gets, what it can't get, and the same bytes every time."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path, PurePosixPath

import pytest

from sync.papers.asbuilt import data_files as files
from sync.papers.asbuilt.data_files import data_files, unavailable_files
from sync.papers.asbuilt.dxf import dxf_file as dxf
from sync.papers.asbuilt.features.gather import as_built
from sync.papers.asbuilt.features.refusals import DrawingAbsentError
from tests.house.tree import ROOT
from tests.sync.papers.asbuilt.small_green import green, written_green
from tests.sync.papers.day_writer import DayWriter

DIGESTS = """
import hashlib
from sync.papers.asbuilt.data_files import data_files
from tests.sync.papers.asbuilt.small_green import green
for file in data_files(green()):
    print(file.name, hashlib.sha256(file.build(green())).hexdigest())
"""


def test_tied_job_gets_every_file() -> None:
    """Drawing, two files in longitude and latitude, GeoPackage, LandXML, a table each."""
    names = [file.name for file in data_files(green())]

    assert names[:5] == [
        "asbuilt.dxf",
        "asbuilt.geojson",
        "asbuilt.kml",
        "asbuilt.gpkg",
        "pipe-run.xml",
    ]
    assert {"csv/lines.csv", "csv/inverts.csv", "csv/joints.csv", "csv/struck.csv"} <= set(names)
    assert len(names) == len(set(names))
    assert unavailable_files(green()) == ()


def test_untied_job_is_told_what_it_lacks() -> None:
    """GeoJSON and KML are left out, each with a sentence; all others are made."""
    job = green(is_tied=False)

    assert [name for name, _ in unavailable_files(job)] == ["asbuilt.geojson", "asbuilt.kml"]
    assert all(said.startswith("Cannot write ") for _, said in unavailable_files(job))
    assert all(file.build(job) for file in data_files(job))


def test_without_the_drawing_library_the_rest_is_made(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the library is not installed, the drawing is left out in a sentence."""
    monkeypatch.setitem(sys.modules, "ezdxf", None)

    assert [name for name, _ in unavailable_files(green())] == ["asbuilt.dxf"]
    assert "asbuilt.gpkg" in {file.name for file in files.data_files(green())}
    with pytest.raises(DrawingAbsentError, match="drawing library is not installed"):
        dxf.build_dxf(green())


def digests(seed: str, zone: str) -> list[str]:
    """Digest of every file, as another process makes it."""
    done = subprocess.run(
        [sys.executable, "-c", DIGESTS],
        cwd=ROOT,
        env={"PYTHONHASHSEED": seed, "TZ": zone, "PATH": "/usr/bin:/bin"},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout.splitlines()


def test_same_book_gives_the_same_bytes_elsewhere() -> None:
    """Processes in other zones, whose sets fall out in another order, write the same bytes.

    With these two seeds the drawing library lists its classes in different orders.
    """
    found = digests("1", "UTC")

    assert len(found) == len(data_files(green()))
    assert digests("4", "Asia/Tokyo") == found


def test_another_book_gives_other_bytes() -> None:
    """One more probe is in the files that hold probes."""
    book = written_green()
    book.write("probe", pass_id="G1-1", line_id="S1", along_nm=1, depth_nm=1)
    more = as_built(book.state)
    changed = {one.name for one in data_files(more) if one.build(more) != one.build(green())}

    assert {"asbuilt.dxf", "asbuilt.geojson", "asbuilt.kml", "asbuilt.gpkg"} <= changed
    assert "csv/probes.csv" in changed


def test_empty_book_gets_its_files() -> None:
    """A book without a word still gives files that say so."""
    job = as_built(DayWriter().state)

    assert all(file.build(job) for file in data_files(job))


def test_no_file_leaves_the_folder() -> None:
    """Names are ours alone: no text of a user is part of one."""
    for file in data_files(green("../../x")):
        path = PurePosixPath(file.name)
        assert len(path.parts) <= 2
        assert ".." not in path.parts
        assert (Path("/out") / path).is_relative_to("/out")
