"""Slit work of a day: passes, probes, and how good each surface's lot of readings is."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from models.entries.bodies.passes import PassCut, Probe
from models.entries.envelope import Entry
from models.entries.id_fields import pass_id_of
from models.entries.index import B, EntryKind
from models.entries.kind_names import PASS, PROBE, SAND_PLACED, SURFACE
from models.ledger.current_readings import current_probes
from models.ledger.ledger import PieceTally, Tally, ledger_of, total_of
from models.ledger.sand_due import sand_due
from models.plan.pattern import SlitPattern
from models.science.quality.acceptance import Lot, lot_figures
from models.science.quality.verdict import Verdict, judge
from models.state.job_state import JobState
from sync.papers.wording.measures import Measure


@dataclass(frozen=True, slots=True)
class ProbeLine:
    """A depth reading with its verdict; ``low_nm`` and ``high_nm`` are None without a plan."""

    at: str
    body: Probe
    use: str
    low_nm: int | None
    high_nm: int | None
    verdict: Verdict
    width_limits_nm: tuple[int | None, int | None]
    is_newest: bool
    author: str


@dataclass(frozen=True, slots=True)
class PassLine:
    """A pass as written, its sand and its probes; ``due_pl`` is the volume cut.

    ``pieces`` are what it cut in each line, with what each added to it.
    """

    at: str
    body: PassCut
    pieces: tuple[PieceTally, ...]
    due_pl: int
    sand_pl: int
    sand_ug: int
    author: str
    is_cut_today: bool
    probes: tuple[ProbeLine, ...]

    @property
    def tally(self) -> Tally:
        """Lengths that the pass added to its lines on the day; none if it was cut before."""
        return total_of(self.pieces if self.is_cut_today else ())

    @property
    def cut_nm(self) -> int:
        """Length of planned slit that the pass left on the day: every leg counts, once."""
        return self.tally.done

    def probes_that_count(self) -> list[ProbeLine]:
        """Probes that count: the newest at each place, as after rework."""
        return [probe for probe in self.probes if probe.is_newest]


@dataclass(frozen=True, slots=True)
class QualityLine:
    """A line of quality: a lot of readings of one kind against its limits."""

    where: str
    what: str
    measure: Measure
    lot: Lot
    low_nm: int | None
    high_nm: int | None


def use_of(state: JobState, surface_id: str, line_id: str) -> str:
    """Use of a line as planned; a line the plan does not have counts as a sand slit."""
    surface = state.latest(SURFACE, surface_id)
    place = surface.places.get(line_id) if surface is not None else None
    return place.line.use if place else "sand_slit"


def pattern_of(state: JobState, surface_id: str, use: str) -> SlitPattern | None:
    """Pattern that the lines of one use on a surface are held to."""
    surface = state.latest(SURFACE, surface_id)
    if surface is None:
        return None
    return surface.piped_slits if use == "piped_slit" else surface.sand_slits


def current_of(state: JobState, kind: EntryKind[B]) -> Iterator[Entry[B]]:
    """Every current entry of a kind, whatever it is filed under."""
    for name in state.every_name(kind):
        yield from state.current(kind, name)


def passes_of(state: JobState, day: str, time_of: dict[str, str]) -> tuple[PassLine, ...]:
    """Passes cut on a day, or probed on it though cut before, in the order of the book."""
    found: dict[str, PassLine] = {}
    for entry in state.days.get(day, ()):
        pass_id = pass_id_of(entry.body)
        if entry.kind in {"pass", "probe"} and not state.is_struck(entry.id):
            filed = state.current(PASS, pass_id)
            if filed and pass_id not in found:
                found[pass_id] = _pass_line(state, filed[-1], day, time_of)
    return tuple(found.values())


def _pass_line(
    state: JobState, entry: Entry[PassCut], day: str, time_of: dict[str, str]
) -> PassLine:
    cut = entry.body
    sand = [one.body for one in state.current(SAND_PLACED, cut.pass_id) if one.day <= day]
    return PassLine(
        at=time_of.get(entry.id, ""),
        body=cut,
        pieces=ledger_of(state).pass_pieces(entry),
        due_pl=due_pl(state, entry, day),
        sand_pl=sum(one.volume_pl or 0 for one in sand),
        sand_ug=sum(one.mass_ug or 0 for one in sand),
        author=entry.author,
        is_cut_today=entry.day == day,
        probes=tuple(probes_of(state, cut, day, time_of)),
    )


def probes_of(
    state: JobState, cut: PassCut, day: str, time_of: dict[str, str]
) -> Iterator[ProbeLine]:
    """Probes taken on a day of one pass, each judged by the pattern of its line."""
    taken = [entry for entry in state.current(PROBE, cut.pass_id) if entry.day == day]
    count = {
        one.id
        for line_id in {entry.body.line_id for entry in taken}
        for one in current_probes(state, cut.surface_id, line_id, day)
    }
    for entry in taken:
        probe = entry.body
        use = use_of(state, cut.surface_id, probe.line_id)
        pattern = pattern_of(state, cut.surface_id, use)
        low, high = depth_limits(pattern)
        yield ProbeLine(
            at=time_of.get(entry.id, ""),
            body=probe,
            use=use,
            low_nm=low,
            high_nm=high,
            verdict=judge(probe.depth_nm, low, high) if pattern else Verdict.NOT_MEASURED,
            width_limits_nm=width_limits(pattern),
            is_newest=entry.id in count or probe.line_id not in cut.line_ids,
            author=entry.author,
        )


def depth_limits(pattern: SlitPattern | None) -> tuple[int | None, int | None]:
    """Least and most depth that a pattern allows."""
    if pattern is None:
        return None, None
    return pattern.least_depth_nm, pattern.most_depth_nm


def width_limits(pattern: SlitPattern | None) -> tuple[int | None, int | None]:
    """Least and most width that a pattern allows."""
    if pattern is None:
        return None, None
    allowed = pattern.width_tolerance_nm
    return pattern.width_nm - allowed, pattern.width_nm + allowed


def due_pl(state: JobState, entry: Entry[PassCut], day: str = "") -> int:
    """Volume that the slits of a pass take, by the figure that flags rest on; 0 without sizes.

    ``day`` is the day at whose end it is looked at; without one, now.
    """
    due = sand_due(state, entry, day)
    return due.high_pl if due is not None else 0


def quality_of(passes: tuple[PassLine, ...]) -> tuple[QualityLine, ...]:
    """Depth and width of each surface and use as lots against their limits."""
    lots: dict[tuple[str, str], list[ProbeLine]] = defaultdict(list)
    for cut in passes:
        for probe in cut.probes_that_count():
            lots[(cut.body.surface_id, probe.use)].append(probe)
    lines = []
    for (surface_id, use), probes in lots.items():
        where = f"{surface_id} {use.removesuffix('_slit')}"
        first = probes[0]
        depths = [one.body.depth_nm for one in probes]
        lines.append(_quality(where, "depth", depths, (first.low_nm, first.high_nm)))
        widths = [one.body.width_nm for one in probes if one.body.width_nm is not None]
        if widths:
            lines.append(_quality(where, "width", widths, first.width_limits_nm))
    return tuple(lines)


def _quality(
    where: str, what: str, readings_nm: list[int], limits_nm: tuple[int | None, int | None]
) -> QualityLine:
    lot = lot_figures(readings_nm, *limits_nm)
    return QualityLine(where, what, Measure.DEPTH, lot, *limits_nm)
