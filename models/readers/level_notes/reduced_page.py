"""A page of level notes reduced: elevations, checks, closings and corrections."""

from __future__ import annotations

from dataclasses import dataclass

from models.errors import CalculationInputError, LevelRunError
from models.readers.level_notes.page_net import (
    HALF_HUNDREDTH_NM,
    HALF_MM_NM,
    LEAST_SQUARES,
    PageAdjustment,
    net_corrections,
    net_of,
)
from models.readers.level_notes.problems import NoteProblem, notes_error
from models.readers.level_notes.reader import LevelNotes, read_notes, start_from
from models.science.levelling.adjustment import AdjustBy, adjust_run
from models.science.levelling.closure import (
    ALLOWANCES,
    Allowance,
    AllowanceKind,
    allowed_nm,
    is_allowed,
)
from models.science.levelling.level_net import AdjustedNet
from models.science.levelling.level_run import Closing, ReducedRun
from models.science.levelling.reduction import reduce_levels
from models.science.quality.verdict import Verdict
from models.units import LengthUnit

_METRIC = (LengthUnit.M, LengthUnit.CM, LengthUnit.MM)


@dataclass(frozen=True, slots=True)
class ClosingReport:
    """A known point met again: how far it was missed, and whether that may stand.

    ``allowed_nm`` is None where the allowance needs a distance that was not booked.
    """

    row: int
    point: str
    known_nm: int
    computed_nm: int
    ec_nm: int
    setups: int
    distance_nm: int | None
    allowed_nm: int | None
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class LevelBook:
    """A reduced page with all that a level book shows."""

    unit: LengthUnit
    rows: tuple[int, ...]
    run: ReducedRun
    allowance: Allowance
    closings: tuple[ClosingReport, ...]
    adjusted_by: PageAdjustment | None
    corrections_nm: tuple[int, ...]
    net: AdjustedNet | None = None

    @property
    def adjusted_nm(self) -> tuple[int, ...]:
        """Elevation of every line with its correction."""
        return tuple(
            line.elevation_nm + correction
            for line, correction in zip(self.run.lines, self.corrections_nm, strict=True)
        )

    @property
    def is_sound(self) -> bool:
        """Whether the arithmetic agrees and every closing was judged and may stand."""
        agrees = self.run.page_agrees and self.run.rise_and_fall_agrees
        return agrees and all(c.verdict is Verdict.OK for c in self.closings)


def reduce_notes(
    data: str | bytes,
    unit: LengthUnit,
    allowance: Allowance | None = None,
    adjust_by: PageAdjustment | None = AdjustBy.SETUPS,
    start_nm: int | None = None,
) -> LevelBook:
    """Read and reduce a page of level notes; ``adjust_by`` None leaves it unadjusted.

    Without an allowance the third-order rule of the unit's own system is used: by
    the distance where every foresight has one, else by the number of setups.
    ``start_nm`` is the elevation of the first point, for a page that does not give it.

    Raises
    ------
    LevelNotesError
        If the page cannot be read, or its sights cannot be reduced as they stand.
    """
    notes = read_notes(data, unit)
    if start_nm is not None:
        notes = start_from(notes, start_nm)
    rule = allowance or _usual_allowance(notes, unit)
    try:
        run = reduce_levels(notes.sights)
        net, corrections = _adjust(run, unit, adjust_by)
    except LevelRunError as error:
        line = int(str(error.context["line"]))
        accepted = f"{error.context['why']}. {error.context['remedy']}"
        row = notes.rows[line - 1]
        raise notes_error(
            [NoteProblem(row, "point", str(error.context["point"]), accepted)]
        ) from error
    except CalculationInputError as error:
        accepted = f"{error.context['why']}. {error.context['accepted']}"
        column = "point" if adjust_by == LEAST_SQUARES else "distance"
        raise notes_error([NoteProblem(None, column, "", accepted)]) from error
    closings = tuple(_report(closing, run, notes, rule) for closing in run.closings)
    closes = any(run.lines[c.line].sight.fs_nm is not None for c in run.closings)
    is_adjusted = closes or (net is not None and net.freedom > 0)
    way = adjust_by if is_adjusted else None
    return LevelBook(unit, notes.rows, run, rule, closings, way, corrections, net)


def _usual_allowance(notes: LevelNotes, unit: LengthUnit) -> Allowance:
    has_lengths = all(s.distance_nm is not None for s in notes.sights if s.fs_nm is not None)
    if unit in _METRIC:
        return ALLOWANCES["third" if has_lengths else "3.6mm-setup"]
    return ALLOWANCES["0.05ft-mile" if has_lengths else "0.012ft-setup"]


def _adjust(
    run: ReducedRun, unit: LengthUnit, adjust_by: PageAdjustment | None
) -> tuple[AdjustedNet | None, tuple[int, ...]]:
    """Correction of every line, nothing where the run is left as it is, and the net if any."""
    if adjust_by is None:
        return None, (0,) * len(run.lines)
    if isinstance(adjust_by, AdjustBy):
        return None, tuple(adjust_run(run, adjust_by))
    net = net_of(run, HALF_MM_NM if unit in _METRIC else HALF_HUNDREDTH_NM)
    return net, net_corrections(run, net)


def _report(closing: Closing, run: ReducedRun, notes: LevelNotes, rule: Allowance) -> ClosingReport:
    """Judge one closing over the length run since its leg started."""
    start = max(i for i in range(closing.line + 1) if run.lines[i].starts_leg)
    leg = run.lines[start : closing.line + 1]
    lengths = [line.sight.distance_nm for line in leg if line.sight.fs_nm is not None]
    known = [length for length in lengths if length is not None]
    distance_nm = sum(known) if known and len(known) == len(lengths) else None
    setups = leg[-1].setup - leg[0].setup + 1
    needs_distance = rule.kind is AllowanceKind.ROOT_DISTANCE
    allowed, verdict = None, Verdict.NOT_MEASURED
    if distance_nm is not None or not needs_distance:
        allowed = allowed_nm(rule, distance_nm, setups)
        fits = is_allowed(closing.ec_nm, rule, distance_nm, setups)
        verdict = Verdict.OK if fits else Verdict.OUT
    return ClosingReport(
        row=notes.rows[closing.line],
        point=run.lines[closing.line].sight.point,
        known_nm=closing.known_nm,
        computed_nm=closing.computed_nm,
        ec_nm=closing.ec_nm,
        setups=setups,
        distance_nm=distance_nm,
        allowed_nm=allowed,
        verdict=verdict,
    )
