"""The take-off read off a job: by hand, adding up over surfaces, what is missing said."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.queries.takeoff.job_takeoff import JobTakeoff, job_takeoff
from models.science.takeoff.items import Item, add_up
from tests.models.checks.written_job import Written
from tests.models.planned_ground import (
    M3,
    TONNE,
    M,
    collector,
    lines,
    pattern,
    sand,
    state_of,
    surface,
    terms,
    written,
)

WHOLE_JOB = (surface(), collector(), sand(), terms())


def taken(*entries: Written) -> JobTakeoff:
    """The take-off after some entries."""
    return job_takeoff(state_of(*entries))


def size(takeoff: JobTakeoff, item: Item, unit: int = 1) -> float:
    """How much of an item, in a unit."""
    amount = takeoff.amount(item)
    assert amount is not None
    return float(Fraction(amount.size) / unit)


# Worked by hand from the sizes in planned_ground.
@pytest.mark.parametrize(
    ("item", "unit", "by_hand"),
    [
        (Item.SAND_SLIT_LENGTH, M, 40),
        (Item.SLIT_CUT, M3, 0.3),
        (Item.TRENCH_CUT, M3, 3.44),
        (Item.SPOIL_LOOSE, M3, 4.675),
        (Item.SPOIL_TRUCKS, 1, 5),
        (Item.SLIT_SAND, M3, 0.2901825),
        (Item.COLLECTOR_SAND, M3, 2.16),
        (Item.SAND_MASS, TONNE, 4.312321),
        (Item.SAND_TRUCKS, 1, 5),
        (Item.HOPPER_LOADS, 1, 6),
        (Item.BEDDING, M3, 0.2),
        (Item.SURROUND, M3, 0.699867),
        (Item.GRAVEL_TRUCKS, 1, 2),
        (Item.SLIT_COILS, 1, 2),
        (Item.COLLECTOR_COILS, 1, 7),
        (Item.END_CAPS, 1, 2),
        (Item.TEES, 1, 1),
        (Item.DAYS, 1, 2.8),
    ],
)
def test_a_job_by_hand(item: Item, unit: int, by_hand: float) -> None:
    """Each quantity of a small job is the one worked out on paper."""
    assert size(taken(*WHOLE_JOB), item, unit) == pytest.approx(by_hand, abs=1e-6)


def test_nothing_is_missing_from_a_whole_job() -> None:
    """With every input given no sentence says that something is left out."""
    assert taken(*WHOLE_JOB).missing == ()


METRES = st.lists(st.integers(1, 60), min_size=0, max_size=4)


@settings(max_examples=40)
@given(st.lists(st.tuples(METRES, METRES), min_size=1, max_size=4))
def test_it_adds_up_over_surfaces(surfaces: list[tuple[list[int], list[int]]]) -> None:
    """What the parts take together is what the job takes, item by item, exactly."""
    ground = [
        surface(f"F{number}", lines=lines(*runs), collector_id="")
        for number, runs in enumerate(surfaces)
    ]
    whole = taken(*ground, collector(), sand(), terms())
    parts = {line.item: line.amount for line in add_up(ln for p in whole.parts for ln in p.lines)}

    assert {item: whole.amount(item) for item in parts} == parts
    alone = [taken(one, terms()) for one in ground] + [taken(collector(), terms())]
    for item in (Item.SLIT_CUT, Item.SLIT_SAND, Item.SPOIL_LOOSE, Item.END_CAPS):
        sizes = [one.amount(item) for one in alone]
        total = sum((amount.size for amount in sizes if amount is not None), Fraction(0))
        found = whole.amount(item)
        assert (found.size if found else 0) == total


@pytest.mark.parametrize(
    ("entries", "words"),
    [
        ((surface(),), "No terms of the take-off are written"),
        ((surface(), terms()), "No bulk density of the sand is known"),
        ((surface(), terms(sand_truck_ug=None), sand()), "No truck for sand is given"),
        ((surface(), terms(), sand(hopper_pl=None)), "No hopper of the sand is known"),
        ((surface(), terms(slit_coil_nm=None)), "No coil of the slits' pipe is given"),
        ((surface(), terms(spoil_truck_pl=None)), "No truck for spoil is given"),
        ((surface(), terms(piped_slit_a_day_nm=None)), "No daily rate is given for piped slits"),
        ((surface(), terms(), sand(), sand("other")), "names 2 kinds of sand (sand, other)"),
        ((surface(lines=[]),), "F1 has no lines laid yet"),
        ((surface(sand_slits=None),), "The sand slits of F1 have no width and depth"),
        ((surface(piped_slits=pattern(1200)),), "The pipe of F1 has no outside diameter"),
        ((collector(ground=[]), terms()), "C1 has no finished ground at 0+00.0 and 0+40.0"),
        ((collector(), terms(collector_coil_nm=None)), "No coil or stick of the collector's pipe"),
        ((collector(), terms(gravel_density_g_per_m3=None)), "density of the gravel is known"),
        ((collector(bore_nm=0), terms()), "the bore, the pipe and the trench don't go into"),
        (
            (collector(), terms(surround_over_nm=M)),
            "the trench is shallower than what goes into it",
        ),
    ],
)
def test_what_is_missing_is_said(entries: tuple[Written, ...], words: str) -> None:
    """An input that nobody gave is told in a sentence, and nothing is guessed in its place."""
    assert any(words in sentence for sentence in taken(*entries).missing)


def test_a_collector_without_ground_is_taken_off_by_its_length() -> None:
    """Without ground there is no trench, but pipe, wire and gravel hang on the length alone."""
    takeoff = taken(collector(ground=[]), terms())

    assert takeoff.amount(Item.TRENCH_CUT) is None
    assert size(takeoff, Item.COLLECTOR_PIPE, M) == 40
    assert size(takeoff, Item.BEDDING, M3) == pytest.approx(0.2)


def test_a_layout_counts_the_joints() -> None:
    """Tees, caps and the pipe on to the collector come from the layout where one is kept."""
    at = {"x_nm": 0, "y_nm": 0}
    ends = [
        {"number": 1, "line_id": "P1", "station_nm": 0, "at": at, "gap_nm": 2 * M},
        {"number": 2, "line_id": "P2", "station_nm": M, "at": at, "goes_through": True},
    ]
    layout = written("layout", surface_id="F1", ends=ends, unjoined=["P3"])
    takeoff = taken(surface(lines=lines((), (10, 10, 10))), layout, terms())

    assert size(takeoff, Item.TEES) == 2
    assert size(takeoff, Item.END_CAPS) == 1 + 2 + 2
    assert size(takeoff, Item.SLIT_PIPE, M) == 32
    assert size(takeoff, Item.SLIT_SPLICES) == 2  # coils end at 15 and 30 of 12 + 10 + 10


def test_turf_is_lifted_on_greens_alone() -> None:
    """The strip counts on a green and not on a field."""
    strip = terms(turf_strip_nm=50 * 10**6)

    assert taken(surface(use="field"), strip).amount(Item.TURF_STRIP) is None
    assert size(taken(surface(use="green"), strip), Item.TURF_STRIP, 10**18) == 3


def test_the_newest_box_wins_over_the_planned_density() -> None:
    """A box weighed on the site is taken in place of the plan's figure, and said to be."""
    box = written("box_weighing", material_id="sand", volume_pl=M3, mass_ug=2 * TONNE)
    jar = written("bulking_test", material_id="sand", moist_nm=200, flooded_nm=160)
    planned, weighed = taken(*WHOLE_JOB), taken(*WHOLE_JOB, box, jar)

    assert size(weighed, Item.SAND_MASS) == pytest.approx(1.25 * size(planned, Item.SAND_MASS))
    assert size(weighed, Item.SAND_LOOSE) == pytest.approx(1.25 * size(planned, Item.SAND_LOOSE))
    assert "Sand: 2000 kg/m³, a box weighed dry on 2026-06-08." in weighed.basis
    assert "Bulking of the sand: 25 %, a jar flooded on 2026-06-08." in weighed.basis


def test_a_damp_box_is_told_as_damp() -> None:
    """Sand weighed damp holds water: the basis says so."""
    box: dict[str, Any] = {"material_id": "sand", "volume_pl": M3, "mass_ug": TONNE}
    basis = taken(*WHOLE_JOB, written("box_weighing", moisture="damp", **box)).basis

    assert any("weigh a dry box" in sentence for sentence in basis)


@pytest.mark.parametrize(
    ("item", "per", "cents"),
    [
        ("sand to order", "1 t", 431_232),
        ("sand to order", "t", 431_232),
        ("Sand to order", "2 t", 215_616),
        ("tees", "each", 100_000),
        ("sod over the collector", "1 m2", 800_000),
        ("days of production", "1 day", 280_000),
        ("slit pipe to order", "100 m", 20_000),
    ],
)
def test_an_estimate_where_prices_were_typed(item: str, per: str, cents: int) -> None:
    """A thousand for each unit, by hand: 4.31232 t, 1 tee, 8 m2, 2.8 days, 20 m of pipe."""
    price = written("unit_price", item=item, price_cents=100_000, per=per)
    takeoff = taken(*WHOLE_JOB, price)

    assert [line.amount.size for line in takeoff.money] == [cents, cents]


def test_no_price_comes_with_the_app() -> None:
    """Without a typed price there is no estimate."""
    assert taken(*WHOLE_JOB).money == ()


@pytest.mark.parametrize(
    ("item", "per", "words"),
    [
        ("sand", "1 t", "no item of the take-off is so named"),
        ("sand to order", "1 m", "'1 m' is no amount of it. Accepted: 1 ton or 1 t"),
        ("sand to order", "a heap", "is no amount of it"),
        ("sod over the collector", "1 ha", "Accepted: 1000 ft2 or 1 m2"),
        ("tees", "1 m", "Accepted: 1 each"),
        ("tees", "0 each", "is no amount of it"),
        ("turf strip to lift and put back", "1 m2", "has a price, but is not taken off"),
    ],
)
def test_a_price_that_cannot_be_used_is_said(item: str, per: str, words: str) -> None:
    """A price for nothing of the take-off is told, not dropped in silence."""
    takeoff = taken(*WHOLE_JOB, written("unit_price", item=item, price_cents=100, per=per))

    assert takeoff.money == ()
    assert any(words in sentence for sentence in takeoff.missing)


def test_other_materials_and_unfit_sand_do_not_count() -> None:
    """Gravel is no sand, and sand whose test says not to use it is not reckoned with."""
    gravel = written("material", material_id="gravel", use="gravel", bulk_density_g_per_m3=10**6)
    unfit = sand("grey", suitable=False, bulk_density_g_per_m3=10**6)
    takeoff = taken(surface(), collector(), sand(), unfit, gravel, terms())

    assert size(takeoff, Item.SAND_MASS, TONNE) == pytest.approx(4.312321)
    assert size(takeoff, Item.GRAVEL_MASS, TONNE) == pytest.approx(1.3498, rel=1e-4)


def test_gravel_by_its_own_figures() -> None:
    """Without a density in the terms the material's own counts; a box weighed wins over both."""
    own = written("material", material_id="gravel", use="gravel", bulk_density_g_per_m3=10**6)
    box = written("box_weighing", material_id="gravel", volume_pl=M3, mass_ug=2 * TONNE)
    bare = terms(gravel_density_g_per_m3=None)

    masses = [
        size(taken(collector(), own, *more), Item.GRAVEL_MASS, TONNE)
        for more in ((bare,), (terms(),), (terms(), box))
    ]
    assert masses == pytest.approx([0.899867, 1.349801, 1.799735], rel=1e-5)


def test_what_the_figures_rest_on_is_said() -> None:
    """Densities with where they are from, bulking or none, turf, joints: each in a sentence."""
    strip = terms(turf_strip_nm=10**6)
    found = taken(surface(use="green"), collector(), sand(), strip)

    assert found.basis == (
        "Sand: 1600 kg/m³, as planned.",
        "No bulking is reckoned with: the sand is taken to come dry.",
        "Gravel: 1500 kg/m³, as planned.",
        "Turf strips are lifted on greens alone.",
        "F1: one tee and one cap for each of 1 piped slit; no layout is kept.",
    )
    assert taken(surface(collector_id="")).basis[-1] == (
        "F1: no collector, so no tees, and a cap at both ends of 1 piped slit."
    )
    assert taken(sand(), terms(sand_bulking_permille=250), surface()).basis[1] == (
        "Bulking of the sand: 25 %, as planned."
    )
