"""Take-off: it adds up over surfaces, fills its trench, counts whole loads, and refuses."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import accumulate, pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.materials.sand import KG_PER_M3
from models.science.slits.hole import CUBIC_NM_PER_PL
from models.science.takeoff.collector import CollectorWork, TrenchSection, collector_takeoff
from models.science.takeoff.formatting import show_amount
from models.science.takeoff.items import Amount, Item, Kind, TakeoffLine, add_up, changed_lines
from models.science.takeoff.job_total import OrderTerms, job_takeoff
from models.science.takeoff.money import UnitPrice, price_lines
from models.science.takeoff.orders import Bulk, loads, production_days, splices
from models.science.takeoff.slits import SlitWork, pipe_area, slit_takeoff
from models.units import UnitSystem

MM, M = 10**6, 10**9
RUNS = st.lists(st.integers(MM, 100 * M), min_size=1, max_size=5).map(tuple)
SHARE = st.fractions(0, Fraction(1, 2), max_denominator=100)
SLITS = st.builds(
    SlitWork,
    RUNS,
    st.integers(25 * MM, 60 * MM),
    st.integers(150 * MM, 300 * MM),
    st.sampled_from([0, 25 * MM]),
    st.sampled_from([0, 50 * MM]),
    SHARE,
    SHARE,
    st.integers(0, 9),
    st.integers(0, 9),
)


def sizes(lines: list[TakeoffLine]) -> dict[Item, Fraction]:
    """Quantities in base units by what they take off."""
    return {line.item: Fraction(line.amount.size) for line in lines}


def collector(depths_mm: list[int], reach_m: int = 10, **changed: Any) -> CollectorWork:
    """A collector whose invert lies so deep at every reach_m metres."""
    sections = tuple(
        TrenchSection(i * reach_m * M, 0, -depth * MM) for i, depth in enumerate(depths_mm)
    )
    work = CollectorWork(
        sections,
        width_nm=200 * MM,
        bore_nm=100 * MM,
        outside_nm=115 * MM,
        bedding_nm=25 * MM,
        surround_over_nm=25 * MM,
        sod_nm=25 * MM,
        overbreak=Fraction(1, 20),
    )
    return replace(work, **changed)


COLLECTORS = st.builds(collector, st.lists(st.integers(200, 900), min_size=2, max_size=5))


@given(SLITS, st.data())
def test_two_surfaces_of_one_pattern_are_one_large_one(work: SlitWork, data: st.DataObject) -> None:
    """Lines cut apart on two surfaces add up to the same, exactly."""
    cut = data.draw(st.integers(0, len(work.runs_nm)))
    north = replace(work, runs_nm=work.runs_nm[:cut], caps=0, tees=0)
    south = replace(work, runs_nm=work.runs_nm[cut:])
    apart = add_up([*slit_takeoff(north), *slit_takeoff(south)])

    assert sizes(apart) == sizes(slit_takeoff(work))


@given(st.lists(SLITS, min_size=1, max_size=4), st.lists(COLLECTORS, max_size=2))
def test_the_job_is_the_sum_of_its_surfaces(
    slits: list[SlitWork], collectors: list[CollectorWork]
) -> None:
    """Every additive line of the job is the sum of those of its parts; order plays no part."""
    whole = sizes(job_takeoff(slits, collectors, OrderTerms()))
    parts = [sizes(job_takeoff([one], [], OrderTerms())) for one in slits]
    parts += [sizes(job_takeoff([], [one], OrderTerms())) for one in collectors]

    for item in whole:
        assert whole[item] == sum(part.get(item, 0) for part in parts)
    assert whole == sizes(job_takeoff(slits[::-1], collectors[::-1], OrderTerms()))


@given(COLLECTORS)
def test_a_trench_is_filled_without_a_rest(work: CollectorWork) -> None:
    """Bedding, surround, pipe, sand and sod make the volume that was cut."""
    found = sizes(collector_takeoff(work))
    run = found[Item.COLLECTOR_LENGTH] * (1 + work.overbreak) / CUBIC_NM_PER_PL
    pipe, sod = pipe_area(work.outside_nm).size * run, work.width_nm * work.sod_nm * run
    inside = found[Item.BEDDING] + found[Item.SURROUND] + found[Item.COLLECTOR_SAND] + pipe + sod

    assert inside == found[Item.TRENCH_CUT] == found[Item.SPOIL_BANK]


def test_a_section_on_a_straight_profile_changes_nothing() -> None:
    """The mean of end areas is exact where ground and pipe run straight."""
    coarse = collector([300, 500], reach_m=20)
    fine = collector([300, 400, 500], reach_m=10)

    assert sizes(collector_takeoff(coarse)) == sizes(collector_takeoff(fine))


def test_a_collector_may_start_at_any_station() -> None:
    """Moved along its stationing a collector takes the same."""
    work = collector([300, 500])
    moved = [replace(one, station_nm=one.station_nm + 7 * M) for one in work.sections]

    assert sizes(collector_takeoff(replace(work, sections=tuple(moved)))) == sizes(
        collector_takeoff(work)
    )


def test_a_trench_just_deep_enough_takes_no_sand() -> None:
    """Invert 157.5 mm down leaves no room for sand; a hair less is refused, and where."""
    least_mm = Fraction(25 + 115 + 25 + 25) - 25 - Fraction(15, 2)
    brim = [TrenchSection(i * M, 0, -least_mm * MM) for i in range(2)]
    work = replace(collector([300, 300]), sections=tuple(brim))
    shallow = replace(brim[1], invert_nm=brim[1].invert_nm + 1)

    assert sizes(collector_takeoff(work))[Item.COLLECTOR_SAND] == 0
    with pytest.raises(CalculationInputError, match="at section 2 the trench"):
        collector_takeoff(replace(work, sections=(brim[0], shallow)))


def test_a_wide_cut_takes_more_sand() -> None:
    """0.1 x 0.2 m over 10 m with a tenth of overbreak: 0.22 m3 cut, and as much sand."""
    work = SlitWork((10 * M,), 100 * MM, 200 * MM, overbreak=Fraction(1, 10))
    found = sizes(slit_takeoff(work))

    assert found[Item.SLIT_CUT] == found[Item.SLIT_SAND] == 22 * 10**13


def test_what_is_not_given_is_nothing() -> None:
    """Without turf, overbreak, slack or tails nothing is added for them."""
    slit = sizes(slit_takeoff(SlitWork((10 * M,), 25 * MM, 230 * MM)))
    ends = collector([300, 300]).sections
    main = sizes(collector_takeoff(CollectorWork(ends, 200 * MM, 100 * MM, 115 * MM, 25 * MM)))

    assert Item.TURF_STRIP not in slit
    assert slit[Item.SPOIL_LOOSE] == slit[Item.SPOIL_BANK] == slit[Item.SLIT_CUT]
    assert main[Item.WIRE] == main[Item.COLLECTOR_LENGTH] == 10 * M
    assert main[Item.FABRIC] == main[Item.SOD] == 200 * MM * 10 * M
    assert main[Item.END_CAPS] == 1


@given(RUNS, st.integers(MM, 100 * M))
def test_splices_are_coil_ends_inside_runs(runs: tuple[int, ...], coil_nm: int) -> None:
    """Counted by formula as by walking along the coils, for not too many of them."""
    coil_nm = max(coil_nm, sum(runs) // 50)
    ends = [coil_nm * k for k in range(1, sum(runs) // coil_nm + 1)]
    joints = [0, *accumulate(runs)]

    assert splices(runs, coil_nm) == sum(
        start < end < stop for end in ends for start, stop in pairwise(joints)
    )


def test_loads_and_coils_are_counted_from_the_total() -> None:
    """Two surfaces of half a load each take one load, and a full load takes no other."""
    half = SlitWork((25 * M,), 100 * MM, 200 * MM, pipe_outside_nm=0)
    sand = Bulk(density=1600 * KG_PER_M3, truck_ug=1600 * M, hopper_pl=10**15)
    terms = OrderTerms(sand=sand, spoil_truck_pl=10**15)
    two, three = job_takeoff([half] * 2, [], terms), job_takeoff([half] * 3, [], terms)

    for item in (Item.HOPPER_LOADS, Item.SAND_TRUCKS, Item.SPOIL_TRUCKS):
        assert [sizes(lines)[item] for lines in (two, three)] == [1, 2]


def test_a_job_with_everything_lists_everything_once() -> None:
    """With every term given, each item stands once, in its order, and has its arithmetic."""
    sand = Bulk(Fraction(1, 20), Fraction(1, 4), 1500 * KG_PER_M3, 20_000 * M, 10**15)
    length = Amount(M, Kind.LENGTH)
    terms = OrderTerms(sand, sand, Fraction(1, 20), 60 * M, 6 * M, 8 * 10**15)
    terms = replace(terms, a_day={Item.SAND_SLIT_LENGTH: 200 * M, Item.COLLECTOR_LENGTH: 30 * M})
    terms = replace(terms, prices={Item.SLIT_PIPE: UnitPrice(150, length)})
    slits = [
        SlitWork((40 * M, 30 * M), 25 * MM, 230 * MM, strip_nm=50 * MM),
        SlitWork((20 * M,), 25 * MM, 230 * MM, pipe_outside_nm=25 * MM, caps=1, tees=1),
    ]
    lines = job_takeoff(slits, [collector([300, 400])], terms)
    unpriced, (pipe, total) = lines[:-2], lines[-2:]

    assert [line.item for line in unpriced] == [item for item in Item if item != Item.ESTIMATE]
    assert pipe.amount == Amount(3000, Kind.MONEY)
    assert total.amount.size == 3000
    for system in UnitSystem:
        show = partial(show_amount, system=system)
        assert all(" = " in line.arithmetic(show) for line in lines)


def test_what_moved_with_the_depth() -> None:
    """Deeper slits move cut, sand and spoil, and leave length, turf and pipe."""
    work = SlitWork((40 * M,), 25 * MM, 230 * MM, pipe_outside_nm=25 * MM, strip_nm=50 * MM)
    moved = changed_lines(slit_takeoff(work), slit_takeoff(replace(work, depth_nm=250 * MM)))
    items = {one.item for one in moved}

    assert items == {Item.SLIT_CUT, Item.SPOIL_BANK, Item.SPOIL_LOOSE, Item.SLIT_SAND}
    assert all(one.after.size > one.before.size for one in moved if one.after and one.before)


def test_the_printed_column_of_money_adds_up() -> None:
    """Each line is rounded, ties to even, before the total is made."""
    per = Amount(2, Kind.COUNT)
    items = (Item.END_CAPS, Item.TEES)
    lines = [TakeoffLine(item, Amount(1, Kind.COUNT), ()) for item in items]
    found = price_lines(lines, {Item.END_CAPS: UnitPrice(5, per), Item.TEES: UnitPrice(7, per)})

    assert [line.amount.size for line in found] == [2, 4, 6]


@pytest.mark.parametrize(
    ("size", "kind", "us", "metric"),
    [
        (304_800_000, Kind.LENGTH, "1.0 ft", "0.30 m"),
        (230_000_000, Kind.DEPTH, "~9 in", "230 mm"),
        (304_800_000**2, Kind.AREA, "1.00 ft²", "929.03 cm²"),
        (25_400_000**2, Kind.AREA, "1.00 in²", "6.45 cm²"),
        (10**15, Kind.VOLUME, "1.31 yd³", "1.00 m³"),
        (10**12, Kind.MASS, "1.10 ton", "1.00 t"),
        (1600 * KG_PER_M3, Kind.DENSITY, "99.9 lb/ft³", "1600 kg/m³"),
        (Fraction(1, 8), Kind.SHARE, "12.5 %", "12.5 %"),
        (Fraction(5, 2), Kind.DAYS, "2.5 d", "2.5 d"),
        (3, Kind.COUNT, "3", "3"),
        (-5, Kind.MONEY, "-0.05", "-0.05"),
    ],
)
def test_figures_are_shown_in_their_units(
    size: int | Fraction, kind: Kind, us: str, metric: str
) -> None:
    """Each kind in both systems; figures from the definitions of the units."""
    amount = Amount(size, kind)

    assert (show_amount(amount, UnitSystem.US), show_amount(amount, UnitSystem.METRIC)) == (
        us,
        metric,
    )


COUNT = Amount(1, Kind.COUNT)


@pytest.mark.parametrize(
    "call",
    [
        lambda: slit_takeoff(SlitWork((1,), 0, 9)),
        lambda: slit_takeoff(SlitWork((-1,), 1, 9)),
        lambda: slit_takeoff(SlitWork((1,), 1, 9, pipe_outside_nm=2)),
        lambda: slit_takeoff(SlitWork((1,), 1, 9, overbreak=Fraction(-1))),
        lambda: collector_takeoff(collector([300])),
        lambda: collector_takeoff(collector([300, 150])),
        lambda: collector_takeoff(collector([300, 300], reach_m=0)),
        lambda: collector_takeoff(collector([300, 300], bore_nm=116 * MM)),
        lambda: collector_takeoff(collector([300, 300], width_nm=114 * MM)),
        lambda: loads(Item.TEES, COUNT, Amount(0, Kind.COUNT)),
        lambda: loads(Item.TEES, COUNT, Amount(1, Kind.MASS)),
        lambda: splices([1], 0),
        lambda: production_days({Item.TEES: 1}, {Item.TEES: 0}),
        lambda: price_lines([TakeoffLine(Item.TEES, COUNT, ())], {Item.TEES: UnitPrice(-1, COUNT)}),
        lambda: price_lines(
            [TakeoffLine(Item.TEES, COUNT, ())], {Item.TEES: UnitPrice(1, Amount(1, Kind.MASS))}
        ),
        lambda: add_up(
            [TakeoffLine(Item.TEES, Amount(1, kind), ()) for kind in (Kind.COUNT, Kind.MASS)]
        ),
    ],
)
def test_what_has_no_answer_is_refused(call: object) -> None:
    """Each refusal says what would be accepted."""
    assert callable(call)
    with pytest.raises(CalculationInputError) as caught:
        call()

    assert caught.value.context["accepted"]
