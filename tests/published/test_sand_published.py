"""Sand: grading bands, bulking, density and quantities against their sources."""

from __future__ import annotations

from fractions import Fraction

import pytest

from models.science.materials.bulking import bulking
from models.science.materials.gradation import USGA_1993, Grain, judge_gradation
from models.science.materials.sand import LB_PER_FT3, sand_mass_ug
from models.science.quality.verdict import Verdict
from models.science.slits.floor import CutPiece
from models.science.slits.hole import Hole, SlitSection

IN_NM, FT_NM = 25_400_000, 304_800_000
FT3_PL = 28_316_846_592_000
YD3_PL = 27 * FT3_PL
LB_UG = 453_592_370
SHORT_TON_UG = 2000 * LB_UG
DEFAULTS = {
    Grain.FINE_GRAVEL: "1",
    Grain.VERY_COARSE: "5",
    Grain.COARSE: "30",
    Grain.MEDIUM: "33",  # ten percent is left free for the cases
    Grain.FINE: "15",
    Grain.VERY_FINE: "3",
    Grain.SILT: "2",
    Grain.CLAY: "1",
}


def out(**changed: str) -> list[int]:
    """Indices of the bands that a sand changed in these fractions fails."""
    words = DEFAULTS | {Grain[name]: share for name, share in changed.items()}
    shares = {grain: Fraction(share) for grain, share in words.items()}
    results = judge_gradation(shares, USGA_1993)
    return [i for i, result in enumerate(results) if result.verdict is Verdict.OUT]


# USGA Recommendations, 1993 revision, as printed in the Univ. of Arizona turf bulletin of
# June 1994, turf.arizona.edu/ccps0694.html (seen).
@pytest.mark.parametrize(
    ("changed", "bands"),
    [
        ({"FINE_GRAVEL": "3.0"}, []),
        ({"FINE_GRAVEL": "3.1"}, [0]),
        ({"FINE_GRAVEL": "2", "VERY_COARSE": "9"}, [1]),
        ({"FINE_GRAVEL": "1", "VERY_COARSE": "9"}, []),
        ({"COARSE": "20", "MEDIUM": "40.0"}, []),
        ({"COARSE": "20", "MEDIUM": "39.9"}, [2]),
        ({"FINE": "20"}, []),
        ({"FINE": "20.1"}, [3]),
        ({"VERY_FINE": "5.1"}, [4]),
        ({"SILT": "5.1"}, [5]),
        ({"CLAY": "3.1"}, [6]),
        ({"VERY_FINE": "4.5", "SILT": "4.0", "CLAY": "2.0"}, [7]),
        ({"VERY_FINE": "4.5", "SILT": "4.0", "CLAY": "1.5"}, []),
    ],
)
def test_usga_1993_bands(changed: dict[str, str], bands: list[int]) -> None:
    """A share on its limit passes; sums fail though each part alone would pass."""
    assert out(**changed) == bands


@pytest.mark.parametrize(
    ("moist", "flooded"),
    [(200_000_000, 160_000_000), (150_000_000, 120_000_000)],
    ids=["civilease.com bulking-of-sand", "curioustab.com exam item"],
)
def test_bulking_as_printed(moist: int, flooded: int) -> None:
    """Both worked tests give 25 % (seen)."""
    assert bulking(moist, flooded) == Fraction(1, 4)


def slit_pl(width_nm: int, depth_nm: int, length_nm: int, pipe_nm: int = 0) -> int:
    """Sand that a slit with square ends takes, by the program's own hole."""
    section = SlitSection(width_nm, depth_nm, pipe_nm=pipe_nm)
    return round(Hole(section, (CutPiece(0, length_nm, depth_nm),)).volume_pl)


def test_sand_in_a_foot_of_slit() -> None:
    """1 in by 9 in by 1 ft is 0.0625 ft3, 432 ft to the cubic yard (derived)."""
    foot_pl = slit_pl(IN_NM, 9 * IN_NM, FT_NM)

    assert foot_pl * 16 == FT3_PL
    assert slit_pl(IN_NM, 9 * IN_NM, 432 * FT_NM) == YD3_PL


def test_sand_in_a_metre_of_slit() -> None:
    """The same slit takes 5.806 L for each metre (derived)."""
    assert f"{slit_pl(IN_NM, 9 * IN_NM, 10**9) / 10**12:.3f}" == "5.806"


def test_pipe_takes_its_share() -> None:
    """A pipe of 1 in outside takes 0.005454 ft3 for each foot (derived)."""
    full = slit_pl(IN_NM, 9 * IN_NM, FT_NM)
    piped = slit_pl(IN_NM, 9 * IN_NM, FT_NM, IN_NM)

    assert f"{(full - piped) / FT3_PL:.6f}" == "0.005454"


@pytest.mark.parametrize(
    ("pounds", "pounds_a_foot"),
    [(90, "5.6250"), (100, "6.2500"), (110, "6.8750")],
)
def test_mass_by_foot(pounds: int, pounds_a_foot: str) -> None:
    """Pounds in a foot of slit (derived)."""
    density = pounds * LB_PER_FT3
    mass_ug = sand_mass_ug(slit_pl(IN_NM, 9 * IN_NM, FT_NM), density)

    assert f"{mass_ug / LB_UG:.4f}" == pounds_a_foot
