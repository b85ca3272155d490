"""Grade of a reach, its margin inside the limits, and the length that would prove it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from models.errors import CalculationInputError
from models.science.levelling.laser_plane import Length
from models.science.quality.verdict import Verdict


@dataclass(frozen=True, slots=True)
class GradeLimits:
    """The grades a reach may have.

    Attributes
    ----------
    least : Fraction or None
        Flattest allowed. [nm/nm]
    most : Fraction or None
        Steepest allowed. [nm/nm]
    """

    least: Fraction | None = None
    most: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Reach:
    """The pipe between two shots.

    Attributes
    ----------
    start_nm : int
        Smaller station. [nm]
    end_nm : int
        Larger station. [nm]
    fall_nm : int or Fraction
        Fall in the direction of flow; negative is adverse. [nm]
    verdict : Verdict
        Whether the grade is within limits, as far as the readings prove it. [-]
    """

    start_nm: int
    end_nm: int
    fall_nm: Length
    verdict: Verdict

    @property
    def length_nm(self) -> int:
        """Length along the stations [nm]."""
        return self.end_nm - self.start_nm

    @property
    def grade(self) -> Fraction:
        """Fall for each unit of length [nm/nm], positive with the flow."""
        return Fraction(self.fall_nm) / self.length_nm


def margin_nm(fall_nm: Length, length_nm: int, limits: GradeLimits) -> Length:
    """How much more or less a reach could fall before it leaves the nearer limit.

    Parameters
    ----------
    fall_nm : int or Fraction
        Fall in the direction of flow. [nm]
    length_nm : int
        Length of the reach. [nm]
    limits : GradeLimits
        The grades allowed, at least one of them given. [nm/nm]

    Returns
    -------
    margin : int or Fraction
        Fall inside the nearer limit; below zero beyond it. [nm]

    Raises
    ------
    CalculationInputError
        If the length is not above zero, or there is no limit.

    Notes
    -----
    The stations are taken as true, so the margin has the variance of the fall.
    Derived here.

    Examples
    --------
    By hand: 100 over 10 000 is 50 more than the 0.5 % limit asks.

    >>> margin_nm(100, 10_000, GradeLimits(least=Fraction(1, 200)))
    Fraction(50, 1)
    """
    if length_nm <= 0:
        raise CalculationInputError(
            what="a grade",
            why="the two shots are not apart",
            accepted="Give two shots at different stations",
        )
    margins: list[Length] = []
    if limits.least is not None:
        margins.append(fall_nm - limits.least * length_nm)
    if limits.most is not None:
        margins.append(limits.most * length_nm - fall_nm)
    if not margins:
        raise CalculationInputError(
            what="a margin", why="there is no limit to it", accepted="Give a least or a most grade"
        )
    return min(margins)


def length_to_tell_nm(
    margin: Fraction, fixed_nm2: Fraction, slope: Fraction, z: Fraction
) -> int | None:
    r"""Shortest reach on which readings prove on which side of its limit a grade lies.

    The variance of the fall of a reach of length L is
    :math:`\sigma_0^2 + \tau^2 L^2`: two readings, and a tilt that grows with it.

    Parameters
    ----------
    margin : Fraction
        Grade less limit, either sign. [nm/nm]
    fixed_nm2 : Fraction
        Variance of the fall that does not grow with the length. [nm2]
    slope : Fraction
        Variance of the tilt of the plane. [-]
    z : Fraction
        Standard deviations that go with the confidence. [-]

    Returns
    -------
    length : int or None
        Whole nanometres, rounded up; None where no length would do, since the tilt
        alone is worth more than the margin. [nm]

    Notes
    -----
    From margin x L = z sigma. Derived here.

    Examples
    --------
    By hand: 10 x 1.41421 / 0.01 = 1414.2, so 1415; a tilt of 0.01 hides it at any length.

    >>> length_to_tell_nm(Fraction(1, 100), Fraction(200), Fraction(0), Fraction(1))
    1415
    >>> length_to_tell_nm(Fraction(1, 100), Fraction(200), Fraction(1, 10_000), Fraction(1))
    """
    over = margin**2 - z**2 * slope
    if over <= 0:
        return None
    squared = z**2 * fixed_nm2 / over
    whole = -(-squared.numerator // squared.denominator)
    root = isqrt(whole)
    return root if root * root == whole else root + 1
