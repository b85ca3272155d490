"""Pipe run and alignment of LandXML: a node at each invert shot, a pipe between neighbours.

Only what was measured becomes a node, so a joint whose invert nobody shot is a plan feature.
A pipe runs with the water: it starts at its upper node. Names are unique over the whole file,
since the schema's keys are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from models.units import NM_PER, LengthUnit
from sync.papers.asbuilt.features.course import Course, Place, course_length_nm
from sync.papers.asbuilt.features.feature_types import AsBuilt, CollectorRun
from sync.papers.asbuilt.features.station_features import InvertShot
from sync.papers.asbuilt.geodata.xml_text import attributes
from sync.papers.day.csv_file import plain_number

_DIGITS = 6
_NM_PER_SMALL = {True: NM_PER[LengthUnit.IN], False: NM_PER[LengthUnit.MM]}


@dataclass(frozen=True, slots=True)
class _Node:
    """A standing invert shot that has a place on the course."""

    name: str
    shot: InvertShot
    at: Place


class PipeWriter:
    """Writes the collectors of one job in its unit."""

    def __init__(self, job: AsBuilt) -> None:
        self.job = job
        self.per = NM_PER[LengthUnit.FT if job.is_us else LengthUnit.M]

    def far(self, nm: float) -> str:
        """Length or level in the file's unit."""
        return plain_number(round(float(nm / self.per), _DIGITS))

    def point(self, place: Place) -> str:
        """Position as the schema has it: northing, easting."""
        return f"{self.far(place.y_nm)} {self.far(place.x_nm)}"

    def geometry(self, course: Course) -> str:
        """Straight sides of a course."""
        sides = "".join(
            f"<Line><Start>{self.point(a)}</Start><End>{self.point(b)}</End></Line>"
            for a, b in pairwise(course)
            if a != b
        )
        return f"<CoordGeom>{sides}</CoordGeom>"

    def alignments(self) -> Iterator[str]:
        """Course of each collector with its design profile and the inverts as shot."""
        runs = [run for run in self.job.collectors if course_length_nm(run.course)]
        if runs:
            yield "<Alignments>"
            for run in runs:
                yield self._alignment(run)
            yield "</Alignments>"

    def _alignment(self, run: CollectorRun) -> str:
        head = attributes(
            name=run.collector_id,
            length=self.far(course_length_nm(run.course)),
            staStart=self.far(run.start_nm),
            desc=run.name,
        )
        ends = [run.marks[0], run.marks[-1]] if len(run.marks) > 1 else []
        design = "".join(
            f"<PVI>{self.far(mark.station_nm)} {self.far(float(mark.design_nm))}</PVI>"
            for mark in ends
        )
        shots = [shot for shot in self.job.inverts if shot.collector_id == run.collector_id]
        listed = " ".join(
            f"{self.far(shot.station_nm)} {self.far(float(shot.invert_nm))}" for shot in shots
        )
        as_shot = f"<PntList2D>{listed}</PntList2D>" if len(shots) > 1 else ""
        profile = f'<ProfSurf name="inverts as shot">{as_shot}</ProfSurf>' * bool(
            as_shot
        ) + f'<ProfAlign name="design invert">{design}</ProfAlign>' * bool(design)
        held = f'<Profile name="invert">{profile}</Profile>' if profile else ""
        return f"<Alignment{head}>{self.geometry(run.course)}{held}</Alignment>"

    def networks(self) -> Iterator[str]:
        """A network for each collector with two shots or more that lie on its course."""
        found = [(run, self._nodes(run)) for run in self.job.collectors]
        runs = [(run, nodes) for run, nodes in found if len(nodes) > 1]
        if runs:
            yield "<PipeNetworks>"
            for run, nodes in runs:
                yield from self._network(run, nodes)
            yield "</PipeNetworks>"

    def _nodes(self, run: CollectorRun) -> list[_Node]:
        shots = [s for s in self.job.inverts if s.collector_id == run.collector_id and s.at]
        return [
            _Node(f"{run.collector_id}-N{number}", shot, shot.at)
            for number, shot in enumerate(shots, start=1)
            if shot.at is not None
        ]

    def _network(self, run: CollectorRun, nodes: Sequence[_Node]) -> Iterator[str]:
        head = attributes(
            name=run.collector_id,
            pipeNetType="other",
            alignmentRef=run.collector_id if course_length_nm(run.course) else None,
            desc=run.name,
        )
        yield f"<PipeNetwork{head}>"
        yield "<Structs>"
        yield from (self._struct(run, nodes, at) for at in range(len(nodes)))
        yield "</Structs>"
        yield "<Pipes>"
        yield from (
            self._pipe(run, number, *pair) for number, pair in enumerate(pairwise(nodes), start=1)
        )
        yield "</Pipes>"
        yield "</PipeNetwork>"

    def _struct(self, run: CollectorRun, nodes: Sequence[_Node], at: int) -> str:
        node, is_from_outlet = nodes[at], run.stationed_from == "outlet"
        is_outlet = at == (0 if is_from_outlet else len(nodes) - 1)
        station = self.job.figures.station(node.shot.station_nm)
        inverts = "".join(self._inverts(run, node, at, len(nodes)))
        kind = "OutletStruct" if is_outlet else "Connection"
        said = f"invert shot at {station}, {node.shot.verdict.value}"
        return (
            f"<Struct{attributes(name=node.name, desc=said)}>"
            f"<Center>{self.point(node.at)}</Center><{kind}/>{inverts}</Struct>"
        )

    def _inverts(self, run: CollectorRun, node: _Node, at: int, n: int) -> Iterator[str]:
        """Invert of a node for the pipe on either side of it, with the way the water goes."""
        is_from_outlet = run.stationed_from == "outlet"
        for number, is_up_station in ((at, False), (at + 1, True)):
            if 1 <= number < n:
                way = "in" if is_up_station == is_from_outlet else "out"
                facts = attributes(
                    elev=self.far(float(node.shot.invert_nm)),
                    flowDir=way,
                    refPipe=f"{run.collector_id}-P{number}",
                )
                yield f"<Invert{facts}/>"

    def _pipe(self, run: CollectorRun, number: int, low: _Node, high: _Node) -> str:
        upper, lower = (high, low) if run.stationed_from == "outlet" else (low, high)
        head = attributes(
            name=f"{run.collector_id}-P{number}",
            refStart=upper.name,
            refEnd=lower.name,
            length=self.far(high.shot.station_nm - low.shot.station_nm),
        )
        small = _NM_PER_SMALL[self.job.is_us]
        wall_nm = max(run.outside_nm - run.bore_nm, 0) / 2
        pipe = attributes(
            diameter=plain_number(round(run.bore_nm / small, _DIGITS)),
            material=", ".join(run.pipe_materials) or None,
            thickness=self.far(wall_nm) if run.outside_nm else None,
        )
        return f"<Pipe{head}><CircPipe{pipe}/></Pipe>"
