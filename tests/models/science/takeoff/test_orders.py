"""Orders of a take-off: pipe by stations, splices, sums in brackets, prices, large areas."""

from __future__ import annotations

import pytest

from models.errors import CalculationInputError
from models.science.takeoff.collector import CollectorWork, TrenchSection
from models.science.takeoff.formatting import show_amount
from models.science.takeoff.items import Amount, Item, Kind, TakeoffLine
from models.science.takeoff.job_total import OrderTerms, job_takeoff
from models.science.takeoff.money import UnitPrice, price_lines
from models.science.takeoff.orders import Bulk, order_bulk, splices
from models.units import UnitSystem

MM, M = 10**6, 10**9


def test_collector_pipe_runs_from_its_first_station_to_its_last() -> None:
    """Stations 7, 12 and 30 m make 23 m: 4 sticks of 6 m, with 3 ends inside the run."""
    sections = tuple(TrenchSection(at * M, 0, -300 * MM) for at in (7, 12, 30))
    work = CollectorWork(sections, 200 * MM, 100 * MM, 115 * MM, 25 * MM)
    lines = job_takeoff([], [work], OrderTerms(collector_coil_nm=6 * M))
    found = {line.item: line.amount.size for line in lines}

    assert found[Item.COLLECTOR_PIPE_ORDER] == 23 * M
    assert found[Item.COLLECTOR_COILS] == 4
    assert found[Item.COLLECTOR_SPLICES] == 3


@pytest.mark.parametrize(
    ("runs", "count"), [([100], 0), ([101], 1), ([99, 1], 0), ([99, 2], 1), ([200], 1), ([201], 2)]
)
def test_splices_at_the_end_of_a_coil(runs: list[int], count: int) -> None:
    """With coils of 100 a run that ends where a coil ends takes no splice."""
    assert splices(runs, 100) == count


def test_a_sum_stands_in_brackets_before_it_is_multiplied() -> None:
    """Two volumes are bracketed, one stands bare."""
    one, two = Amount(1, Kind.VOLUME), Amount(2, Kind.VOLUME)
    texts = [
        order_bulk(placed, Bulk())[0].arithmetic(lambda amount: str(amount.size))
        for placed in ([one, two], [two])
    ]

    assert texts == [
        "(1 + 2) x (1 + 0) x (1 + 0) = 3",
        "2 x (1 + 0) x (1 + 0) = 2",
    ]


def test_a_price_may_be_nothing_but_not_for_nothing() -> None:
    """What is given away costs 0; a price for no quantity is refused."""
    tees = [TakeoffLine(Item.TEES, Amount(3, Kind.COUNT), ())]
    free = price_lines(tees, {Item.TEES: UnitPrice(0, Amount(1, Kind.COUNT))})

    assert [line.amount.size for line in free] == [0, 0]
    with pytest.raises(CalculationInputError):
        price_lines(tees, {Item.TEES: UnitPrice(1, Amount(0, Kind.COUNT))})


def test_large_areas() -> None:
    """10.7639 ft2 to the square metre, by the definition of the foot."""
    area = Amount(1000 * 10**18, Kind.AREA)

    assert show_amount(area, UnitSystem.METRIC) == "1000.00 m²"
    assert show_amount(area, UnitSystem.US) == "10763.91 ft²"
    assert show_amount(Amount(10**16, Kind.AREA), UnitSystem.US) == "15.50 in²"
