"""Layers of a collector as they were checked, in the order of the book."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from models.checks.affected_together import LEVELS, collector_of_entry
from models.checks.finding import Finding, Subjects, make_finding
from models.checks.memo import memoize
from models.checks.stretches import Stretch
from models.entries.bodies.levels import GradeShot
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR, LAYER_CHECK
from models.plan.collector import LAYER_ORDER, Layer
from models.queries.grade.laid_pipe import inverts
from models.state.job_state import JobState, Place
from models.units.filled_text import Fact
from models.units.station import StationRange

_HEIGHT = {layer: height for height, layer in enumerate(LAYER_ORDER)}


def _collector_of_pipe(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """The collector whose pipe a shot was taken on."""
    shot = entry.body
    on_pipe = isinstance(shot, GradeShot) and shot.on in {"invert", "obvert"}
    return collector_of_entry(state, entry) if on_pipe else ()


LAYERS: Mapping[str, Subjects] = {
    **LEVELS,
    "grade_shot": _collector_of_pipe,
    "layer_check": collector_of_entry,
}
"""What the layers of a collector rest on; shots prove where its pipe lies."""


@dataclass(frozen=True, slots=True)
class CheckedLayer:
    """A layer of a collector that was placed and checked, from station to station."""

    entry: AnyEntry
    name: Layer
    stretch: Stretch
    thickness_nm: int | None
    continuous: bool | None


def stretch_finding(
    check: str,
    subject: str,
    rests_on: Sequence[AnyEntry],
    place: str,
    stretch: Stretch,
    **facts: Fact,
) -> Finding:
    """Finding of a check about a stretch of a collector, from one station to another."""
    low, high = stretch
    return make_finding(check, subject, rests_on, place, from_nm=low, to_nm=high, **facts)


def layer_text(layer: Layer) -> str:
    """Name of a layer as a sentence has it: ``tracer wire``."""
    return layer.replace("_", " ")


def layers_of(state: JobState, collector_id: str) -> list[CheckedLayer]:
    """Every layer check of a collector, in the order of the book."""
    return memoize(state, "layers", collector_id, lambda: _layers_of(state, collector_id))


def _layers_of(state: JobState, collector_id: str) -> list[CheckedLayer]:
    found = []
    for entry in state.current(LAYER_CHECK, collector_id):
        body = entry.body
        stretch = StationRange.between(body.from_nm, body.to_nm)
        found.append(CheckedLayer(entry, body.layer, stretch, body.thickness_nm, body.continuous))
    return found


def planned_layers(state: JobState, collector_id: str) -> tuple[Layer, ...]:
    """Layers that the plan asks for, bottom up; none while there is no plan."""
    collector = state.latest(COLLECTOR, collector_id)
    if not isinstance(collector, Collector):
        return ()
    return tuple(layer for layer in LAYER_ORDER if layer in collector.design.layers)


def is_above(one: Layer, other: Layer) -> bool:
    """Whether a layer lies over another."""
    return _HEIGHT[one] > _HEIGHT[other]


def layer_stretches(
    state: JobState, collector_id: str, layer: Layer, before: Place | None = None
) -> list[Stretch]:
    """Stretches where a layer lies, now or before a place in the book.

    Pipe needs no check of its own between inverts that were shot on it.
    """
    found = [
        one.stretch
        for one in layers_of(state, collector_id)
        if one.name == layer and (before is None or state.place_of(one.entry) < before)
    ]
    if layer == "pipe":
        stations = [
            shot.station_nm
            for shot in inverts(state, collector_id, 0)
            if before is None or state.place_of(shot.entry) < before
        ]
        found += [(stations[0], stations[-1])] if stations else []
    return found
