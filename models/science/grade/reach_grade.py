"""Grade of a reach, and whether the readings can support a verdict on it."""

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


NOT_ADVERSE = GradeLimits(least=Fraction(0))


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
        Whether the grade is within limits, as far as the readings can tell. [-]
    adverse : Verdict
        OUT when it surely runs backwards, OK when it surely doesn't. [-]
    """

    start_nm: int
    end_nm: int
    fall_nm: Length
    verdict: Verdict
    adverse: Verdict

    @property
    def length_nm(self) -> int:
        """Length along the stations [nm]."""
        return self.end_nm - self.start_nm

    @property
    def grade(self) -> Fraction:
        """Fall for each unit of length [nm/nm], positive with the flow."""
        return Fraction(self.fall_nm) / self.length_nm


def judge_grade(
    fall_nm: Length, length_nm: int, limits: GradeLimits, reading_nm: int = 0
) -> Verdict:
    r"""Judge the grade of a reach by what its two readings can support.

    Readings good to :math:`\pm r` leave the fall uncertain by
    :math:`r\sqrt 2`, the grade by :math:`r\sqrt 2 / L`.

    Parameters
    ----------
    fall_nm : int or Fraction
        Fall in the direction of flow. [nm]
    length_nm : int
        Length of the reach. [nm]
    limits : GradeLimits
        The grades allowed. [nm/nm]
    reading_nm : int
        What one reading is good to, plus or minus. [nm]

    Returns
    -------
    verdict : Verdict
        OK when every grade the readings allow is within limits, OUT when none
        is, TOO_SHORT otherwise. [-]

    Raises
    ------
    CalculationInputError
        If the length is not above zero.

    Notes
    -----
    Compared as squares, so nothing is rounded. With readings taken as exact a
    grade on its limit is OK. The two errors are taken as independent and the
    stations as true. Derived here from the sum of two variances.

    Examples
    --------
    By hand: 100 over 10 000 is 1 %, 50 above the 0.5 % limit; readings good
    to 35 leave 49.5 (well within), good to 36 leave 50.9 (cannot tell).

    >>> half = GradeLimits(least=Fraction(1, 200))
    >>> judge_grade(100, 10_000, half, 35), judge_grade(100, 10_000, half, 36)
    (<Verdict.OK: 'OK'>, <Verdict.TOO_SHORT: 'too short to tell'>)
    """
    if length_nm <= 0:
        raise CalculationInputError(
            what="a grade",
            why="the two shots are not apart",
            accepted="Give two shots at different stations",
        )
    margins: list[Fraction] = []
    if limits.least is not None:
        margins.append(fall_nm - limits.least * length_nm)
    if limits.most is not None:
        margins.append(limits.most * length_nm - fall_nm)
    unsure = 2 * reading_nm**2
    if any(margin < 0 and margin**2 > unsure for margin in margins):
        return Verdict.OUT
    if all(margin >= 0 and margin**2 >= unsure for margin in margins):
        return Verdict.OK
    return Verdict.TOO_SHORT


def length_to_tell_nm(margin: Fraction, reading_nm: int) -> int:
    """Shortest reach on which readings can tell a grade from its limit.

    Parameters
    ----------
    margin : Fraction
        Grade less limit, either sign, not nothing. [nm/nm]
    reading_nm : int
        What one reading is good to, plus or minus. [nm]

    Returns
    -------
    length : int
        Whole nanometres, rounded up. [nm]

    Raises
    ------
    CalculationInputError
        If the margin is nothing: no length would do.

    Notes
    -----
    From r sqrt(2) / L = margin. Derived here.

    Examples
    --------
    By hand: 10 x 1.41421 / 0.01 = 1414.2, so 1415.

    >>> length_to_tell_nm(Fraction(1, 100), 10)
    1415
    """
    if margin == 0:
        raise CalculationInputError(
            what="a length that would tell",
            why="the grade is exactly on its limit",
            accepted="Take a reading that is good to less",
        )
    squared = Fraction(2 * reading_nm**2) / margin**2
    root = isqrt(squared.numerator // squared.denominator)
    return root if root * root == squared else root + 1
