"""After the job: the first rains, when the ground cleared, a ring test, a flush, a top-up."""

from __future__ import annotations

from crewapp.commands.after_rain import LogRain, LogRepair, LogSurfaceCondition, TopUpSand
from crewapp.commands.day import LogNote
from crewapp.demo.monday import GREEN
from crewapp.demo.shooting import COLLECTOR_ID
from crewapp.demo.slitting import SAND
from crewapp.demo.tests_of_materials import READINGS_AFTER, ring_test
from crewapp.demo.tuesday import FIELD
from crewapp.demo.typist import Typist
from crewapp.job.dispatch import do
from crewapp.tablet.clock import SetClock

RAIN_DAY, TEST_DAY = "2026-05-27", "2026-06-09"
PLOT = "plot of 20 ft by 20 ft in the south-east corner"


def work_the_rain(typist: Typist) -> None:
    """Wednesday after: an inch of rain before dawn, and how the ground cleared."""
    typist.at("6:10")
    do(
        typist.job,
        LogRain(
            depth_nm=typist.inches("1.1"),
            depth_typed="1.1",
            began_ms=_moment(typist, "2:05"),
            stopped_ms=_moment(typist, "5:35"),
            gauge="gauge on the pump house wall",
        ),
    )
    for surface, plot, condition, time in (
        (GREEN, "", "standing_water", "6:05"),
        (FIELD, PLOT, "standing_water", "6:20"),
        (GREEN, "", "clear", "6:40"),
        (FIELD, PLOT, "clear", "7:25"),
        (GREEN, "", "playable", "8:15"),
        (FIELD, PLOT, "playable", "10:40"),
    ):
        typist.at(time)
        typist.wait(60, 120)
        do(
            typist.job,
            LogSurfaceCondition(
                surface_id=surface,
                plot=plot,
                condition=condition,
                seen_ms=_moment(typist, time),
            ),
        )


def work_two_weeks_later(typist: Typist) -> None:
    """Two weeks later: a ring test, the settled slits topped up, the collector flushed."""
    typist.at("8:30")
    ring_test(typist, "after", "over slit S22, 31 ft from its west end", READINGS_AFTER)
    typist.wait(900, 1200)
    do(
        typist.job,
        TopUpSand(
            surface_id=FIELD,
            line_ids=("S07", "S08", "S09"),
            material_id=SAND,
            volume_pl=typist.job.figures.read_volume("1.5 ft3"),
            amount_typed="1.5 ft3",
            settled_nm=typist.inches("3/8"),
            settled_typed="3/8",
            note="where the mower had bridged them",
        ),
    )
    typist.wait(900, 1200)
    do(
        typist.job,
        LogRepair(
            collector_id=COLLECTOR_ID,
            did="flushed",
            why="first flush after the job",
            note="hose in at the head until it ran clear at the outlet, about ten minutes",
        ),
    )
    do(typist.job, LogNote(text="No slit open at the top, no wet corner seen on either surface."))


def _moment(typist: Typist, time: str) -> int:
    """Return a time of the hand's day, in UTC milliseconds."""
    hours, minutes = time.split(":")
    clock = SetClock(typist.clock.zone, 0)
    clock.set_to(typist.day, int(hours) * 60 + int(minutes))
    return clock.at_ms
