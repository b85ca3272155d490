"""Network of a job: joints, junctions and outlets of the plan, and what reaches none."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from models.entries.kind_names import SURFACE
from models.queries.water.collector_gates import collector_gates
from models.queries.water.drainage_text import gate_texts, no_outlet_text
from models.queries.water.network import (
    lines_without_outlet,
    network_as_laid,
    network_as_planned,
    outlet_of_run,
    reaches_outlet,
)
from models.queries.water.surface_drainage import surface_drainage
from models.science.water.gates import Gate
from models.science.water.network import areas_above
from models.science.water.network_gate import NetworkLimit
from models.state.job_state import JobState
from tests.models.checks.written_job import Written, written_entries
from tests.models.planned_ground import (
    MM,
    M,
    collector,
    drainage,
    job,
    lines,
    outlet,
    shots,
    state_of,
    surface,
    written,
)


def layout(own: str, unjoined: tuple[str, ...] = (), **stations_m: int) -> Written:
    """Joints of piped slits, by their stations in metres."""
    ends = [
        {"number": number, "line_id": name, "station_nm": at * M, "at": {"x_nm": 0, "y_nm": 0}}
        for number, (name, at) in enumerate(stations_m.items(), 1)
    ]
    return written("layout", surface_id=own, ends=ends, unjoined=list(unjoined))


def run(name: str, joins: dict[str, Any] | None, **design: Any) -> Written:
    """A collector with an end."""
    entry = collector(name, **design)
    return written("collector", **{**entry["fields"], "joins": joins})


def joined() -> list[Written]:
    """F1 on C1, F2 on C2, which joins C1 at 10 m with obverts level."""
    return [
        surface("F1", lines=lines((20,), (20, 60))),
        surface("F2", collector_id="C2"),
        run("C1", {"outlet_id": "O1"}),
        run("C2", {"collector_id": "C1", "station_nm": 10 * M}, start_invert_nm=99_500 * MM),
        drainage("F1"),
        drainage("F2"),
        layout("F1", P1=0, P2=30),
        layout("F2", P1=20),
    ]


def test_water_gathers_along_the_runs() -> None:
    """Each line brings its share of 400 m2 in at its joint, and a run at its junction."""
    # By hand: P1 a quarter of F1 at 0 m, which is the outlet itself; P2 the rest at 30 m.
    found = network_as_planned(state_of(*joined()))
    areas = areas_above(found.network)

    by_place = {
        (at.collector_id, at.lower_nm // M, at.upper_nm // M): areas[name]
        for name, at in found.places.items()
    }
    assert by_place == {
        ("C1", 0, 10): 700.0,
        ("C1", 10, 30): 300.0,
        ("C1", 30, 40): 0.0,
        ("C2", 0, 20): 400.0,
        ("C2", 20, 40): 0.0,
    }


def test_run_into_a_run_is_joined() -> None:
    """The last reach of a run that joins another costs head; the one to the outlet does not."""
    found = network_as_planned(state_of(*joined()))

    assert {one.reach_id: one.is_joined for one in found.network.reaches if one.is_joined} == {
        f"C2 0 {20 * M}": True
    }


def test_gate_is_one_for_the_network() -> None:
    """The lower reach takes the water of both surfaces, and governs for either."""
    state = state_of(*joined())
    first, second = (collector_gates(state, name, is_laid=False) for name in ("C1", "C2"))

    assert first is not None
    assert second is not None
    # By hand: 4.477 L/s full off 700 m2 is 23.03 mm/h; the junction stands below its obvert.
    assert first.rate_mm_per_h == pytest.approx(23.03, abs=0.01)
    assert second.rate_mm_per_h == first.rate_mm_per_h
    assert first.place is not None
    assert (first.place.collector_id, first.place.upper_nm) == ("C1", 10 * M)
    assert (first.is_by_size, second.is_by_size) == (True, False)
    assert surface_drainage(state, "F2").designed.rates[3].rate_mm_per_h == pytest.approx(
        23.03, abs=0.01
    )


def test_tailwater_seen_wins_over_the_plan() -> None:
    """Water seen at the outlet takes the place of the planned level, and closes the gate."""
    seen = written("outlet_seen", outlet_id="O1", flows="slow", water_nm=99_500 * MM)
    state = state_of(*joined(), seen)
    gates = collector_gates(state, "C1", is_laid=False)

    assert gates is not None
    # By hand: obvert at 10 m is 99.600; 0.100 over 10 m is the grade itself, so full flow.
    assert gates.tailwater is not None
    assert (gates.tailwater.level_nm, gates.tailwater.source) == (
        99_500 * MM,
        "seen on 2026-06-08",
    )
    risen = written("outlet_seen", outlet_id="O1", flows="slow", water_nm=99_575 * MM)
    drowned = collector_gates(state_of(*joined(), risen), "C1", is_laid=False)
    assert drowned is not None
    # By hand: 0.025 over 10 m is a quarter of the grade, so half the rate.
    assert drowned.rate_mm_per_h == pytest.approx(23.03 / 2, abs=0.01)
    assert drowned.is_drowned
    assert not drowned.is_by_size
    told = gate_texts(surface_drainage(state_of(*joined(), risen), "F1"))[0].lines[3].how
    assert "the water at O1, 99.575 (seen on 2026-06-08), stands back into it" in told


def test_capacity_of_the_outlet() -> None:
    """An outlet that takes 0.7 L/s off 700 m2 lets 3.6 mm/h through."""
    told = outlet(capacity_ul_per_s=700_000)
    gates = collector_gates(state_of(*joined(), told), "C1", is_laid=False)

    assert gates is not None
    assert gates.rate_mm_per_h == pytest.approx(3.6)
    assert (gates.gate.limit, gates.place) == (NetworkLimit.CAPACITY, None)
    how = gate_texts(surface_drainage(state_of(*joined(), told), "F1"))[0].lines[3].how
    assert how.startswith("what O1 takes, off 700 m\u00b2")


def test_limits_beside() -> None:
    """Slits give freely up to their floors, and nothing comes up to a foot under the ground."""
    gates = collector_gates(state_of(*joined()), "C1", is_laid=False)

    assert gates is not None
    assert [one.limit for one in gates.beside] == [
        NetworkLimit.GIVES_FREELY,
        NetworkLimit.COMES_UP,
    ]
    # By hand: floors at 99.800; P2 joins at 30 m, where the invert is at 99.700: half full
    # at 99.750 is within, so it gives freely up to full flow there at least.
    assert gates.beside[0].rate_mm_per_h >= gates.rate_mm_per_h


@pytest.mark.parametrize(
    ("joins", "outlet_id"),
    [
        ({"outlet_id": "O1"}, "O1"),
        ({"outlet_id": "O9"}, None),
        ({"collector_id": "C2", "station_nm": 0}, None),
        ({"collector_id": "C1", "station_nm": 0}, None),
        (None, None),
    ],
)
def test_outlet_of_a_run(joins: dict[str, Any] | None, outlet_id: str | None) -> None:
    """A run without an end, in a circle, or to an outlet that nobody planned, has no outlet."""
    state = state_of(run("C1", joins), run("C2", {"collector_id": "C1", "station_nm": 0}))
    found = outlet_of_run(state, "C1")

    assert (found and found.outlet_id) == outlet_id
    assert network_as_planned(state).places is not None


def test_lines_that_reach_none() -> None:
    """An unjoined line, and every line of a surface without a run, reach no outlet."""
    field = surface("F1", lines=lines((20,), (30, 10)))
    state = state_of(field, run("C1", {"outlet_id": "O1"}), layout("F1", ("P2",), P1=10))

    assert reaches_outlet(state, "F1", "P1")
    assert not reaches_outlet(state, "F1", "P2")
    assert not reaches_outlet(state, "F9", "P1")
    body = field["fields"]
    alone = state_of(written("surface", **{**body, "collector_id": ""}))
    assert not reaches_outlet(alone, "F1", "P1")
    by_itself = written("surface", **{**body, "collector_id": "", "outlet_id": "O1"})
    assert reaches_outlet(state_of(by_itself), "F1", "P2")


def test_share_is_told_first() -> None:
    """A quarter of a surface without a way out is named before any figure of it."""
    state = state_of(
        surface("F1", lines=lines((20,), (30, 10))),
        run("C1", {"outlet_id": "O1"}),
        drainage(),
        layout("F1", ("P2",), P1=10),
    )
    found = surface_drainage(state, "F1")

    assert (found.inputs.lost_lines, found.inputs.lost_share) == (("P2",), Fraction(1, 4))
    assert no_outlet_text(found.inputs) == (
        "P2 reaches no outlet: 25 % of F1 has no way out in this plan, and no time is claimed "
        "for it."
    )
    assert found.designed.gone is not None


def test_no_time_for_what_goes_nowhere() -> None:
    """A surface of which nothing reaches an outlet has no gate below the slits, and no time."""
    state = state_of(surface(), run("C1", None), drainage())
    found = surface_drainage(state, "F1")

    known = {one.gate for one in found.designed.rates if one.rate_mm_per_h is not None}
    assert known == {Gate.INTAKE, Gate.CARRY}
    assert found.designed.gone is None
    assert no_outlet_text(found.inputs) == (
        "P1 reaches no outlet: nothing of F1 has a way out in this plan, and no time is claimed "
        "for it."
    )
    assert "no time is claimed" in gate_texts(found)[0].gone


@pytest.mark.parametrize(("joins", "lost"), [({"outlet_id": "O1"}, 0), (None, 1)])
def test_surface_without_piped_slits(joins: dict[str, Any] | None, lost: int) -> None:
    """A surface without piped slits has the way out of its collector, or none."""
    bare = written("surface", surface_id="F1", name="F1", use="field", collector_id="C1")
    state = state_of(bare, run("C1", joins))
    body = state.latest(SURFACE, "F1")

    assert body is not None
    assert lines_without_outlet(state, body) == ((), Fraction(lost))


def test_inverts_as_laid() -> None:
    """Between shots the invert is straight; beyond them it goes on by the design's grade."""
    # Shots at 0, 10 and 20 m: 0, 100 and 150 mm above 99.400; a joint at 15 m, the head at 40.
    state = state_of(*joined()[:1], collector(), layout("F1", P1=15), *shots(0, 100, 150))
    found = network_as_laid(state).network

    levels = {one.upper: one.invert_upper_nm for one in found.reaches}
    assert levels == {
        f"C1@{10 * M}": 99_500 * MM,
        f"C1@{15 * M}": 99_525 * MM,
        f"C1@{20 * M}": 99_550 * MM,
        f"C1@{40 * M}": 99_750 * MM,
    }


def test_run_without_a_bore_carries_nothing() -> None:
    """A collector without a bore is no part of the network."""
    state = JobState(written_entries([job(), outlet(), run("C1", {"outlet_id": "O1"}, bore_nm=0)]))

    assert network_as_planned(state).network.reaches == ()
    assert collector_gates(state, "C1", is_laid=False) is None
