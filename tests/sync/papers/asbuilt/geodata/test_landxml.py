"""LandXML of the pipe run: its figures, and the references that validators let pass.

The rules are those of the published schema 1.2 for the elements that we write; the schema
itself is not among our files, so that ``faults_of`` stands in for it.
"""

from __future__ import annotations

from collections.abc import Callable
from xml.etree import ElementTree

import pytest

from models.entries.kind_names import COLLECTOR
from models.science.shapes.rings import PointNm, distance_nm
from sync.papers.asbuilt.features.gather import as_built
from sync.papers.asbuilt.geodata.landxml import build_landxml
from tests.sync.papers.asbuilt.landxml_rules import faults_of
from tests.sync.papers.asbuilt.small_green import CUT_FT, green, written_green
from tests.sync.papers.day_writer import DayWriter
from tests.sync.papers.sample_day import metric_book, us_book

SPACE = {"x": "http://www.landxml.org/schema/LandXML-1.2"}
WRITTEN = build_landxml(green()).decode()


def root() -> ElementTree.Element:
    """The green's file as a tree."""
    return ElementTree.fromstring(WRITTEN)


@pytest.mark.parametrize("book", [written_green, us_book, metric_book, DayWriter])
def test_file_keeps_every_rule(book: Callable[[], DayWriter]) -> None:
    """With a collector or without, in feet or in metres, nothing is wrong with the file."""
    assert faults_of(build_landxml(as_built(book().state))) == []


@pytest.mark.parametrize(
    ("sound", "spoilt", "fault"),
    [
        ('refEnd="C1-N1"', 'refEnd="C1-N9"', "Pipe names the Struct C1-N9, which is not there."),
        ('refPipe="C1-P1"/>', 'refPipe="C1-P7"/>', "Invert names the Pipe C1-P7"),
        ('Pipe name="C1-P2"', 'Pipe name="C1-P1"', "Pipe C1-P1 is there 2 times."),
        ('Struct name="C1-N2"', 'Struct name="C1-N1"', "Struct C1-N1 is there 2 times."),
        ('alignmentRef="C1"', 'alignmentRef="C2"', "PipeNetwork names the Alignment C2"),
        (' elev="100.0"', "", "Invert has no elev."),
        ('elev="100.0"', 'elev="1OO"', "elev of Invert is no number: 1OO."),
        (' staStart="0.0"', "", "Alignment has no staStart."),
        ("<Center>-2.0 -5.0<", "<Center>-2.0<", "Center is no position: -2.0."),
        ('flowDir="in"', 'flowDir="out"', "is not the refStart of C1-P1."),
        (' pipeNetType="other"', "", "PipeNetwork has no pipeNetType."),
        ("<Structs>", "<Structs><Pipes/>", "Structs holds Pipes, which does not belong there."),
        (' linearUnit="foot"', "", "Imperial has no linearUnit."),
    ],
)
def test_spoilt_file_is_found_out(sound: str, spoilt: str, fault: str) -> None:
    """Each rule sees the one fault that is put in, also those that a validator passes over."""
    assert sound in WRITTEN

    assert any(fault in said for said in faults_of(WRITTEN.replace(sound, spoilt, 1).encode()))


def test_pipes_fall_with_the_water_between_the_shots() -> None:
    """Stationed from the outlet: each pipe starts at its upper node; lengths add up to 50 ft."""
    pipes = root().findall(".//x:Pipe", SPACE)

    assert [(pipe.get("refStart"), pipe.get("refEnd")) for pipe in pipes] == [
        ("C1-N2", "C1-N1"),
        ("C1-N3", "C1-N2"),
        ("C1-N4", "C1-N3"),
    ]
    assert sum(float(pipe.get("length", "0")) for pipe in pipes) == 50
    assert {one.get("diameter") for one in root().iterfind(".//x:CircPipe", SPACE)} == {"4.0"}


def test_water_runs_in_from_above_and_out_below() -> None:
    """The outlet only takes in, the head only gives out; inverts are those shot."""
    inverts = {
        struct.get("name"): [
            (one.get("flowDir"), one.get("refPipe"), float(one.get("elev", "")))
            for one in struct.iterfind("x:Invert", SPACE)
        ]
        for struct in root().iterfind(".//x:Struct", SPACE)
    }

    assert inverts["C1-N1"] == [("in", "C1-P1", 100.0)]
    assert inverts["C1-N2"] == [("out", "C1-P1", 100.1), ("in", "C1-P2", 100.1)]
    assert inverts["C1-N4"] == [("out", "C1-P3", 100.5)]


def test_stations_from_the_head_turn_the_pipes_round() -> None:
    """With station zero at the head, water runs the way stations grow, to the last node."""
    book = written_green()
    collector = book.state.latest(COLLECTOR, "C1")
    assert collector is not None
    turned = collector.model_dump()
    turned["design"]["stationed_from"] = "head"
    book.write("collector", **turned)
    data = build_landxml(as_built(book.state))
    found = ElementTree.fromstring(data)
    pipe, *_ = found.findall(".//x:Pipe", SPACE)
    outlets = [
        s.get("name")
        for s in found.iterfind(".//x:Struct", SPACE)
        if len(s) and s.find("x:OutletStruct", SPACE) is not None
    ]

    assert (pipe.get("refStart"), pipe.get("refEnd")) == ("C1-N1", "C1-N2")
    assert outlets == ["C1-N4"]
    assert faults_of(data) == []


def test_alignment_has_design_and_shots() -> None:
    """50 ft long with a bend; design at both ends, every invert at its station."""
    (alignment,) = root().findall(".//x:Alignment", SPACE)
    shots = alignment.findtext(".//x:PntList2D", "", SPACE)
    sides = [
        tuple(
            PointNm(*(round(float(way) * 1000) for way in reversed(end.text.split())))
            for end in side
            if end.text
        )
        for side in alignment.iterfind(".//x:Line", SPACE)
    ]

    assert float(alignment.get("length", "")) == 50
    assert sum(distance_nm(a, b) for a, b in sides) == 50_000
    assert shots == "0.0 100.0 10.0 100.1 40.0 100.45 50.0 100.5"
    assert [pvi.text for pvi in alignment.iterfind(".//x:PVI", SPACE)] == [
        "0.0 100.0",
        "50.0 100.5",
    ]


def test_slits_are_plan_features_that_add_up() -> None:
    """A slit is no pipe network: each is a plan feature with its figures."""
    features = root().find(".//x:PlanFeatures[@name='lines']", SPACE)
    assert features is not None
    cut = [
        float(one.get("value", ""))
        for one in features.iterfind(".//x:Property[@label='cut_length_ft']", SPACE)
    ]

    assert sum(cut) == CUT_FT
    assert len(cut) == 7


def test_units_are_named_for_lengths_and_levels() -> None:
    """Feet are international feet, and levels are not left to the schema's default, metres."""
    (units,) = root().findall("x:Units/x:Imperial", SPACE)

    assert (units.get("linearUnit"), units.get("elevationUnit")) == ("foot", "feet")
