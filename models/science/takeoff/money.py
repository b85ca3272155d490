"""Cost of a take-off at prices that somebody typed in; no price is known here."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from models.errors import CalculationInputError
from models.science.takeoff.items import Amount, Item, Kind, TakeoffLine, sum_line
from models.units import round_half_even


@dataclass(frozen=True, slots=True)
class UnitPrice:
    """Price of one unit of an item.

    Attributes
    ----------
    cents : int
        Price in hundredths of whatever money. [0.01 money]
    per : Amount
        For how much, such as one foot or one ton. [base unit of its kind]
    """

    cents: int
    per: Amount


def price_lines(
    lines: Sequence[TakeoffLine], prices: Mapping[Item, UnitPrice]
) -> list[TakeoffLine]:
    """Cost of each line with a price, and the cost of all of them together.

    Parameters
    ----------
    lines : sequence of TakeoffLine
        One for each item. [base units]
    prices : mapping of Item to UnitPrice
        Prices as typed in; an item without one is left out. [0.01 money]

    Returns
    -------
    lines : list of TakeoffLine
        One in money for each price that finds its item, and the total last;
        empty where none does. [0.01 money]

    Raises
    ------
    CalculationInputError
        If a price is negative, for nothing, or for another kind of unit.

    Notes
    -----
    Each line is rounded to the hundredth, ties to even, so that the column
    adds up as printed. An estimate: what has no price is not in it.

    Examples
    --------
    By hand: 250 at 1.50 for each 100 is 3.75.

    >>> pipe = TakeoffLine(Item.SLIT_PIPE, Amount(250, Kind.LENGTH), ())
    >>> found = price_lines([pipe], {Item.SLIT_PIPE: UnitPrice(150, Amount(100, Kind.LENGTH))})
    >>> [(line.item.name, int(line.amount.size)) for line in found]
    [('SLIT_PIPE', 375), ('ESTIMATE', 375)]
    """
    found: list[TakeoffLine] = []
    for line in lines:
        price = prices.get(line.item)
        if price is None:
            continue
        if price.cents < 0 or price.per.size <= 0 or price.per.kind is not line.amount.kind:
            raise CalculationInputError(
                what=f"the price of {line.item.value}",
                why="it is negative, for nothing, or for another kind of unit",
                accepted=f"Give a price for a unit of {line.amount.kind.value.split(',')[0]}",
            )
        exact = Fraction(line.amount.size) * price.cents / price.per.size
        money = Amount(round_half_even(exact), Kind.MONEY)
        each = Amount(price.cents, Kind.MONEY)
        found.append(TakeoffLine(line.item, money, (line.amount, "x", each, "for", price.per)))
    return [*found, sum_line(Item.ESTIMATE, [line.amount for line in found])] if found else []
