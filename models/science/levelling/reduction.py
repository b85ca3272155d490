"""Reducing a run of level sights, by height of instrument and by rise and fall."""

from __future__ import annotations

from collections.abc import Sequence

from models.errors import LevelRunError
from models.science.levelling.level_run import Closing, LevelLine, ReducedRun, Sight


def rises_nm(sights: Sequence[Sight]) -> list[int | None]:
    """Rise of each line over the line before it, from the readings alone.

    Parameters
    ----------
    sights : sequence of Sight
        The run in the order booked. [nm on the rod]

    Returns
    -------
    rises : list of int or None
        One for each line; a fall is negative; None where the line is a
        backsight alone. [nm]

    Notes
    -----
    Knows nothing of heights of instrument, so it checks them, intermediate
    sights included. Source: the rise-and-fall booking of any levelling text.

    Examples
    --------
    By hand: from 1.35 down to 0.80 is a rise of 0.55.

    >>> rises_nm([Sight("A", bs_nm=135), Sight("E1", is_nm=80), Sight("B", fs_nm=165)])
    [None, 55, -85]
    """
    rises: list[int | None] = []
    before: int | None = None
    for sight in sights:
        seen = sight.elevation_reading_nm
        rises.append(None if seen is None or before is None else before - seen)
        before = sight.bs_nm if sight.bs_nm is not None else seen
    return rises


def reduce_levels(sights: Sequence[Sight]) -> ReducedRun:
    r"""Elevation of every point of a run, by height of instrument.

    .. math::
        HI = E_{known} + BS, \qquad E = HI - IS, \qquad E = HI - FS

    Parameters
    ----------
    sights : sequence of Sight
        Lines in the order booked; the first a backsight on a known
        elevation. [nm on the rod]

    Returns
    -------
    run : ReducedRun
        Elevations, sums, checks and closings. [nm]

    Raises
    ------
    LevelRunError
        If the run opens without a backsight, a backsight is on an unknown
        elevation, a setup has no foresight, a line has no reading or two
        that exclude each other, or a point is given two known elevations.

    Notes
    -----
    A backsight alone on the point of the last foresight carries the run over
    a page. On any other known or levelled point it starts a new leg. Computed
    elevations are carried on past a known point; what was missed there is a
    Closing, with EC = computed - known (the Army's sign, FM 5-233 App. B).
    Curvature and refraction are left out: 0.0002 ft at 100 ft.

    Examples
    --------
    Worked by hand: 100 + 5 - 2 = 103.

    >>> run = reduce_levels([Sight("BM", bs_nm=5, known_nm=100), Sight("A", fs_nm=2)])
    >>> [line.elevation_nm for line in run.lines], run.page_agrees
    ([100, 103], True)
    """
    if not sights:
        raise LevelRunError(
            line=0, point="none", why="there are no sights", remedy="Start with a backsight"
        )
    walk = _Walk(_known_elevations(sights))
    for number, (sight, rise) in enumerate(zip(sights, rises_nm(sights), strict=True), start=1):
        _refuse_bad_line(number, sight)
        walk.take(number, sight, rise)
    walk.finish(len(sights))
    return ReducedRun(tuple(walk.lines), tuple(walk.closings))


def _key(point: str) -> str:
    """Fold case and spaces, so that one benchmark typed twice is one point."""
    return " ".join(point.split()).casefold()


def _known_elevations(sights: Sequence[Sight]) -> dict[str, int]:
    """Collect the known elevations by point and refuse two for one."""
    known: dict[str, int] = {}
    for number, sight in enumerate(sights, start=1):
        if sight.known_nm is None:
            continue
        if known.setdefault(_key(sight.point), sight.known_nm) != sight.known_nm:
            raise LevelRunError(
                line=number,
                point=sight.point,
                why="the point was given another known elevation further up",
                remedy="Keep the one that is right",
            )
    return known


def _refuse_bad_line(number: int, sight: Sight) -> None:
    """Refuse a line without a reading, or with an intermediate sight beside another."""
    if sight.bs_nm is None and sight.elevation_reading_nm is None:
        why, remedy = "nothing was read", "Give a backsight, an intermediate sight or a foresight"
    elif sight.is_nm is not None and (sight.bs_nm is not None or sight.fs_nm is not None):
        why = "an intermediate sight stands beside another reading"
        remedy = "Book a turning point as foresight and backsight, any other point on its own line"
    else:
        return
    raise LevelRunError(line=number, point=sight.point, why=why, remedy=remedy)


class _Walk:
    """The run as far as it has been walked."""

    def __init__(self, known: dict[str, int]) -> None:
        self.known = known
        self.levelled: dict[str, int] = {}  # point to the line that last gave its elevation
        self.lines: list[LevelLine] = []
        self.closings: list[Closing] = []
        self.hi_nm: int | None = None
        self.opened_at = 0
        self.setup = 0

    def take(self, number: int, sight: Sight, rise_nm: int | None) -> None:
        """Add a line of notes."""
        carried_from: int | None = None
        starts = False
        setup = self.setup
        if sight.opens_setup:
            elevation_nm, carried_from = self._start(number, sight)
            starts = carried_from is None or carried_from != len(self.lines) - 1
            rise_nm = None if starts else 0
            setup += 1
        else:
            elevation_nm = self._see(number, sight)
        hi_nm = self._set_up(number, elevation_nm, sight.bs_nm)
        self.levelled[_key(sight.point)] = len(self.lines)
        self.lines.append(
            LevelLine(sight, setup, elevation_nm, hi_nm, rise_nm, starts, carried_from)
        )

    def _set_up(self, number: int, elevation_nm: int, bs_nm: int | None) -> int | None:
        """Height of the instrument that a backsight sets up."""
        if bs_nm is None:
            return None
        self.hi_nm = elevation_nm + bs_nm
        self.opened_at = number
        self.setup += 1
        return self.hi_nm

    def _start(self, number: int, sight: Sight) -> tuple[int, int | None]:
        """Elevation under a backsight that stands alone, and the line that gave it, if one did."""
        self.finish(number - 1)
        key = _key(sight.point)
        if key in self.known:
            return self.known[key], None
        if key in self.levelled:
            line = self.levelled[key]
            return self.lines[line].elevation_nm, line
        if not self.lines:
            why, remedy = (
                "the run starts on a point whose elevation is not known",
                "Give the known elevation of the benchmark on this line",
            )
        else:
            why, remedy = (
                "the backsight is on a point whose elevation is not known",
                "Give its known elevation, or book the foresight on it first",
            )
        raise LevelRunError(line=number, point=sight.point, why=why, remedy=remedy)

    def _see(self, number: int, sight: Sight) -> int:
        """Elevation of a point read from the standing instrument."""
        if self.hi_nm is None or sight.elevation_reading_nm is None:
            why = (
                "the setup was closed by a foresight and no backsight came after it"
                if self.lines
                else "the run opens without a backsight"
            )
            remedy = "Book the backsight on a known point first"
            raise LevelRunError(line=number, point=sight.point, why=why, remedy=remedy)
        elevation_nm = self.hi_nm - sight.elevation_reading_nm
        known_nm = self.known.get(_key(sight.point))
        if known_nm is not None:
            self.closings.append(Closing(len(self.lines), known_nm, elevation_nm))
        if sight.fs_nm is not None:
            self.hi_nm = None
        return elevation_nm

    def finish(self, number: int) -> None:
        """Refuse to leave a setup that no foresight closed."""
        if self.hi_nm is None:
            return
        why = f"the setup opened at line {self.opened_at} has no foresight"
        remedy = "Book the last reading of a setup as its foresight"
        raise LevelRunError(line=number, point=self.lines[-1].sight.point, why=why, remedy=remedy)
