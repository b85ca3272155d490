"""The parts of a plan that the audit looks at together, from a book, a file or both."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from models.entries.bodies.job import Machine
from models.entries.bodies.outlets import Outlet
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.body import Body
from models.entries.index import EntryKind
from models.entries.kind_names import COLLECTOR, LAYOUT, MACHINE, OUTLET, SURFACE
from models.plan.collector import PlanPoint
from models.plan.line import LineUse
from models.plan.pattern import SlitPattern
from models.science.shapes.rings import PointNm, Ring
from models.state.job_state import JobState

USES: dict[LineUse, str] = {"sand_slit": "sand slits", "piped_slit": "piped slits"}
"""Uses of a line, and what a sentence calls them."""


@dataclass(frozen=True, slots=True)
class DrawnKeepOut:
    """A keep-out that a file draws, and what becomes of it.

    ``radius_nm`` is what its points are given; ``used`` became keep-outs, ``left_out`` were
    named as not wanted. Names are those of the file.
    """

    file: str
    surface_id: str
    outlines: tuple[str, ...] = ()
    points: tuple[tuple[str, PointNm], ...] = ()
    others: tuple[str, ...] = ()
    radius_nm: int | None = None
    used: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PlanView:
    """Surfaces with their layouts, collectors, outlets and machines, each by its name."""

    surfaces: Mapping[str, Surface] = field(default_factory=dict)
    layouts: Mapping[str, SurfaceLayout] = field(default_factory=dict)
    collectors: Mapping[str, Collector] = field(default_factory=dict)
    outlets: Mapping[str, Outlet] = field(default_factory=dict)
    machines: Mapping[str, Machine] = field(default_factory=dict)
    sources: tuple[DrawnKeepOut, ...] = ()

    @classmethod
    def of_state(cls, state: JobState) -> PlanView:
        """The plan as it stands in a book."""
        kinds: tuple[EntryKind[Body], ...] = (SURFACE, LAYOUT, COLLECTOR, OUTLET, MACHINE)
        bodies = (state.latest(kind, name) for kind in kinds for name in state.every_name(kind))
        return cls().with_bodies(body for body in bodies if body is not None)

    def with_bodies(self, bodies: Iterable[Body]) -> PlanView:
        """The plan with bodies put in place of those of the same names."""
        surfaces, layouts = dict(self.surfaces), dict(self.layouts)
        collectors, outlets = dict(self.collectors), dict(self.outlets)
        machines = dict(self.machines)
        for body in bodies:
            if isinstance(body, Surface):
                surfaces[body.surface_id] = body
            elif isinstance(body, SurfaceLayout):
                layouts[body.surface_id] = body
            elif isinstance(body, Collector):
                collectors[body.collector_id] = body
            elif isinstance(body, Outlet):
                outlets[body.outlet_id] = body
            elif isinstance(body, Machine):
                machines[body.machine_id] = body
        return replace(
            self,
            surfaces=surfaces,
            layouts=layouts,
            collectors=collectors,
            outlets=outlets,
            machines=machines,
        )

    def outlet_of(self, collector_id: str) -> Outlet | None:
        """Outlet that a collector leads to, through others where it joins them."""
        met: set[str] = set()
        while collector_id in self.collectors and collector_id not in met:
            met.add(collector_id)
            joins = self.collectors[collector_id].joins
            if joins is None or joins.outlet_id:
                return self.outlets.get(joins.outlet_id) if joins else None
            collector_id = joins.collector_id
        return None

    def patterns(self) -> Iterator[tuple[Surface, LineUse, SlitPattern]]:
        """Every slit pattern of the plan, with its surface and use."""
        for surface in self.surfaces.values():
            for use in USES:
                pattern = surface.pattern_of(use)
                if pattern is not None:
                    yield surface, use, pattern

    def cutters(self, surface_id: str, use: LineUse) -> tuple[Machine, ...]:
        """The machine that lines are planned for; where none is named, every one that cuts."""
        layout = self.layouts.get(surface_id)
        named = [one.machine_id for one in layout.terms if one.use == use] if layout else []
        found = [self.machines[name] for name in named if name in self.machines]
        return tuple(found) or tuple(one for one in self.machines.values() if one.legs)


def ring_of(points: Iterable[PlanPoint]) -> Ring:
    """Points of a plan as calculations take them."""
    return tuple(PointNm(point.x_nm, point.y_nm) for point in points)


def first_lines(names: Iterable[str], most: int = 6) -> str:
    """The first few names, and how many more there are."""
    listed = list(names)
    more = f" and {len(listed) - most} more" if len(listed) > most else ""
    return ", ".join(listed[:most]) + more
