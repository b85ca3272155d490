"""The drawing, audited and read back by its library, and read by GDAL, which shares no code."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from io import StringIO
from pathlib import Path

import pytest
from ezdxf.document import Drawing
from ezdxf.entities.insert import Insert
from ezdxf.filemanagement import read

from sync.papers.asbuilt.dxf.dxf_file import build_dxf
from sync.papers.asbuilt.dxf.scale import plot_scale
from sync.papers.asbuilt.dxf.styles import (
    EDGE,
    KEEP_OUT,
    LAID_PIPE,
    LAYERS,
    LINE_LAYERS,
    PATTERNS,
    PLANNED_PIPE,
    RELEASED,
    TIE,
)
from sync.papers.asbuilt.features.gather import as_built
from tests.sync.papers.asbuilt.reading_back import features_in
from tests.sync.papers.asbuilt.small_green import CUT_FT, green
from tests.sync.papers.day_writer import DayWriter
from tests.sync.papers.sample_day import metric_book


def read_drawing(data: bytes) -> Drawing:
    """A drawing from its bytes, read strictly."""
    return read(StringIO(data.decode()))


@pytest.fixture(scope="module")
def drawing() -> Drawing:
    """The green, drawn and read back."""
    return read_drawing(build_dxf(green()))


def tags_of(drawing: Drawing, mark: str) -> list[dict[str, str]]:
    """Figures attached to every mark of a kind."""
    return [
        {attrib.dxf.tag: attrib.dxf.text for attrib in insert.attribs}
        for insert in drawing.modelspace().query("INSERT")
        if isinstance(insert, Insert) and insert.dxf.name == mark
    ]


def test_audit_is_clean(drawing: Drawing) -> None:
    """Nothing to put right and nothing put right, and every layer used is one we named."""
    auditor = drawing.audit()
    named = {layer.name for layer in LAYERS}

    assert (auditor.errors, auditor.fixes) == ([], [])
    assert {entity.dxf.layer for entity in drawing.modelspace()} <= named
    assert named <= {layer.dxf.name for layer in drawing.layers}


def test_every_feature_is_on_its_layer(drawing: Drawing) -> None:
    """A reader that recovers nothing shows an empty drawing without a fault: count instead."""
    found = Counter((e.dxftype(), e.dxf.layer) for e in drawing.modelspace())

    assert [found["LINE", layer.name] for layer in LINE_LAYERS.values()] == [1, 2, 1, 1, 1]
    assert found["LWPOLYLINE", "SURFACE-EDGE"] == 1
    assert found["LWPOLYLINE", "KEEP-OUT"] == 2
    assert found["POINT", "PROBE"] == 5
    assert (found["INSERT", "PROBE-OUT"], found["INSERT", "STRUCK"]) == (2, 3)
    assert (found["INSERT", "INVERT"], found["INSERT", "INVERT-OUT"]) == (3, 1)
    assert (found["INSERT", "JOINT"], found["LWPOLYLINE", "RELEASED"]) == (1, 1)
    assert (found["INSERT", "UTILITY"], found["INSERT", "PERMANENT-POINT"]) == (1, 1)
    assert (found["LINE", "TIE"], found["INSERT", "LINE-ON-NO-PLAN"]) == (1, 1)


def test_lengths_and_totals_read_back(drawing: Drawing) -> None:
    """Lines measure as planned in feet; their attached cut lengths add up to the book's."""
    cut = sum(float(tags["CUT_LENGTH"]) for tags in tags_of(drawing, "LINE-TAG"))
    lengths = sorted(
        (line.dxf.start - line.dxf.end).magnitude
        for line in drawing.modelspace().query("LINE[layer ? 'LINE-.*']")
    )

    assert cut == CUT_FT
    assert lengths == pytest.approx([20, 20, 40, 40, 40, 40])
    assert drawing.units == 2


def test_another_reader_measures_the_same(tmp_path: Path) -> None:
    """GDAL finds the same lines on the same layers, and the course with its levels."""
    path = tmp_path / "a.dxf"
    path.write_bytes(build_dxf(green()))
    found = features_in(path)
    lengths = [one["shape"].length for one in found if one["Layer"].startswith("LINE-CUT")]
    (pipe,) = [one["shape"] for one in found if one["Layer"] == "COLLECTOR-INVERT"]

    assert sorted(lengths) == pytest.approx([20, 40])
    assert [round(z, 4) for _, _, z in pipe.coords] == [100, 100.1, 100.3333, 100.45, 100.5]


def test_layers_can_be_told_without_colour() -> None:
    """Every two kinds of line differ in pattern or in weight; none is thinner than 0.25 mm."""
    courses = (*LINE_LAYERS.values(), EDGE, KEEP_OUT, PLANNED_PIPE, LAID_PIPE, RELEASED, TIE)
    looks = Counter((layer.pattern, layer.weight) for layer in courses)

    assert max(looks.values()) == 1
    assert min(layer.weight for layer in LAYERS) >= 25
    assert {layer.pattern for layer in LAYERS} <= {"CONTINUOUS", *PATTERNS}


def test_stations_and_inverts_stand_on_either_side(drawing: Drawing) -> None:
    """South of the bend the course runs south: stations end west of it, inverts begin there."""
    station = next(text for text in drawing.modelspace().query("TEXT") if text.dxf.text == "0+40.0")
    (mark,) = drawing.modelspace().query("INSERT[layer == 'INVERT-OUT']")

    assert station.dxf.align_point.x < 25
    assert station.dxf.align_point.y == pytest.approx(-12)
    assert (station.dxf.rotation, mark.dxf.rotation) == (0, 0)


def test_struck_readings_are_switched_off_and_told_of(drawing: Drawing) -> None:
    """The layer is off, the notes say how many it holds, and each mark says why."""
    notes = [text.dxf.text for text in drawing.modelspace().query("TEXT[layer == 'NOTES']")]
    marks = [tags for tags in tags_of(drawing, "STRUCK") if tags["HOW"]]

    assert drawing.layers.get("STRUCK").is_off()
    assert "Layer STRUCK is off; readings that do not stand: 3." in notes
    assert marks[0]["SAID"] == "G1-1 S1 at 20.0 ft: 19 in"


def test_inverts_stand_at_their_level(drawing: Drawing) -> None:
    """The mark of the invert that is out lies at 100.45 ft and says so."""
    (mark,) = drawing.modelspace().query("INSERT[layer == 'INVERT-OUT']")
    (tags, *_) = [tags for tags in tags_of(drawing, "INVERT-OUT") if tags.get("INVERT")]

    assert mark.dxf.insert.z == pytest.approx(100.45)
    assert (tags["LABEL"], tags["OFF"]) == ("100.45 OUT", "0.05")


@pytest.mark.parametrize(
    ("book", "unit", "words"),
    [(metric_book, 6, "1 : 500"), (DayWriter, 2, "1 in = 5 ft")],
)
def test_any_job_can_be_drawn(book: Callable[[], DayWriter], unit: int, words: str) -> None:
    """A field in metres, and a book without a word: sound, in its unit, at a usual scale.

    The field is 100 m tall and 240 mm of sheet are left for it: 1 : 417, so 1 : 500.
    """
    job = as_built(book().state)
    found = read_drawing(build_dxf(job))

    assert found.audit().errors == []
    assert (found.units, plot_scale(job).words) == (unit, words)


def test_names_fit_between_their_lines() -> None:
    """Lines 400 mm apart on a field at 1 : 500 are 0.8 mm apart: names take seven tenths of it."""
    found = read_drawing(build_dxf(as_built(metric_book().state)))
    heights = {
        round(attrib.dxf.height, 6)
        for insert in found.modelspace().query("INSERT[layer == 'LINE-NAME']")
        if isinstance(insert, Insert)
        for attrib in insert.attribs
    }

    assert heights == {0.28}
