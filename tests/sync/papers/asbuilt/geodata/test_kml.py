"""KML 2.2, read back by GDAL's KML library."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest
from pyogrio import list_layers

from sync.papers.asbuilt.features.refusals import NotTiedError
from sync.papers.asbuilt.geodata.geographic import lon_lats
from sync.papers.asbuilt.geodata.kml import build_kml
from tests.sync.papers.asbuilt.reading_back import features_in, positions
from tests.sync.papers.asbuilt.small_green import CUT_FT, green

NAMES = {"k": "http://www.opengis.net/kml/2.2"}


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The green as a file."""
    found = tmp_path_factory.mktemp("kml") / "a.kml"
    found.write_bytes(build_kml(green()))
    return found


def test_another_reader_finds_every_folder(path: Path) -> None:
    """GDAL lists the folders, and the cut lengths in one of them add up to the book's."""
    folders = [name for name, _ in list_layers(path).tolist()]
    lines = features_in(path, "Lines as cut")

    assert {"Surfaces", "Lines as cut", "Depth probes", "Invert shots"} <= set(folders)
    assert sum(float(one["cut_length_ft"]) for one in lines) == CUT_FT
    assert [one["Name"] for one in lines][:2] == ["G1 S1", "G1 S2"]


def test_places_are_those_of_the_projection(path: Path) -> None:
    """Each line's ends are where the projection puts them, to a hundred-millionth of a degree."""
    job = green()
    assert job.projection is not None
    for line, found in zip(job.lines, features_in(path, "Lines as cut"), strict=True):
        if line.start is not None and line.end is not None:
            wanted = lon_lats((line.start, line.end), job.projection)
            for at, place in zip(positions(found["shape"]), wanted, strict=True):
                assert at[:2] == pytest.approx(place, abs=1e-9)


def test_struck_readings_are_hidden_until_asked_for(path: Path) -> None:
    """The folder of struck readings is switched off, as is each thing in it; lines are on."""
    root = ElementTree.fromstring(path.read_bytes())
    seen = {
        folder.findtext("k:name", "", NAMES): {
            mark.text for mark in folder.iter(f"{{{NAMES['k']}}}visibility")
        }
        for folder in root.iterfind(".//k:Folder", NAMES)
    }

    assert seen["Struck or overtaken: does not stand"] == {"0"}
    assert seen["Lines as cut"] == {"1"}


def test_every_style_that_is_used_is_there(path: Path) -> None:
    """No placemark points at a style that the file lacks."""
    root = ElementTree.fromstring(path.read_bytes())
    styles = {f"#{style.get('id')}" for style in root.iterfind(".//k:Style", NAMES)}
    used = {url.text for url in root.iterfind(".//k:styleUrl", NAMES)}

    assert used <= styles
    assert "#line-out" in used


def test_no_altitude_is_claimed(path: Path) -> None:
    """Levels are above the job's datum, so that no coordinate has a third number."""
    root = ElementTree.fromstring(path.read_bytes())
    listed = [words.text or "" for words in root.iterfind(".//k:coordinates", NAMES)]

    assert listed
    assert all(at.count(",") == 1 for words in listed for at in words.split())


def test_job_that_is_tied_to_nothing_is_refused() -> None:
    """Nothing is put on the globe that nobody has tied to it."""
    with pytest.raises(NotTiedError, match="longitude and latitude"):
        build_kml(green(is_tied=False))
