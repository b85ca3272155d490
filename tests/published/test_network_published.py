"""Water lines against published rules, and against EPA SWMM as an independent program."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from models.science.water.critical_depth import GRAVITY, critical_fill
from models.science.water.manning import full_flow_m3_per_s
from models.science.water.network import Network, NetworkReach
from models.science.water.water_line import (
    AUSTIN_RULE,
    HEC_22_RULE,
    PLAIN_RULE,
    LossRule,
    ReachWater,
    water_line,
)

FT_NM = 304_800_000
FT_M = 0.3048
IN_NM = 25_400_000
GPM_M3_PER_S = 231 * 0.0254**3 / 60
BORE_NM = 4 * IN_NM
GRADE = Fraction(5, 1000)


def _pipe(length_ft: int, bend_degrees: float = 0.0) -> NetworkReach:
    """Four-inch pipe at 0.5 %, n 0.015, as in the rows below."""
    return NetworkReach(
        "a",
        "head",
        "out",
        length_ft * FT_NM,
        Fraction(length_ft * FT_NM) * GRADE,
        Fraction(0),
        BORE_NM,
        0.015,
        bend_degrees=bend_degrees,
    )


def _run(
    pipe: NetworkReach, flow_m3_per_s: float, tailwater_nm: int | None, rule: LossRule
) -> ReachWater:
    """How the pipe runs with a flow: an area at its head, drained by one millimetre an hour."""
    network = Network((pipe,), {"out": tailwater_nm}, {"head": flow_m3_per_s * 3.6e6})
    return water_line(network, 1.0, rule).reaches["a"]


def test_austin_start() -> None:
    """Tailwater 0.10 ft over the invert of a 4 in pipe starts at its obvert, 0.3333 ft.

    City of Austin, Drainage Criteria Manual, section 5.5 (the rule; the figures are by hand).
    """
    water = _run(_pipe(200), 20 * GPM_M3_PER_S, FT_NM // 10, AUSTIN_RULE)
    assert water.lower_m / FT_M == pytest.approx(0.3333, abs=0.00005)
    higher = _run(_pipe(200), 20 * GPM_M3_PER_S, FT_NM, AUSTIN_RULE)
    assert higher.lower_m / FT_M == pytest.approx(1.0)


def test_hec_22_chain() -> None:
    """A drowned full pipe of 200 ft with an exit and a bend stands 1.536 ft over its obvert.

    Losses of FHWA HEC-22, chapter 7 (from memory); the chain 0.50 + 0.0278 + 1.000 + 0.0082
    is worked by hand.
    """
    full = full_flow_m3_per_s(BORE_NM, GRADE, 0.015)
    tailwater = BORE_NM + FT_NM // 2
    water = _run(_pipe(200, 90.0), full, tailwater, HEC_22_RULE)
    obvert_ft = 4 / 12
    assert water.upper_m / FT_M - obvert_ft == pytest.approx(1.536, abs=0.0005)
    assert water.over_obvert_m / FT_M == pytest.approx(0.536, abs=0.0005)
    assert water.lower_m / FT_M - obvert_ft == pytest.approx(0.50 + 0.0278 + 0.0082, abs=0.0005)


def test_hec_22_crossing() -> None:
    """With half the flow the line starts drowned, crosses the obvert, and the head runs free.

    By hand: losses a quarter, 0.009 ft, friction 0.125 %: full for 0.509 / 0.00375 = 135.7 ft.
    """
    full = full_flow_m3_per_s(BORE_NM, GRADE, 0.015)
    water = _run(_pipe(200, 90.0), full / 2, BORE_NM + FT_NM // 2, HEC_22_RULE)
    assert water.full_for_m / FT_M == pytest.approx(135.7, abs=0.1)
    assert water.over_obvert_m < 0
    assert water.upper_m / FT_M == pytest.approx(1.0 + 0.5 * 4 / 12, abs=0.0005)


@pytest.mark.parametrize(
    ("gpm", "depth_in", "climb_percent"),
    [
        (12, 1.302, 0.026),
        (24, 1.901, 0.105),
        (36, 2.437, 0.237),
        (48, 3.014, 0.420),
        (60, None, 0.657),
    ],
)
def test_gathered_flow(gpm: int, depth_in: float | None, climb_percent: float) -> None:
    """Laterals of 12 gal/min fill a 4 in pipe at 0.5 % one after another; the fifth is too much.

    Derived with two programs that agree to 0.0001 of the bore, k = 1.486.
    """
    water = _run(_pipe(100), gpm * GPM_M3_PER_S, None, PLAIN_RULE)
    assert (water.flow_m3_per_s / water.full_m3_per_s) ** 2 * 0.5 == pytest.approx(
        climb_percent, abs=0.0006
    )
    if depth_in is None:
        assert water.depth_m is None
        assert water.over_obvert_m / FT_M == pytest.approx(0.157, abs=0.001)
    else:
        assert water.depth_m is not None
        assert water.depth_m / 0.0254 == pytest.approx(depth_in, abs=0.001)
        assert water.full_for_m == 0


@pytest.mark.parametrize("fill", [0.3, 0.4, 0.5, 0.6, 0.7, 0.8])
def test_critical_fit(fill: float) -> None:
    """Critical depth agrees with Straub's fit of 1978 within 5 %.

    y = 1.01 / D^0.26 x (Q^2 / g)^0.25 in metres, a fit for fills up to 0.85; from memory.
    """
    bore_m = 0.15
    flow = (GRAVITY * (fill * bore_m * bore_m**0.26 / 1.01) ** 4) ** 0.5
    assert critical_fill(flow, 150_000_000) == pytest.approx(fill, rel=0.05)


SWMM = """[OPTIONS]
FLOW_UNITS LPS
FLOW_ROUTING DYNWAVE
INERTIAL_DAMPING FULL
START_DATE 01/01/2020
START_TIME 00:00:00
END_DATE 01/01/2020
END_TIME 03:00:00
REPORT_STEP 00:05:00
ROUTING_STEP 0.5
LENGTHENING_STEP 0
MIN_SURFAREA 1.2
[JUNCTIONS]
J1 {head:.9f} 5 0 0 0
[OUTFALLS]
OUT {low:.9f} {outfall} NO
[CONDUITS]
C1 J1 OUT {length} {n} 0 0 0 0
[XSECTIONS]
C1 CIRCULAR {bore} 0 0 0 1
[INFLOWS]
J1 FLOW "" FLOW 1.0 1.0 {lps}
"""


def _swmm_levels(folder: Path, outfall: str, lps: float) -> tuple[float, float]:
    """Levels at the outfall and at the head of 40 m of 150 mm pipe at 0.5 %, n 0.012 [m]."""
    from pyswmm import Nodes, Simulation

    path = folder / "pipe.inp"
    path.write_text(
        SWMM.format(head=10.2, low=10.0, outfall=outfall, length=40, n=0.012, bore=0.15, lps=lps)
    )
    with Simulation(str(path)) as run:
        nodes = Nodes(run)
        head, out = nodes["J1"], nodes["OUT"]
        for _ in run:
            pass
        return out.head, head.head


def test_drowned_line_by_swmm(tmp_path: Path) -> None:
    """EPA SWMM, routing dynamically, ends at the same line along a drowned pipe, within 3 mm."""
    mm = 10**6
    pipe = NetworkReach(
        "a",
        "head",
        "out",
        40_000 * mm,
        Fraction(10_200 * mm),
        Fraction(10_000 * mm),
        150 * mm,
        0.012,
    )
    ours = _run(pipe, 0.007556, 10_300 * mm, PLAIN_RULE)
    out, head = _swmm_levels(tmp_path, "FIXED 10.3", 7.556)
    assert out == pytest.approx(10.3, abs=0.0005)
    assert ours.upper_m == pytest.approx(head, abs=0.003)


def test_critical_depth_by_swmm(tmp_path: Path) -> None:
    """EPA SWMM lets a free end stand at the lesser of critical and normal depth."""
    for lps in (4.0, 7.556):
        out, _ = _swmm_levels(tmp_path, "FREE", lps)
        pipe = NetworkReach(
            "a",
            "head",
            "out",
            40 * 10**9,
            Fraction(102 * 10**8),
            Fraction(10**10),
            15 * 10**7,
            0.012,
        )
        normal = _run(pipe, lps / 1000, None, PLAIN_RULE).depth_m
        assert normal is not None
        critical = critical_fill(lps / 1000, 15 * 10**7) * 0.15
        assert out - 10.0 == pytest.approx(min(critical, normal), abs=0.001)
