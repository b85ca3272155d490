"""Pipes, drains and gates against published figures, and against figures worked apart."""

from __future__ import annotations

from fractions import Fraction
from math import log, pi, sqrt

import pytest

from models.science.water.gates import (
    Gate,
    SlitGrid,
    carry_mm_per_h,
    governing_gate,
    intake_mm_per_h,
    pipe_mm_per_h,
)
from models.science.water.hooghoudt import (
    DrainedGround,
    DrainedSoil,
    drain_discharge,
    drain_spacing,
    equivalent_depth,
    soil_discharge,
    soil_spacing,
)
from models.science.water.manning import full_flow_m3_per_s, full_velocity_m_per_s
from models.science.water.part_full import (
    MOST_FLOW_FILL,
    MOST_FLOW_SHARE,
    hydraulic_elements,
    part_full,
)
from models.science.water.pipe_run import (
    LEAST_VELOCITY,
    LEAST_VELOCITY_WITH_SILT,
    ROUGHNESS,
    flow_from_area_m3_per_s,
)

IN_NM = 25_400_000
FT_M = 0.3048
FT3_M3 = FT_M**3
GPM_M3_PER_S = 231 * 0.0254**3 / 60
ACRE_M2 = 43_560 * FT_M**2
IN_PER_DAY_MM_PER_H = 25.4 / 24
TUBING = ROUGHNESS["corrugated plastic, 3 to 8 in"]
TILE = ROUGHNESS["clay or concrete tile"]
US_CONSTANT = 1.486 * FT_M ** (1 / 3)
"""What the rounded US constant gives more than the exact one, about 1.00006."""


# Derived with k = 1.486 and a bore of 4.000 in, n = 0.015; no bulletin's own row could be read.
@pytest.mark.parametrize(
    ("percent", "cfs", "gpm", "ft_per_s", "acres_3_8", "acres_1_2", "ft2"),
    [
        ("0.10", "0.05216", "23.41", "0.598", "3.31", "2.48", "2253"),
        ("0.20", "0.07376", "33.11", "0.845", "4.68", "3.51", "3187"),
        ("0.50", "0.11663", "52.35", "1.336", "7.40", "5.55", "5038"),
        ("1.00", "0.16494", "74.03", "1.890", "10.47", "7.85", "7125"),
    ],
)
def test_four_inch_pipe(
    percent: str, cfs: str, gpm: str, ft_per_s: str, acres_3_8: str, acres_1_2: str, ft2: str
) -> None:
    """The row of the capacity table to the last figure printed, each column in its unit."""
    grade = Fraction(percent) / 100
    flow = full_flow_m3_per_s(4 * IN_NM, grade, TUBING) * US_CONSTANT
    velocity = full_velocity_m_per_s(4 * IN_NM, grade, TUBING) * US_CONSTANT
    acre = flow_from_area_m3_per_s(ACRE_M2, IN_PER_DAY_MM_PER_H)

    assert f"{flow / FT3_M3:.5f}" == cfs
    assert f"{flow / GPM_M3_PER_S:.2f}" == gpm
    assert f"{velocity / FT_M:.3f}" == ft_per_s
    assert f"{flow / acre * 8 / 3:.2f}" == acres_3_8
    assert f"{flow / acre * 2:.2f}" == acres_1_2
    assert f"{flow / flow_from_area_m3_per_s(FT_M**2, 25.4):.0f}" == ft2


# Derived; the constant of the rational method. An acre of survey feet gives 1.008337 instead.
@pytest.mark.parametrize(
    ("area_ft2", "mm_per_h", "cfs", "gpm"),
    [
        (43_560, IN_PER_DAY_MM_PER_H, "0.042014", "18.857"),
        (43_560, 25.4, "1.008333", "452.571"),
        (1000, 25.4, "0.023148", "10.390"),
    ],
)
def test_water_from_an_area(area_ft2: int, mm_per_h: float, cfs: str, gpm: str) -> None:
    """An inch a day or an hour off an acre or a thousand square feet."""
    flow = flow_from_area_m3_per_s(area_ft2 * FT_M**2, mm_per_h)

    assert f"{flow / FT3_M3:.6f}" == cfs
    assert f"{flow / GPM_M3_PER_S:.3f}" == gpm


# Hydraulic elements with n constant: derived with other programs from the circle.
@pytest.mark.parametrize(
    ("fill", "area", "radius", "velocity", "flow"),
    [
        (0.10, "0.0520", "0.2541", "0.4012", "0.0209"),
        (0.20, "0.1424", "0.4824", "0.6151", "0.0876"),
        (0.30, "0.2523", "0.6838", "0.7761", "0.1958"),
        (0.40, "0.3735", "0.8569", "0.9022", "0.3370"),
        (0.50, "0.5000", "1.0000", "1.0000", "0.5000"),
        (0.60, "0.6265", "1.1106", "1.0724", "0.6718"),
        (0.70, "0.7477", "1.1849", "1.1198", "0.8372"),
        (0.80, "0.8576", "1.2168", "1.1397", "0.9775"),
        (0.90, "0.9480", "1.1921", "1.1243", "1.0658"),
        (0.95, "0.9813", "1.1458", "1.0950", "1.0745"),
    ],
)
def test_hydraulic_elements(fill: float, area: str, radius: str, velocity: str, flow: str) -> None:
    """Each row of the table, to its fourth place."""
    found = hydraulic_elements(fill)
    shares = (found.area, found.radius, found.velocity, found.flow)

    assert tuple(f"{share:.4f}" for share in shares) == (area, radius, velocity, flow)


def test_most_flow_and_most_velocity() -> None:
    """Most flow is 1.0757 at 0.938 and most velocity 1.1400 at 0.813 of the bore (derived)."""
    fastest = max(range(1, 1000), key=lambda mils: hydraulic_elements(mils / 1000).velocity)

    assert (f"{MOST_FLOW_SHARE:.4f}", f"{MOST_FLOW_FILL:.3f}") == ("1.0757", "0.938")
    assert fastest == 813
    assert f"{hydraulic_elements(0.813).velocity:.4f}" == "1.1400"


def test_part_full_depth() -> None:
    """20 gal/min at 0.5 % runs 0.1429 ft deep at 1.2469 ft/s (derived with k = 1.486)."""
    found = part_full(20 * GPM_M3_PER_S / US_CONSTANT, 4 * IN_NM, Fraction(1, 200), TUBING)

    assert f"{found.fill * 4 / 12:.6f}" == "0.142900"
    assert f"{found.fill:.4f}" == "0.4287"
    assert f"{found.velocity_m_per_s * US_CONSTANT / FT_M:.4f}" == "1.2469"
    assert found.other_fill is None


def keeps(velocity: float, bore_nm: int, n: float, percent: Fraction, within: Fraction) -> bool:
    """Whether a full pipe comes to a velocity at a grade, good to so much of a percent."""
    low, high = (
        full_velocity_m_per_s(bore_nm, (percent + off) / 100, n) for off in (-within, within)
    )
    return low <= velocity <= high


# Minimum grades, from memory of NRCS EFH chapter 14 and ASABE EP480; the thousandths derived.
@pytest.mark.parametrize(
    ("n", "velocity", "percent"),
    [
        (TUBING, LEAST_VELOCITY, ["0.10", "0.07", "0.05", "0.04"]),
        (TUBING, LEAST_VELOCITY_WITH_SILT, ["0.81", "0.55", "0.41", "0.32"]),
        (TILE, LEAST_VELOCITY, ["0.08", "0.05", "0.04", "0.03"]),
        (TILE, LEAST_VELOCITY_WITH_SILT, ["0.60", "0.41", "0.30", "0.24"]),
    ],
)
def test_minimum_grades(n: float, velocity: float, percent: list[str]) -> None:
    """3, 4, 5 and 6 in, by material and by the velocity to keep, as the table rounds them."""
    for inches, shown in zip((3, 4, 5, 6), percent, strict=True):
        assert keeps(velocity, inches * IN_NM, n, Fraction(shown), Fraction("0.0075"))


@pytest.mark.parametrize(
    ("n", "velocity", "percent"),
    [
        (TUBING, LEAST_VELOCITY_WITH_SILT, ["0.805", "0.549", "0.407", "0.320"]),
        (TILE, LEAST_VELOCITY, ["0.077", "0.053", "0.039", "0.031"]),
        (TILE, LEAST_VELOCITY_WITH_SILT, ["0.605", "0.412", "0.306", "0.240"]),
    ],
)
def test_minimum_grades_finely(n: float, velocity: float, percent: list[str]) -> None:
    """The same to a thousandth of a percent (derived with k = 1.486)."""
    for inches, shown in zip((3, 4, 5, 6), percent, strict=True):
        slow = velocity / US_CONSTANT
        assert keeps(slow, inches * IN_NM, n, Fraction(shown), Fraction("0.0005"))


def test_one_inch_pipe_hardly_scours() -> None:
    """A 1 in pipe needs 0.44 % for 0.5 ft/s and 3.48 % for 1.4 ft/s (derived)."""
    half = Fraction("0.005")
    assert keeps(LEAST_VELOCITY, IN_NM, TUBING, Fraction("0.44"), half)
    assert keeps(LEAST_VELOCITY_WITH_SILT, IN_NM, TUBING, Fraction("3.48"), half)


# Derived with k = 1.486: a measured bore and a smoother wall against the nominal 4 in pipe.
@pytest.mark.parametrize(
    ("thousandths", "n", "percent", "gpm"),
    [
        (3875, 0.015, "0.5", "48.10"),
        (4000, 0.009, "0.5", "87.24"),
        (1000, 0.015, "1", "1.836"),
        (1000, 0.012, "1", "2.295"),
        (1000, 0.009, "1", "3.060"),
    ],
)
def test_bore_and_roughness(thousandths: int, n: float, percent: str, gpm: str) -> None:
    """The bore as measured and the n chosen move the capacity as they should."""
    bore_nm = IN_NM * thousandths // 1000
    flow = full_flow_m3_per_s(bore_nm, Fraction(percent) / 100, n) * US_CONSTANT
    places = len(gpm.split(".")[1])

    assert f"{flow / GPM_M3_PER_S:.{places}f}" == gpm


# Corrugated and tile: from memory of NRCS EFH chapter 14 and ASABE EP480. Smooth: City of
# Austin, Drainage Criteria Manual, table 5-2 (seen, austin-tx.elaws.us, section 5.3.4).
def test_roughness_by_pipe() -> None:
    """Each n as its source prints it; smooth pipe doubles its n by being perforated."""
    assert list(ROUGHNESS.values()) == [0.015, 0.017, 0.020, 0.013, 0.010, 0.020]
    assert ROUGHNESS["smooth plastic, perforated"] == 2 * ROUGHNESS["smooth plastic"]


# Student notes on land drainage (repository surya3141/Gate-2026-AG), as arithmetic only:
# their "d" stands where h belongs.
@pytest.mark.parametrize(
    ("k", "below", "head", "metres"), [(0.5, 3, 1, 34.16), (0.2, 2.8, 0.8, 18.48)]
)
def test_hooghoudt_spacings(k: float, below: float, head: float, metres: float) -> None:
    """The two worked spacings, printed as 34.2 and 18.5 m."""
    spacing = drain_spacing(DrainedGround(k, k, below, head), 0.012)

    assert spacing == pytest.approx(metres, abs=0.005)


def test_hooghoudt_terms_alone() -> None:
    """On a tight floor S^2 = 4 K h^2 / q, deep down S^2 = 8 K d h / q.

    Ali, Practices of Irrigation and On-farm Water Management, equations 9.16 and 9.17;
    K 2 in/h, h 9 in and q 0.5 in/h give 36 in (derived).
    """
    assert drain_spacing(DrainedGround(2, 0, 0, 9), 0.5) == 36
    assert drain_spacing(DrainedGround(0, 2, 4, 9), 0.5) == pytest.approx(sqrt(8 * 2 * 4 * 9 / 0.5))
    assert drain_discharge(DrainedGround(2, 2, 4, 9), 48) * 48**2 == pytest.approx(576 + 648)


# ILRI Publication 16, Drainage Principles and Applications, 2nd ed. 1994, chapter 8, first
# example of Hooghoudt's equation (figures from memory): pipes of radius 0.10 m at 1.8 m, the
# impermeable layer at 6.8 m, K 0.14 m/d, 1 mm/d to drain, water table 1.0 m down. It prints
# a spacing of 56 m and reads the equivalent depth off a table; 55.70 m is the exact series.
def test_hooghoudt_worked_example() -> None:
    """The whole example: the equivalent depth that belongs to the spacing is found with it."""
    soil = DrainedSoil(conductivity=0.14, head=0.8, depth_below=5.0, radius=0.10)
    spacing = soil_spacing(soil, 0.001)

    assert spacing is not None
    assert round(spacing) == 56
    assert spacing == pytest.approx(55.70, abs=0.01)
    assert equivalent_depth(5.0, spacing, 0.10) == pytest.approx(3.063, abs=0.001)
    assert soil_discharge(soil, spacing) == pytest.approx(0.001)


# Moody's fit for D/L up to 0.3 (from memory): d = D / (1 + (D/L)((8/pi) ln(D/r) - 3.4)).
# It runs 2 to 5 % over the series.
@pytest.mark.parametrize("spacing", [20, 50, 75, 100])
def test_equivalent_depth_against_a_fit(spacing: float) -> None:
    """5 m to the layer, drains of 0.1 m: within 5 % below what another formula gives."""
    share = 5 / spacing
    fit = 5 / (1 + share * (8 / pi * log(5 / 0.1) - 3.4))

    assert 0.95 * fit < equivalent_depth(5, spacing, 0.1) < fit


def slits(conductivity_in_per_h: float, piped_spacing_in: float = 48) -> SlitGrid:
    """Slits 1 x 9 in at 16 in, crossed by piped slits."""
    piped_nm = round(piped_spacing_in * IN_NM)
    return SlitGrid(IN_NM, 9 * IN_NM, 16 * IN_NM, piped_nm, conductivity_in_per_h * 25.4)


# Derived: conductivity x 1 in / 16 in. 59.06 in/h is 150 cm/h, a good drainage sand by
# "Slit drainage", pitchcare.com (seen).
@pytest.mark.parametrize(
    ("sand", "rate"), [(6, "0.375"), (20, "1.250"), (59.06, "3.691"), (100, "6.250")]
)
def test_intake(sand: float, rate: str) -> None:
    """Inches an hour over the whole surface that slits let in."""
    assert f"{intake_mm_per_h(slits(sand)) / 25.4:.3f}" == rate


# Derived: X = sqrt(4 K b h^2 / (R s)) for a rain R of 1 in/h.
@pytest.mark.parametrize(("sand", "apart"), [(20, 20.1), (59.06, 34.6), (120, 49.3)])
def test_carry(sand: float, apart: float) -> None:
    """A slit carries 1 in/h to piped slits so many inches apart; the other way round too."""
    assert carry_mm_per_h(slits(sand, apart)) / 25.4 == pytest.approx(1, rel=0.005)
    ground = DrainedGround(above_k=sand, below_k=0, equivalent_depth=0, head=9)
    assert drain_spacing(ground, discharge=16) == pytest.approx(apart, abs=0.05)


def test_sand_for_four_feet() -> None:
    """For piped slits 48 in apart and 1 in/h the sand must pass 113.8 in/h (derived)."""
    assert carry_mm_per_h(slits(113.78)) / 25.4 == pytest.approx(1, rel=1e-4)


def test_the_usual_pattern_is_held_up_along_the_slit() -> None:
    """With sand of 20 in/h the carry governs, at 0.176 in/h (derived: 20 / 113.78)."""
    grid = slits(20)
    flow = full_flow_m3_per_s(4 * IN_NM, Fraction(1, 200), TUBING) * US_CONSTANT
    rates = {
        Gate.INTAKE: intake_mm_per_h(grid) / 25.4,
        Gate.CARRY: carry_mm_per_h(grid) / 25.4,
        Gate.COLLECTOR: pipe_mm_per_h(flow, 5038 * FT_M**2) / 25.4,
    }

    assert governing_gate(rates) is Gate.CARRY
    assert f"{rates[Gate.CARRY]:.3f}" == "0.176"
    assert f"{rates[Gate.COLLECTOR]:.3f}" == "1.000"
