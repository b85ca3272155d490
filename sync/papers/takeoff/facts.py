"""Facts of a take-off for paper and workbook: whose, of when, line by line."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from models.queries.takeoff.job_takeoff import JobTakeoff
from models.science.takeoff.items import Amount, Kind, TakeoffLine
from models.state.check_code import book_code
from models.state.job_state import JobState
from models.units.spec import FOOT_NM
from sync.papers.wording.measures import Measure, number, plain_day, unit_of
from sync.papers.wording.missing_sections import MissingSections, yield_or_notice
from sync.papers.wording.safe_text import single_line

USE_WORDS = {"sand_slit": "sand slits", "piped_slit": "piped slits", "collector": "collector"}
NO_PRICES = "No price is typed in, so there is no estimate; none comes with the app."
AN_ESTIMATE = "At the prices typed in. What has no price is not in it."
_MEASURES = {
    Kind.LENGTH: Measure.LENGTH,
    Kind.DEPTH: Measure.DEPTH,
    Kind.VOLUME: Measure.VOLUME,
    Kind.MASS: Measure.MASS,
}
_PLAIN = {Kind.COUNT: "each", Kind.DAYS: "days", Kind.SHARE: "share"}
_DIGITS = 6


@dataclass(frozen=True, slots=True)
class TakeoffRow:
    """A line: its words, the amount as read, as a number with its unit, and its arithmetic."""

    item: str
    shown: str
    number: float
    unit: str
    arithmetic: str


@dataclass(frozen=True, slots=True)
class TakeoffSection:
    """Lines of a take-off under one heading."""

    title: str
    lines: tuple[TakeoffRow, ...]


@dataclass(frozen=True, slots=True)
class TakeoffSheet:
    """Facts of the sheet; ``tried`` names inputs changed for a trial."""

    job: str
    job_id: str
    place: str
    day: str
    code: str
    last_at_ms: int
    is_us: bool
    tried: str
    whole: TakeoffSection
    parts: tuple[TakeoffSection, ...]
    money: TakeoffSection
    basis: tuple[str, ...]
    missing: tuple[str, ...]


def gather_takeoff(state: JobState, takeoff: JobTakeoff, tried: str = "") -> TakeoffSheet:
    """Gather the sheet of a take-off of a job."""
    job = state.job
    newest = max(state.entries.values(), key=lambda entry: (entry.lc, entry.id), default=None)
    is_us = takeoff.inputs.figures.is_us
    names = (job.site, job.contractor) if job else ()
    made = MissingSections()
    whole, estimate = TakeoffSection("Whole job", ()), TakeoffSection("Estimate", ())
    whole = made.make_or_notice("whole job", whole, _part, "Whole job", takeoff.lines, takeoff)
    estimate = made.make_or_notice("estimate", estimate, _part, "Estimate", takeoff.money, takeoff)
    parts = tuple(
        yield_or_notice("parts", lambda: _parts(takeoff), lambda text: TakeoffSection(text, ()))
    )
    return TakeoffSheet(
        job=single_line(job.name) if job else "job without a name",
        job_id=job.job_id if job else "job",
        place=", ".join(single_line(name) for name in names if name),
        day=plain_day(newest.day, is_us) if newest else "",
        code=book_code(state),
        last_at_ms=newest.at_ms if newest else 0,
        is_us=is_us,
        tried=single_line(tried),
        whole=whole,
        parts=parts,
        money=estimate,
        basis=takeoff.basis,
        missing=(*takeoff.missing, *made.told),
    )


def _parts(takeoff: JobTakeoff) -> Iterable[TakeoffSection]:
    """Each use of each part, and both uses of a surface added up."""
    for part in takeoff.parts:
        name = single_line(part.name)
        if part.subject != part.name:
            name = single_line(f"{part.subject} {part.name}")
        for use in part.uses:
            words = "" if use.use == "collector" else f": {USE_WORDS[use.use]}"
            yield _part(f"{name}{words}", use.lines, takeoff)
        if len(part.uses) > 1:
            yield _part(f"{name}: both uses together", part.lines, takeoff)


def _part(title: str, lines: Iterable[TakeoffLine], takeoff: JobTakeoff) -> TakeoffSection:
    show, is_us = takeoff.show, takeoff.inputs.figures.is_us
    shown = []
    for line in lines:
        size, unit = as_number(line.amount, is_us)
        workings = line.arithmetic(show).rsplit(" = ", 1)[0]
        shown.append(TakeoffRow(line.item.value, show(line.amount), size, unit, workings))
    return TakeoffSection(title, tuple(shown))


def as_number(amount: Amount, is_us: bool) -> tuple[float, str]:
    """An amount as a number in a unit of the trade, to six decimals."""
    measure = _MEASURES.get(amount.kind)
    if measure is not None:
        return number(measure, amount.size, is_us) or 0.0, unit_of(measure, is_us)
    if amount.kind is Kind.AREA:
        step, unit = (FOOT_NM**2, "ft2") if is_us else (10**18, "m2")
        return float(round(Fraction(amount.size) / step, _DIGITS)), unit
    if amount.kind is Kind.MONEY:
        return float(round(Fraction(amount.size) / 100, 2)), "money"
    return float(round(Fraction(amount.size), _DIGITS)), _PLAIN.get(amount.kind, "")
