"""Totals of a job by day and tablet, worked out from its state."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import astuple, dataclass, fields

from models.entries.bodies.day import Hours
from models.entries.bodies.job import Material
from models.entries.bodies.loads import Delivery
from models.entries.bodies.passes import PipeLaid, Probe, SandPlaced
from models.entries.envelope import Entry
from models.entries.index import EntryKind
from models.entries.keys import split_key
from models.entries.kind_names import DELIVERY, HOURS, MATERIAL, PASS, PIPE_LAID, PROBE, SAND_PLACED
from models.ledger.current_readings import current_probes
from models.ledger.ledger import ledger_of
from models.queries.materials.sand_balance import dry_pl, total_pl
from models.queries.schedule.worked_days import is_work
from models.science.quality.verdict import Verdict, judge
from models.state.indexes import CUTS_OF
from models.state.job_state import JobState
from models.units import round_half_even
from sync.office.figures.quality import crew_stream
from sync.papers.day.facts.slits import current_of, depth_limits, pattern_of, use_of

_UL = 1_000_000  # picolitres; whole microlitres of a season fit a database's numbers
_MOST = 2**63 - 1


@dataclass(slots=True)
class DayTotals:
    """Totals of one tablet's entries of one day; a correction counts for whom it corrects.

    ``work`` are entries of work on the ground that stand: with one, the day was worked.
    Lengths of slits are those done of the plan, leg by leg, by use; ``staked_nm`` is what of
    them rests on the plan's stakes; what was cut again, and beyond the lines or off the plan,
    stands apart; ``_ul`` are microlitres of loose sand as
    dry; ``sand_unmeasured`` are loads whose mass no density turns into a volume.
    """

    entries: int = 0
    work: int = 0
    struck: int = 0
    passes: int = 0
    sand_slit_nm: int = 0
    piped_slit_nm: int = 0
    slit_pipe_nm: int = 0
    collector_pipe_nm: int = 0
    placed_ul: int = 0
    delivered_ul: int = 0
    sand_unmeasured: int = 0
    probes: int = 0
    probes_out: int = 0
    crew_min: int = 0
    machine_min: int = 0
    staked_nm: int = 0
    again_nm: int = 0
    beyond_nm: int = 0

    def add(self, other: DayTotals) -> None:
        """Add another's figures to these."""
        for name in FIGURES:
            setattr(self, name, getattr(self, name) + getattr(other, name))

    def values(self) -> tuple[int, ...]:
        """Return the figures in order, none larger than a database keeps."""
        return tuple(min(int(value), _MOST) for value in astuple(self))

    @property
    def cut_nm(self) -> int:
        """Length of slit cut."""
        return self.sand_slit_nm + self.piped_slit_nm


FIGURES = tuple(one.name for one in fields(DayTotals))

Days = dict[tuple[str, str], DayTotals]


@dataclass(frozen=True, slots=True)
class SandBalance:
    """Balance of a sand on a job, delivered and placed as dry volume; None without a density."""

    material: str
    delivered_ul: int | None
    placed_ul: int | None


def day_totals(state: JobState) -> Days:
    """Return the totals of every day and tablet."""
    days: Days = defaultdict(DayTotals)
    for entry in state.entries.values():
        totals = days[entry.day, crew_stream(state, entry)]
        totals.entries += 1
        totals.struck += state.is_struck(entry.id)
        totals.work += is_work(state, entry)
    _add_passes(state, days)
    _add_pipe(state, days)
    _add_sand(state, days)
    _add_probes(state, days)
    _add_hours(state, days)
    return dict(days)


def sand_balances(state: JobState) -> list[SandBalance]:
    """Return every sand of the job, delivered against placed, to date."""
    return [
        SandBalance(
            name,
            _in_ul(total_pl(state, "delivered", name)),
            _in_ul(total_pl(state, "placed", name)),
        )
        for name in state.every_name(MATERIAL)
        if _is_sand(state, name)
    ]


FROM_STAKES = ("plan", "old")
"""What lengths rest on that nobody measured."""


def _add_passes(state: JobState, days: Days) -> None:
    ledger = ledger_of(state)
    for entry in current_of(state, PASS):
        cut = entry.body
        totals = days[entry.day, crew_stream(state, entry)]
        totals.passes += 1
        for one in ledger.pass_pieces(entry):
            share = one.share
            if ledger.use_of(cut.surface_id, one.piece.line_id) == "piped_slit":
                totals.piped_slit_nm += share.done
            else:
                totals.sand_slit_nm += share.done
            totals.staked_nm += share.done if one.piece.by in FROM_STAKES else 0
            totals.again_nm += share.again
            totals.beyond_nm += share.beyond + share.off_plan


def _add_pipe(state: JobState, days: Days) -> None:
    for entry in current_of(state, PIPE_LAID):
        laid = entry.body
        if isinstance(laid, PipeLaid):
            totals = days[entry.day, crew_stream(state, entry)]
            if laid.line_id:
                totals.slit_pipe_nm += laid.length_nm
            if laid.collector_id:
                totals.collector_pipe_nm += laid.length_nm


_SAND_WAYS: tuple[tuple[EntryKind[SandPlaced | Delivery], str], ...] = (
    (SAND_PLACED, "placed_ul"),
    (DELIVERY, "delivered_ul"),
)
"""Each way that sand goes, with the total that it adds to."""


def _add_sand(state: JobState, days: Days) -> None:
    for kind, name in _SAND_WAYS:
        for entry in current_of(state, kind):
            load = entry.body
            if not _is_sand(state, load.material_id):
                continue
            mass_ug, volume_pl = load.mass_ug or 0, load.volume_pl or 0
            dry = dry_pl(state, load.material_id, mass_ug, volume_pl, load.moisture)
            totals = days[entry.day, crew_stream(state, entry)]
            if dry is None:
                totals.sand_unmeasured += 1
            else:
                setattr(totals, name, getattr(totals, name) + _ul(dry))


def _add_probes(state: JobState, days: Days) -> None:
    """Count the probes of each day that counted at its end, of passes that stand."""
    for key in state.every_name(CUTS_OF):
        surface_id, line_id = split_key(key)
        passes = {entry.body.pass_id for entry in state.current(CUTS_OF, key)}
        on = {
            entry.day
            for pass_id in passes
            for entry in state.current(PROBE, pass_id)
            if entry.body.line_id == line_id
        }
        for day in on:
            for entry in current_probes(state, surface_id, line_id, day):
                if entry.day == day:
                    totals = days[day, crew_stream(state, entry)]
                    totals.probes += 1
                    totals.probes_out += _is_out(state, surface_id, entry)


def _is_out(state: JobState, surface_id: str, entry: Entry[Probe]) -> bool:
    probe = entry.body
    pattern = pattern_of(state, surface_id, use_of(state, surface_id, probe.line_id))
    return pattern is not None and judge(probe.depth_nm, *depth_limits(pattern)) is Verdict.OUT


def _add_hours(state: JobState, days: Days) -> None:
    for entry in current_of(state, HOURS):
        hours = entry.body
        if isinstance(hours, Hours):
            totals = days[entry.day, crew_stream(state, entry)]
            if hours.of == "person":
                totals.crew_min += hours.run_min
            else:
                totals.machine_min += hours.run_min


def _is_sand(state: JobState, name: str) -> bool:
    material = state.latest(MATERIAL, name)
    return isinstance(material, Material) and material.use == "sand"


def _ul(volume_pl: int) -> int:
    return round_half_even(volume_pl, _UL)


def _in_ul(volume_pl: int | None) -> int | None:
    return None if volume_pl is None else max(-_MOST, min(_ul(volume_pl), _MOST))
