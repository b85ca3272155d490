"""Take-off against figures worked apart from the program; sources beside each."""

from __future__ import annotations

from fractions import Fraction

import pytest

from models.science.materials.sand import LB_PER_FT3
from models.science.takeoff.collector import CollectorWork, TrenchSection, collector_takeoff
from models.science.takeoff.formatting import show_amount
from models.science.takeoff.items import Amount, Item, Kind, TakeoffLine
from models.science.takeoff.job_total import OrderTerms, job_takeoff
from models.science.takeoff.orders import Bulk
from models.science.takeoff.slits import SlitWork, slit_takeoff, spoil_lines
from models.units import UnitSystem

IN_NM, FT_NM = 25_400_000, 304_800_000
FT3_PL = 28_316_846_592_000
YD3_PL = 27 * FT3_PL
LB_UG = 453_592_370
TON_UG = 2000 * LB_UG


def by_item(lines: list[TakeoffLine]) -> dict[Item, TakeoffLine]:
    """Lines by what they take off."""
    return {line.item: line for line in lines}


def size(lines: list[TakeoffLine], item: Item, unit: int) -> float:
    """A quantity in a unit."""
    return float(Fraction(by_item(lines)[item].amount.size) / unit)


def thousand_square_feet(pounds: int = 100) -> list[TakeoffLine]:
    """1 x 9 in slits at 16 in over 1000 ft2, edges ignored: 750 ft of them (derived)."""
    sand = Bulk(bulking=Fraction(1, 4), density=pounds * LB_PER_FT3, truck_ug=TON_UG)
    return job_takeoff([SlitWork((750 * FT_NM,), IN_NM, 9 * IN_NM)], [], OrderTerms(sand=sand))


# Derived: 750 ft x 0.0625 ft3; 25 % bulking as in civilease.com, bulking of sand (seen).
def test_sand_for_a_thousand_square_feet() -> None:
    """46.875 ft3 or 1.7361 yd3 in place, 2.170 yd3 to order loose, 2.344 tons."""
    lines = thousand_square_feet()

    assert by_item(lines)[Item.SLIT_SAND].amount.size == Fraction(46_875, 1000) * FT3_PL
    assert f"{size(lines, Item.SLIT_SAND, YD3_PL):.4f}" == "1.7361"
    assert f"{size(lines, Item.SAND_LOOSE, YD3_PL):.3f}" == "2.170"
    assert f"{size(lines, Item.SAND_MASS, TON_UG):.3f}" == "2.344"
    assert size(lines, Item.SAND_TRUCKS, 1) == 3


# Derived: 0.0625 ft3 x the bulk density.
@pytest.mark.parametrize(
    ("pounds", "pounds_a_foot"),
    [(90, "5.6250"), (95, "5.9375"), (100, "6.2500"), (105, "6.5625"), (110, "6.8750")],
)
def test_mass_of_a_foot(pounds: int, pounds_a_foot: str) -> None:
    """Pounds of sand in a foot of slit."""
    total = size(thousand_square_feet(pounds), Item.SAND_MASS, LB_UG)

    assert f"{total / 750:.4f}" == pounds_a_foot


def test_pipe_on_the_floor() -> None:
    """A pipe of 1 in outside takes 0.005454 ft3 a foot, 8.7 % of the slit (derived)."""
    lines = slit_takeoff(SlitWork((FT_NM,), IN_NM, 9 * IN_NM, pipe_outside_nm=IN_NM))
    taken = size(lines, Item.SLIT_CUT, FT3_PL) - size(lines, Item.SLIT_SAND, FT3_PL)

    assert f"{taken:.6f}" == "0.005454"
    assert f"{taken / 0.0625:.3f}" == "0.087"


def test_metric_slit() -> None:
    """1 in by 9 in takes 5.806 L a metre (derived)."""
    lines = slit_takeoff(SlitWork((10**9,), IN_NM, 9 * IN_NM))

    assert f"{size(lines, Item.SLIT_SAND, 10**12):.3f}" == "5.806"


# Rectangle of 60 x 100 ft, slits along the 100 ft side at 16 in, the first half a spacing
# in: 45 lines, 4500 ft (derived, checked with shapely).
def test_rectangle() -> None:
    """The first line, its arithmetic and the sand of the whole surface."""
    lines = slit_takeoff(SlitWork((100 * FT_NM,) * 45, IN_NM, 9 * IN_NM))

    assert by_item(lines)[Item.SAND_SLIT_LENGTH].amount.size == 4500 * FT_NM
    assert by_item(lines)[Item.SLIT_SAND].arithmetic(
        lambda amount: show_amount(amount, UnitSystem.US)
    ) == ("1 in x 9 in x 4500.0 ft x (1 + 0 %) = 10.42 yd³")


# Course problem with solution, expertsmind.com (seen): 3400 lb/yd3 in the bank, 2700 loose.
def test_swell() -> None:
    """A short ton is 0.588 yd3 in the bank and 0.741 yd3 loose; the swell is 25.9 %."""
    swell = Fraction(3400, 2700) - 1
    ton = Amount(Fraction(2000, 3400) * YD3_PL, Kind.VOLUME)
    lines = spoil_lines(ton, swell)

    assert f"{float(swell) * 100:.1f}" == "25.9"
    assert f"{size(lines, Item.SPOIL_BANK, YD3_PL):.3f}" == "0.588"
    assert f"{size(lines, Item.SPOIL_LOOSE, YD3_PL):.3f}" == "0.741"


# From memory of the table in FM 5-434: common earth swells to 1.11 of the bank.
def test_common_earth() -> None:
    """100 yd3 in the bank are 111 loose."""
    lines = spoil_lines(Amount(100 * YD3_PL, Kind.VOLUME), Fraction(11, 100))

    assert size(lines, Item.SPOIL_LOOSE, YD3_PL) == 111


# Worked by hand: 100 ft at 1 %, level ground, invert 12 in under it at the head; 8 in wide,
# 4 in pipe without a wall, 1 in bedding, 1 in over the pipe, 1 in of sod.
# Depths 13 and 25 in, so (13 + 25) / 2 x 8 in x 100 ft = 105.556 ft3; bedding 8 x 1 in x
# 100 ft = 5.556; surround (8 x 5 - 12.566) in2 x 100 ft = 19.051; sand above 7 in:
# (6 + 18) / 2 x 8 in x 100 ft = 66.667 ft3.
def test_collector() -> None:
    """Trench by average end area, gravel, sand, fabric, wire and sod of a short collector."""
    ends = (TrenchSection(0, 0, -24 * IN_NM), TrenchSection(100 * FT_NM, 0, -12 * IN_NM))
    work = CollectorWork(
        ends,
        width_nm=8 * IN_NM,
        bore_nm=4 * IN_NM,
        outside_nm=4 * IN_NM,
        bedding_nm=IN_NM,
        surround_over_nm=IN_NM,
        fabric_lap_nm=2 * IN_NM,
        sod_nm=IN_NM,
        wire_slack=Fraction(5, 100),
        wire_tails_nm=4 * FT_NM,
    )
    lines = collector_takeoff(work)

    assert f"{size(lines, Item.TRENCH_CUT, FT3_PL):.3f}" == "105.556"
    assert f"{size(lines, Item.BEDDING, FT3_PL):.3f}" == "5.556"
    assert f"{size(lines, Item.SURROUND, FT3_PL):.3f}" == "19.051"
    assert f"{size(lines, Item.COLLECTOR_SAND, FT3_PL):.3f}" == "66.667"
    assert f"{size(lines, Item.FABRIC, FT_NM**2):.3f}" == "100.000"
    assert size(lines, Item.WIRE, FT_NM) == 109
    assert f"{size(lines, Item.SOD, FT_NM**2):.3f}" == "66.667"
