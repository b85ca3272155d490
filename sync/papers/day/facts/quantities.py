"""Quantities of a day: today, to date, left and planned, so that to date is the sum of days."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from itertools import chain

from models.entries.bodies.job import Material
from models.entries.bodies.passes import PipeLaid, SandPlaced
from models.entries.kind_names import (
    COLLECTOR,
    LAYOUT,
    MATERIAL,
    PASS,
    PIPE_LAID,
    SAND_PLACED,
    SPOIL,
    SURFACE,
)
from models.ledger.ledger import ledger_of
from models.queries.materials.material_properties import density_of
from models.queries.materials.sand_balance import dry_pl, mass_of_volume_ug, volume_of_mass_pl
from models.state.indexes import PASSES_ON
from models.state.job_state import JobState
from sync.papers.day.facts.slits import current_of, due_pl
from sync.papers.wording.measures import Measure


@dataclass(frozen=True, slots=True)
class Quantity:
    """An item: amounts in the base unit of its measure; ``plan`` None where none is stated."""

    item: str
    measure: Measure
    today: int
    to_date: int
    plan: int | None

    @property
    def left(self) -> int | None:
        """Amount that the plan still asks for; below nothing where it was exceeded."""
        return None if self.plan is None else self.plan - self.to_date


Daily = dict[str, int]

BESIDE_THE_PLAN = ("Slits cut again", "Slits beyond their lines", "Slits not on the plan")
"""Items of what was cut and counts for nothing of the plan."""


def quantities_of(state: JobState, day: str) -> tuple[Quantity, ...]:
    """Every item that the job plans or has done by the day."""
    lengths = [
        *_slits(state, day),
        _row(
            state,
            day,
            "Pipe in slits",
            _pipe_daily(state, lambda pipe: pipe.line_id),
            _slit_pipe(state),
        ),
        _row(
            state,
            day,
            "Collector pipe",
            _pipe_daily(state, lambda pipe: pipe.collector_id),
            _collectors(state),
        ),
    ]
    shown = [row for row in lengths if row.plan or row.to_date]
    return (*shown, *_sand(state, day), *_spoil(state, day))


def length_done(rows: Iterable[Quantity]) -> tuple[int, int, int]:
    """Lengths done today, done to date (none over its plan) and planned, in nm.

    Slits and collector pipe count; the pipe in a slit is part of its slit.
    """
    apart = ("Pipe in slits", *BESIDE_THE_PLAN)
    counted = [row for row in rows if row.measure is Measure.LENGTH and row.item not in apart]
    planned = [row for row in counted if row.plan]
    return (
        sum(row.today for row in counted),
        sum(min(row.to_date, row.plan or 0) for row in planned),
        sum(row.plan or 0 for row in planned),
    )


def _row(state: JobState, day: str, item: str, daily: Daily, plan: int | None) -> Quantity:
    to_date = sum(amount for on, amount in daily.items() if on <= day)
    return Quantity(item, Measure.LENGTH, daily.get(day, 0), to_date, plan)


def _slits(state: JobState, day: str) -> Iterable[Quantity]:
    """Slits done of the plan; what was cut beside it stands in rows of its own, never in these."""
    daily: dict[str, Daily] = {"sand_slit": defaultdict(int), "piped_slit": defaultdict(int)}
    beside: dict[str, Daily] = {item: defaultdict(int) for item in BESIDE_THE_PLAN}
    for _, use, piece in ledger_of(state).every_piece():
        share = piece.share
        daily[use][piece.day] += share.done
        for item, length_nm in zip(
            BESIDE_THE_PLAN, (share.again, share.beyond, share.off_plan), strict=True
        ):
            beside[item][piece.day] += length_nm
    yield _row(state, day, "Sand slits", daily["sand_slit"], _planned(state, "sand"))
    yield _row(state, day, "Piped slits", daily["piped_slit"], _planned(state, "piped"))
    for item, amounts in beside.items():
        yield _row(state, day, item, amounts, None)


def _planned(state: JobState, which: str) -> int | None:
    surfaces = [state.latest(SURFACE, name) for name in state.every_name(SURFACE)]
    lines = chain.from_iterable(one.lines for one in surfaces if one is not None)
    lengths = [line.length_nm for line in lines if line.use == f"{which}_slit"]
    return sum(lengths) if lengths else None


def _slit_pipe(state: JobState) -> int | None:
    """Pipe planned in slits, with what leads on from each to its collector as laid out."""
    slits = _planned(state, "piped")
    layouts = [state.latest(LAYOUT, name) for name in state.every_name(LAYOUT)]
    gaps = [sum(one.gaps_nm.values()) for one in layouts if one is not None]
    return None if slits is None else slits + sum(gaps)


def _collectors(state: JobState) -> int | None:
    found = [state.latest(COLLECTOR, name) for name in state.every_name(COLLECTOR)]
    lengths = [one.design.length_nm for one in found if one is not None]
    return sum(lengths) if lengths else None


def _pipe_daily(state: JobState, place_of: Callable[[PipeLaid], str]) -> Daily:
    """Pipe laid by day in places of one kind: those that what is given finds named."""
    daily: Daily = defaultdict(int)
    for entry in current_of(state, PIPE_LAID):
        if place_of(entry.body):
            daily[entry.day] += entry.body.length_nm
    return daily


def _sand(state: JobState, day: str) -> Iterable[Quantity]:
    """Sand by material, as it was measured; where it was measured both ways, as one of them.

    Two rows would each leave out what the other counts, and call it left.
    """
    for name in state.every_name(MATERIAL):
        material = state.latest(MATERIAL, name)
        if material is None or material.use != "sand":
            continue
        rows = [
            _sand_row(
                state,
                day,
                material,
                Measure.VOLUME,
                lambda sand: sand.volume_pl,
                material.planned_volume_pl,
            ),
            _sand_row(
                state,
                day,
                material,
                Measure.MASS,
                lambda sand: sand.mass_ug,
                material.planned_mass_ug,
            ),
        ]
        used = [row for row in rows if row.to_date]
        planned = [row for row in rows if row.plan]
        yield from _as_one(state, material, used) or planned[:1]


def _as_one(state: JobState, material: Material, used: list[Quantity]) -> list[Quantity]:
    """Sand by volume and sand by mass as one row, in the measure the plan is stated in.

    By mass without a plan, as the loads are balanced; two rows without a density.
    """
    known = density_of(state, material.material_id)
    if len(used) != 2 or known is None:
        return used
    volume, mass = used
    density = known.g_per_m3
    if material.planned_volume_pl and not material.planned_mass_ug:
        also = [volume_of_mass_pl(ug, density) for ug in (mass.today, mass.to_date)]
        return [_with_also(volume, *also)]
    also = [mass_of_volume_ug(pl, density) for pl in (volume.today, volume.to_date)]
    return [_with_also(mass, *also)]


def _with_also(row: Quantity, today: int, to_date: int) -> Quantity:
    return replace(row, today=row.today + today, to_date=row.to_date + to_date)


def _sand_row(
    state: JobState,
    day: str,
    material: Material,
    measure: Measure,
    measured: Callable[[SandPlaced], int | None],
    plan: int | None,
) -> Quantity:
    daily: Daily = defaultdict(int)
    for entry in current_of(state, SAND_PLACED):
        if entry.body.material_id == material.material_id:
            daily[entry.day] += measured(entry.body) or 0
    if plan is None:
        plan = _other_way(state, material, measure)
    to_date = sum(amount for on, amount in daily.items() if on <= day)
    return Quantity(material.material_id, measure, daily.get(day, 0), to_date, plan)


def _other_way(state: JobState, material: Material, measure: Measure) -> int | None:
    """Plan stated in the other measure, through the sand's own bulk density."""
    known = density_of(state, material.material_id)
    if known is None:
        return None
    density = known.g_per_m3
    if measure is Measure.MASS:
        volume = material.planned_volume_pl
        return mass_of_volume_ug(volume, density) if volume else None
    mass = material.planned_mass_ug
    return volume_of_mass_pl(mass, density) if mass else None


def _spoil(state: JobState, day: str) -> Iterable[Quantity]:
    daily: Daily = defaultdict(int)
    for entry in current_of(state, SPOIL):
        daily[entry.day] += entry.body.volume_pl
    to_date = sum(amount for on, amount in daily.items() if on <= day)
    if to_date:
        yield Quantity("Spoil, loose", Measure.VOLUME, daily.get(day, 0), to_date, None)


@dataclass(frozen=True, slots=True)
class SandToday:
    """Sand placed on a day against what the slits that took it hold, as loose volume.

    ``is_as_dry`` tells that some of it was moist, and is less as dry sand than as measured.
    """

    placed_pl: int
    due_pl: int
    is_comparable: bool
    is_as_dry: bool = False


def sand_today(state: JobState, day: str) -> SandToday:
    """Sand placed on a day against the volume cut.

    Passes count that took sand on the day, less what they took before; sand placed
    without a pass counts against the passes cut that day on its surface. Mass becomes
    volume through the weighed bulk density; without one it can't be compared.
    """
    placed, is_comparable, is_as_dry = 0, True, False
    passes: dict[str, None] = {}
    for entry in current_of(state, SAND_PLACED):
        if entry.day != day:
            continue
        volume = _volume_of(state, entry.body)
        is_comparable = is_comparable and volume is not None
        placed += volume or 0
        measured = entry.body.volume_pl
        is_as_dry = is_as_dry or (measured is not None and measured != volume)
        passes.update(dict.fromkeys(_passes_for(state, entry.body, day)))
    due = sum(_still_due(state, pass_id, day) for pass_id in passes)
    return SandToday(placed, due, is_comparable, is_as_dry)


def _volume_of(state: JobState, sand: SandPlaced) -> int | None:
    mass_ug, volume_pl = sand.mass_ug or 0, sand.volume_pl or 0
    return dry_pl(state, sand.material_id, mass_ug, volume_pl, sand.moisture)


def _passes_for(state: JobState, sand: SandPlaced, day: str) -> list[str]:
    if sand.pass_id:
        return [sand.pass_id]
    on_surface = state.current(PASSES_ON, sand.surface_id)
    return [entry.body.pass_id for entry in on_surface if entry.day == day]


def _still_due(state: JobState, pass_id: str, day: str) -> int:
    filed = state.current(PASS, pass_id)
    if not filed:
        return 0
    before = (e for e in state.current(SAND_PLACED, pass_id) if e.day < day)
    went_in = sum(_volume_of(state, e.body) or 0 for e in before)
    return max(due_pl(state, filed[-1], day) - went_in, 0)
