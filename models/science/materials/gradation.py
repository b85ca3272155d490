"""Grading of sand against published bands, by edition."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from models.errors import CalculationInputError
from models.science.quality.verdict import Verdict, judge


class Grain(StrEnum):
    """Size fractions of a sand, coarsest first, with their limits in millimetres."""

    FINE_GRAVEL = "fine gravel 2.0-3.4"
    VERY_COARSE = "very coarse sand 1.0-2.0"
    COARSE = "coarse sand 0.5-1.0"
    MEDIUM = "medium sand 0.25-0.50"
    FINE = "fine sand 0.15-0.25"
    VERY_FINE = "very fine sand 0.05-0.15"
    SILT = "silt 0.002-0.05"
    CLAY = "clay below 0.002"


@dataclass(frozen=True, slots=True)
class Band:
    """Band of a grading: limits of one fraction, or of several together.

    Attributes
    ----------
    grains : tuple of Grain
        The fractions that are added up. [-]
    low : Fraction or None
        Least share by mass. [%]
    high : Fraction or None
        Largest share by mass. [%]
    """

    grains: tuple[Grain, ...]
    low: Fraction | None = None
    high: Fraction | None = None


@dataclass(frozen=True, slots=True)
class BandResult:
    """A band with the measured share.

    Attributes
    ----------
    band : Band
        The band. [%]
    share : Fraction or None
        Share found; None when a fraction was not measured. [%]
    verdict : Verdict
        Whether it fits. [-]
    """

    band: Band
    share: Fraction | None
    verdict: Verdict


USGA_1993 = "USGA 1993"
USGA_2004 = "USGA 2004"

EDITIONS: dict[str, tuple[Band, ...]] = {
    # As printed in a University of Arizona turf bulletin, June 1994.
    USGA_1993: (
        Band((Grain.FINE_GRAVEL,), high=Fraction(3)),
        Band((Grain.FINE_GRAVEL, Grain.VERY_COARSE), high=Fraction(10)),
        Band((Grain.COARSE, Grain.MEDIUM), low=Fraction(60)),
        Band((Grain.FINE,), high=Fraction(20)),
        Band((Grain.VERY_FINE,), high=Fraction(5)),
        Band((Grain.SILT,), high=Fraction(5)),
        Band((Grain.CLAY,), high=Fraction(3)),
        Band((Grain.VERY_FINE, Grain.SILT, Grain.CLAY), high=Fraction(10)),
    ),
}
EDITIONS[USGA_2004] = EDITIONS[USGA_1993]  # from memory: the 2004 table is the same


def judge_gradation(
    shares: Mapping[Grain, Fraction],
    edition: str,
    together: Mapping[tuple[Grain, ...], Fraction] | None = None,
) -> list[BandResult]:
    """Judge a sand's grading by every band of one edition.

    Parameters
    ----------
    shares : mapping of Grain to Fraction
        Share of each fraction by mass; leave out what was not measured. [%]
    edition : str
        Which published table; a key of EDITIONS. [-]
    together : mapping of tuple of Grain to Fraction, optional
        Shares that are known of several fractions as one, such as what passes a sieve. [%]

    Returns
    -------
    results : list of BandResult
        One for each band, in the order of the table. [%]

    Raises
    ------
    CalculationInputError
        If the table of that edition is not held here, a share is negative, or
        the shares come to more than 101 %.

    Notes
    -----
    A share on its limit is OK. Editions differ, so the edition is never
    assumed. A root-zone table for greens is a yardstick for slit sand, not a
    specification of it. Sheets print shares rounded, hence 101 %.

    Examples
    --------
    By inspection: 21 % fine sand is above 20 %.

    >>> results = judge_gradation({Grain.FINE: Fraction(21)}, USGA_1993)
    >>> [str(result.verdict) for result in results][2:5]
    ['not yet measured', 'OUT', 'not yet measured']
    """
    if edition not in EDITIONS:
        raise CalculationInputError(
            what="the grading of a sand",
            why=f"the table of {edition!r} is not held here",
            accepted=f"Choose one of: {', '.join(EDITIONS)}",
        )
    if any(share < 0 for share in shares.values()) or sum(shares.values()) > 101:
        raise CalculationInputError(
            what="the grading of a sand",
            why="a share is below nothing, or the shares come to more than the whole",
            accepted="Give percent retained by mass, not percent passing",
        )
    known = together or {}
    results: list[BandResult] = []
    for band in EDITIONS[edition]:
        found = [shares[grain] for grain in band.grains if grain in shares]
        is_whole = len(found) == len(band.grains)
        share = known.get(band.grains, sum(found, Fraction(0)) if is_whole else None)
        results.append(BandResult(band, share, judge(share, band.low, band.high)))
    return results
