"""Actions after the job: rain, how the ground was seen, ring tests, top-ups, repairs, ties."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from crewapp.commands.after_rain import (
    LogInfiltration,
    LogRain,
    LogRepair,
    LogSurfaceCondition,
    RingLevel,
    TopUpSand,
)
from crewapp.commands.ties import AddPermanentPoint, TieEnd
from crewapp.handlers import after_rain, ties
from crewapp.handlers.known_places import UnknownPlaceError
from crewapp.handlers.loads import UnknownMaterialError
from crewapp.handlers.passes import UnknownLineError
from crewapp.job.dispatch import do
from crewapp.job.open_job import JobChanges, OpenJob
from models.entries.envelope import EntryRefusedError
from models.errors import CrewError
from models.queries.water.clearing import rain_stories, ring_tests

FT, IN, H_MS = 304_800_000, 25_400_000, 3_600_000
READINGS = (
    RingLevel(after_s=0, level_nm=4 * IN),
    RingLevel(after_s=600, level_nm=3 * IN, refilled_to_nm=4 * IN),
    RingLevel(after_s=1200, level_nm=3 * IN),
)
RING: dict[str, Any] = {"surface_id": "G7", "when": "after", "method": "single_ring"}
RING |= {"inner_nm": 12 * IN, "readings": READINGS}


def test_a_rain_and_what_was_seen_make_a_story(job: OpenJob) -> None:
    """Water stood for an hour after the rain, the green was fit to play on after three."""
    now_ms = job.clock.now().at_ms
    do(job, LogRain(depth_nm=IN, began_ms=now_ms - 2 * H_MS, stopped_ms=now_ms))
    for condition, hours in (("standing_water", 1), ("clear", 2), ("playable", 3)):
        seen_ms = now_ms + hours * H_MS
        do(job, LogSurfaceCondition(surface_id="G7", condition=condition, seen_ms=seen_ms))

    (story,) = rain_stories(job.state)
    (plot,) = story.plots
    assert (plot.standing_min, plot.clear_min, plot.playable_min) == (60, 120, 180)
    assert story.lasted_min == 120


def test_seen_means_now(job: OpenJob) -> None:
    """Without a time, the moment of the tap is kept to the millisecond."""
    changed = do(job, LogSurfaceCondition(surface_id="G7", condition="clear"))

    assert changed.entries[0].body.seen_ms == job.clock.now().at_ms  # type: ignore[union-attr]


def test_a_ring_test_keeps_its_refill(job: OpenJob) -> None:
    """An inch in ten minutes, filled up, and an inch again: six inches an hour."""
    do(job, LogInfiltration(**RING))

    (test,) = ring_tests(job.state)
    assert test.result is not None
    assert test.result.rate_nm_per_h == 6 * IN


def test_what_was_put_right_is_written(job: OpenJob) -> None:
    """Sand on two lines, and a collector flushed, each in its own entry."""
    topped = do(
        job,
        TopUpSand(surface_id="G7", material_id="sand", line_ids=("S01", "S02"), volume_pl=10**13),
    )
    flushed = do(job, LogRepair(did="flushed", collector_id="C1", why="silt"))

    assert [one.entries[0].kind for one in (topped, flushed)] == ["sand_top_up", "repair"]


def test_points_are_named_and_tied(job: OpenJob) -> None:
    """The first point is PP1, and an end is measured from it."""
    point = do(job, AddPermanentPoint(where="corner of the shed")).entries[0].body
    tie = do(
        job, TieEnd(tied="collector_head", collector_id="C1", point_id="PP1", distance_nm=41 * FT)
    ).entries[0]

    assert point.point_id == "PP1"  # type: ignore[union-attr]
    assert tie.body.distance_nm == 41 * FT  # type: ignore[union-attr]
    assert ties.next_point_id(job) == "PP2"


Do = Callable[[OpenJob], JobChanges]
TIE = {"tied": "line_end", "point_id": "PP1", "distance_nm": FT}
REFUSED: dict[str, tuple[type[CrewError], Do]] = {
    "surface": (
        UnknownPlaceError,
        lambda job: do(job, LogSurfaceCondition(surface_id="G9", condition="clear")),
    ),
    "word": (
        EntryRefusedError,
        lambda job: do(job, LogSurfaceCondition(surface_id="G7", condition="damp")),
    ),
    "times": (
        EntryRefusedError,
        lambda job: do(job, LogRain(depth_nm=1, began_ms=2, stopped_ms=1)),
    ),
    "ring": (EntryRefusedError, lambda job: do(job, LogInfiltration(**RING, driven_nm=-1))),
    "line": (
        UnknownLineError,
        lambda job: do(
            job, TopUpSand(surface_id="G7", material_id="sand", line_ids=("S99",), mass_ug=1)
        ),
    ),
    "sand": (
        UnknownMaterialError,
        lambda job: do(job, TopUpSand(surface_id="G7", material_id="gold", mass_ug=1)),
    ),
    "amounts": (
        EntryRefusedError,
        lambda job: do(job, TopUpSand(surface_id="G7", material_id="sand")),
    ),
    "nowhere": (
        after_rain.RepairWithoutPlaceError,
        lambda job: do(job, LogRepair(did="flushed")),
    ),
    "collector": (
        UnknownPlaceError,
        lambda job: do(job, LogRepair(did="flushed", collector_id="C9")),
    ),
    "point": (UnknownPlaceError, lambda job: do(job, TieEnd(**TIE, what="valve"))),  # type: ignore[arg-type]
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_the_job_does_not_have_is_refused(job: OpenJob, name: str) -> None:
    """A sentence says what was met, and nothing is written."""
    fault, do = REFUSED[name]
    before = len(job.state.entries)
    with pytest.raises(fault, match=r"Nothing was written|annot"):
        do(job)

    assert len(job.state.entries) == before


@pytest.mark.parametrize("tied", ["line_start", "collector_outlet", "other"])
def test_tie_needs_an_end(job: OpenJob, tied: str) -> None:
    """A distance from a point to nothing is no tie."""
    do(job, AddPermanentPoint(where="corner of the shed"))
    with pytest.raises(ties.TieToNothingError):
        do(job, TieEnd(tied=tied, point_id="PP1", distance_nm=FT))


def test_a_point_keeps_its_name(job: OpenJob) -> None:
    """A second PP1 would move every tie that hangs from the first."""
    do(job, AddPermanentPoint(where="corner of the shed"))
    with pytest.raises(ties.PointTakenError, match="PP2 would be accepted"):
        do(job, AddPermanentPoint(where="hydrant", point_id="PP1"))
