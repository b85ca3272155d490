"""How long the lines and collectors of a page of notes are, so that no row lies beyond an end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from models.entries.bodies.passes import PassCut
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import COLLECTOR, PASS, SURFACE
from models.queries.layout.measured_places import Stretch, probed_line, run_of
from models.state.job_state import JobState
from models.units.job_units import Figures

_STATIONS = (("station_nm", "station"), ("from_nm", "from"), ("to_nm", "to"))
"""Fields that hold a station, and the columns they are read from."""


@dataclass(slots=True)
class KnownLengths:
    """Surfaces with their lines, each pass, stations by collector."""

    surfaces: dict[str, Surface] = field(default_factory=dict)
    cuts: dict[str, PassCut] = field(default_factory=dict)
    runs: dict[str, Stretch] = field(default_factory=dict)

    @classmethod
    def from_state(cls, state: JobState) -> KnownLengths:
        """Collect what a book knows of them."""
        lengths = cls()
        for name in state.every_name(SURFACE):
            surface = state.latest(SURFACE, name)
            if surface is not None:
                lengths.surfaces[name] = surface
        for name in state.every_name(COLLECTOR):
            collector = state.latest(COLLECTOR, name)
            if collector is not None:
                lengths.runs[name] = run_of(collector)
        for name in state.every_name(PASS):
            cut = state.latest(PASS, name)
            if cut is not None:
                lengths.cuts[name] = cut
        return lengths

    def take_cut(self, fields: dict[str, Any]) -> None:
        """Take in the lines and the length of a pass, if its row tells them."""
        if {"surface_id", "length_nm", "line_ids"} <= fields.keys():
            self.cuts[fields["pass_id"]] = PassCut.model_construct(
                pass_id=fields["pass_id"],
                surface_id=fields["surface_id"],
                line_ids=fields["line_ids"],
                length_nm=fields["length_nm"],
                pieces=(),
            )

    def places_beyond(
        self, kind: str, fields: dict[str, Any], figures: Figures
    ) -> Iterator[tuple[str, str, str, str]]:
        """Places of a row that lie beyond an end: column, what was read, why, what would do."""
        if kind == "probe":
            yield from self._off_line(fields, figures)
        run = self.runs.get(fields.get("collector_id", ""))
        for name, column in _STATIONS:
            at_nm = fields.get(name)
            if run is not None and at_nm is not None and not run.holds(at_nm):
                start, end = figures.station(run.start_nm), figures.station(run.end_nm)
                length = figures.length(run.end_nm - run.start_nm)
                why = f"is not on {fields['collector_id']}, which is {length} long"
                yield column, figures.station(at_nm), why, f"a station from {start} to {end}"

    def _off_line(
        self, fields: dict[str, Any], figures: Figures
    ) -> Iterator[tuple[str, str, str, str]]:
        """A probe farther along than its line was cut, or is planned."""
        if fields["pass_id"] not in self.cuts:
            return
        cut = self.cuts[fields["pass_id"]]
        line = probed_line(self.surfaces.get(cut.surface_id), fields["line_id"], cut)
        if not line.holds(fields["along_nm"]):
            along, length = figures.show_distinct("length", [fields["along_nm"], line.end_nm])
            why = f"is beyond the end of {fields['line_id']}, which is {length} long"
            yield "at", along, why, f"a distance from its start, 0 to {length}"
