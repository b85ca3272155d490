"""Which lines the next pass cuts: the interleave of a machine with several legs."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.entries.bodies.job import Machine
from models.entries.bodies.surfaces import Surface
from models.entries.envelope import build_body
from models.queries.layout.next_pass import is_cut, legs_apart, lines_left, next_lines
from models.state.job_state import JobState
from tests.models.checks.any_job import PATTERN, planned_line
from tests.models.checks.written_job import Written, written_entries

IN = 25_400_000


def surface(lines: int) -> Surface:
    """A surface with so many sand slits 16 in apart, and two piped slits."""
    planned = [planned_line(f"S{number:03d}", "sand_slit") for number in range(1, lines + 1)]
    piped = [planned_line(f"P{number:02d}", "piped_slit") for number in (1, 2)]
    fields: dict[str, Any] = {"surface_id": "F", "name": "F", "use": "field", "sand_slits": PATTERN}
    body = build_body("surface", {**fields, "lines": planned + piped})
    assert isinstance(body, Surface)
    return body


def machine(legs: int, apart_nm: int) -> Machine:
    """A machine with so many legs."""
    return Machine(machine_id="M", legs=legs, leg_spacing_nm=apart_nm)


def a_pass(number: int, lines: tuple[str, ...], **more: Any) -> Written:
    """A pass over lines, as a case writes it."""
    fields = {"pass_id": f"F-{number}", "surface_id": "F", "line_ids": list(lines), "length_nm": 1}
    return {"kind": "pass", "id": f"p{number}", "fields": fields, **more}


def work_out(field: Surface, cutter: Machine) -> list[tuple[str, ...]]:
    """Cut pass after pass as told, until nothing is left; return the lines of each."""
    done: list[Written] = []
    while lines := next_lines(JobState(written_entries(done)), field, "sand_slit", cutter):
        done.append(a_pass(len(done), tuple(line.line_id for line in lines)))
        assert len(done) <= len(field.lines)
    return [tuple(one["fields"]["line_ids"]) for one in done]


def test_two_legs_three_spacings_apart_interleave() -> None:
    """By hand: 4 ft over 16 in is three passes of two, then on to the next block of six."""
    passes = work_out(surface(12), machine(2, 48 * IN))

    assert passes == [
        ("S001", "S004"),
        ("S002", "S005"),
        ("S003", "S006"),
        ("S007", "S010"),
        ("S008", "S011"),
        ("S009", "S012"),
    ]


@given(legs=st.integers(1, 5), spacings=st.integers(1, 5), blocks=st.integers(1, 3))
def test_union_of_passes_is_an_unbroken_run(legs: int, spacings: int, blocks: int) -> None:
    """For any legs and spacings, whole blocks are cut line by line, none twice and none missed."""
    count = legs * spacings * blocks
    passes = work_out(surface(count), machine(legs, spacings * 16 * IN))

    cut = [line for one in passes for line in one]
    assert sorted(cut) == [f"S{number:03d}" for number in range(1, count + 1)]
    assert [len(one) for one in passes] == [legs] * (spacings * blocks)
    block = legs * spacings
    for number in range(blocks):
        inside = {
            line for one in passes[number * spacings : (number + 1) * spacings] for line in one
        }
        assert inside == {f"S{number * block + i:03d}" for i in range(1, block + 1)}


@given(legs=st.integers(1, 4), spacings=st.integers(1, 4), count=st.integers(1, 20))
def test_field_that_is_no_whole_block_is_cut_whole_too(
    legs: int, spacings: int, count: int
) -> None:
    """At the far edge legs run over bare ground, and still every line is cut once."""
    passes = work_out(surface(count), machine(legs, spacings * 16 * IN))
    cut = [line for one in passes for line in one]

    assert sorted(cut) == [f"S{number:03d}" for number in range(1, count + 1)]


@pytest.mark.parametrize(
    ("cutter", "apart"),
    [
        (machine(2, 48 * IN), 3),
        (machine(2, 40 * IN), 1),  # 2.5 spacings: no interleave comes out even
        (machine(2, 8 * IN), 1),
        (machine(1, 0), 1),
        (None, 1),
    ],
)
def test_legs_apart_in_spacings(cutter: Machine | None, apart: int) -> None:
    """A leg distance that is no whole number of spacings gives no interleave."""
    assert legs_apart(surface(6), "sand_slit", cutter) == apart


def test_use_without_a_pattern_has_no_interleave() -> None:
    """Where the plan states no spacing, the next line is the next line."""
    assert legs_apart(surface(6), "piped_slit", machine(2, 48 * IN)) == 1
    assert [one.line_id for one in next_lines(JobState(), surface(6), "piped_slit", None)] == [
        "P01"
    ]


def test_leg_over_a_line_that_is_cut_cuts_nothing() -> None:
    """Where the second leg would run along a line cut before, the pass names the first alone."""
    state = JobState(written_entries([a_pass(1, ("S004",))]))

    lines = next_lines(state, surface(6), "sand_slit", machine(2, 48 * IN))

    assert [one.line_id for one in lines] == ["S001"]


def test_struck_pass_leaves_its_lines_uncut() -> None:
    """A pass that was crossed out cut nothing."""
    strike = {"kind": "struck", "fields": {"why": "wrong surface"}, "strikes": ["p1"]}
    state = JobState(written_entries([a_pass(1, ("S001",)), strike]))

    assert not is_cut(state, "F", "S001")
    assert [one.line_id for one in lines_left(state, surface(2), "sand_slit")] == ["S001", "S002"]


def test_lines_left_are_those_nobody_cut() -> None:
    """What is left keeps the order of the plan and the use that was asked for."""
    state = JobState(written_entries([a_pass(1, ("S002",))]))

    assert [one.line_id for one in lines_left(state, surface(3), "sand_slit")] == ["S001", "S003"]
    assert len(lines_left(state, surface(3), "piped_slit")) == 2
