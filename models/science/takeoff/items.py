"""Lines of a take-off: each a quantity with the arithmetic that led to it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import groupby

from models.errors import CalculationInputError

Size = int | Fraction


class Kind(StrEnum):
    """Kind of a figure, which sets its base unit."""

    LENGTH = "length along the ground, nm"
    DEPTH = "width, depth or thickness, nm"
    AREA = "area, nm2"
    VOLUME = "volume, pl"
    MASS = "mass, ug"
    DENSITY = "bulk density, ug/pl"
    SHARE = "share of one"
    COUNT = "count"
    DAYS = "working days"
    MONEY = "money, hundredths"


class Item(StrEnum):
    """Items of a take-off, in the order in which they are listed."""

    SAND_SLIT_LENGTH = "sand slits"
    PIPED_SLIT_LENGTH = "piped slits"
    COLLECTOR_LENGTH = "collector"
    TURF_STRIP = "turf strip to lift and put back"
    SLIT_CUT = "slits cut"
    TRENCH_CUT = "collector trench cut"
    SPOIL_BANK = "spoil, in the bank"
    SPOIL_LOOSE = "spoil, loose"
    SPOIL_TRUCKS = "truck loads of spoil"
    SLIT_SAND = "sand in slits, in place"
    COLLECTOR_SAND = "sand over the collector, in place"
    SAND_LOOSE = "sand to order, loose"
    SAND_MASS = "sand to order"
    HOPPER_LOADS = "hopper loads of sand"
    SAND_TRUCKS = "truck loads of sand"
    BEDDING = "bedding gravel"
    SURROUND = "surround gravel"
    GRAVEL_LOOSE = "gravel to order, loose"
    GRAVEL_MASS = "gravel to order"
    GRAVEL_TRUCKS = "truck loads of gravel"
    SLIT_PIPE = "slit pipe to lay"
    SLIT_PIPE_ORDER = "slit pipe to order"
    SLIT_COILS = "coils of slit pipe"
    SLIT_SPLICES = "splices of slit pipe"
    END_CAPS = "end caps"
    TEES = "tees"
    COLLECTOR_PIPE = "collector pipe to lay"
    COLLECTOR_PIPE_ORDER = "collector pipe to order"
    COLLECTOR_COILS = "coils or sticks of collector pipe"
    COLLECTOR_SPLICES = "splices of collector pipe"
    FABRIC = "filter fabric"
    WIRE = "tracer wire"
    SOD = "sod over the collector"
    DAYS = "days of production"
    WHOLE_DAYS = "days of production, begun ones counted whole"
    ESTIMATE = "estimate at the prices typed in"


@dataclass(frozen=True, slots=True)
class Amount:
    """A figure of an arithmetic.

    Attributes
    ----------
    size : int or Fraction
        How much. [base unit of the kind]
    kind : Kind
        What it measures. [-]
    """

    size: Size
    kind: Kind


Workings = tuple[str | Amount, ...]
"""Words and signs with the figures between them, as they are read."""


@dataclass(frozen=True, slots=True)
class TakeoffLine:
    """A line of a take-off.

    Attributes
    ----------
    item : Item
        What is taken off. [-]
    amount : Amount
        How much of it, not rounded. [base unit of its kind]
    workings : tuple of str and Amount
        How it was worked out. [base units]
    """

    item: Item
    amount: Amount
    workings: Workings

    def arithmetic(self, show: Callable[[Amount], str]) -> str:
        """The workings with their figures, and what they come to, as ``show`` writes them."""
        words = (show(part) if isinstance(part, Amount) else part for part in self.workings)
        text = " ".join(words).replace("( ", "(").replace(" )", ")")
        return f"{text} = {show(self.amount)}"


def add_up(lines: Iterable[TakeoffLine]) -> list[TakeoffLine]:
    """Add the lines of several surfaces up, item by item.

    Parameters
    ----------
    lines : iterable of TakeoffLine
        Lines that may be added: lengths, areas, volumes, masses, counts. [base units]

    Returns
    -------
    totals : list of TakeoffLine
        One for each item met, in the order of Item. [base units]

    Raises
    ------
    CalculationInputError
        If one item comes in two kinds of unit.

    Notes
    -----
    Exact. Loads, coils and whole days are rounded up, so they are worked out
    from the total and never added. A line that stands alone keeps its own
    arithmetic. Derived here.

    Examples
    --------
    By inspection: 3 and 4 tees.

    >>> tees = [TakeoffLine(Item.TEES, Amount(n, Kind.COUNT), ("counted",)) for n in (3, 4)]
    >>> add_up(tees)[0].arithmetic(lambda amount: str(amount.size))
    '3 + 4 = 7'
    """
    order = list(Item)
    ranked = sorted(lines, key=lambda line: order.index(line.item))
    totals: list[TakeoffLine] = []
    for item, group in groupby(ranked, key=lambda line: line.item):
        parts = list(group)
        kinds = {part.amount.kind for part in parts}
        if len(kinds) > 1:
            raise CalculationInputError(
                what=f"a total of {item.value}",
                why="its parts are in different kinds of unit",
                accepted="Add lengths to lengths and volumes to volumes",
            )
        totals.append(parts[0] if len(parts) == 1 else sum_line(item, [p.amount for p in parts]))
    return totals


def sum_line(item: Item, amounts: Sequence[Amount]) -> TakeoffLine:
    """A line that is the sum of some amounts of one kind.

    Parameters
    ----------
    item : Item
        What is added up. [-]
    amounts : sequence of Amount
        At least one. [base unit of their kind]

    Returns
    -------
    line : TakeoffLine
        Their sum, with the parts as its workings. [base unit of their kind]

    Notes
    -----
    Exact; takes the kind of the first.

    Examples
    --------
    By inspection.

    >>> line = sum_line(Item.TEES, [Amount(1, Kind.COUNT), Amount(2, Kind.COUNT)])
    >>> int(line.amount.size), line.workings[1]
    (3, '+')
    """
    workings: list[str | Amount] = []
    for amount in amounts:
        workings += ["+", amount] if workings else [amount]
    total = sum((amount.size for amount in amounts), Fraction(0))
    return TakeoffLine(item, Amount(total, amounts[0].kind), tuple(workings))


@dataclass(frozen=True, slots=True)
class ChangedLine:
    """A line of a take-off that a changed input moved.

    Attributes
    ----------
    item : Item
        What moved. [-]
    before : Amount or None
        How much it was; None if it was not there. [base unit of its kind]
    after : Amount or None
        How much it is; None if it is no longer there. [base unit of its kind]
    """

    item: Item
    before: Amount | None
    after: Amount | None


def changed_lines(before: Sequence[TakeoffLine], after: Sequence[TakeoffLine]) -> list[ChangedLine]:
    """The lines that differ between two take-offs of one job.

    Parameters
    ----------
    before : sequence of TakeoffLine
        One line for each item. [base units]
    after : sequence of TakeoffLine
        The same with something changed. [base units]

    Returns
    -------
    moved : list of Moved
        Only what differs, in the order of Item. [base units]

    Notes
    -----
    Compared exactly, so a change too small to show is listed too.

    Examples
    --------
    By inspection.

    >>> one = [TakeoffLine(Item.TEES, Amount(3, Kind.COUNT), ())]
    >>> changed_lines(one, one), changed_lines(one, [])[0].after
    ([], None)
    """
    old = {line.item: line.amount for line in before}
    new = {line.item: line.amount for line in after}
    return [
        ChangedLine(item, old.get(item), new.get(item))
        for item in Item
        if old.get(item) != new.get(item)
    ]
