"""Lines are shown, then written; laid anew they never change what work was written for."""

from __future__ import annotations

from typing import Any

import pytest

from crewapp.commands.entries import Strike
from crewapp.commands.passes import LogPass
from crewapp.handlers.entries import write
from crewapp.handlers.plan.layout import (
    LinesWorkedError,
    NoTermsError,
    UnknownSurfaceError,
    accept,
    compare_bearings_of_use,
    lay_out,
    preview,
    worked_lines_at_risk,
)
from crewapp.handlers.plan.plan_entries import UnknownMachineError
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.entries.envelope import EntryRefusedError, build_body
from models.entries.kind_names import LAYOUT, SURFACE
from models.errors import InterleaveError, OutlineError

IN = 25_400_000
FT = 304_800_000
SAND = {"use": "sand_slit", "spacing_nm": 16 * IN, "bearing_udeg": 90_000_000}
PIPED = {"use": "piped_slit", "spacing_nm": 48 * IN}


def points(*corners: tuple[int, int]) -> list[dict[str, int]]:
    """Corners in feet as points of a plan."""
    return [{"x_nm": x * FT, "y_nm": y * FT} for x, y in corners]


def planned(job: OpenJob, surface_id: str = "G7") -> Surface:
    """The surface as it stands in the book."""
    surface = job.state.latest(SURFACE, surface_id)
    assert isinstance(surface, Surface)
    return surface


def standing(job: OpenJob, surface_id: str = "G7") -> tuple[Surface, SurfaceLayout]:
    """The surface and its layout as they stand in the book."""
    layout = job.state.latest(LAYOUT, surface_id)
    assert isinstance(layout, SurfaceLayout)
    return planned(job, surface_id), layout


def test_preview_writes_nothing(job: OpenJob) -> None:
    """What would be laid is shown, and the book stays as it was."""
    before = job.book.count()

    laid = preview(job, "G7", terms=[SAND, PIPED])

    assert [line.line_id for line in laid.surface.lines[:2]] == ["S01", "S02"]
    assert job.book.count() == before
    assert job.state.latest(LAYOUT, "G7") is None


def test_lay_out_writes_what_was_shown(job: OpenJob) -> None:
    """A field of 30 ft by 8 ft: 6 sand slits at 16 in along it, 8 piped ones at 48 in across."""
    laid = preview(job, "G7", terms=[SAND, PIPED])

    changed = accept(job, laid)

    surface, layout = standing(job)
    assert changed.kinds == {"surface", "layout"}
    assert (surface, layout) == (laid.surface, laid.layout)
    assert [len(surface.courses[use]) for use in ("sand_slit", "piped_slit")] == [6, 8]
    assert layout.crossings == 48
    assert sum(line.length_nm for line in surface.lines) == (6 * 30 + 8 * 8) * FT


def test_drives_are_numbered_through_with_their_legs(job: OpenJob) -> None:
    """Two legs 4 ft apart cut six lines at 16 in on three drives; piped slits follow singly."""
    lay_out(job, "G7", terms=[{**SAND, "machine_id": "twin"}, PIPED])

    _, layout = standing(job)
    assert [drive.number for drive in layout.drives] == list(range(1, 12))
    assert [drive.legs for drive in layout.drives[:3]] == [
        (("S01",), ("S04",)),
        (("S02",), ("S05",)),
        (("S03",), ("S06",)),
    ]
    assert [drive.is_along for drive in layout.drives[:3]] == [True, False, True]
    assert (layout.terms[0].legs, layout.terms[0].leg_spacing_nm) == (2, 4 * FT)


def test_drives_know_their_place_and_their_turns(job: OpenJob) -> None:
    """By hand: line 1 is 8 in from the edge, so the middle of two legs 48 in apart is 32 in in."""
    lay_out(job, "G7", terms=[{**SAND, "machine_id": "twin"}])

    drives = standing(job)[1].drives
    assert [(one.block, one.shift) for one in drives] == [(0, 0), (0, 1), (0, 2)]
    assert [one.across_nm for one in drives] == [32 * IN, 48 * IN, 64 * IN]
    assert [one.turn_nm for one in drives] == [16 * IN, 16 * IN, 0]
    assert [one.driven_nm for one in drives] == [30 * FT] * 3
    assert (drives[0].start.x_nm, drives[0].end.x_nm) == (0, 30 * FT)


def test_idle_legs_have_no_line(job: OpenJob) -> None:
    """Three legs over six lines 16 in apart leave one leg idle on the last drive of a block."""
    lay_out(job, "G7", terms=[{**SAND, "legs": 4, "leg_spacing_nm": 32 * IN}])

    _, layout = standing(job)
    assert layout.drives[0].legs == (("S01",), ("S03",), ("S05",), ())


def test_spacing_takes_the_place_of_the_patterns(job: OpenJob) -> None:
    """The pattern keeps its depth and limits and takes the spacing that was laid."""
    before = planned(job).sand_slits

    lay_out(job, "G7", terms=[{**SAND, "spacing_nm": 12 * IN}])

    pattern = standing(job)[0].sand_slits
    assert pattern is not None
    assert before is not None
    assert pattern == before.model_copy(update={"spacing_nm": 12 * IN})


def test_use_without_terms_keeps_its_lines(job: OpenJob) -> None:
    """Sand slits laid anew leave the piped slits of a plan file as they were."""
    before = [one for one in planned(job).lines if one.use == "piped_slit"]

    lay_out(job, "G7", terms=[{**SAND, "bearing_udeg": 60_000_000}])

    surface, layout = standing(job)
    assert [one for one in surface.lines if one.use == "piped_slit"] == before
    assert layout.crossings > 0


def test_lines_of_a_use_can_go(job: OpenJob) -> None:
    """A surface that is to have no piped slits loses them, and nothing else."""
    lay_out(job, "G7", terms=[SAND, PIPED])
    lay_out(job, "G7", without=["piped_slit"])

    surface, layout = standing(job)
    assert {line.use for line in surface.lines} == {"sand_slit"}
    assert [terms.use for terms in layout.terms] == ["sand_slit"]


def test_what_is_not_said_stays(job: OpenJob) -> None:
    """A setback given once holds when only a keep-out is added later."""
    lay_out(job, "G7", terms=[SAND], setback_nm=FT, source="tape")
    box = {"name": "valve", "ring": points((10, 3), (12, 3), (12, 5), (10, 5))}
    lay_out(job, "G7", keep_outs=[box])

    surface, layout = standing(job)
    assert (layout.setback_nm, layout.source, layout.keep_outs[0].name) == (FT, "tape", "valve")
    assert {"S03a", "S03b"} <= surface.places.keys()


def test_new_surface_needs_name_use_and_outline(job: OpenJob) -> None:
    """A surface that nobody planned is refused with what a new one needs."""
    with pytest.raises(UnknownSurfaceError, match=r"no surface F9.*surfaces are G7") as caught:
        lay_out(job, "F9", terms=[SAND])
    assert "outline" in str(caught.value)

    lay_out(
        job, "F9", name="Field", use="field", outline=points((0, 0), (60, 0), (60, 40), (0, 40))
    )
    surface, layout = standing(job, "F9")
    assert (surface.lines, layout.terms) == ((), ())


def test_worked_lines_stay_where_they_are(job: OpenJob) -> None:
    """A layout that would move a line that is cut is refused, and nothing is written."""
    lay_out(job, "G7", terms=[SAND])
    do(job, LogPass(surface_id="G7", line_ids=("S02",), length_nm=30 * FT, length_typed="30"))
    before = job.book.count()
    moved = {**SAND, "spacing_nm": 12 * IN}

    with pytest.raises(LinesWorkedError, match=r"G7 has work on S02, and laid anew it lies"):
        lay_out(job, "G7", terms=[moved])

    assert job.book.count() == before
    assert worked_lines_at_risk(job, preview(job, "G7", terms=[moved])) == ("S02",)


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        ("turf_strip", {"line_ids": ("S02",), "step": "lifted"}),
        ("pipe_laid", {"line_id": "S02", "material_id": "pipe", "length_nm": FT}),
        ("tie", {"line_id": "S02", "tied": "line_end", "point_id": "PP1", "distance_nm": FT}),
    ],
)
def test_any_work_holds_a_line(job: OpenJob, kind: str, fields: dict[str, Any]) -> None:
    """Turf lifted, pipe laid or a tie measured hold a line in its place as a cut does."""
    lay_out(job, "G7", terms=[SAND])
    write(job, build_body(kind, {"surface_id": "G7", **fields}))

    with pytest.raises(LinesWorkedError, match="S02"):
        lay_out(job, "G7", setback_nm=FT)


def test_work_allows_what_leaves_it_alone(job: OpenJob) -> None:
    """A keep-out on uncut ground, and other piped slits, leave cut lines be."""
    lay_out(job, "G7", terms=[SAND])
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30"))
    box = {"name": "valve", "ring": points((10, 5), (12, 5), (12, 7), (10, 7))}

    lay_out(job, "G7", keep_outs=[box], terms=[{**PIPED, "bearing_udeg": 30_000_000}])

    names = standing(job)[0].courses["sand_slit"]
    assert names[0] == "S01"
    assert "S02b" in names


def test_struck_work_no_longer_holds(job: OpenJob) -> None:
    """A pass crossed out as a mistake leaves its line free."""
    lay_out(job, "G7", terms=[SAND])
    cut = do(job, LogPass(surface_id="G7", line_ids=("S02",), length_nm=30 * FT, length_typed="30"))
    do(job, Strike(entry_id=cut.entries[0].id, reason="wrong green"))

    assert lay_out(job, "G7", setback_nm=FT).kinds == {"surface", "layout"}


def test_legs_that_leave_gaps_are_told_the_nearest(job: OpenJob) -> None:
    """Legs 4 ft apart can't make 17 in: 16 in is offered, on the context too."""
    with pytest.raises(InterleaveError) as caught:
        preview(job, "G7", terms=[{**SAND, "spacing_nm": 17 * IN, "machine_id": "twin"}])

    assert caught.value.context["nearest_spacing_nm"] == 16 * IN


def test_bad_requests_are_sentences(job: OpenJob) -> None:
    """A machine nobody has, a field that is none, an outline that crosses itself."""
    with pytest.raises(UnknownMachineError, match="no machine trencher"):
        preview(job, "G7", terms=[{**SAND, "machine_id": "trencher"}])
    with pytest.raises(EntryRefusedError, match="terms"):
        preview(job, "G7", terms=[{**SAND, "spacing_nm": -1}])
    with pytest.raises(OutlineError, match="meets side"):
        preview(job, "G7", outline=points((0, 0), (60, 60), (60, 0), (0, 40)))
    outline = points((0, 0), (60, 0), (60, 40))
    with pytest.raises(NoTermsError, match="sand slits on B1"):
        compare_bearings_of_use(job, "B1", "sand_slit", [0], name="B", use="green", outline=outline)


def test_bearings_are_compared_in_rows(job: OpenJob) -> None:
    """30 ft by 8 ft at 16 in: along it 6 lines, across it 22.5, so 23 with a sliver served."""
    rows = list(compare_bearings_of_use(job, "G7", "sand_slit", [90_000_000, 0], terms=[SAND]))

    assert [(row.bearing_udeg, row.passes) for row in rows] == [(90_000_000, 6), (0, 23)]
    assert job.state.latest(LAYOUT, "G7") is None
