"""The laser's parts of the Grade screen obey the rules of the hand on three tablets, both ways."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.commands.lasers import AddInstrument, LogInstrumentEvent, LogPegTest
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from tests.crewapp.pages.grade_driver import (
    FT_NM,
    HUNDREDTH_NM,
    GradeDriver,
    put_job,
    set_up_level,
    shoot,
)
from tests.crewapp.pages.look_round import HOLDS
from tests.kivy_env import profile_named

if TYPE_CHECKING:
    from tests.uidriver import UI

TYPED = {
    "mid_a": (965 * HUNDREDTH_NM, "9.65"),
    "mid_b": (423 * HUNDREDTH_NM, "4.23"),
    "end_a": (1078 * HUNDREDTH_NM, "10.78"),
    "end_b": (542 * HUNDREDTH_NM, "5.42"),
    "to_a": (294 * FT_NM, "294"),
    "to_b": (6 * FT_NM, "6"),
}
LASER = ("Laser", "its peg test")
STEPS: dict[str, tuple[str, ...]] = {
    "pipe": (),
    "setup": ("Laser",),
    "laser": LASER,
    "which": (*LASER, "Another laser"),
    "peg": (*LASER, "Peg test"),
    "reading pad": (*LASER, "Peg test", "1 on A"),
    "distance pad": (*LASER, "Peg test", "5 to A"),
    "event": (*LASER, "Dropped, serviced"),
    "event summary": (*LASER, "Dropped, serviced", "It was dropped"),
    "add": ("Laser", "instrument", "Add a laser"),
    "name": ("Laser", "instrument", "Add a laser", "pipe laser"),
    "instrument": ("Laser", "instrument"),
    "cover": ("Cover",),
}


def write_history(job: OpenJob) -> None:
    """A laser that failed, was serviced, and was set up all the same."""
    do(job, AddInstrument( instrument_id="laser 1", what="rotating_laser", serial="A-1755",
                   plane_asec10=100, calibrated_days_ago=200))  # fmt: skip
    readings: dict[str, Any] = {f"{n}_nm": nm for n, (nm, _) in TYPED.items()}
    do(job, LogPegTest(instrument_id="laser 1", **readings))
    do(job, LogInstrumentEvent(instrument_id="laser 1", what="serviced", note="new bubble"))
    set_up_level(job)
    shoot(job, 0, "6.00")
    shoot(job, 10, "5.80")


@pytest.mark.parametrize(("profile", "is_turned", "language"), HOLDS)
def test_every_part_of_the_laser_obeys_the_hand(
    ui: UI, tmp_path: Path, profile: str, is_turned: bool, language: str
) -> None:
    """Nothing is too small, too near, cut off or hidden, with a whole peg test typed."""
    from crewapp.words import translate as wording
    from tests.tree_walk import faults

    ui.hold(profile_named(profile, is_turned))
    wording.set_language(language)
    try:
        driver = GradeDriver(ui, tmp_path, put_job(tmp_path))
        write_history(driver.job)
        found = {}
        for name, steps in STEPS.items():
            kept = {key: list(one) for key, one in TYPED.items()}
            driver.page.keep_draft(peg={"instrument_id": "laser 1", "typed": kept}, answers={})
            driver.page.arrive(collector_id="C1")
            driver.page.refresh()
            driver.settle()
            for step in steps:
                driver.tap(wording.say(step))
            found[name] = faults(driver.page.sheet or driver.shell)
            if driver.page.sheet:
                driver.page._close_pad()
        driver.worker.close()
    finally:
        wording.set_language("en")

    assert {name: told for name, told in found.items() if told} == {}
