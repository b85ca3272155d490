"""Plan files: figures with their units, grades, rectangles, and every fault told at once."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewapp.imports.plan.fields import friendly_names
from crewapp.imports.plan.plan_file import Plan, read_plan
from crewapp.imports.problems import PaperError, Problem
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.envelope import build_body
from models.plan.collector import CollectorDesign
from models.units.job_units import Figures, figures_of

FIXTURES = Path(__file__).parents[4] / "fixtures"
SMALL: dict[str, Any] = json.loads((FIXTURES / "plans" / "small.json").read_text("utf-8"))
PATH = Path("plan.json")
FT = 304_800_000


def read(told: object) -> Plan:
    """Read a plan given as Python values."""
    return read_plan(PATH, json.dumps(told))


def faults(told: object) -> list[str]:
    """Return every problem of a plan that can't be read, as it is told."""
    with pytest.raises(PaperError) as caught:
        read(told)
    return [problem.to_text() for problem in caught.value.problems]


def changed(kind: str, **fields: object) -> dict[str, Any]:
    """Return the small plan with fields of the first of a kind changed."""
    first = SMALL[kind] if isinstance(SMALL[kind], dict) else SMALL[kind][0]
    return {**SMALL, kind: [{**first, **fields}]}


def body_of(plan: Plan, kind: str) -> Any:
    """Return the body of the first entry of a kind."""
    return build_body(kind, next(fields for found, fields in plan if found == kind))


@pytest.mark.parametrize("name", ["crewapp/demo/data/plan.json", "fixtures/plans/small.json"])
def test_plan_file_can_be_written_as_entries(name: str) -> None:
    """Every entry of the plans that go with the program fits its kind."""
    plan = read_plan(PATH, (FIXTURES.parent / name).read_text("utf-8"))

    assert [build_body(kind, fields).kind for kind, fields in plan] == [kind for kind, _ in plan]
    assert plan[0][0] == "job"


def test_figures_are_read_by_their_units() -> None:
    """9 in is 228,600,000 nm in any system, worked by hand."""
    surface = body_of(read(SMALL), "surface")

    assert isinstance(surface, Surface)
    assert surface.sand_slits is not None
    assert (surface.sand_slits.depth_nm, surface.sand_slits.spacing_nm) == (
        228_600_000,
        406_400_000,
    )


def test_typed_figure_is_kept_beside_the_stored_one() -> None:
    """A benchmark prints back as it was written in the plan."""
    assert body_of(read(SMALL), "benchmark").elevation_typed == "100.00 ft"


def test_grades_share_one_run() -> None:
    """1 % and 0.5 % stay exact, over one run."""
    collector = body_of(read(SMALL), "collector")

    assert isinstance(collector, Collector)
    design = collector.design
    assert Fraction(design.fall_nm, design.run_nm) == Fraction(1, 100)
    assert Fraction(design.least_grade_fall_nm, design.run_nm) == Fraction(1, 200)


@pytest.mark.parametrize(
    ("grade", "least"), [("1:150", "0.35 %"), ("1/8 in/ft", "1:400"), ("0 %", "0 %")]
)
def test_any_two_grades_share_one_run(grade: str, least: str) -> None:
    """Grades that have no run in common are still both exact."""
    told = json.loads(json.dumps(SMALL))
    told["collector"][0]["design"].update(grade=grade, least_grade=least)

    design = body_of(read(told), "collector").design

    known = {"1:150": Fraction(1, 150), "1/8 in/ft": Fraction(1, 96), "0 %": Fraction(0)}
    floors = {"0.35 %": Fraction(7, 2000), "1:400": Fraction(1, 400), "0 %": Fraction(0)}
    assert Fraction(design.fall_nm, design.run_nm) == known[grade]
    assert Fraction(design.least_grade_fall_nm, design.run_nm) == floors[least]


def test_rectangle_lays_its_lines() -> None:
    """8 ft across holds six sand slits 16 in apart, 30 ft along holds seven piped ones at 4 ft."""
    surface = body_of(read(SMALL), "surface")

    uses = [line.use for line in surface.lines]
    assert (uses.count("sand_slit"), uses.count("piped_slit")) == (6, 7)
    assert surface.places["S02"].line.y1_nm - surface.places["S01"].line.y1_nm == 406_400_000


def test_rectangle_may_lie_away_from_the_corner() -> None:
    """East and north move outline and lines alike."""
    far = {"along": "30 ft", "across": "8 ft", "east": "100 ft", "north": "-20 ft"}
    here, there = (
        body_of(read(plan), "surface") for plan in (SMALL, changed("surface", rectangle=far))
    )

    moves = {
        (b.x1_nm - a.x1_nm, b.y2_nm - a.y2_nm) for a, b in zip(here.lines, there.lines, strict=True)
    }
    assert moves == {(100 * FT, -20 * FT)}
    assert there.outline[0].x_nm == 100 * FT


def test_metric_plan_reads_stations_in_its_own_way() -> None:
    """0+060 is 60 m where the job writes stations by the thousand."""
    told = json.loads(json.dumps(SMALL))
    told["job"].update(unit_system="metric", station_style="metric_1000m")
    told["collector"][0]["design"].update(start="0+000", length="60 m")
    told["collector"][0]["design"]["ground"] = [{"station": "0+060", "level": "30.100 m"}]

    design = body_of(read(told), "collector").design

    assert design.ground[0].station_nm == 60 * 10**9


def test_plan_without_a_job_reads_stations_as_its_book_does() -> None:
    """The book's own units count where the plan has no job."""
    told = json.loads(json.dumps({kind: SMALL[kind] for kind in ("outlet", "collector")}))
    told["collector"][0]["design"].update(start="0+000", ground=[])

    plan = read_plan(PATH, json.dumps(told), figures_of("metric", "metric_1000m"))

    assert body_of(plan, "collector").design.start_nm == 0


@pytest.mark.parametrize("value", ["9", 9, 9.5, None, True, ["9 in"], {"in": 9}, ""])
def test_figure_without_a_unit_is_refused(value: object) -> None:
    """A plan is never guessed at: 9 may be inches or feet."""
    pattern = {**SMALL["surface"][0]["sand_slits"], "depth": value}

    told = faults(changed("surface", sand_slits=pattern))

    assert len(told) == 1
    assert told[0].startswith("surface 1 (G7), sand_slits, depth")
    assert 'has no unit. Accepted: a text with its unit, such as "9 in"' in told[0]


def test_unknown_field_is_told_with_those_there_are() -> None:
    """A misspelt field is answered by the names that would be read."""
    pattern = {**SMALL["surface"][0]["sand_slits"], "dept": "9 in"}

    told = faults(changed("surface", sand_slits=pattern))

    assert "sand_slits, dept: '9 in' is no field of it. Accepted: spacing, width," in told[0]


def test_stored_name_of_a_figure_is_not_taken() -> None:
    """Nobody types nanometres: the field is named without its unit."""
    pattern = {**SMALL["surface"][0]["sand_slits"], "depth_nm": 228_600_000}

    assert (
        "depth_nm: '228600000' is no field of it"
        in faults(changed("surface", sand_slits=pattern))[0]
    )


def test_every_fault_of_a_plan_is_told_at_once() -> None:
    """Unreadable, missing, unknown and doubled things come in one list."""
    told = json.loads(json.dumps(SMALL))
    told["benchmark"] = [{"benchmark_id": "BM1", "elevation": "high"}, {"elevation": "1 ft"}]
    told["machine"][0]["wheels"] = 4
    told["collector"][0]["design"]["grade"] = "1"
    told["towel"] = []

    found = faults(told)

    assert [one.split(":")[0] for one in found] == [
        "benchmark 1 (BM1), elevation",
        "benchmark 2, benchmark_id",
        "machine 1 (twin), wheels",
        "collector 1 (C1), design, grade",
        "towel",
    ]


@pytest.mark.parametrize(
    ("told", "says"),
    [
        (changed("job", zone="Mars/North"), "job, zone: 'Mars/North' is no time zone"),
        (changed("job", planned_finish="2026-13-01"), "planned_finish: '2026-13-01' is not a day"),
        (
            changed("job", unit_system="old"),
            "unit_system: was refused. Accepted: 'us' or 'metric'.",
        ),
        (changed("locate_ticket", expires_on="2026-04-01"), "comes before its first day"),
        (changed("surface", rectangle={"along": "30 ft"}), "rectangle: "),
        (changed("surface", lines=[]), "stands beside lines or an outline"),
        ({**SMALL, "person": [SMALL["person"][0]] * 2}, "person (Ana): 'Ana' stands 2 times"),
        ({**SMALL, "person": ["Ana"]}, "person 1: 'Ana' is not an object"),
        ({}, "the file: 'plan.json' plans nothing"),
        ([], "the file: '[]' is not an object"),
    ],
)
def test_senseless_plan_is_refused(told: object, says: str) -> None:
    """What can be read and makes no sense is told by its place."""
    assert any(says in fault for fault in faults(told))


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is not JSON"),
        ("{", "is not JSON"),
        ('{"job": NaN}', "NaN is no figure"),
        ("[" * 100_000, "is not JSON"),
        ("1" * 5000, "is not JSON"),
        ('{"job": {"name": "a", "name": "b"}}', "'name' stands twice in one object"),
        ('{"job": {"job_id": "\\ud800"}}', "holds half a character"),
    ],
)
def test_text_that_is_no_plan(text: str, says: str) -> None:
    """Text that JSON can't hold, or holds in a way that would be lost, is refused."""
    with pytest.raises(PaperError, match=says):
        read_plan(PATH, text)


def test_too_many_lines_are_refused() -> None:
    """A spacing of next to nothing doesn't fill the memory with lines."""
    pattern = {**SMALL["surface"][0]["sand_slits"], "spacing": "0.0001 mm"}

    assert any(
        "too many lines" in fault for fault in faults(changed("surface", sand_slits=pattern))
    )


def test_line_twice_is_refused() -> None:
    """Two lines of one name would be one line to every check."""
    line = {"line_id": "S01", "use": "sand_slit", "length": "9 ft"}
    line |= dict.fromkeys(("x1", "y1", "x2", "y2"), "1 ft")
    surface = {k: v for k, v in SMALL["surface"][0].items() if k != "rectangle"}

    told = faults({**SMALL, "surface": [{**surface, "lines": [line, line]}]})

    assert told == ["surface (G7), lines: 'S01' stands 2 times. Accepted: each line once."]


def test_names_of_fields_carry_no_stored_units() -> None:
    """The list of fields shows what people write."""
    names = friendly_names(CollectorDesign)

    assert "grade" in names
    assert "least_grade" in names
    assert not [name for name in names if name.endswith(("_nm", "_typed"))]


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=6),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=6), inner, max_size=3)
    ),
    max_leaves=8,
)


PLAN_FIELDS = ["surface_id", "rectangle", "sand_slits", "lines", "design", "grade"]
PLAN_FIELDS += ["elevation", "zone", "job_id"]


@given(
    kind=st.sampled_from(sorted(SMALL)),
    name=st.sampled_from(PLAN_FIELDS),
    value=json_values,
)
def test_any_value_gives_a_plan_or_a_sentence(kind: str, name: str, value: object) -> None:
    """No JSON whatever ends in anything but a plan or a list of problems."""
    first = SMALL[kind] if isinstance(SMALL[kind], dict) else SMALL[kind][0]
    for told in ({**SMALL, kind: [{**first, name: value}]}, {**SMALL, kind: value}, value):
        problems: list[Problem] = []
        plan: Plan = []
        try:
            plan = read_plan(PATH, json.dumps(told), Figures())
        except PaperError as fault:
            problems = fault.problems
        assert bool(problems) != bool(plan)
        assert all(build_body(found, fields) for found, fields in plan)


def test_outlets_and_what_joins_them() -> None:
    """An outlet's flow, levels and leave are read with their units, and where a collector ends."""
    outlet = {
        "outlet_id": "O1",
        "name": "Ditch",
        "what": "ditch",
        "at": {"x": "10 ft", "y": "0 ft"},
        "invert": "94 ft",
        "tailwater": "94.5 ft",
        "capacity": "60 gal/min",
        "permission": "given",
        "permission_until": "2026-12-31",
    }
    told = {
        **changed("collector", joins={"outlet_id": "O1"}),
        "outlet": [outlet],
        "structure": [{"structure_id": "MH1", "what": "manhole", "rim": "98 ft"}],
    }
    first = told["collector"][0]
    joins = {"collector_id": "C1", "station": "0+40", "match": "drop", "drop": "1 in"}
    plan = read({**told, "collector": [first, {**first, "collector_id": "C2", "joins": joins}]})
    found = body_of(plan, "outlet")

    assert (found.invert_nm, found.tailwater_nm) == (94 * FT, 189 * FT // 2)
    assert found.capacity_ul_per_s == 3_785_412
    assert body_of(plan, "collector").joins.outlet_id == "O1"
    second = [fields["joins"] for kind, fields in plan if kind == "collector"][1]
    assert (second["station_nm"], second["drop_nm"]) == (40 * FT, FT // 12)


def test_flow_without_a_unit_is_refused() -> None:
    """What an outlet takes is never guessed at."""
    outlet = {"outlet_id": "O1", "name": "Ditch", "what": "ditch", "capacity": "60"}

    assert "unit" in faults({**SMALL, "outlet": [outlet]})[0]


def test_a_machine_says_its_blade_and_its_size() -> None:
    """Radius and sizes are figures with units; a sort of blade that there is none of is refused."""
    told = {"blade": "disc", "blade_radius": "18 in", "width": "6 ft", "front": "3 ft"}
    told |= {"rear": "8 ft", "turning_radius": "12 ft", "depth_sd": "1/4 in", "filling": "behind"}
    machine = body_of(read(changed("machine", **told)), "machine")

    assert (machine.round_blade_nm, machine.width_nm) == (457_200_000, 6 * FT)
    assert (machine.front_nm, machine.rear_nm, machine.turning_radius_nm) == (
        3 * FT,
        8 * FT,
        12 * FT,
    )
    assert (machine.depth_sd_nm, machine.filling) == (6_350_000, "behind")
    assert body_of(read(changed("machine", blade_radius="18 in")), "machine").round_blade_nm == 0
    (fault,) = faults(changed("machine", blade="sword"))
    assert "'disc', 'chain', 'vibrating' or 'unknown'" in fault


def test_a_pattern_says_how_thick_its_sod_is_and_what_its_ends_are() -> None:
    """Turf of 1-1/2 in goes back, and full depth reaches the ends of the lines."""
    slits = {**SMALL["surface"][0]["sand_slits"], "sod": "1-1/2 in", "ends": "full_depth_inside"}
    pattern = body_of(read(changed("surface", sand_slits=slits)), "surface").sand_slits

    assert (pattern.sod_nm, pattern.ends) == (38_100_000, "full_depth_inside")
