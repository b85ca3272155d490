"""Actions with the laser and along the collector: what they write and what they refuse."""

from __future__ import annotations

import pytest

from crewapp.commands.entries import Strike
from crewapp.commands.grade import (
    CheckLayer,
    CheckSetup,
    NoteProtection,
    ReadTurningPoint,
    ReleaseHold,
    SetUpLaser,
    ShootGrade,
)
from crewapp.handlers.entries import undo_last
from crewapp.handlers.grade import (
    NameTakenError,
    PlaneUnfitError,
    UnknownPointError,
    UnknownSetupError,
    next_setup_id,
)
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from models.entries.bodies.collector_work import HoldPoint, LayerCheck, TrenchProtection
from models.entries.bodies.levels import CheckShot, GradeShot, LaserSetup, TurningPoint
from models.entries.kind_names import SETUP
from models.queries.levelling.elevations import point_elevation, reduced_shots

FT = 304_800_000


def stand(job: OpenJob, point: str = "BM1", feet: int = 4) -> None:
    """Set the laser up with a backsight of so many feet."""
    do(job, SetUpLaser(on_point=point, backsight_nm=feet * FT, backsight_typed=str(feet)))


def stand_graded(job: OpenJob, collector_id: str = "C1") -> None:
    """Set the laser up as L1, dialled to 1 % along a collector."""
    do(
        job,
        SetUpLaser(
            on_point="BM1",
            backsight_nm=FT,
            collector_id=collector_id,
            plane="graded",
            fall_nm=1,
            run_nm=100,
        ),
    )


def test_setups_are_named_in_turn(job: OpenJob) -> None:
    """Setups are called L1, L2 and so on."""
    stand(job)
    stand(job)

    assert job.state.every_name(SETUP) == ["L1", "L2"]
    assert next_setup_id(job) == "L3"


def test_setup_name_skips_one_that_is_taken(job: OpenJob) -> None:
    """A name given by hand is not given out again."""
    do(job, SetUpLaser(on_point="BM1", backsight_nm=FT, setup_id="L2"))

    assert next_setup_id(job) == "L3"


def test_setup_needs_a_known_point(job: OpenJob) -> None:
    """A backsight on a point that nobody knows is refused, with those that are known."""
    with pytest.raises(UnknownPointError, match="BM9 is neither .* Known points are BM1"):
        stand(job, "BM9")


def test_graded_setup_keeps_its_dial(job: OpenJob) -> None:
    """A graded plane states its fall over a run."""
    stand_graded(job)

    body = job.state.latest(SETUP, "L1")
    assert isinstance(body, LaserSetup)
    assert (body.plane, body.fall_nm, body.run_nm) == ("graded", 1, 100)


def test_turning_point_carries_the_level_on(job: OpenJob) -> None:
    """100 + 4 - 5 is 99 ft, and the next setup may look back on it."""
    stand(job)

    body = (
        do(job, ReadTurningPoint(setup_id="L1", point_id="TP1", foresight_nm=5 * FT))
        .entries[0]
        .body
    )
    stand(job, "TP1")

    assert isinstance(body, TurningPoint)
    assert point_elevation(job.state, "TP1") == 99 * FT


def test_lengths_of_sights_are_written_where_they_were_measured(job: OpenJob) -> None:
    """A setup, a turning point and a check shot keep what each sight was long."""
    stood = SetUpLaser(
        on_point="BM1", backsight_nm=4 * FT, stands_at_nm=90 * FT, backsight_far_nm=80 * FT
    )
    turn = ReadTurningPoint(setup_id="L1", point_id="TP1", foresight_nm=5 * FT, far_nm=70 * FT)
    check = CheckSetup(setup_id="L1", on_point="BM1", reading_nm=4 * FT, far_nm=80 * FT)
    setup, point, shot = (do(job, one).entries[0].body for one in (stood, turn, check))

    assert isinstance(setup, LaserSetup)
    assert (setup.stands_at_nm, setup.backsight_far_nm) == (90 * FT, 80 * FT)
    assert isinstance(point, TurningPoint)
    assert point.far_nm == 70 * FT
    assert isinstance(shot, CheckShot)
    assert shot.far_nm == 80 * FT


def test_check_shot_is_logged(job: OpenJob) -> None:
    """A check shot belongs to its setup."""
    stand(job)

    body = do(job, CheckSetup(setup_id="L1", on_point="BM1", reading_nm=4 * FT)).entries[0].body

    assert isinstance(body, CheckShot)


def test_shot_is_reduced_through_its_setup(job: OpenJob) -> None:
    """A rod of 9 ft under an instrument at 104 ft stands on 95 ft."""
    stand(job)

    body = (
        do(
            job,
            ShootGrade(
                setup_id="L1", collector_id="C1", station_nm=0, on="invert", reading_nm=9 * FT
            ),
        )
        .entries[0]
        .body
    )

    assert isinstance(body, GradeShot)
    assert [shot.elevation_nm for shot in reduced_shots(job.state, "C1")] == [95 * FT]


def test_readings_need_their_setup(job: OpenJob) -> None:
    """No reading is taken from a setup that nobody logged."""
    before = job.book.count()
    for act in (
        lambda: do(job, ReadTurningPoint(setup_id="L1", point_id="TP1", foresight_nm=FT)),
        lambda: do(job, CheckSetup(setup_id="L1", on_point="BM1", reading_nm=FT)),
        lambda: do(
            job,
            ShootGrade(setup_id="L1", collector_id="C1", station_nm=0, on="invert", reading_nm=FT),
        ),
    ):
        with pytest.raises(UnknownSetupError, match="there is no setup L1 yet"):
            act()
    assert job.book.count() == before


def test_stretches_are_kept_from_low_to_high(job: OpenJob) -> None:
    """It doesn't matter from which end a stretch is told."""
    bodies = [
        do(job, CheckLayer(collector_id="C1", from_nm=60, to_nm=0, layer="bedding")),
        do(job, ReleaseHold(collector_id="C1", from_nm=60, to_nm=0, released_by="Ana")),
        do(
            job,
            NoteProtection(
                collector_id="C1",
                from_nm=60,
                to_nm=0,
                depth_nm=5 * FT,
                protection="shored",
                judged_by="Ana",
            ),
        ),
    ]

    for changed, model in zip(bodies, (LayerCheck, HoldPoint, TrenchProtection), strict=True):
        body = changed.entries[0].body
        assert isinstance(body, model)
        assert (body.from_nm, body.to_nm) == (0, 60)


def test_setup_name_is_not_given_twice(job: OpenJob) -> None:
    """A second setup L1 would move what was shot from the first; a struck one counts too."""
    stand(job)
    stand(job)
    do(job, Strike(entry_id=job.state.current(SETUP, "L2")[0].id, reason="wrong benchmark"))

    for name in ("L1", "L2"):
        with pytest.raises(NameTakenError, match=f"{name} is the name .* L3 would be accepted"):
            do(job, SetUpLaser(on_point="BM1", backsight_nm=FT, setup_id=name))
    assert next_setup_id(job) == "L3"


@pytest.mark.parametrize("name", ["TP1", "BM1"])
def test_turning_point_takes_no_name_of_another_point(job: OpenJob, name: str) -> None:
    """TP1 of today is not TP1 of yesterday: levels that hang from the first would move."""
    stand(job)
    do(job, ReadTurningPoint(setup_id="L1", point_id="TP1", foresight_nm=5 * FT))

    with pytest.raises(NameTakenError, match="another point"):
        do(job, ReadTurningPoint(setup_id="L1", point_id=name, foresight_nm=6 * FT))


def test_turning_point_taken_back_at_once_may_be_read_again(job: OpenJob) -> None:
    """A slip leaves its name free as long as nothing hangs from it: 100 + 4 - 6 is 98."""
    stand(job)
    undo_last(job, do(job, ReadTurningPoint(setup_id="L1", point_id="TP1", foresight_nm=5 * FT)))

    do(job, ReadTurningPoint(setup_id="L1", point_id="TP1", foresight_nm=6 * FT))

    assert point_elevation(job.state, "TP1") == 98 * FT


def test_turning_point_needs_a_level_plane(job: OpenJob) -> None:
    """How high a graded plane is over a point off the collector, nobody knows."""
    stand_graded(job)

    with pytest.raises(PlaneUnfitError, match="dialled to a grade"):
        do(job, ReadTurningPoint(setup_id="L1", point_id="TP1", foresight_nm=FT))


def test_graded_plane_serves_its_own_collector_alone(job: OpenJob) -> None:
    """A plane along no collector is refused, and a shot along another one too."""
    with pytest.raises(PlaneUnfitError, match="none is named"):
        stand_graded(job, "")
    stand_graded(job)

    with pytest.raises(PlaneUnfitError, match="dialled along C1"):
        do(
            job,
            ShootGrade(setup_id="L1", collector_id="C2", station_nm=0, on="invert", reading_nm=FT),
        )
