"""Take-off of a whole job: its surfaces added up, then what to order and to haul."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from models.science.takeoff.collector import CollectorWork, collector_takeoff
from models.science.takeoff.items import Amount, Item, Kind, Size, TakeoffLine, add_up
from models.science.takeoff.money import UnitPrice, price_lines
from models.science.takeoff.orders import (
    COLLECTOR_PIPE,
    GRAVEL,
    SAND,
    SLIT_PIPE,
    Bulk,
    loads,
    order_bulk,
    order_pipe,
    production_days,
)
from models.science.takeoff.slits import SlitWork, slit_takeoff

CUT_LENGTHS = (Item.SAND_SLIT_LENGTH, Item.PIPED_SLIT_LENGTH, Item.COLLECTOR_LENGTH)


@dataclass(frozen=True, slots=True)
class OrderTerms:
    """How things are bought, hauled, made and paid for; None is not taken off.

    Attributes
    ----------
    sand : Bulk
        Sand. [-]
    gravel : Bulk
        Gravel. [-]
    pipe_waste : Fraction
        Pipe lost, of what is laid. [-]
    slit_coil_nm : int or None
        Coil of the pipe in the slits. [nm]
    collector_coil_nm : int or None
        Coil or stick of the collector's pipe. [nm]
    spoil_truck_pl : int or None
        What a truck hauls of loose spoil. [pl]
    a_day : mapping of Item to int or Fraction
        Length done in a day, for some of CUT_LENGTHS. [nm]
    prices : mapping of Item to UnitPrice
        Prices as typed in. [0.01 money]
    """

    sand: Bulk = field(default_factory=Bulk)
    gravel: Bulk = field(default_factory=Bulk)
    pipe_waste: Fraction = Fraction(0)
    slit_coil_nm: int | None = None
    collector_coil_nm: int | None = None
    spoil_truck_pl: int | None = None
    a_day: Mapping[Item, Size] = field(default_factory=dict)
    prices: Mapping[Item, UnitPrice] = field(default_factory=dict)


def job_takeoff(
    slits: Sequence[SlitWork], collectors: Sequence[CollectorWork], terms: OrderTerms
) -> list[TakeoffLine]:
    """Take-off of a whole job, with orders and cost.

    Parameters
    ----------
    slits : sequence of SlitWork
        One for each use of line on each surface. [nm]
    collectors : sequence of CollectorWork
        The collectors. [nm]
    terms : OrderTerms
        How things are bought, hauled, made and paid for. [-]

    Returns
    -------
    lines : list of TakeoffLine
        One for each item, in the order of Item; then what has a price, in
        money, and the total. [base units]

    Notes
    -----
    Loads and coils are counted from the total of the job, since a truck or a
    coil serves the next surface with its rest. Derived here.

    Examples
    --------
    By hand: two runs of 60 and 40 in one slit pattern are 100.

    >>> lines = job_takeoff([SlitWork((60, 40), 10, 90)], [], OrderTerms())
    >>> lines[0].item.name, lines[0].amount.size
    ('SAND_SLIT_LENGTH', 100)
    """
    made = [line for work in slits for line in slit_takeoff(work)]
    made += [line for work in collectors for line in collector_takeoff(work)]
    totals = add_up(made)
    by_item = {line.item: line.amount for line in totals}
    runs_nm = [run for work in slits for run in work.pipe_runs_nm]
    lines = [*totals, *_bulk_orders(by_item, terms)]
    if terms.slit_coil_nm is not None and runs_nm:
        lines += order_pipe(runs_nm, terms.pipe_waste, terms.slit_coil_nm, SLIT_PIPE)
    if terms.collector_coil_nm is not None and collectors:
        mains_nm = [one.sections[-1].station_nm - one.sections[0].station_nm for one in collectors]
        lines += order_pipe(mains_nm, terms.pipe_waste, terms.collector_coil_nm, COLLECTOR_PIPE)
    lengths = {item: by_item[item].size for item in CUT_LENGTHS if item in by_item}
    lines += production_days(lengths, terms.a_day)
    order = list(Item)
    lines.sort(key=lambda line: order.index(line.item))
    return [*lines, *price_lines(lines, terms.prices)]


def _bulk_orders(by_item: Mapping[Item, Amount], terms: OrderTerms) -> list[TakeoffLine]:
    """Sand, gravel and spoil."""
    lines: list[TakeoffLine] = []
    sand = [by_item[i] for i in (Item.SLIT_SAND, Item.COLLECTOR_SAND) if i in by_item]
    gravel = [by_item[i] for i in (Item.BEDDING, Item.SURROUND) if i in by_item]
    if sand:
        lines += order_bulk(sand, terms.sand, SAND)
    if gravel:
        lines += order_bulk(gravel, terms.gravel, GRAVEL)
    if terms.spoil_truck_pl is not None and Item.SPOIL_LOOSE in by_item:
        truck = Amount(terms.spoil_truck_pl, Kind.VOLUME)
        lines.append(loads(Item.SPOIL_TRUCKS, by_item[Item.SPOIL_LOOSE], truck))
    return lines
