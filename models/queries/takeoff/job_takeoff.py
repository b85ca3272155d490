"""Take-off of a job: every surface and collector, the whole of it, and the cost.

What is not known is told in a sentence and left out, never guessed.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from models.entries.bodies.planning import TakeoffTerms
from models.entries.bodies.surfaces import Collector
from models.errors import CalculationInputError
from models.queries.grade.trench_depth import deep_text, planned_trench
from models.queries.takeoff.inputs import TakeoffInputs, inputs_of
from models.queries.takeoff.notes import basis_of, missing_orders
from models.queries.takeoff.prices import prices_of
from models.queries.takeoff.work_items import TakeoffRemarks, collector_work, permille, slits_of
from models.science.takeoff.collector import CollectorWork, collector_takeoff
from models.science.takeoff.formatting import show_amount
from models.science.takeoff.items import Amount, Item, TakeoffLine, add_up
from models.science.takeoff.job_total import OrderTerms
from models.science.takeoff.job_total import job_takeoff as lines_of_job
from models.science.takeoff.money import UnitPrice, price_lines
from models.science.takeoff.orders import Bulk
from models.science.takeoff.slits import SlitWork, slit_takeoff
from models.state.job_state import JobState


@dataclass(frozen=True, slots=True)
class UseTakeoff:
    """The lines of one ``use``: ``sand_slit`` or ``piped_slit`` of a surface, or ``collector``."""

    use: str
    lines: tuple[TakeoffLine, ...]


@dataclass(frozen=True, slots=True)
class PartTakeoff:
    """Take-off of a surface or collector: each use by itself, and added up item by item."""

    subject: str
    name: str
    uses: tuple[UseTakeoff, ...]
    lines: tuple[TakeoffLine, ...]


@dataclass(frozen=True, slots=True)
class JobTakeoff:
    """The take-off of a job.

    ``lines`` are the whole job, one for each item, with what to order, the loads and
    the days; ``money`` is the estimate, empty where no price was typed in. ``missing``
    and ``basis`` are sentences: what is left out and why, and what figures were taken.
    """

    parts: tuple[PartTakeoff, ...]
    lines: tuple[TakeoffLine, ...]
    money: tuple[TakeoffLine, ...]
    missing: tuple[str, ...]
    basis: tuple[str, ...]
    inputs: TakeoffInputs

    def amount(self, item: Item) -> Amount | None:
        """How much the whole job takes of an item; None where it is not taken off."""
        return next((line.amount for line in self.lines if line.item is item), None)

    @property
    def show(self) -> Callable[[Amount], str]:
        """Function that writes a figure in the job's units, for ``TakeoffLine.arithmetic``."""
        system = self.inputs.figures.system
        return lambda amount: show_amount(amount, system)


def job_takeoff(state: JobState) -> JobTakeoff:
    """Take a job off as it stands; trenches to protect come first, their cost is not in it."""
    found = reckon(inputs_of(state))
    deep = [
        f"{collector.collector_id}: {words}"
        for collector in found.inputs.collectors
        for words in deep_text(planned_trench(state, collector), found.inputs.figures)
    ]
    return replace(found, missing=(*deep, *found.missing))


def reckon(inputs: TakeoffInputs) -> JobTakeoff:
    """Take a job off from gathered inputs."""
    told = TakeoffRemarks([], [])
    slits: list[SlitWork] = []
    collectors: list[CollectorWork] = []
    parts: list[PartTakeoff] = []
    for surface in inputs.surfaces:
        uses = []
        for one in slits_of(inputs, surface, told):
            lines = _slit_lines(one.work, f"{surface.surface_id}: ", told)
            if lines is not None:
                slits.append(one.work)
                uses.append(UseTakeoff(one.use, lines))
        parts.append(_part(surface.surface_id, surface.name, uses))
    for collector in inputs.collectors:
        work, lines = _collector_lines(inputs, collector, told)
        if work is not None:
            collectors.append(work)
        uses = [UseTakeoff("collector", lines)] if work is not None else []
        parts.append(_part(collector.collector_id, collector.name, uses))
    lines = tuple(lines_of_job(slits, collectors, order_terms(inputs)))
    prices, unread = prices_of(inputs)
    money, unpriced = _money(lines, prices)
    missing = [*inputs.unsettled, *told.missing, *missing_orders(inputs, lines), *unread, *unpriced]
    basis = [*basis_of(inputs, lines), *told.basis]
    return JobTakeoff(tuple(parts), lines, money, tuple(missing), tuple(basis), inputs)


def _part(subject: str, name: str, uses: list[UseTakeoff]) -> PartTakeoff:
    total = add_up([line for use in uses for line in use.lines])
    return PartTakeoff(subject, name, tuple(uses), tuple(total))


def _slit_lines(work: SlitWork, place: str, told: TakeoffRemarks) -> tuple[TakeoffLine, ...] | None:
    try:
        return tuple(slit_takeoff(work))
    except CalculationInputError as fault:
        told.missing.append(place + str(fault))
        return None


def _collector_lines(
    inputs: TakeoffInputs, collector: Collector, told: TakeoffRemarks
) -> tuple[CollectorWork | None, tuple[TakeoffLine, ...]]:
    """A collector's work and lines; without its earth where the trench is too shallow."""
    work = collector_work(inputs, collector, told)
    try:
        return work, tuple(collector_takeoff(work))
    except CalculationInputError as fault:
        told.missing.append(f"{collector.collector_id}: {fault}")
    work = replace(work, sections=tuple(replace(one, ground_nm=None) for one in work.sections))
    try:
        return work, tuple(collector_takeoff(work))
    except CalculationInputError:
        return None, ()


def _money(
    lines: tuple[TakeoffLine, ...], prices: dict[Item, UnitPrice]
) -> tuple[tuple[TakeoffLine, ...], list[str]]:
    """The estimate, and items that have a price and no quantity."""
    found = {line.item for line in lines}
    unpriced = [
        f"{item.value} has a price, but is not taken off." for item in prices if item not in found
    ]
    return tuple(price_lines(lines, prices)), unpriced


def order_terms(inputs: TakeoffInputs) -> OrderTerms:
    """Terms of buying, hauling and making things, from the plan's terms and the materials."""
    terms = inputs.terms
    return OrderTerms(
        sand=Bulk(
            permille(terms.sand_waste_permille),
            inputs.sand.bulking,
            inputs.sand.density,
            terms.sand_truck_ug or None,
            inputs.sand.hopper_pl,
        ),
        gravel=Bulk(
            permille(terms.gravel_waste_permille),
            Fraction(0),
            inputs.gravel.density,
            terms.gravel_truck_ug or None,
        ),
        pipe_waste=permille(terms.pipe_waste_permille),
        slit_coil_nm=terms.slit_coil_nm or None,
        collector_coil_nm=terms.collector_coil_nm or None,
        spoil_truck_pl=terms.spoil_truck_pl or None,
        a_day=_rates(terms),
    )


def _rates(terms: TakeoffTerms) -> dict[Item, int]:
    """Length that a crew does in a day, of what somebody gave a rate for."""
    given = {
        Item.SAND_SLIT_LENGTH: terms.sand_slit_a_day_nm,
        Item.PIPED_SLIT_LENGTH: terms.piped_slit_a_day_nm,
        Item.COLLECTOR_LENGTH: terms.collector_a_day_nm,
    }
    return {item: rate for item, rate in given.items() if rate}
