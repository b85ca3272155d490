"""Surfaces of a plan file whose lines are laid when it is read, and figures of the new kinds."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from crewapp.imports.plan.plan_file import Plan, read_plan
from crewapp.imports.problems import PaperError
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.entries.envelope import build_body

FIXTURES = Path(__file__).parents[4] / "fixtures"
SMALL: dict[str, Any] = json.loads((FIXTURES / "plans" / "small.json").read_text("utf-8"))
PATH = Path("plan.json")
FT = 304_800_000
IN = 25_400_000


def read(told: object) -> Plan:
    """Read a plan given as Python values."""
    return read_plan(PATH, json.dumps(told))


def green(**changed: object) -> dict[str, Any]:
    """The small plan, its surface with some fields changed and those of None left out."""
    first = {**SMALL["surface"][0], **changed}
    return {**SMALL, "surface": [{k: v for k, v in first.items() if v is not None}]}


def laid(told: object) -> tuple[Surface, SurfaceLayout]:
    """The surface and its layout that come of a plan."""
    bodies = {kind: build_body(kind, fields) for kind, fields in read(told)}
    surface, layout = bodies["surface"], bodies["layout"]
    assert isinstance(surface, Surface)
    assert isinstance(layout, SurfaceLayout)
    return surface, layout


def faults(told: object) -> list[str]:
    """Every problem of a plan that can't be read, as it is told."""
    with pytest.raises(PaperError) as caught:
        read(told)
    return [problem.to_text() for problem in caught.value.problems]


def test_lines_are_laid_over_a_rectangle() -> None:
    """30 ft by 8 ft, a foot off the edge: 5 sand slits of 28 ft for two legs 4 ft apart."""
    surface, layout = laid(
        green(layout={"setback": "1 ft", "sand_slits": {"bearing": "E", "machine": "twin"}})
    )

    assert [line.length_nm for line in surface.lines] == [28 * FT] * 5
    assert (layout.terms[0].spacing_nm, layout.terms[0].legs) == (16 * IN, 2)
    assert layout.drives[0].legs == (("S01",), ("S04",))


def test_lines_without_a_bearing_run_along_and_across() -> None:
    """30 ft by 8 ft: sand slits along it, piped ones square to them; both north crossed none."""
    _, layout = laid(green(layout={"sand_slits": {}, "piped_slits": {}}))

    assert {one.use: one.bearing_udeg for one in layout.terms} == {
        "sand_slit": 90_000_000,
        "piped_slit": 0,
    }
    assert layout.crossings == 48


def test_a_circle_is_an_outline() -> None:
    """A circle of 20 ft about 100 ft east: as many lines as spacings in its width."""
    surface, layout = laid(
        green(
            rectangle=None,
            circle={"radius": "20 ft", "east": "100 ft"},
            layout={"sand_slits": {"least": "3 ft", "bearing": 0}, "source": "tape"},
        )
    )

    assert len(surface.courses["sand_slit"]) == 30
    assert min(point.x_nm for point in surface.outline) == 80 * FT
    assert layout.source == "tape"


def test_keep_outs_are_rings_circles_or_rectangles() -> None:
    """Each with its name and clearance; of a circle the middle and radius are kept, not chords."""
    square = [{"x": f"{x} ft", "y": f"{y} ft"} for x, y in ((4, 2), (8, 2), (8, 6), (4, 6))]
    keep_outs = [
        {"name": "pond", "ring": square, "clearance": "3 in"},
        {"name": "head", "circle": {"radius": "9 in", "east": "15 ft", "north": "4 ft"}},
        {"name": "box", "rectangle": {"along": "2 ft", "across": "1 ft", "east": "20 ft"}},
        {
            **{"name": "cable", "kind": "mind", "half": "1 in", "depth": "20 in"},
            "path": [{"x": "0 ft", "y": "1 ft"}, {"x": "9 ft", "y": "1 ft"}],
        },
    ]
    surface, layout = laid(green(layout={"keep_outs": keep_outs, "sand_slits": {"bearing": 90}}))

    assert [one.name for one in layout.keep_outs] == ["pond", "head", "box", "cable"]
    pond, head, _, cable = layout.keep_outs
    assert (len(pond.ring), head.ring, head.radius_nm) == (4, (), 9 * IN)
    assert head.at is not None
    assert (head.at.x_nm, head.at.y_nm) == (15 * FT, 4 * FT)
    assert (len(cable.path), cable.half_nm, cable.depth_nm) == (2, IN, 20 * IN)
    assert layout.keep_outs[0].clearance_nm == 3 * IN
    assert any(name.endswith("c") for name in surface.places)


def test_a_collector_of_the_same_file_is_joined() -> None:
    """Piped slits end at the course of the collector that the surface drains to."""
    collector = json.loads(json.dumps(SMALL["collector"][0]))
    collector["design"]["length"] = "30 ft"
    collector["design"]["path"] = [{"x": "0 ft", "y": "-1 ft"}, {"x": "30 ft", "y": "-1 ft"}]
    told = {**green(layout={"piped_slits": {"bearing": 0}, "reach": "2 ft"})}

    _, layout = laid({**told, "collector": [collector]})

    assert [end.station_nm for end in layout.ends] == [FT * n for n in range(1, 30, 4)]


def test_figures_of_planning_are_written_as_people_write_them() -> None:
    """10 % is 100 thousandths, 12 in/h 304,800 um, by hand; degrees may be numbers."""
    plan = read(
        {
            "local_plane": {"lat": 41.5868, "lon": "93.625 W", "how": "from a map"},
            "takeoff_terms": {"overbreak": "10 %", "sand_truck": "20 ton", "slit_coil": "500 ft",
                              "gravel_density": "95 lb/ft3", "sand_lead_days": 2},
            "unit_price": [{"item": "sand", "price": "32.50", "per": "1 ton"}],
            "drainage_terms": [{"surface_id": "G7", "sand": "12 in/h", "roughness": 0.012,
                                "rain": "1 in", "lasts": "1 h", "drained_area": "100 ft2"}],
            "permanent_point": [{"point_id": "PP1", "where": "gate", "x": "-3 ft", "y": "4 ft"}],
        }
    )  # fmt: skip

    told = dict(plan)
    assert told["local_plane"]["lon_ndeg"] == -93_625_000_000
    assert told["local_plane"]["lat_ndeg"] == 41_586_800_000
    assert told["takeoff_terms"]["overbreak_permille"] == 100
    assert told["takeoff_terms"]["gravel_density_g_per_m3"] == 1_521_754
    assert told["unit_price"]["price_cents"] == 3250
    drainage = told["drainage_terms"]
    assert (drainage["sand_um_per_h"], drainage["roughness_millionths"]) == (304_800, 12_000)
    assert (drainage["rain_min"], drainage["drained_area_mm2"]) == (60, 9_290_304)
    assert told["permanent_point"]["x_nm"] == -3 * FT


LAYOUT = {"sand_slits": {"bearing": 90}}
BAD: dict[str, tuple[dict[str, Any], str]] = {
    "layout of its own": ({"layout": [{"surface_id": "G7"}]}, "stands within the surface"),
    "GeoJSON": ({"type": "FeatureCollection", "features": []}, "is GeoJSON"),
    "layout no object": (green(layout="16 in"), "layout: '16 in' is not an object"),
    "unknown part": (green(layout={**LAYOUT, "hue": 1}), "layout, hue: '1' is no part of it"),
    "no lines": (green(layout={"setback": "1 ft"}), "asks for no lines"),
    "no unit": (green(layout={**LAYOUT, "setback": 1}), "layout, setback: '1' has no unit"),
    "terms no object": (green(layout={"sand_slits": "E"}), "sand_slits: 'E' is not an object"),
    "bearing": (green(layout={"sand_slits": {"bearing": "up"}}), "bearing: 'up' can't be read"),
    "unknown term": (green(layout={"sand_slits": {"depth": "9 in"}}), "depth: '9 in' is no field"),
    "other spacing": (
        green(layout={"sand_slits": {"spacing": "12 in"}}),
        "is another spacing than the pattern's",
    ),
    "no spacing": (green(piped_slits=None, layout={"piped_slits": {}}), "spacing: is missing"),
    "negative spacing": (
        green(sand_slits=None, layout={"sand_slits": {"spacing": "-16 in"}}),
        "greater than or equal to 0",
    ),
    "no machine": (green(layout={"sand_slits": {"machine": "saw"}}), "no machine saw"),
    "legs that leave gaps": (
        green(layout={"sand_slits": {"legs": 2, "leg_spacing": "50 in"}}),
        "Lines 16-5/8 in|would work",
    ),
    "no outline": (green(rectangle=None, layout=LAYOUT), "it has no outline yet"),
    "two shapes": (
        green(circle={"radius": "9 ft"}, layout=LAYOUT),
        "'circle, rectangle' stand side by side",
    ),
    "lines too": (green(rectangle=None, circle={"radius": "9 ft"}, lines=[], layout=LAYOUT),
                  "stand beside a layout"),
    "circle without radius": (green(rectangle=None, circle={}, layout=LAYOUT), "is no circle"),
    "circle of nothing": (green(rectangle=None, circle={"radius": "0 ft"}, layout=LAYOUT),
                          "Cannot work out a circle"),
    "circle without unit": (green(rectangle=None, circle={"radius": "9"}, layout=LAYOUT),
                            "radius: '9' has no unit"),
    "keep-outs no list": (green(layout={**LAYOUT, "keep_outs": {}}), "is not a list"),
    "keep-out no object": (green(layout={**LAYOUT, "keep_outs": ["box"]}), "is not an object"),
    "keep-out without ring": (green(layout={**LAYOUT, "keep_outs": [{}]}), "ring: is missing"),
    "keep-out of two points": (
        green(layout={**LAYOUT, "keep_outs": [{"ring": [{"x": "1 ft", "y": "1 ft"}] * 2}]}),
        "at least 3 items",
    ),
    "keep-out that crosses itself": (
        green(layout={**LAYOUT, "keep_outs": [{"ring": [
            {"x": f"{x} ft", "y": f"{y} ft"} for x, y in ((1, 1), (3, 3), (3, 1), (1, 3))
        ]}]}),
        "keep_outs (1): side 1 (from corner 1) meets side 3",
    ),
    "setback that leaves nothing": (green(layout={**LAYOUT, "setback": "9 ft"}), "leave nothing"),
    "outline turned round": (
        green(rectangle=None, layout=LAYOUT, outline=[
            {"x": f"{x} ft", "y": f"{y} ft"} for x, y in ((0, 0), (0, 9), (9, 9), (9, 0))
        ]),
        "it runs clockwise",
    ),
    "share without unit": ({"takeoff_terms": {"overbreak": "10"}}, "its unit is missing"),
    "share above ten": ({"takeoff_terms": {"overbreak": "2000 %"}}, "less than or equal"),
    "price in words": ({"unit_price": {"item": "a", "price": "ten", "per": "1 ft"}}, "no plain"),
    "rain without unit": (
        {"drainage_terms": {"surface_id": "G7", "sand": "12 in/h", "roughness": True, "rain": "1",
                            "lasts": "1 h"}},
        "rain: '1' has no unit",
    ),
    "latitude": ({"local_plane": {"lat": 95, "lon": 0}}, "beyond 90 degrees"),
    "point without a place": ({"permanent_point": {"point_id": "PP1"}}, "where: is missing"),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_what_is_wrong_is_told_with_its_place(name: str) -> None:
    """Each fault says where it stands, what was met and what would be accepted."""
    told, words = BAD[name]

    listed = faults(told)

    assert any(part in line for part in words.split("|") for line in listed), listed
    assert all("Accepted: " in line for line in listed)
