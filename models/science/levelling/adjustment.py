"""Adjustment of a run: a misclosure shared out over its points."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from fractions import Fraction

from models.errors import CalculationInputError
from models.science.levelling.level_run import ReducedRun


class AdjustBy(StrEnum):
    """Ways to share a correction out over the points of a run."""

    SETUPS = "setups"
    DISTANCE = "distance"


def share_correction(ec_nm: int, weights: Sequence[int]) -> list[int]:
    """Correction of each point of a section, growing to -EC at its end.

    Parameters
    ----------
    ec_nm : int
        Error of closure at the end, computed less known. [nm]
    weights : sequence of int
        Share of each setup: 1 each, or its length. [any one unit]

    Returns
    -------
    corrections : list of int
        Running correction after each setup; the last is exactly -EC. [nm]

    Raises
    ------
    CalculationInputError
        If a weight is negative or all are nothing.

    Notes
    -----
    Each running figure is rounded to the nearest nanometre, ties to even; the
    steps therefore sum to -EC with nothing left over. Derived here.

    Examples
    --------
    By hand: -10 in four equal shares is -2.5, -5, -7.5, -10.

    >>> share_correction(10, [1, 1, 1, 1])
    [-2, -5, -8, -10]
    """
    total = sum(weights)
    if total <= 0 or min(weights) < 0:
        raise CalculationInputError(
            what="the share of a correction",
            why="the setups it is shared over have no length between them",
            accepted="Give each a length above zero, or share by setups",
        )
    done, corrections = 0, []
    for weight in weights:
        done += weight
        corrections.append(round(Fraction(-ec_nm * done, total)))
    return corrections


def adjust_run(run: ReducedRun, by: AdjustBy = AdjustBy.SETUPS) -> list[int]:
    """Correction of every line of a run, so that known points come out as known.

    Parameters
    ----------
    run : ReducedRun
        The run as reduced. [nm]
    by : AdjustBy
        Share by setups or by distance. [-]

    Returns
    -------
    corrections : list of int
        One for each line; add it to the line's elevation. [nm]

    Raises
    ------
    CalculationInputError
        If the share is by distance and a foresight has none.

    Notes
    -----
    Only a known point met by a foresight holds a run; between two such points
    the correction grows from one to the other, after the last it stays. The
    error is laid to a set-up as a whole, so every sight of it takes the share of
    its foresight, intermediate sights as well: published practice, which a book
    worked by hand shows. Least squares would give such a sight half a share less,
    because nothing observes it but its two ends. A known point read as an
    intermediate sight is reported and left out of the adjustment. The sign is
    that of FM 5-233 App. B, correction = -EC.

    Examples
    --------
    By hand: the run ends 2 too high after two setups, so -1 at the first.

    >>> from models.science.levelling.level_run import Sight
    >>> from models.science.levelling.reduction import reduce_levels
    >>> sights = [Sight("BM", bs_nm=5, known_nm=100), Sight("TP", bs_nm=4, fs_nm=2)]
    >>> sights.append(Sight("BM 2", fs_nm=3, known_nm=102))
    >>> adjust_run(reduce_levels(sights))
    [0, -1, -2]

    By hand: the sight at A belongs to the second set-up, which takes -2.

    >>> sights.insert(2, Sight("A", is_nm=3))
    >>> adjust_run(reduce_levels(sights))
    [0, -1, -2, -2]
    """
    corrections = [0] * len(run.lines)
    starts = [index for index, line in enumerate(run.lines) if line.starts_leg]
    for start, end in zip(starts, [*starts[1:], len(run.lines)], strict=True):
        carried_from = run.lines[start].carried_from
        corrections[start] = 0 if carried_from is None else corrections[carried_from]
        turning = _turning_corrections(run, range(start, end), corrections[start], by)
        ahead = turning[max(turning)] if turning else corrections[start]
        for index in range(end - 1, start, -1):
            ahead = turning.get(index, ahead)
            corrections[index] = ahead
    return corrections


def _turning_corrections(
    run: ReducedRun, leg: range, start_nm: int, by: AdjustBy
) -> dict[int, int]:
    """Corrections of the lines of one leg that have a foresight, section by section."""
    held = {closing.line: closing.ec_nm for closing in run.closings}
    found: dict[int, int] = {}
    section: list[int] = []
    for index in leg:
        if run.lines[index].sight.fs_nm is None:
            continue
        section.append(index)
        if index in held:
            weights = [_weight(run, i, by) for i in section]
            shares = share_correction(held[index] + start_nm, weights)
            found.update((i, start_nm + share) for i, share in zip(section, shares, strict=True))
            section, start_nm = [], -held[index]
    found.update((index, start_nm) for index in section)
    return found


def _weight(run: ReducedRun, index: int, by: AdjustBy) -> int:
    """Weight of the setup that the foresight at ``index`` closes."""
    if by is AdjustBy.SETUPS:
        return 1
    distance_nm = run.lines[index].sight.distance_nm
    if distance_nm is None:
        raise CalculationInputError(
            what="the adjustment by distance",
            why=f"line {index + 1} ({run.lines[index].sight.point}) has no distance",
            accepted="Give a distance on every foresight, or adjust by setups",
        )
    return distance_nm
