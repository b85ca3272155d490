"""Facts of a day sheet, gathered once; PDF, XLSX and CSV are made from this alone."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime

from models.checks.flag_board import FlagBoard
from models.counted import CountedNoun
from models.entries.bodies.job import Job
from models.entries.unknown_fields import holds_more
from models.errors import CrewError
from models.queries.schedule.worked_days import is_worked, worked_days
from models.state.check_code import check_code
from models.state.indexes import DAY_ACTS
from models.state.job_state import JobState
from models.units.job_units import Figures, figures_of
from sync.papers.day.facts.collector import GradeQuality, ShotLine, grade_quality_of, shots_of
from sync.papers.day.facts.crew import (
    EntryLine,
    HoursLine,
    PhotoLine,
    SignatureBox,
    TomorrowNeed,
    entries_of,
    hours_of,
    photos_of,
    signatures_of,
    tomorrow_of,
)
from sync.papers.day.facts.flags import FlagLine, Need, StruckLine, flags_of, needs_of, struck_of
from sync.papers.day.facts.lasers import lasers_of
from sync.papers.day.facts.loads import Balance, LoadLine, balances_of, loads_of
from sync.papers.day.facts.plan_views import plans_of
from sync.papers.day.facts.profile_views import profiles_of
from sync.papers.day.facts.progress import Bar, BigNumber, DayStatus, bar_of, big_numbers
from sync.papers.day.facts.quantities import Quantity, SandToday, quantities_of, sand_today
from sync.papers.day.facts.slits import PassLine, QualityLine, passes_of, quality_of
from sync.papers.drawing.plan_strip import PlanView
from sync.papers.drawing.profile import ProfileCanvas
from sync.papers.wording.entry_text import time_of
from sync.papers.wording.measures import plain_day
from sync.papers.wording.missing_sections import MissingSections

CAUTIONS = (
    "Expose marked utilities by hand before a blade comes near.",
    "Nobody enters a trench that is not protected.",
    "Dry sand: silica dust harms lungs; wet it, keep upwind, wear a mask that fits.",
    "Stop machines before clearing a blade; keep people away.",
    "Heat: water, shade, rest.",
    "Local codes come before this sheet.",
)
HOW_TO_PROVE = (
    "The check code is made from every entry of the day. Prove it: crewapp verify BOOK --code"
)


class SheetDayError(CrewError, ValueError):
    """A sheet was wanted for a text that is no day."""

    code = "sheets.day"
    sentence = (
        "Cannot make a day sheet for {text!r}: it is not a day. "
        "A date written YYYY-MM-DD, such as 2026-06-09, would be accepted."
    )


@dataclass(frozen=True, slots=True)
class Head:
    """Head of a day sheet: the job, its people, the day, number, revision and check code."""

    job_id: str
    job: str
    site: str
    owner: str
    contractor: str
    day: str
    day_words: str
    number: int
    revision: int
    is_closed: bool
    code: str
    last_at_ms: int
    units: str


@dataclass(frozen=True, slots=True)
class DaySheet:
    """Facts of a day as they are printed."""

    figures: Figures
    head: Head
    bar: Bar
    needs: tuple[Need, ...]
    numbers: tuple[BigNumber, ...]
    quantities: tuple[Quantity, ...]
    sand: SandToday
    quality: tuple[QualityLine, ...]
    grades: tuple[GradeQuality, ...]
    passes: tuple[PassLine, ...]
    shots: tuple[ShotLine, ...]
    flags: tuple[FlagLine, ...]
    struck: tuple[StruckLine, ...]
    loads: tuple[LoadLine, ...]
    balances: tuple[Balance, ...]
    hours: tuple[HoursLine, ...]
    photos: tuple[PhotoLine, ...]
    tomorrow: tuple[TomorrowNeed, ...]
    signatures: tuple[SignatureBox, ...]
    entries: tuple[EntryLine, ...]
    plans: tuple[PlanView, ...]
    profiles: tuple[ProfileCanvas, ...]
    lasers: tuple[str, ...]
    unmade: tuple[str, ...] = ()  # what could not be made, a sentence each
    holding_more: str = ""  # how many entries hold what this version does not show, if any do

    def in_force(self, *kinds: str) -> list[EntryLine]:
        """Entries of some kinds that are not crossed out, in the order of the book."""
        return [line for line in self.entries if line.kind in kinds and not line.is_struck]


def figures_for(state: JobState) -> Figures:
    """Figures of the job; US ones in a book that has no job yet."""
    job = state.job
    return figures_of(job.unit_system, job.station_style) if job else Figures()


def gather_day(state: JobState, board: FlagBoard, day: str) -> DaySheet:
    """Gather the facts of a day.

    Raises
    ------
    SheetDayError
        If ``day`` is not a date written YYYY-MM-DD.
    """
    _refuse_no_day(day)
    figures = figures_for(state)
    times = {entry.id: time_of(entry, figures) for entry in state.days.get(day, ())}
    made = MissingSections()
    part = made.make_or_notice
    passes = part("passes", (), passes_of, state, day, times)
    shots = part("grade shots", (), shots_of, state, day, times)
    flags = part("flags", (), flags_of, board, figures, day)
    quantities = part("quantities", (), quantities_of, state, day)
    sand = part("sand", SandToday(0, 0, is_comparable=False), sand_today, state, day)
    head = _head(state, figures, day)
    summed = (state, day, figures, flags, quantities, passes, shots)
    is_whole = not made.told  # a sum over what is missing would be a wrong figure
    return DaySheet(
        figures=figures,
        head=head,
        bar=part("status", _UNKNOWN, bar_of, *summed) if is_whole else _UNKNOWN,
        needs=part("what needs you", (), needs_of, state, figures, day, flags),
        numbers=part("figures of the day", (), big_numbers, figures, quantities, sand, passes)
        if is_whole
        else (),
        quantities=quantities,
        sand=sand,
        quality=part("quality", (), quality_of, passes),
        grades=part("grades", (), grade_quality_of, state, day),
        passes=passes,
        shots=shots,
        flags=flags,
        struck=part("struck out", (), struck_of, state, figures, day, times),
        loads=part("loads", (), loads_of, state, day, times),
        balances=part("balances", (), balances_of, state, day),
        hours=part("hours", (), hours_of, state, day),
        photos=part("photos", (), photos_of, state, day),
        tomorrow=part("tomorrow", (), tomorrow_of, state, figures, day),
        signatures=part("signatures", (), signatures_of, state, figures, day, head.code),
        entries=part("entries", (), entries_of, state, figures, day),
        plans=part("plans", (), plans_of, state, day),
        profiles=part("profiles", (), profiles_of, state, day),
        lasers=part("lasers", (), lasers_of, state, figures, day),
        holding_more=part("entries that hold more", "", holding_more_of, state, day),
        unmade=tuple(made.told),
    )


_UNKNOWN = Bar(DayStatus.CHECK, "how the day stands could not be told", 0, 0, 0, "", "", "")


def _refuse_no_day(day: str) -> None:
    try:
        date.fromisoformat(day)
    except ValueError as fault:
        raise SheetDayError(text=day) from fault


def _head(state: JobState, figures: Figures, day: str) -> Head:
    job = state.job or Job(job_id="?", name="Job without a name")
    entries = state.days.get(day, ())
    acts = state.current(DAY_ACTS, day)
    return Head(
        job_id=job.job_id,
        job=job.name,
        site=job.site,
        owner=job.owner,
        contractor=job.contractor,
        day=day,
        day_words=plain_day(day, figures.is_us),
        number=sheet_number(state, day),
        revision=1 + sum(entry.kind == "day_reopened" for entry in acts),
        is_closed=state.is_closed(day),
        code=check_code(state, day),
        last_at_ms=max((entry.at_ms for entry in entries), default=midnight_ms(day)),
        units="US units" if figures.is_us else "metric units",
    )


def holding_more_of(state: JobState, day: str) -> str:
    """How many entries of a day hold fields that a newer version wrote; "" if none does."""
    entries = state.days.get(day, ())
    count = sum(holds_more(entry) for entry in entries if not state.is_struck(entry.id))
    if not count:
        return ""
    return f"{CountedNoun(count):entry holds|entries hold} more than this version shows."


def sheet_number(state: JobState, day: str) -> int:
    """Number of the sheet: the nth day worked; 0 for a day on which no ground was worked."""
    return len(worked_days(state, day)) if is_worked(state, day) else 0


def midnight_ms(day: str) -> int:
    """Midnight of a day as if the site were in UTC: the date of a sheet without entries."""
    return int(datetime.fromisoformat(day).replace(tzinfo=UTC).timestamp() * 1000)
