"""Gravel under or around sand: whether it holds the sand back and lets water through."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from models.errors import CalculationInputError
from models.science.materials.gradation import USGA_1993, USGA_2004
from models.science.quality.verdict import Verdict, judge


class Factor(StrEnum):
    """Factors that a gravel is judged by."""

    BRIDGING = "bridging: D15 of the gravel to D85 of the sand"
    PERMEABILITY = "permeability: D15 of the gravel to D15 of the sand"
    UNIFORMITY = "uniformity: D90 to D15 of the gravel"
    TOO_LARGE = "share above 12 mm"
    BELOW_2_MM = "share below 2 mm"
    BELOW_1_MM = "share below 1 mm"


@dataclass(frozen=True, slots=True)
class GravelLimits:
    """Limits of one edition for a gravel.

    Attributes
    ----------
    bridging : Fraction
        Largest D15 of the gravel for each D85 of the sand. [-]
    permeability : Fraction
        Least D15 of the gravel for each D15 of the sand. [-]
    uniformity : Fraction
        Largest D90 for each D15 of the gravel. [-]
    above_12_mm : Fraction
        Largest share. [%]
    below_2_mm : Fraction
        Largest share. [%]
    below_1_mm : Fraction
        Largest share. [%]
    """

    bridging: Fraction
    permeability: Fraction
    uniformity: Fraction
    above_12_mm: Fraction = Fraction(0)
    below_2_mm: Fraction = Fraction(10)
    below_1_mm: Fraction = Fraction(5)


GRAVEL_EDITIONS: dict[str, GravelLimits] = {
    # From memory of table 2 of the 1993 revision.
    USGA_1993: GravelLimits(Fraction(5), Fraction(5), Fraction(5, 2)),
    # The wording of 2004, as quoted on a forum of golf-course superintendents (seen).
    USGA_2004: GravelLimits(Fraction(8), Fraction(5), Fraction(3)),
}
"""Editions differ, and no edition is assumed."""


@dataclass(frozen=True, slots=True)
class SandSizes:
    """Grain sizes of the sand next to the gravel; None where not measured.

    Attributes
    ----------
    d15_um : int or None
        A share of 15 % by mass is finer. [um]
    d85_um : int or None
        A share of 85 % by mass is finer. [um]
    """

    d15_um: int | None
    d85_um: int | None


@dataclass(frozen=True, slots=True)
class GravelSizes:
    """Grain sizes and shares of the gravel; None where not measured.

    Attributes
    ----------
    d15_um : int or None
        A share of 15 % by mass is finer. [um]
    d90_um : int or None
        A share of 90 % by mass is finer. [um]
    above_12_mm : Fraction or None
        Share by mass. [%]
    below_2_mm : Fraction or None
        Share by mass. [%]
    below_1_mm : Fraction or None
        Share by mass. [%]
    """

    d15_um: int | None
    d90_um: int | None
    above_12_mm: Fraction | None = None
    below_2_mm: Fraction | None = None
    below_1_mm: Fraction | None = None


@dataclass(frozen=True, slots=True)
class FactorResult:
    """A factor with its measured value and its limit.

    Attributes
    ----------
    factor : Factor
        Which. [-]
    found : Fraction or None
        Ratio or share; None where not measured. [- or %]
    low : Fraction or None
        Least allowed. [unit of found]
    high : Fraction or None
        Most allowed. [unit of found]
    verdict : Verdict
        Whether it fits. [-]
    """

    factor: Factor
    found: Fraction | None
    low: Fraction | None
    high: Fraction | None
    verdict: Verdict


def limits_of(edition: str) -> GravelLimits:
    """Limits of an edition for a gravel.

    Parameters
    ----------
    edition : str
        A key of GRAVEL_EDITIONS. [-]

    Returns
    -------
    limits : GravelLimits
        Its limits. [-]

    Raises
    ------
    CalculationInputError
        If the limits of that edition are not held here.

    Notes
    -----
    Sources stand beside GRAVEL_EDITIONS.

    Examples
    --------
    By the table.

    >>> limits_of(USGA_2004).bridging
    Fraction(8, 1)
    """
    if edition not in GRAVEL_EDITIONS:
        raise CalculationInputError(
            what="the factors of a gravel",
            why=f"the limits of {edition!r} are not held here",
            accepted=f"Choose one of: {', '.join(GRAVEL_EDITIONS)}",
        )
    return GRAVEL_EDITIONS[edition]


def judge_gravel(gravel: GravelSizes, sand: SandSizes, limits: GravelLimits) -> list[FactorResult]:
    """Judge a gravel beside a sand by every factor of an edition.

    Parameters
    ----------
    gravel : GravelSizes
        The gravel. [um, %]
    sand : SandSizes
        The sand next to it. [um]
    limits : GravelLimits
        What is allowed; ``limits_of`` an edition. [-]

    Returns
    -------
    results : list of FactorResult
        One for each Factor, in their order. [-]

    Raises
    ------
    CalculationInputError
        If a size is not above zero.

    Notes
    -----
    A ratio on its limit is OK. Made for gravel under the root zone of a green
    without a layer between them; around a collector it is a yardstick. With
    fabric between gravel and sand the fabric holds the sand back.

    Examples
    --------
    By hand: 6.0 mm to 0.75 mm is 8, on the limit; to 0.25 mm it is 24.

    >>> found = judge_gravel(GravelSizes(6000, None), SandSizes(250, 750), limits_of(USGA_2004))
    >>> [(str(one.found), str(one.verdict)) for one in found][:3]
    [('8', 'OK'), ('24', 'OK'), ('None', 'not yet measured')]
    """
    sizes = (gravel.d15_um, gravel.d90_um, sand.d15_um, sand.d85_um)
    if any(size is not None and size <= 0 for size in sizes):
        raise CalculationInputError(
            what="the factors of a gravel",
            why="a grain size is not above zero",
            accepted="Give grain sizes in micrometres, and leave out what was not measured",
        )
    bridging = _ratio(gravel.d15_um, sand.d85_um)
    permeability = _ratio(gravel.d15_um, sand.d15_um)
    uniformity = _ratio(gravel.d90_um, gravel.d15_um)
    return [
        _result(Factor.BRIDGING, bridging, None, limits.bridging),
        _result(Factor.PERMEABILITY, permeability, limits.permeability, None),
        _result(Factor.UNIFORMITY, uniformity, None, limits.uniformity),
        _result(Factor.TOO_LARGE, gravel.above_12_mm, None, limits.above_12_mm),
        _result(Factor.BELOW_2_MM, gravel.below_2_mm, None, limits.below_2_mm),
        _result(Factor.BELOW_1_MM, gravel.below_1_mm, None, limits.below_1_mm),
    ]


def _ratio(large: int | None, small: int | None) -> Fraction | None:
    """One size over another, where both were measured."""
    return None if large is None or small is None else Fraction(large, small)


def _result(
    factor: Factor, found: Fraction | None, low: Fraction | None, high: Fraction | None
) -> FactorResult:
    """A factor with its verdict."""
    return FactorResult(factor, found, low, high, judge(found, low, high))


def d15_range_um(sand: SandSizes, limits: GravelLimits) -> tuple[Fraction, Fraction] | None:
    """Range that the D15 of a gravel must lie in beside a sand.

    Parameters
    ----------
    sand : SandSizes
        The sand. [um]
    limits : GravelLimits
        What is allowed. [-]

    Returns
    -------
    range : tuple of Fraction or None
        Least and most; None when the sand was not measured. [um]

    Notes
    -----
    The least may lie above the most: then no gravel does, and a layer or a
    fabric has to come between. What to ask the quarry for.

    Examples
    --------
    By hand: 5 x 0.25 mm and 8 x 0.75 mm.

    >>> [int(size) for size in d15_range_um(SandSizes(250, 750), limits_of(USGA_2004))]
    [1250, 6000]
    """
    if sand.d15_um is None or sand.d85_um is None:
        return None
    return limits.permeability * sand.d15_um, limits.bridging * sand.d85_um
