"""Limits of measured places: along a line that was cut, along a collector that is planned."""

from __future__ import annotations

from typing import NamedTuple

from models.entries.bodies.passes import PassCut
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.kind_names import COLLECTOR
from models.state.job_state import JobState

SHOWN_NM = 30_480_000
"""A tenth of a foot, the step that lengths are shown in: what the glass shows may be typed."""


class Stretch(NamedTuple):
    """Stretch between two places along a collector or a line, nm."""

    start_nm: int
    end_nm: int

    def holds(self, at_nm: int) -> bool:
        """Whether a place lies on the stretch, or off it by less than a figure on a page tells."""
        return self.start_nm - SHOWN_NM <= at_nm <= self.end_nm + SHOWN_NM


def run_of(collector: Collector) -> Stretch:
    """Stations that a collector has by its plan."""
    design = collector.design
    return Stretch(design.start_nm, design.start_nm + design.length_nm)


def planned_run(state: JobState, collector_id: str) -> Stretch | None:
    """Stations of a collector of the job; None where no plan has it."""
    collector = state.latest(COLLECTOR, collector_id)
    return run_of(collector) if isinstance(collector, Collector) else None


def probed_line(surface: Surface | None, line_id: str, cut: PassCut) -> Stretch:
    """How far a line can be probed: as far as it was cut, or is planned where that is more."""
    place = surface.places.get(line_id) if surface is not None else None
    planned_nm = place.line.length_nm if place is not None else 0
    ends = [piece.to_nm for piece in cut.pieces if piece.line_id == line_id]
    return Stretch(0, max(planned_nm, *ends) if ends else max(planned_nm, cut.length_nm))
