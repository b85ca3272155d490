"""Work done on each part of the plan, day by day: the record that rates rest on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

from models.entries.bodies.surfaces import Collector, Surface
from models.entries.kind_names import COLLECTOR, SURFACE
from models.ledger.ledger import ledger_of
from models.science.schedule.production import Output, remaining_nm
from models.state.indexes import PASSES, PIPE_IN_COLLECTOR
from models.state.job_state import JobState

USES = ("sand_slit", "piped_slit", "collector")
"""Uses in the order in which a crew goes about them."""


@dataclass(slots=True)
class PartRecord:
    """Record of a use on one surface, or of a collector: planned, done by day, timed passes.

    ``daily_nm`` is new length alone: a line cut again adds nothing, and what was cut
    beyond the plan doesn't count. ``rounded_nm`` is what lines that are cut lack of their
    planned length because the tape was read to the last half foot: nobody cuts that.
    """

    subject: str
    use: str
    planned_nm: int
    done_nm: int = 0
    daily_nm: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    timed: list[Output] = field(default_factory=list)
    rounded_nm: int = 0

    @property
    def left_nm(self) -> int:
        """Length that is still to be done."""
        return remaining_nm(self.planned_nm, self.done_nm + self.rounded_nm)

    def add(self, day: str, new_nm: int) -> None:
        """Count new length of a day."""
        self.done_nm += new_nm
        self.daily_nm[day] += new_nm


def part_records(state: JobState, day: str) -> tuple[PartRecord, ...]:
    """The record of every part of the plan up to a day, that day included."""
    slits = {
        (surface.surface_id, use): PartRecord(surface.surface_id, use, planned)
        for surface in _surfaces(state)
        for use, planned in _planned(surface)
    }
    _count_lines(state, day, slits)
    _time_passes(state, day, slits)
    pipes = [_collector_record(state, one, day) for one in _collectors(state)]
    return (*slits.values(), *pipes)


def _surfaces(state: JobState) -> Iterator[Surface]:
    for name in state.every_name(SURFACE):
        surface = state.latest(SURFACE, name)
        if isinstance(surface, Surface):
            yield surface


def _collectors(state: JobState) -> Iterator[Collector]:
    for name in state.every_name(COLLECTOR):
        collector = state.latest(COLLECTOR, name)
        if isinstance(collector, Collector):
            yield collector


def _planned(surface: Surface) -> Iterator[tuple[str, int]]:
    """Uses of line on a surface with their planned length."""
    for use in surface.courses:
        planned = sum(line.length_nm for line in surface.lines if line.use == use)
        if planned:
            yield use, planned


def _count_lines(state: JobState, day: str, parts: dict[tuple[str, str], PartRecord]) -> None:
    """Count every planned line as it was cut up to a day."""
    ledger = ledger_of(state)
    for surface in _surfaces(state):
        for line in surface.lines:
            tally = ledger.line_on(surface.surface_id, line.line_id, day)
            part = parts.get((surface.surface_id, line.use))
            if part is None:
                continue
            part.rounded_nm += tally.short
            for piece in tally.pieces:
                part.add(piece.day, piece.share.done)


def _time_passes(state: JobState, day: str, parts: dict[tuple[str, str], PartRecord]) -> None:
    """Take in every pass with its machine time, under the use of its first planned line."""
    ledger = ledger_of(state)
    for entry in state.current(PASSES):
        cut = entry.body
        surface = state.latest(SURFACE, cut.surface_id)
        if entry.day > day or not cut.run_min or surface is None:
            continue
        known = [surface.places[name] for name in cut.line_ids if name in surface.places]
        if known:
            length_nm = sum(one.share.length_nm for one in ledger.pass_pieces(entry))
            output = Output(length_nm, cut.run_min)
            parts[(cut.surface_id, known[0].line.use)].timed.append(output)


def _collector_record(state: JobState, collector: Collector, day: str) -> PartRecord:
    """A collector by the pipe laid in it."""
    part = PartRecord(collector.collector_id, "collector", collector.design.length_nm)
    for entry in state.current(PIPE_IN_COLLECTOR, collector.collector_id):
        laid = entry.body
        if entry.day <= day:
            part.add(entry.day, min(laid.length_nm, part.left_nm))
    return part
