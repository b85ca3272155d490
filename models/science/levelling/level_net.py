"""Adjustment of levels by least squares, where a run meets more than it needs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import exp, lgamma, log, sqrt
from typing import TypeVar

from models.counted import CountedNoun
from models.errors import CalculationInputError

MOST_EXACT = 40
"""Unknown heights up to which the equations are solved in fractions; beyond in floats."""

MOST_UNKNOWN = 400
"""Unknown heights up to which they are solved at all."""

_LEAST_REDUNDANCY = Fraction(1, 10**9)
"""Share of a reading's variance below which no other reading checks it."""


@dataclass(frozen=True, slots=True)
class NetSight:
    """A reading on a point from one set-up.

    Attributes
    ----------
    setup : str
        Name of the set-up. [-]
    point : str
        Point that the rod stood on. [-]
    reading_nm : int
        The reading. [nm on the rod]
    variance_nm2 : Fraction
        How sure it is: of the reading and of the direction of its sight. [nm2]
    """

    setup: str
    point: str
    reading_nm: int
    variance_nm2: Fraction


@dataclass(frozen=True, slots=True)
class KnownLevel:
    """Elevation of a point that is known beforehand.

    Attributes
    ----------
    level_nm : int
        The elevation. [nm above datum]
    variance_nm2 : Fraction
        0 holds the point as it is; more lets it take part in the adjustment. [nm2]
    """

    level_nm: int
    variance_nm2: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class NetResidual:
    """Correction of a reading, and how unlikely it is.

    Attributes
    ----------
    sight : NetSight
        The reading. [nm]
    residual_nm : Fraction
        Adjusted less read. [nm]
    normalised : float or None
        Over its own standard deviation; None where no other reading checks it. [-]
    """

    sight: NetSight
    residual_nm: Fraction
    normalised: float | None


@dataclass(frozen=True, slots=True)
class AdjustedNet:
    """Levels that fit all readings best.

    Attributes
    ----------
    levels_nm : mapping of str to Fraction
        Elevation of every point. [nm above datum]
    heights_nm : mapping of str to Fraction
        Height of instrument of every set-up. [nm above datum]
    sigmas_nm : mapping of str to float
        Standard deviation of every point by the errors stated. [nm]
    residuals : tuple of NetResidual
        One for each reading, in their order. [nm]
    freedom : int
        Readings more than the unknowns need. [-]
    unit_weight : float or None
        Standard error of unit weight: near 1 where readings err as stated; None
        where nothing is left over. [-]
    """

    levels_nm: Mapping[str, Fraction]
    heights_nm: Mapping[str, Fraction]
    sigmas_nm: Mapping[str, float]
    residuals: tuple[NetResidual, ...]
    freedom: int
    unit_weight: float | None

    @property
    def bounds(self) -> tuple[float, float]:
        """Least and most that the standard error of unit weight is in 95 of 100 sound nets [-]."""
        return (
            sqrt(chi_square(0.025, self.freedom) / self.freedom),
            sqrt(chi_square(0.975, self.freedom) / self.freedom),
        )

    @property
    def is_as_stated(self) -> bool:
        """Whether readings err no more and no less than stated, at 95 %."""
        if self.unit_weight is None:
            return True
        low, high = self.bounds
        return low <= self.unit_weight <= high

    @property
    def worst(self) -> NetResidual | None:
        """The residual that is largest over its own standard deviation.

        None where one reading is to spare: then all stand out alike.
        """
        if self.freedom < 2:
            return None
        judged = [one for one in self.residuals if one.normalised is not None]
        return max(judged, key=lambda one: abs(one.normalised or 0.0), default=None)


_Row = tuple[dict[int, int], Fraction, Fraction]
"""Coefficients by unknown, what is observed, and its variance."""


def adjust_net(sights: Sequence[NetSight], known: Mapping[str, KnownLevel]) -> AdjustedNet:
    r"""Adjust a net of levels by least squares.

    Unknown are the heights of instruments and of points; each reading says

    .. math::
        HI - E = r + v, \qquad \sum v^2 / \sigma^2 \to \min

    Parameters
    ----------
    sights : sequence of NetSight
        Every reading, intermediate sights left out. [nm]
    known : mapping of str to KnownLevel
        Points known beforehand. [nm above datum]

    Returns
    -------
    net : AdjustedNet
        Levels, residuals and how sure they are. [nm]

    Raises
    ------
    CalculationInputError
        If nothing is known, a point hangs from nothing that is known, a reading has no
        variance, or there are more unknowns than ``MOST_UNKNOWN``.

    Notes
    -----
    Dense normal equations, exact up to ``MOST_EXACT`` unknowns: in one loop of equal
    sights the outcome is the share by set-ups to the nanometre. Derived here.

    Examples
    --------
    By hand: out and back over one turning point, 4 too high at the end; each of the
    four readings takes one, so the turning point comes down by two.

    >>> one = Fraction(1)
    >>> sights = [NetSight("1", "BM", 10, one), NetSight("1", "TP", 6, one)]
    >>> sights += [NetSight("2", "TP", 5, one), NetSight("2", "BM", 5, one)]
    >>> net = adjust_net(sights, {"BM": KnownLevel(100)})
    >>> net.levels_nm["TP"], net.freedom, [one.residual_nm for one in net.residuals]
    (Fraction(102, 1), 1, [Fraction(-1, 1), Fraction(1, 1), Fraction(-1, 1), Fraction(1, 1)])
    """
    names = _unknowns(sights, known)
    rows = [_sight_row(sight, names, known) for sight in sights]
    rows += [
        ({names[("point", point)]: 1}, Fraction(held.level_nm), held.variance_nm2)
        for point, held in known.items()
        if ("point", point) in names
    ]
    solution, cofactors = _solve(rows, len(names))
    levels = {point: Fraction(held.level_nm) for point, held in known.items()}
    levels |= {name: solution[n] for (kind, name), n in names.items() if kind == "point"}
    sigmas = dict.fromkeys(levels, 0.0)
    sigmas |= {name: sqrt(cofactors[n][n]) for (kind, name), n in names.items() if kind == "point"}
    judged = [_judge(row, solution, cofactors) for row in rows]
    freedom = len(rows) - len(names)
    total = sum(
        (miss**2 / row[2] for row, (miss, _) in zip(rows, judged, strict=True)), Fraction(0)
    )
    return AdjustedNet(
        levels_nm=levels,
        heights_nm={name: solution[n] for (kind, name), n in names.items() if kind == "setup"},
        sigmas_nm=sigmas,
        residuals=tuple(
            NetResidual(sight, *one) for sight, one in zip(sights, judged, strict=False)
        ),
        freedom=freedom,
        unit_weight=sqrt(total / freedom) if freedom else None,
    )


def _unknowns(
    sights: Sequence[NetSight], known: Mapping[str, KnownLevel]
) -> dict[tuple[str, str], int]:
    """Number of every unknown; points that are held are none."""
    if not known:
        _refuse("no point of it is known", "Give the elevation of a point")
    if any(sight.variance_nm2 <= 0 for sight in sights):
        _refuse("a reading has no error", "Give what readings are good to")
    names: dict[tuple[str, str], int] = {}
    for sight in sights:
        names.setdefault(("setup", sight.setup), len(names))
        held = known.get(sight.point)
        if held is None or held.variance_nm2 > 0:
            names.setdefault(("point", sight.point), len(names))
    if len(names) > MOST_UNKNOWN:
        _refuse(
            f"{CountedNoun(len(names)):height|heights} of it would have to be found",
            f"Give at most {MOST_UNKNOWN} at once",
        )
    return names


def _refuse(why: str, accepted: str) -> None:
    raise CalculationInputError(what="the net", why=why, accepted=accepted)


def _sight_row(
    sight: NetSight, names: Mapping[tuple[str, str], int], known: Mapping[str, KnownLevel]
) -> _Row:
    """One reading as an equation."""
    row, seen = {names[("setup", sight.setup)]: 1}, Fraction(sight.reading_nm)
    point = names.get(("point", sight.point))
    if point is None:
        seen += known[sight.point].level_nm
    else:
        row[point] = -1
    return row, seen, sight.variance_nm2


Number = TypeVar("Number", Fraction, float)


def _solve(rows: Iterable[_Row], size: int) -> tuple[list[Fraction], list[list[Fraction]]]:
    """Solution of the normal equations, and the inverse of their matrix."""
    matrix = [[Fraction(0)] * (2 * size + 1) for _ in range(size)]
    for row, seen, noise in rows:
        for i, a in row.items():
            for j, b in row.items():
                matrix[i][j] += a * b / noise
            matrix[i][size] += a * seen / noise
    unit = max((matrix[n][n] for n in range(size)), default=Fraction(1))
    for n in range(size):
        matrix[n][size + 1 + n] = unit
    if size <= MOST_EXACT:
        solved = _eliminate(matrix, Fraction(0))
    else:
        rough = _eliminate([[float(one) for one in row] for row in matrix], float(unit) * 1e-12)
        solved = [[Fraction(one) for one in row] for row in rough]
    return (
        [row[size] for row in solved],
        [[one / unit for one in row[size + 1 :]] for row in solved],
    )


def _eliminate(matrix: list[list[Number]], nothing: Number) -> list[list[Number]]:
    """Gauss and Jordan's elimination; the matrix is positive, so its diagonal serves as pivot."""
    for n in range(len(matrix)):
        pivot = matrix[n][n]
        if pivot <= nothing:
            _refuse(
                "a point of it hangs from nothing that is known",
                "Give the sights that join it to a known point",
            )
        lead = [one / pivot for one in matrix[n]]
        matrix[n] = lead
        for m, row in enumerate(matrix):
            factor = row[n]
            if m != n and factor:
                matrix[m] = [
                    one - factor * other if other else one
                    for one, other in zip(row, lead, strict=True)
                ]
    return matrix


def _judge(
    equation: _Row, solution: Sequence[Fraction], cofactors: Sequence[Sequence[Fraction]]
) -> tuple[Fraction, float | None]:
    """Residual of one equation, and the same over its standard deviation."""
    row, seen, noise = equation
    miss = sum((a * solution[i] for i, a in row.items()), Fraction(0)) - seen
    spread = sum(
        (a * b * cofactors[i][j] for i, a in row.items() for j, b in row.items()), Fraction(0)
    )
    left = noise - spread
    is_checked = left > noise * _LEAST_REDUNDANCY
    return miss, float(miss) / sqrt(left) if is_checked else None


def chi_square(share: float, freedom: int) -> float:
    r"""Value that a chi-square of some degrees of freedom stays below with a probability.

    .. math::
        P(x) = \frac{(x/2)^{k/2} e^{-x/2}}{\Gamma(k/2 + 1)}
        \sum_{n=0}^\infty \frac{(x/2)^n}{(k/2 + 1) \cdots (k/2 + n)}

    Parameters
    ----------
    share : float
        The probability, above 0 and below 1. [-]
    freedom : int
        Degrees of freedom, 1 or more. [-]

    Returns
    -------
    value : float
        To nine figures. [-]

    Raises
    ------
    CalculationInputError
        If the probability or the degrees of freedom are out of range.

    Notes
    -----
    The series of the incomplete gamma function, halved in until it meets; from memory
    of handbooks of functions, held to a published table by a test.

    Examples
    --------
    As tables of it print: 3.841 for 95 % and one degree of freedom.

    >>> round(chi_square(0.95, 1), 3)
    3.841
    """
    if not 0 < share < 1 or freedom < 1:
        raise CalculationInputError(
            what="a chi-square",
            why="its probability or its degrees of freedom are out of range",
            accepted="Give a probability between 0 and 1, and 1 degree of freedom or more",
        )
    low, high = 0.0, 10.0 * freedom + 100.0
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if _below(middle, freedom) < share else (low, middle)
    return (low + high) / 2


def _below(value: float, freedom: int) -> float:
    """Probability that a chi-square is below a value."""
    if value <= 0:
        return 0.0
    half, shape = value / 2, freedom / 2
    term = total = exp(shape * log(half) - half - lgamma(shape + 1))
    step = 1
    while term > total * 1e-15:
        term *= half / (shape + step)
        total += term
        step += 1
    return min(total, 1.0)
