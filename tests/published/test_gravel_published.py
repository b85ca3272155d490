"""Gravel beside sand: factors by edition, and a worked filter; sources beside each."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from models.science.materials.gradation import EDITIONS, USGA_1993, USGA_2004
from models.science.materials.gravel import (
    GRAVEL_EDITIONS,
    Factor,
    GravelLimits,
    GravelSizes,
    SandSizes,
    d15_range_um,
    judge_gravel,
    limits_of,
)
from models.science.quality.verdict import Verdict

SAND = SandSizes(d15_um=250, d85_um=750)
GOOD = GravelSizes(3000, 7500, Fraction(0), Fraction(10), Fraction(5))


def out(edition: str, changed: dict[str, Any]) -> set[Factor]:
    """Factors that a gravel changed in these figures fails beside the sand above."""
    results = judge_gravel(replace(GOOD, **changed), SAND, limits_of(edition))
    return {result.factor for result in results if result.verdict is Verdict.OUT}


# Wording of 2004 as quoted on a superintendents' forum, test.gcsaa.org, "USGA(sorta)" (seen):
# D85 of 0.75 mm allows a D15 of 6.0 mm; D15 of 0.25 mm asks for 1.25 mm.
@pytest.mark.parametrize(
    ("changed", "fails"),
    [
        ({}, set()),
        ({"d15_um": 6000, "d90_um": 18_000}, set()),
        ({"d15_um": 6001, "d90_um": 18_000}, {Factor.BRIDGING}),
        ({"d15_um": 1250, "d90_um": 3750}, set()),
        ({"d15_um": 1249, "d90_um": 3747}, {Factor.PERMEABILITY}),
        ({"d90_um": 9000}, set()),
        ({"d90_um": 9001}, {Factor.UNIFORMITY}),
        ({"above_12_mm": Fraction("0.1")}, {Factor.TOO_LARGE}),
        ({"below_2_mm": Fraction("10.1")}, {Factor.BELOW_2_MM}),
        ({"below_1_mm": Fraction("5.1")}, {Factor.BELOW_1_MM}),
    ],
)
def test_factors_of_2004(changed: dict[str, Any], fails: set[Factor]) -> None:
    """Each factor alone fails just beyond its limit and passes on it."""
    assert out(USGA_2004, changed) == fails


# The 1993 figures are from memory of its table 2.
@pytest.mark.parametrize(
    ("changed", "fails"),
    [
        ({"d15_um": 3750, "d90_um": 9375}, set()),
        ({"d15_um": 3751, "d90_um": 9375}, {Factor.BRIDGING}),
        ({"d90_um": 7501}, {Factor.UNIFORMITY}),
    ],
)
def test_factors_of_1993(changed: dict[str, Any], fails: set[Factor]) -> None:
    """Bridging of 5 and uniformity of 2.5 are stricter than what came after."""
    assert out(USGA_1993, changed) == fails
    assert out(USGA_2004, changed) == set()


def test_permeability_is_the_same_in_both_editions() -> None:
    """Five times the D15 of the sand is enough, a micrometre less is not."""
    for edition in (USGA_1993, USGA_2004):
        assert out(edition, {"d15_um": 1250, "d90_um": 3000}) == set()
        assert out(edition, {"d15_um": 1249, "d90_um": 3000}) == {Factor.PERMEABILITY}


# US Army Corps of Engineers, filter of a shore structure (seen,
# coastalhydraulicslaboratoryfact.tpub.com/4_010491/4_0104910433.htm): a base of D15 0.17 mm
# and D85 1.5 mm; 5 x 1.5 = 7.5 mm and 5 x 0.17 = 0.85 mm.
def test_worked_filter() -> None:
    """The D15 of the filter lies from 0.85 to 7.5 mm by the older factors of 5."""
    limits = GravelLimits(Fraction(5), Fraction(5), Fraction(5, 2))

    assert d15_range_um(SandSizes(170, 1500), limits) == (Fraction(850), Fraction(7500))


def test_editions_of_gravel_and_sand_are_the_same() -> None:
    """Whatever edition is chosen, both tables are held."""
    assert set(GRAVEL_EDITIONS) == set(EDITIONS)
