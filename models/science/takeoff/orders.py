"""Orders and hauling for a take-off: waste, bulking, loads, coils, splices."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise

from models.errors import CalculationInputError
from models.science.takeoff.items import Amount, Item, Kind, Size, TakeoffLine, Workings, sum_line


@dataclass(frozen=True, slots=True)
class Bulk:
    """How a bulk material is bought and hauled. What is None is not taken off.

    Attributes
    ----------
    waste : Fraction
        What is lost, of what is placed. [-]
    bulking : Fraction
        What it gains in volume as delivered, over in place. [-]
    density : Fraction or None
        Bulk density in place. [ug/pl]
    truck_ug : int or None
        What a truck brings. [ug]
    hopper_pl : int or None
        What a hopper holds, struck level; counted for sand alone. [pl]
    """

    waste: Fraction = Fraction(0)
    bulking: Fraction = Fraction(0)
    density: Fraction | None = None
    truck_ug: int | None = None
    hopper_pl: int | None = None


SAND = (Item.SAND_LOOSE, Item.SAND_MASS, Item.SAND_TRUCKS)
GRAVEL = (Item.GRAVEL_LOOSE, Item.GRAVEL_MASS, Item.GRAVEL_TRUCKS)
SLIT_PIPE = (Item.SLIT_PIPE_ORDER, Item.SLIT_COILS, Item.SLIT_SPLICES)
COLLECTOR_PIPE = (Item.COLLECTOR_PIPE_ORDER, Item.COLLECTOR_COILS, Item.COLLECTOR_SPLICES)


def loads(item: Item, quantity: Amount, one_load: Amount) -> TakeoffLine:
    """Loads that a quantity takes, a begun one counted whole.

    Parameters
    ----------
    item : Item
        What is counted. [-]
    quantity : Amount
        What has to be moved. [base unit of its kind]
    one_load : Amount
        What one load holds. [same kind]

    Returns
    -------
    line : TakeoffLine
        How many. [-]

    Raises
    ------
    CalculationInputError
        If a load holds nothing, or the two are of different kinds.

    Notes
    -----
    Exact: a quantity that fills its last load to the brim takes no other.

    Examples
    --------
    By hand: 10 in loads of 4 is 2 and a half.

    >>> full = Amount(4, Kind.VOLUME)
    >>> loads(Item.HOPPER_LOADS, Amount(10, Kind.VOLUME), full).amount.size
    3
    """
    if one_load.size <= 0 or one_load.kind is not quantity.kind:
        raise CalculationInputError(
            what=item.value,
            why="one load holds nothing, or is measured in another kind of unit",
            accepted="Give what one load holds, volume for volume and mass for mass",
        )
    count = -(-Fraction(quantity.size) // Fraction(one_load.size))
    return TakeoffLine(item, Amount(count, Kind.COUNT), (quantity, "/", one_load, "rounded up"))


def order_bulk(
    placed: Sequence[Amount], bulk: Bulk, items: tuple[Item, Item, Item] = SAND
) -> list[TakeoffLine]:
    """Sand or gravel to order for the volumes it is placed in.

    Parameters
    ----------
    placed : sequence of Amount
        Volumes in place, at least one. [pl]
    bulk : Bulk
        How it is bought. [-, ug/pl, ug, pl]
    items : tuple of Item
        What to call the loose volume, the mass and the truck loads. [-]

    Returns
    -------
    lines : list of TakeoffLine
        Loose volume; mass, where the density is known; hopper and truck loads,
        where their size is. [pl, ug, -]

    Notes
    -----
    Mass is dry. Moist sand weighs its water too, and a truck scale sees both.
    No figure is published for what settles in a slit: put it into the waste.
    Derived here.

    Examples
    --------
    By hand: 100 with a tenth lost and a quarter of bulking is 137.5.

    >>> bulk = Bulk(waste=Fraction(1, 10), bulking=Fraction(1, 4))
    >>> [float(line.amount.size) for line in order_bulk([Amount(100, Kind.VOLUME)], bulk)]
    [137.5]
    """
    in_place = sum_line(items[0], placed)
    lost = ("x (1 +", Amount(bulk.waste, Kind.SHARE), ")")
    bought = in_place.amount.size * (1 + bulk.waste)
    loose = Amount(bought * (1 + bulk.bulking), Kind.VOLUME)
    swollen = ("x (1 +", Amount(bulk.bulking, Kind.SHARE), ")")
    total: Workings = in_place.workings if len(placed) == 1 else ("(", *in_place.workings, ")")
    lines = [TakeoffLine(items[0], loose, (*total, *lost, *swollen))]
    if bulk.hopper_pl is not None and items == SAND:
        lines.append(loads(Item.HOPPER_LOADS, loose, Amount(bulk.hopper_pl, Kind.VOLUME)))
    if bulk.density is None:
        return lines
    mass = Amount(bought * bulk.density, Kind.MASS)
    density = Amount(bulk.density, Kind.DENSITY)
    lines.append(TakeoffLine(items[1], mass, (*total, *lost, "x", density)))
    if bulk.truck_ug is not None:
        lines.append(loads(items[2], mass, Amount(bulk.truck_ug, Kind.MASS)))
    return lines


def splices(runs_nm: Sequence[int], coil_nm: int) -> int:
    """Splices when runs are laid one after another from coil to coil.

    Parameters
    ----------
    runs_nm : sequence of int
        Length of each run, in the order in which they are laid. [nm]
    coil_nm : int
        Length of a coil or a stick. [nm]

    Returns
    -------
    splices : int
        Coil ends that fall inside a run. [-]

    Raises
    ------
    CalculationInputError
        If a coil has no length.

    Notes
    -----
    The rest of a coil is used in the next run, nothing is cut off. A coil that
    ends where a run ends needs no splice. Derived here.

    Examples
    --------
    By hand: coils of 100 end at 100 and 200 and 300; runs of 60 end at 60,
    120, 180, 240 and 300. 100 and 200 fall inside a run, 300 does not.

    >>> splices([60] * 5, 100)
    2
    """
    if coil_nm <= 0:
        raise CalculationInputError(
            what="the splices of a pipe",
            why="a coil has no length",
            accepted="Give the length of a coil or a stick",
        )
    ends = list(accumulate(runs_nm, initial=0))
    return sum(
        (end - 1) // coil_nm - start // coil_nm for start, end in pairwise(ends) if end > start
    )


def order_pipe(
    runs_nm: Sequence[int], waste: Fraction, coil_nm: int, items: tuple[Item, Item, Item]
) -> list[TakeoffLine]:
    """Pipe to order for runs that are laid one after another.

    Parameters
    ----------
    runs_nm : sequence of int
        Length of each run, in the order in which they are laid. [nm]
    waste : Fraction
        What is lost, of what is laid. [-]
    coil_nm : int
        Length of a coil or a stick. [nm]
    items : tuple of Item
        SLIT_PIPE or COLLECTOR_PIPE. [-]

    Returns
    -------
    lines : list of TakeoffLine
        Length to order, coils, splices. [nm, -]

    Notes
    -----
    Splices are the least there can be: waste adds ends. Derived here.

    Examples
    --------
    By hand: 300 with a tenth lost is 330, which takes 4 coils of 100.

    >>> lines = order_pipe([60] * 5, Fraction(1, 10), 100, SLIT_PIPE)
    >>> [int(line.amount.size) for line in lines]
    [330, 4, 2]
    """
    laid, coil = Amount(sum(runs_nm), Kind.LENGTH), Amount(coil_nm, Kind.LENGTH)
    order = Amount(laid.size * (1 + waste), Kind.LENGTH)
    runs = Amount(len(runs_nm), Kind.COUNT)
    joints = Amount(splices(runs_nm, coil_nm), Kind.COUNT)
    inside = "run" if runs.size == 1 else "runs"
    joint_workings = ("ends of coils of", coil, "inside", runs, inside)
    return [
        TakeoffLine(items[0], order, (laid, "x (1 +", Amount(waste, Kind.SHARE), ")")),
        loads(items[1], order, coil),
        TakeoffLine(items[2], joints, joint_workings),
    ]


def production_days(lengths: Mapping[Item, Size], a_day: Mapping[Item, Size]) -> list[TakeoffLine]:
    """Days that one crew takes to cut everything, one use after the other.

    Parameters
    ----------
    lengths : mapping of Item to int or Fraction
        What is to be cut. [nm]
    a_day : mapping of Item to int or Fraction
        What the crew does of it in a day; what is not named is not counted. [nm]

    Returns
    -------
    lines : list of TakeoffLine
        Days, and days with a begun one counted whole; empty without a rate. [d]

    Raises
    ------
    CalculationInputError
        If a rate is not above zero.

    Notes
    -----
    Without days lost; ``production`` resamples those. Derived here.

    Examples
    --------
    By hand: 10 at 4 a day.

    >>> item = Item.SAND_SLIT_LENGTH
    >>> [float(line.amount.size) for line in production_days({item: 10}, {item: 4})]
    [2.5, 3.0]
    """
    workings: list[str | Amount] = []
    total = Fraction(0)
    for item in [item for item in lengths if item in a_day]:
        if a_day[item] <= 0:
            raise CalculationInputError(
                what=f"the days for {item.value}",
                why="nothing is done of it in a day",
                accepted="Give the length that a crew does in a day, above zero",
            )
        total += Fraction(lengths[item]) / a_day[item]
        workings += ["+"] if workings else []
        workings += [Amount(lengths[item], Kind.LENGTH), "/", Amount(a_day[item], Kind.LENGTH)]
    if not workings:
        return []
    days = Amount(total, Kind.DAYS)
    whole = Amount(-(-total // 1), Kind.DAYS)
    return [
        TakeoffLine(Item.DAYS, days, tuple(workings)),
        TakeoffLine(Item.WHOLE_DAYS, whole, (days, "rounded up")),
    ]
