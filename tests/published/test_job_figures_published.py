"""Whole jobs, read off their entries, against figures worked apart; sources beside each."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from models.queries.takeoff.job_takeoff import job_takeoff
from models.queries.water.drainage_text import gate_texts
from models.queries.water.surface_drainage import surface_drainage
from models.science.takeoff.items import Item
from models.science.water.gates import Gate
from models.state.job_state import JobState
from tests.models.checks.written_job import Written, written_entries
from tests.models.planned_ground import (
    collector,
    drainage,
    outlet,
    pattern,
    surface,
    terms,
    written,
)

IN, FT = 25_400_000, 304_800_000
FT3_PL, TON_UG = 28_316_846_592_000, 907_184_740_000
LB_FT3_IN_MG_M3 = 16_018_463


def us_job(*entries: Written) -> JobState:
    """A job in feet after some entries."""
    return JobState(written_entries([written("job", job_id="j", name="Job"), outlet(), *entries]))


def slits(spacing_in: int, **changed: int) -> dict[str, int]:
    """Slits 1 x 9 in."""
    sizes = {"spacing_nm": spacing_in * IN, "width_nm": IN, "depth_nm": 9 * IN}
    return pattern(1, **{**sizes, **changed})


def line(number: int, feet: int, use: str = "sand_slit") -> dict[str, object]:
    """A line of so many feet."""
    ends = {"x1_nm": 0, "y1_nm": 0, "x2_nm": feet * FT, "y2_nm": 0}
    return {"line_id": f"L{number}", "use": use, "length_nm": feet * FT, **ends}


def field(*feet: int, **changed: object) -> Written:
    """A field 60 x 100 ft with 1 x 9 in slits 16 in apart, piped ones 4 ft apart."""
    corners = ((0, 0), (60, 0), (60, 100), (0, 100))
    fields: dict[str, object] = {
        "outline": [{"x_nm": x * FT, "y_nm": y * FT} for x, y in corners],
        "sand_slits": slits(16),
        "piped_slits": slits(48, pipe_outside_nm=IN),
        "lines": [line(number, length) for number, length in enumerate(feet)],
        **changed,
    }
    return surface(**fields)  # type: ignore[arg-type]


def sand(pounds: int) -> Written:
    """Sand of so many pounds in a cubic foot."""
    density = pounds * LB_FT3_IN_MG_M3 // 1000
    fields: dict[str, Any] = {
        "material_id": "sand",
        "use": "sand",
        "bulk_density_g_per_m3": density,
    }
    return written("material", **fields)


# Derived: 750 ft of 1 x 9 in slit in 1000 ft2 at 16 in; 25 % bulking as in civilease.com and
# theconstructioncivil.org, bulking of sand (seen: 200 mm moist stand 160 mm flooded).
def test_a_thousand_square_feet() -> None:
    """46.875 ft3 in place, 2.170 yd3 to order with the bulking of a jar, 2.344 ton."""
    jar = written("bulking_test", material_id="sand", moist_nm=200, flooded_nm=160)
    no_waste = terms(sand_waste_permille=0)
    takeoff = job_takeoff(us_job(field(*[75] * 10), sand(100), no_waste, jar))

    def size(item: Item, unit: int) -> float:
        amount = takeoff.amount(item)
        assert amount is not None
        return float(Fraction(amount.size) / unit)

    assert size(Item.SAND_SLIT_LENGTH, FT) == 750
    assert size(Item.SLIT_SAND, FT3_PL) == pytest.approx(46.875)
    assert f"{size(Item.SAND_LOOSE, 27 * FT3_PL):.3f}" == "2.170"
    assert f"{size(Item.SAND_MASS, TON_UG):.3f}" == "2.344"


# Derived, checked with shapely: 60 x 100 ft at 16 in is 45 lines of 100 ft, 10.42 yd3 of sand.
def test_the_rectangle_as_a_job() -> None:
    """4500 ft of slit, and the arithmetic as it is read."""
    takeoff = job_takeoff(us_job(field(*[100] * 45)))
    told = {line.item: line.arithmetic(takeoff.show) for line in takeoff.lines}

    assert told[Item.SAND_SLIT_LENGTH].endswith("= 4500.0 ft")
    assert told[Item.SLIT_SAND] == "1 in x 9 in x 4500.0 ft x (1 + 0 %) = 10.42 yd\u00b3"


# Derived: intake 20/16 = 1.25 in/h; carry 20/113.78 = 0.176 in/h; a 4 in pipe at 0.5 % with
# n 0.015 carries 0.116622 cfs (fluids 1.3.1), off 6000 ft2 that is 0.8397 in/h.
def test_gates_of_the_usual_pattern() -> None:
    """The carry governs at 0.18 in/h; each gate is the one worked out apart."""
    pipe = collector(fall_nm=1, run_nm=200, bore_nm=4 * IN, outside_nm=4 * IN)
    twenty = drainage(sand_um_per_h=20 * 25_400, rain_nm=IN)
    found = surface_drainage(us_job(field(100), pipe, twenty), "F1").designed
    rates = {one.gate: (one.rate_mm_per_h or 0) / 25.4 for one in found.rates}

    assert f"{rates[Gate.INTAKE]:.3f}" == "1.250"
    assert f"{rates[Gate.CARRY]:.3f}" == "0.176"
    assert f"{rates[Gate.COLLECTOR]:.4f}" == "0.8397"
    assert found.governs is Gate.CARRY


# Derived with k = 1.486: 52.35 gal/min at 0.50 %, 23.41 at 0.10 %; 2253 ft2 at 1 in/h (the exact
# constant gives 0.006 % less).
@pytest.mark.parametrize(("run", "gpm", "ft2"), [(200, "52.3", 5038), (1000, "23.4", 2253)])
def test_the_capacity_table_in_a_job(run: int, gpm: str, ft2: int) -> None:
    """The row of the 4 in pipe shows in the words of the collector's gate."""
    pipe = collector(fall_nm=1, run_nm=run, bore_nm=4 * IN, outside_nm=4 * IN)
    area = drainage(drained_area_mm2=round(ft2 * 304.8**2))
    drained = surface_drainage(us_job(field(100, outline=[]), pipe, area), "F1")
    line = gate_texts(drained)[0].lines[3]

    assert line.how.startswith(f"{gpm} gal/min in 4 in at ")
    assert line.rate == "1.00 in/h"
