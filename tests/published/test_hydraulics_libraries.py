"""Pipes against two independent programs: the library fluids, and EPA SWMM through pyswmm.

Both are imported inside the tests, for they are slow to load and only tests need them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest

from models.science.water.manning import full_flow_m3_per_s, full_velocity_m_per_s
from models.science.water.part_full import hydraulic_elements, part_full

IN_NM = 25_400_000
FT_M = 0.3048
GPM_M3_PER_S = 231 * 0.0254**3 / 60
US_CONSTANT = 1.486 * FT_M ** (1 / 3)
"""SWMM's rounded constant gives so much more than the exact one."""

MODEL = """[OPTIONS]
FLOW_UNITS GPM
FLOW_ROUTING KINWAVE
START_DATE 01/01/2020
START_TIME 00:00:00
END_DATE 01/01/2020
END_TIME 02:00:00
REPORT_STEP 00:05:00
ROUTING_STEP 5
[REPORT]
INPUT YES
[JUNCTIONS]
J1 {rise:.9f} 5 0 0 0
[OUTFALLS]
OUT 0 FREE NO
[CONDUITS]
C1 J1 OUT {slope_length:.9f} {n} 0 0 0 0
[XSECTIONS]
C1 CIRCULAR {bore_ft:.9f} 0 0 0 1
[INFLOWS]
J1 FLOW "" FLOW 1.0 1.0 {gpm}
"""


@dataclass(frozen=True)
class SwmmPipe:
    """What SWMM says of a pipe under a steady inflow."""

    full_gpm: float
    depth_ft: float
    flow_gpm: float


def swmm_pipe(folder: Path, gpm: float, percent: str, n: float, bore_in: float) -> SwmmPipe:
    """Run two hours of a steady inflow through 400 ft of one pipe."""
    from pyswmm import Links, Simulation

    run_ft, rise = 400, 400 * float(percent) / 100
    path = folder / "pipe.inp"
    path.write_text(
        MODEL.format(
            rise=rise,
            slope_length=(run_ft**2 + rise**2) ** 0.5,
            n=n,
            bore_ft=bore_in / 12,
            gpm=gpm,
        ),
        encoding="utf-8",
    )
    with Simulation(str(path)) as simulation:
        pipe = Links(simulation)["C1"]
        for _ in simulation:
            depth_ft, flow_gpm = pipe.depth, pipe.flow
    report = path.with_suffix(".rpt").read_text(encoding="utf-8")
    row = re.search(r"^ +C1 +CIRCULAR .* ([\d.]+)$", report, re.M)
    assert row is not None
    return SwmmPipe(float(row.group(1)), depth_ft, flow_gpm)


@pytest.mark.parametrize("fill", [0.05, 0.3, 0.5, 0.813, 0.938, 1.0])
@pytest.mark.parametrize(
    ("bore_in", "percent", "n"), [(4, "0.5", 0.015), (1, "1", 0.009), (12, "0.07", 0.017)]
)
def test_velocity_agrees_with_fluids(fill: float, bore_in: int, percent: str, n: float) -> None:
    """Velocity part full is that of fluids.V_Manning for the same hydraulic radius."""
    from fluids import V_Manning

    bore_nm, grade = bore_in * IN_NM, Fraction(percent) / 100
    elements = hydraulic_elements(fill)
    radius_m = elements.radius * bore_nm / 10**9 / 4
    velocity = elements.velocity * full_velocity_m_per_s(bore_nm, grade, n)

    assert velocity == pytest.approx(V_Manning(Rh=radius_m, S=float(grade), n=n), rel=1e-12)


def test_full_four_inch_pipe_agrees_with_fluids() -> None:
    """4 in, n 0.015, 0.5 %: 0.40733 m/s and 3.30238 L/s, as fluids 1.3.1 gave them."""
    assert f"{full_velocity_m_per_s(4 * IN_NM, Fraction(1, 200), 0.015):.5f}" == "0.40733"
    assert f"{full_flow_m3_per_s(4 * IN_NM, Fraction(1, 200), 0.015) * 1000:.5f}" == "3.30238"


@pytest.mark.parametrize(
    ("gpm", "percent", "n", "bore_in"),
    [
        (20, "0.5", 0.015, 4),
        (26.17, "0.5", 0.015, 4),
        (48, "0.5", 0.015, 4),
        (1.5, "1", 0.012, 1),
        (40, "0.2", 0.015, 6),
    ],
)
def test_flow_and_depth_agree_with_swmm(
    tmp_path: Path, gpm: float, percent: str, n: float, bore_in: int
) -> None:
    """Full flow to the figures SWMM prints, and the depth of a steady flow to 0.1 %."""
    theirs = swmm_pipe(tmp_path, gpm, percent, n, bore_in)
    bore_nm, grade = bore_in * IN_NM, Fraction(percent) / 100
    full = full_flow_m3_per_s(bore_nm, grade, n) * US_CONSTANT
    depth = part_full(gpm * GPM_M3_PER_S / US_CONSTANT, bore_nm, grade, n).fill * bore_in / 12

    assert theirs.flow_gpm == pytest.approx(gpm, rel=1e-6)
    assert full / GPM_M3_PER_S == pytest.approx(theirs.full_gpm, abs=0.005001)
    assert depth == pytest.approx(theirs.depth_ft, rel=1e-3)
