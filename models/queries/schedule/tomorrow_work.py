"""Work of the next day: its passes, and the sand and pipe that they take."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import LAYOUT, SURFACE, TAKEOFF_TERMS
from models.ledger.ledger import ledger_of
from models.plan.line import LineUse
from models.queries.layout.next_pass import is_cut, lines_left
from models.queries.schedule.daily_work import USES, PartRecord
from models.queries.schedule.sand_order import sand_per_nm
from models.science.schedule.production import working_date
from models.state.job_state import JobState
from models.units import round_half_even


@dataclass(frozen=True, slots=True)
class NextDrive:
    """A drive still to be made; without a layout, a single line.

    ``gaps_nm`` is pipe that leads on from its lines to the collector.
    """

    surface_id: str
    use: LineUse
    line_ids: tuple[str, ...]
    length_nm: int
    gaps_nm: int = 0


@dataclass(frozen=True, slots=True)
class Tomorrow:
    """The next day of work by the record: lengths by use, drives, sand in place and pipe."""

    day: str
    lengths_nm: tuple[tuple[str, int], ...]
    drives: tuple[NextDrive, ...]
    sand_pl: int
    pipe_nm: int


def tomorrow_work(
    state: JobState, day: str, parts: Sequence[PartRecord], rest: frozenset[int]
) -> Tomorrow | None:
    """Work of the next day; None without a rate to go by, or with nothing left."""
    lengths = _lengths(state, parts)
    if not lengths:
        return None
    drives: list[NextDrive] = []
    shares = sand_per_nm(state)
    sand, pipe_nm = Fraction(0), 0
    for use, length_nm in lengths:
        if use == "collector":
            sand += _collector_sand(parts, shares, length_nm)
            pipe_nm += length_nm
            continue
        left_nm = length_nm
        for drive in _drives_for(state, use, length_nm):
            drives.append(drive)
            cut_nm = min(drive.length_nm, left_nm)  # the last one may be begun and not ended
            left_nm -= cut_nm
            sand += shares.get((drive.surface_id, drive.use), Fraction(0)) * cut_nm
            pipe_nm += cut_nm + drive.gaps_nm if drive.use == "piped_slit" else 0
    next_day = working_date(date.fromisoformat(day), 1, rest).isoformat()
    return Tomorrow(next_day, tuple(lengths), tuple(drives), round_half_even(sand), pipe_nm)


def _lengths(state: JobState, parts: Sequence[PartRecord]) -> list[tuple[str, int]]:
    """Length of each use that fits into one day, what was last worked on first."""
    share = Fraction(1)
    lengths: list[tuple[str, int]] = []
    for use in _in_turn(parts):
        own = [part for part in parts if part.use == use]
        left = sum(part.left_nm for part in own)
        a_day = _a_day(state, own, use)
        if not left or not a_day or not share:
            continue
        length = min(Fraction(left), a_day * share)
        share -= length / a_day
        lengths.append((use, round_half_even(length)))
    return lengths


def _in_turn(parts: Sequence[PartRecord]) -> list[str]:
    """Uses with the one last worked on first, the others in the order of the work."""
    last = dict.fromkeys(USES, "")
    for part in parts:
        last[part.use] = max(last[part.use], *(d for d, nm in part.daily_nm.items() if nm), "")
    return sorted(USES, key=lambda use: (last[use], -USES.index(use)), reverse=True)


def _a_day(state: JobState, own: Sequence[PartRecord], use: str) -> Fraction | None:
    """Mean length of the days on which a use was worked on, else the planned rate."""
    daily: dict[str, int] = {}
    for part in own:
        for on, length_nm in part.daily_nm.items():
            daily[on] = daily.get(on, 0) + length_nm
    done = [length_nm for length_nm in daily.values() if length_nm]
    if done:
        return Fraction(sum(done), len(done))
    terms = state.latest(TAKEOFF_TERMS)
    if terms is None:
        return None
    rate = {
        "sand_slit": terms.sand_slit_a_day_nm,
        "piped_slit": terms.piped_slit_a_day_nm,
        "collector": terms.collector_a_day_nm,
    }.get(use)
    return Fraction(rate) if rate else None


def _drives_for(state: JobState, use: str, length_nm: int) -> Iterator[NextDrive]:
    """Drives still to be made, in order, until they come to a length."""
    total = 0
    for name in state.every_name(SURFACE):
        surface = state.latest(SURFACE, name)
        if not isinstance(surface, Surface):
            continue
        for drive in drives_left(
            state, surface, "sand_slit" if use == "sand_slit" else "piped_slit"
        ):
            if total >= length_nm:
                return
            total += drive.length_nm
            yield drive


def drives_left(state: JobState, surface: Surface, use: LineUse) -> Iterator[NextDrive]:
    """Drives of a surface with a line still to be cut; line by line without a layout."""
    own = surface.surface_id
    layout = state.latest(LAYOUT, own)
    planned = layout.drives if isinstance(layout, SurfaceLayout) else ()
    drives = [drive for drive in planned if drive.use == use]
    gaps = layout.gaps_nm if isinstance(layout, SurfaceLayout) and use == "piped_slit" else {}
    if not drives:
        for line in lines_left(state, surface, use):
            left_nm = _left_nm(state, own, line.line_id)
            yield NextDrive(own, use, (line.line_id,), left_nm, gaps.get(line.line_id, 0))
        return
    for drive in drives:
        names = tuple(name for name in drive.line_ids if not is_cut(state, own, name))
        if names:
            length_nm = sum(_left_nm(state, own, name) for name in names)
            yield NextDrive(own, use, names, length_nm, sum(gaps.get(name, 0) for name in names))


def _left_nm(state: JobState, surface_id: str, line_id: str) -> int:
    """Length of a line that is still to be cut."""
    return ledger_of(state).line(surface_id, line_id).left


def _collector_sand(
    parts: Sequence[PartRecord], shares: dict[tuple[str, str], Fraction], length_nm: int
) -> Fraction:
    """Sand over the next length of the collectors, one after the other."""
    sand, left = Fraction(0), length_nm
    for part in parts:
        if part.use == "collector":
            taken = min(left, part.left_nm)
            sand += shares.get((part.subject, part.use), Fraction(0)) * taken
            left -= taken
    return sand
