"""A surface with its layout: parted lines, islands, joints, and the rows that lines lie on."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.envelope import body_fields
from models.errors import CalculationInputError, OutlineError
from models.plan.collector import CollectorDesign
from models.plan.layout import LayoutTerms, PlannedKeepOut
from models.plan.line import rows_of
from models.plan.pattern import SlitPattern
from models.queries.layout.lay_lines import compare_surface, join_reach_nm, lay_surface, plan_points
from models.queries.layout.next_pass import next_lines
from models.science.shapes.rings import PointNm
from models.state.job_state import JobState
from tests.models.checks.written_job import written_entries
from tests.models.science.plots import U_SHAPE, M, box, chance_ground, point

PATTERN = SlitPattern(
    spacing_nm=M,
    width_nm=1,
    width_tolerance_nm=1,
    depth_nm=1,
    under_nm=1,
    over_nm=1,
    probe_every_nm=1,
    probe_end_nm=1,
)


def surface(corners: Sequence[tuple[float, float]]) -> Surface:
    """A field with an outline in metres."""
    outline = plan_points([point(x, y) for x, y in corners])
    return Surface(
        surface_id="F", name="F", use="field", outline=outline, sand_slits=PATTERN, collector_id="C"
    )


def asked(*terms: LayoutTerms, **more: object) -> SurfaceLayout:
    """A request."""
    return SurfaceLayout.model_validate({"surface_id": "F", "terms": terms, **more})


def sand(bearing: int = 0, **more: int) -> LayoutTerms:
    """Sand slits a metre apart."""
    return LayoutTerms(use="sand_slit", spacing_nm=M, bearing_udeg=bearing * 1_000_000, **more)


def piped(bearing: int = 90) -> LayoutTerms:
    """Piped slits four metres apart."""
    return LayoutTerms(use="piped_slit", spacing_nm=4 * M, bearing_udeg=bearing * 1_000_000)


def keep_out(
    corners: Sequence[tuple[float, float]], *islands: Sequence[tuple[float, float]]
) -> PlannedKeepOut:
    """A keep-out in metres, perhaps with islands."""
    ring, *inner = [plan_points([point(x, y) for x, y in one]) for one in (corners, *islands)]
    return PlannedKeepOut(name="pond", ring=ring, islands=tuple(inner))


def collector(*path: tuple[float, float]) -> Collector:
    """A collector with a course in metres, stationed from 10 m."""
    whole = {name: 0 for name, one in CollectorDesign.model_fields.items() if one.is_required()}
    design = CollectorDesign.model_validate(
        {
            **whole,
            "stationed_from": "outlet",
            "start_nm": 10 * M,
            "run_nm": 1,
            "path": plan_points([point(x, y) for x, y in path]),
        }
    )
    return Collector(collector_id="C", name="C", design=design)


def test_arms_of_a_concave_field_are_cut_apart() -> None:
    """A U of 30 by 20 m with a gap 10 m wide and 12 m deep: across it, 12 lines are parted."""
    laid = lay_surface(surface(U_SHAPE), asked(sand(90)))

    parted = [line.line_id for line in laid.surface.lines if line.line_id.endswith("b")]
    assert len(parted) == 12
    assert sum(line.length_nm for line in laid.surface.lines) == (8 * 30 + 12 * 20) * M


def test_an_island_is_cut_again() -> None:
    """A pond of 10 by 10 m with an island of 2 by 2 in the middle of 20 by 20."""
    field = surface(box(0, 0, 20, 20))
    pond = keep_out(box(5, 5, 10, 10), box(9, 9, 2, 2))

    laid = lay_surface(field, asked(sand(), keep_outs=(pond,)))

    assert sum(line.length_nm for line in laid.surface.lines) == (400 - 100 + 4) * M
    assert {"S10a", "S10b", "S10c"} <= laid.surface.places.keys()


@pytest.mark.parametrize("bearing", [0, 17, 90, 133, 269])
def test_piped_slits_run_at_any_bearing(bearing: int) -> None:
    """Whatever their bearing, their length is about area over spacing, and each crosses sand."""
    laid = lay_surface(surface(box(0, 0, 60, 40)), asked(sand(45), piped(bearing)))

    length_m = sum(one.length_nm for one in laid.surface.lines if one.use == "piped_slit") / M
    assert length_m == pytest.approx(60 * 40 / 4, rel=0.05)
    assert laid.layout.crossings > 100


def test_both_edges_are_served_alike() -> None:
    """60.3 m at a metre: 61 lines, and 0.15 m are left at either edge."""
    laid = lay_surface(surface(box(0, 0, 60.3, 40)), asked(sand()))

    across = sorted(line.x1_nm for line in laid.surface.lines)
    assert (len(across), across[0], across[-1]) == (61, M * 15 // 100, M * 60 + M * 15 // 100)


def test_joints_are_numbered_with_their_stations() -> None:
    """Piped slits end 0.5 m short of a collector along the low side; one row is out of reach."""
    field = surface(box(0, 0, 20, 12))
    short = collector((-1, -0.5), (17, -0.5))

    laid = lay_surface(field, asked(piped(0), reach_nm=M), short)

    stations = [(end.number, end.line_id, end.station_nm) for end in laid.layout.ends]
    assert stations == [(n, f"P0{n}", (10 + 1 + 4 * n - 2) * M) for n in range(1, 5)]
    assert {end.gap_nm for end in laid.layout.ends} == {M // 2}
    assert laid.layout.unjoined == ("P05",)


def test_reach_is_setback_and_spacing_where_none_is_said() -> None:
    """A metre of setback and 4 m between piped slits reach 5 m."""
    assert join_reach_nm(asked(sand(), piped(), setback_nm=M)) == 5 * M
    assert join_reach_nm(asked(piped(), reach_nm=7)) == 7


def test_laying_again_changes_nothing() -> None:
    """The layout that came of a request, asked for again, is itself."""
    field, request = surface(U_SHAPE), asked(sand(30), piped(120), setback_nm=M // 2)

    once = lay_surface(field, request, collector((0, -1), (30, -1)))
    again = lay_surface(once.surface, once.layout, collector((0, -1), (30, -1)))

    assert again == once


def test_no_outline_is_a_sentence() -> None:
    """Lines need an outline; one that crosses itself is no outline."""
    with pytest.raises(CalculationInputError, match="lines of F: it has no outline"):
        lay_surface(surface([]), asked(sand()))
    with pytest.raises(OutlineError, match="outline of F"):
        lay_surface(surface([(0, 0), (9, 9), (9, 0), (0, 9)]), asked(sand()))
    pond = keep_out([(2, 2), (4, 4), (4, 2), (2, 4)])
    with pytest.raises(OutlineError, match="outline pond"):
        lay_surface(surface(box(0, 0, 9, 9)), asked(sand(), keep_outs=(pond,)))


def test_bearings_come_row_by_row() -> None:
    """60 by 40 m at a metre: 40 lines along it, 60 across."""
    rows = compare_surface(surface(box(0, 0, 60, 40)), asked(), sand(), [90_000_000, 0])

    assert next(rows).passes == 40
    assert next(rows).passes == 60


def test_pieces_of_a_line_share_its_row() -> None:
    """A parted line is one row, so that shifts and skipped lines are counted in lines."""
    laid = lay_surface(surface(U_SHAPE), asked(sand(90)))

    rows = {name: place.number for name, place in laid.surface.places.items()}
    assert (rows["S01a"], rows["S01b"], rows["S13"]) == (0, 0, 12)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**9), bearing=st.integers(0, 359))
def test_rows_are_the_numbers_of_the_layout(seed: int, bearing: int) -> None:
    """On wild ground at any bearing, a line's row is its number less that of the first."""
    ring = chance_ground(seed).outlines[0].ring
    field = Surface(surface_id="F", name="F", use="field", outline=plan_points(ring))
    lines = lay_surface(field, asked(sand(bearing))).surface.lines

    numbers = [int(line.line_id[1:].rstrip("abcdefghijklmnopqrstuvwxyz")) for line in lines]
    assert rows_of(lines, M) == [number - numbers[0] for number in numbers]


def test_lines_on_no_rows_are_rows_by_themselves() -> None:
    """Typed lines that lie on each other, or off the spacing, keep the order of the plan."""
    lines = lay_surface(surface(box(0, 0, 4, 4)), asked(sand())).surface.lines

    assert rows_of(lines, M) == [0, 1, 2, 3]
    assert rows_of(lines[::-1], M) == [0, 1, 2, 3]
    assert rows_of([lines[0], lines[0], lines[3]], M) == [0, 1, 2]
    assert rows_of([lines[0], lines[3]], M) == [0, 3]
    assert rows_of([lines[1], lines[0], lines[2]], M) == [0, 1, 2]
    assert rows_of(lines, M * 3 // 2) == [0, 1, 2, 3]
    assert rows_of(lines, 0) == [0, 1, 2, 3]


def test_parted_lines_are_cut_piece_by_piece() -> None:
    """Across the arms of a U, a pass takes all pieces of a row, and then what is left of it."""
    laid = lay_surface(surface(U_SHAPE), asked(sand(90))).surface
    row = body_fields(laid)
    near_nm = laid.places["S01a"].line.length_nm
    fields = {"pass_id": "F-1", "surface_id": "F", "line_ids": ["S01a"]}

    def left_after(length_nm: int) -> list[str]:
        cut = {"kind": "pass", "id": "p", "fields": {**fields, "length_nm": length_nm}}
        state = JobState(written_entries([{"kind": "surface", "fields": row}, cut]))
        return [line.line_id for line in next_lines(state, laid, "sand_slit", None)]

    whole = [line.line_id for line in next_lines(JobState(), laid, "sand_slit", None)]
    assert whole == ["S01a", "S01b"]
    assert left_after(near_nm // 2) == ["S01a", "S01b"]
    assert left_after(near_nm) == ["S01b"]


def test_points_go_there_and_back() -> None:
    """Points of a plan are those of a calculation."""
    assert [(one.x_nm, one.y_nm) for one in plan_points([PointNm(1, -2)])] == [(1, -2)]
