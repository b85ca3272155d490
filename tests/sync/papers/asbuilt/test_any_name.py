"""Whatever a person types as a name goes through every writer and comes back whole."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from xml.etree import ElementTree

import pytest
from ezdxf.lldxf.encoding import decode_dxf_unicode
from ezdxf.tools.text import caret_decode
from hypothesis import example, given, settings
from hypothesis import strategies as st

from sync.papers.asbuilt.csv_tables import build_table
from sync.papers.asbuilt.dxf.dxf_file import build_dxf
from sync.papers.asbuilt.dxf.text import escape_text
from sync.papers.asbuilt.geodata.geojson import build_geojson
from sync.papers.asbuilt.geodata.geopackage import build_geopackage
from sync.papers.asbuilt.geodata.kml import build_kml
from sync.papers.asbuilt.geodata.landxml import build_landxml
from sync.papers.asbuilt.geodata.xml_text import xml_attribute, xml_text
from tests.sync.papers.asbuilt.dxf.test_dxf_file import read_drawing, tags_of
from tests.sync.papers.asbuilt.landxml_rules import faults_of
from tests.sync.papers.asbuilt.reading_back import features_in
from tests.sync.papers.asbuilt.small_green import green

HOSTILE = {
    "quotes": """O'Brien "the cutter" `x`""",
    "markup": "<Placemark/>&amp;<!-- --><![CDATA[x]]>",
    "lines": "north\nend\tof\rgreen",
    "picture": "done \U0001f44d\U0001f3fd",
    "right to left": "\u202eabc علي דוד",
    "formula": '=HYPERLINK("http://example.com")',
    "drawing codes": r"%%u \U+0041 \M+1ABCD ^J ^ \P{x;}",
    "path": "../../../etc/passwd",
    "statement": "x'); DROP TABLE lines; --",
    "template": "{0} %s ${x} {{y}}",
}


def surface_of(data: bytes, tmp_path: Path, suffix: str, layer: str | None) -> str:
    """Name of the surface as GDAL reads it."""
    path = tmp_path / f"a.{suffix}"
    path.write_bytes(data)
    return str(features_in(path, layer)[0]["name"])


@pytest.mark.parametrize("name", HOSTILE.values(), ids=HOSTILE.keys())
def test_name_comes_back_whole(name: str, tmp_path: Path) -> None:
    """GeoJSON, GeoPackage and KML by GDAL, LandXML by a plain XML reader, CSV by its reader."""
    job = green(name)
    xml = ElementTree.fromstring(build_landxml(job))
    owner = xml.find(".//{*}Property[@label='owner']")
    table = build_table(job, "surfaces").decode("utf-8-sig")
    (row,) = csv.DictReader(io.StringIO(table, newline=""))

    assert surface_of(build_geojson(job), tmp_path, "geojson", None) == name
    assert surface_of(build_geopackage(job), tmp_path, "gpkg", "surfaces") == name
    kml = ElementTree.fromstring(build_kml(job))
    assert name in {value.text for value in kml.iterfind(".//{*}value")}
    assert owner is not None
    assert owner.get("value") == name
    assert faults_of(build_landxml(job)) == []
    assert row["note"].removeprefix("'") == name
    assert not row["note"].startswith("=")


@pytest.mark.parametrize("name", HOSTILE.values(), ids=HOSTILE.keys())
def test_name_comes_back_whole_from_the_drawing(name: str) -> None:
    """The figure attached to a mark is the name letter for letter; the drawing is sound."""
    found = read_drawing(build_dxf(green(name)))
    tags, *_ = (tags for tags in tags_of(found, "UTILITY") if tags.get("WHAT"))
    label = tags["LABEL"]

    assert caret_decode(decode_dxf_unicode(tags["WHAT"])) == name
    assert found.audit().errors == []
    assert "%%" not in label
    assert "^J" not in label or "^J" in name


def test_another_reader_reads_names_of_the_kml(tmp_path: Path) -> None:
    """GDAL's KML library gives names back as typed, but for breaks, which it takes for spaces."""
    for name in HOSTILE.values():
        path = tmp_path / "a.kml"
        path.write_bytes(build_kml(green(name)))
        found = str(features_in(path, "Surfaces")[0]["Name"])

        assert found.split() == name.split()


TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=60)


@given(TEXT)
@example("\x00\x07\x1b\ufffe\x85\u2028")
@settings(max_examples=200, deadline=None)
def test_any_text_goes_through_xml(text: str) -> None:
    """Content and attribute come back as typed; what XML can't hold is named by its number."""
    root = ElementTree.fromstring(f'<a b="{xml_attribute(text)}">{xml_text(text)}</a>')

    assert (root.text or "") == root.get("b")
    assert (root.text or "").count("[U+") >= sum(letter in "\x00\x07\x1b\ufffe" for letter in text)
    if all(letter in "\t\n\r" or " " <= letter < "\ud800" for letter in text):
        assert (root.text or "") == text


@given(TEXT)
@example("^\x01\\U+0041\\\\U+0041\n\r\n")
@settings(max_examples=200, deadline=None)
def test_any_text_goes_through_a_drawing(text: str) -> None:
    """A kept text is one line for the file, and a reader's own decoding gives it back."""
    written = escape_text(text)

    assert not set(written) & set("\n\r\x00")
    assert caret_decode(decode_dxf_unicode(written)) == text.replace("\x7f", "[U+007F]")


@given(TEXT)
@settings(max_examples=50, deadline=None)
def test_any_text_goes_through_json_and_tables(text: str) -> None:
    """JSON holds every character; a table all but control characters, and no formula."""
    job = green(f"={text}")
    feature = json.loads(build_geojson(job))["features"][0]
    (row,) = csv.DictReader(
        io.StringIO(build_table(job, "surfaces").decode("utf-8-sig"), newline="")
    )

    assert feature["properties"]["note"] == f"={text}"
    assert row["note"].startswith("'=")
