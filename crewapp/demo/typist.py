"""Types the demo's readings into commands as a foreman would."""

from __future__ import annotations

import random

from crewapp.handlers.flags import answer_to
from crewapp.job.dispatch import do
from crewapp.job.open_job import JobChanges, OpenJob
from crewapp.tablet.clock import SetClock
from models.checks.finding_text import sentence
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import SURFACE
from models.errors import CrewError
from models.plan.line import PlannedLine


class NoSuchFlagError(CrewError, LookupError):
    """The demo was to answer a flag that its days have not raised."""

    code = "demo.no_such_flag"
    sentence = (
        "The demo cannot go on: nothing raised {check} about {about}. Open flags are: {flags}."
    )


class Typist:
    """Writer of one demo day: its job, its clock, and chance for what nature makes uneven.

    Chance is seeded by the day, so a change in one day leaves the others as
    they were.
    """

    def __init__(self, job: OpenJob, clock: SetClock, day: str) -> None:
        self.job = job
        self.clock = clock
        self.day = day
        self.chance = random.Random(day)

    def at(self, time: str) -> None:
        """Let the clock come to a time of the day, if it has not passed it already."""
        hours, minutes = time.split(":")
        before_ms = self.clock.at_ms
        self.clock.set_to(self.day, int(hours) * 60 + int(minutes))
        self.clock.at_ms = max(self.clock.at_ms, before_ms)

    def wait(self, least_s: int, most_s: int | None = None) -> None:
        """Let some seconds go by."""
        self.clock.pass_seconds(self.chance.randint(least_s, most_s or least_s))

    def feet(self, typed: str) -> int:
        """Read a length along the ground."""
        return self.job.figures.read_length(typed)

    def inches(self, typed: str) -> int:
        """Read a depth or a width."""
        return self.job.figures.read_depth(typed)

    def level(self, typed: str) -> int:
        """Read a rod reading."""
        return self.job.figures.read_level(typed)

    def station(self, typed: str) -> int:
        """Read a station along a collector."""
        return self.job.figures.read_station(typed)

    def line(self, surface_id: str, line_id: str) -> PlannedLine:
        """Return a planned line of a surface."""
        surface = self.job.state.latest(SURFACE, surface_id)
        assert isinstance(surface, Surface)
        return next(line for line in surface.lines if line.line_id == line_id)

    def answer(self, check: str, about: str, answer: str, why: str) -> JobChanges:
        """Answer every open flag of a check that names what it is about.

        Raises
        ------
        NoSuchFlagError
            If there is none: the story and the checks no longer agree.
        """
        keys = []
        entries: list[JobChanges] = []
        for flag in self.job.board.open_flags():
            told = f"{flag.finding.key}: {sentence(flag.finding, self.job.figures)}"
            keys.append(told)
            if flag.finding.check == check and about in told:
                self.wait(8, 40)
                entries.append(do(self.job, answer_to(flag, answer=answer, why=why)))
        if not entries:
            raise NoSuchFlagError(check=check, about=about, flags=", ".join(keys) or "none")
        return JobChanges(tuple(entry for changed in entries for entry in changed.entries))


def eighths(count: int) -> str:
    """Write a count of eighths of an inch as it is typed: 71 is ``8-7/8``."""
    whole, rest = divmod(count, 8)
    if not rest:
        return str(whole)
    top, bottom = rest, 8
    while top % 2 == 0:
        top, bottom = top // 2, bottom // 2
    return f"{whole}-{top}/{bottom}"
