"""Least re-lay: which pipe to lift so that every reach is right and the least is disturbed."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from models.counted import CountedNoun
from models.errors import CalculationInputError
from models.science.grade.profile import Shot, in_order
from models.science.levelling.laser_plane import GradeLine, Length, Stationing, elevation_at_nm


@dataclass(frozen=True, slots=True)
class RelayLimits:
    """Limits that the pipe has to satisfy once it is re-laid.

    Attributes
    ----------
    least : Fraction
        Flattest grade of any reach; 0 forbids adverse fall alone. [nm/nm]
    most : Fraction or None
        Steepest grade of any reach. [nm/nm]
    design : GradeLine or None
        Design invert, where a tolerance counts. [nm]
    tolerance_nm : int
        Allowed off the design, either way. [nm]
    """

    least: Fraction = Fraction(0)
    most: Fraction | None = None
    design: GradeLine | None = None
    tolerance_nm: int = 0


@dataclass(frozen=True, slots=True)
class RelayPlan:
    """Plan of a re-lay: shots to keep, shots to move, and by how much.

    Attributes
    ----------
    kept : tuple of int
        Indices of the shots that stay as they are, growing. [-]
    levels_nm : tuple of int or Fraction
        Elevation of every shot afterwards. [nm above datum]
    moves_nm : tuple of int or Fraction
        How far to raise every shot; negative is lower. [nm]
    disturbed_nm : int
        Length of the reaches that have to be lifted. [nm]
    """

    kept: tuple[int, ...]
    levels_nm: tuple[Length, ...]
    moves_nm: tuple[Length, ...]
    disturbed_nm: int


@dataclass(frozen=True, slots=True)
class NoRelay:
    """Reason why no re-laying between the fixed points can satisfy the limits.

    Attributes
    ----------
    start_nm : int
        Station of the fixed point nearer the outlet. [nm]
    end_nm : int
        Station of the fixed point, or the head, further up. [nm]
    reason : str
        What stands against it. [-]
    """

    start_nm: int
    end_nm: int
    reason: str


@dataclass(frozen=True, slots=True)
class _Frame:
    """The shots walked up from the outlet, with what they must satisfy."""

    away_nm: tuple[int, ...]
    levels_nm: tuple[Length, ...]
    bands_nm: tuple[tuple[Length, Length] | None, ...]
    limits: RelayLimits
    fixed: frozenset[int]

    def is_in_band(self, place: int) -> bool:
        """Whether a shot as it lies is within tolerance of the design."""
        band = self.bands_nm[place]
        return band is None or band[0] <= self.levels_nm[place] <= band[1]

    def joins(self, low: int, high: int) -> bool:
        """Whether a straight pipe between two kept shots is within limits."""
        rise_nm = self.levels_nm[high] - self.levels_nm[low]
        run_nm = self.away_nm[high] - self.away_nm[low]
        too_steep = self.limits.most is not None and rise_nm > self.limits.most * run_nm
        return rise_nm >= self.limits.least * run_nm and not too_steep

    def head_level_nm(self, last: int) -> Length | None:
        """Level of the head nearest to where it lies, if the rest is re-laid from ``last``."""
        run_nm = self.away_nm[-1] - self.away_nm[last]
        low: Length = self.levels_nm[last] + self.limits.least * run_nm
        highs: list[Length] = []
        if self.limits.most is not None:
            highs.append(self.levels_nm[last] + self.limits.most * run_nm)
        band = self.bands_nm[-1]
        if band is not None:
            low = max(low, band[0])
            highs.append(band[1])
        if highs and min(highs) < low:
            return None
        return min([max(low, self.levels_nm[-1]), *highs])


def least_relay(
    shots: Sequence[Shot],
    stationing: Stationing,
    limits: RelayLimits,
    tie_ins: Collection[int] = (),
) -> RelayPlan | NoRelay:
    """Choose the shots to keep so that the least length of pipe is disturbed.

    A reach is disturbed when either of its ends moves. Between two kept shots
    the pipe is laid straight; beyond the last kept one the head goes to the
    nearest level that is allowed. The best set of kept shots is the shortest
    path from the outlet over pairs that a straight pipe may join.

    Parameters
    ----------
    shots : sequence of Shot
        Inverts as laid, in order of growing station. [nm]
    stationing : Stationing
        Which end the stations are counted from. [-]
    limits : RelayLimits
        What every reach and shot must satisfy afterwards. [nm]
    tie_ins : collection of int
        Indices of shots that cannot move, besides the outlet. [-]

    Returns
    -------
    plan : RelayPlan or NoRelay
        The plan, or why there is none. [nm]

    Raises
    ------
    CalculationInputError
        If there are fewer than two shots, they are out of order, or a tie-in
        is not one of them.

    Notes
    -----
    A straight pipe loses nothing: if any pipe between two kept shots is within
    limits the straight one is, since grades average and the band around a
    straight design is convex. Among plans that disturb the same length the one
    that keeps more shots is given. Time grows with the square of the number of
    shots. Derived here.

    Examples
    --------
    By hand: only the middle shot is wrong; lifting it by 5 disturbs both
    reaches beside it and leaves the last alone.

    >>> shots = [Shot(0, 0), Shot(100, 10), Shot(200, 15), Shot(300, 30), Shot(400, 40)]
    >>> limits = RelayLimits(Fraction(1, 12), Fraction(1, 8))
    >>> plan = least_relay(shots, Stationing.FROM_OUTLET, limits)
    >>> plan.kept, plan.disturbed_nm, int(plan.moves_nm[2])
    ((0, 1, 3, 4), 200, 5)
    """
    _refuse_bad_request(shots, tie_ins)
    turned = stationing is Stationing.FROM_HEAD
    frame = _frame(shots, turned, limits, tie_ins)
    blocked = _blocked(frame, shots[::-1] if turned else shots)
    if blocked is not None:
        return blocked
    kept = _shortest_path(frame)
    levels = _levels_along(frame, kept)
    moves = [level - was for level, was in zip(levels, frame.levels_nm, strict=True)]
    disturbed_nm = sum(
        frame.away_nm[place + 1] - frame.away_nm[place]
        for place in range(len(levels) - 1)
        if not {place, place + 1} <= set(kept)
    )
    if turned:
        kept = [len(levels) - 1 - place for place in reversed(kept)]
        levels.reverse()
        moves.reverse()
    return RelayPlan(tuple(kept), tuple(levels), tuple(moves), disturbed_nm)


def _refuse_bad_request(shots: Sequence[Shot], tie_ins: Collection[int]) -> None:
    """Refuse a profile that holds no reach, and tie-ins that are not in it."""
    in_order(shots)
    if len(shots) < 2 or not all(0 <= index < len(shots) for index in tie_ins):
        raise CalculationInputError(
            what="a re-lay",
            why=f"{CountedNoun(len(shots)):shot|shots} and tie-ins {sorted(tie_ins)} were given",
            accepted="Give two shots or more, and tie-ins that are among them",
        )


def _frame(
    shots: Sequence[Shot], turned: bool, limits: RelayLimits, tie_ins: Collection[int]
) -> _Frame:
    """Turn the profile so that it starts at the outlet."""
    upwards = shots[::-1] if turned else shots
    last = len(shots) - 1
    bands: list[tuple[Length, Length] | None] = []
    for shot in upwards:
        if limits.design is None:
            bands.append(None)
            continue
        design_nm = elevation_at_nm(limits.design, shot.station_nm)
        bands.append((design_nm - limits.tolerance_nm, design_nm + limits.tolerance_nm))
    return _Frame(
        tuple(abs(shot.station_nm - upwards[0].station_nm) for shot in upwards),
        tuple(shot.elevation_nm for shot in upwards),
        tuple(bands),
        limits,
        frozenset({0, *(last - index if turned else index for index in tie_ins)}),
    )


def _blocked(frame: _Frame, upwards: Sequence[Shot]) -> NoRelay | None:
    """The first fixed point, or pair of them, that rules every plan out."""
    fixed = sorted(frame.fixed)
    for place in fixed:
        if not frame.is_in_band(place):
            station_nm = upwards[place].station_nm
            return NoRelay(station_nm, station_nm, "this point is fixed and out of tolerance")
    for low, high in pairwise(fixed):
        if not frame.joins(low, high):
            reason = "both points are fixed and the grade between them is out of limits"
            return NoRelay(upwards[low].station_nm, upwards[high].station_nm, reason)
    if frame.head_level_nm(fixed[-1]) is None:
        reason = "no grade within limits ends within tolerance of the design at the head"
        return NoRelay(upwards[fixed[-1]].station_nm, upwards[-1].station_nm, reason)
    return None


def _shortest_path(frame: _Frame) -> list[int]:
    """Kept shots of the best plan, from the outlet up."""
    best: dict[int, tuple[int, int, int]] = {0: (0, -1, -1)}  # length, -kept, from where
    for high in range(1, len(frame.levels_nm)):
        if not frame.is_in_band(high):
            continue
        ways: list[tuple[int, int, int]] = []
        for low in range(high - 1, -1, -1):
            if low in best and frame.joins(low, high):
                lifted_nm = 0 if high == low + 1 else frame.away_nm[high] - frame.away_nm[low]
                ways.append((best[low][0] + lifted_nm, best[low][1] - 1, low))
            if low in frame.fixed:
                break  # a fixed shot can't be passed over
        if ways:
            best[high] = min(ways)
    ends = [
        (length + frame.away_nm[-1] - frame.away_nm[place], count, place)
        for place, (length, count, _) in best.items()
        if place >= max(frame.fixed) and frame.head_level_nm(place) is not None
    ]
    path = [min(ends)[2]]
    while path[-1] != 0:
        path.append(best[path[-1]][2])
    return path[::-1]


def _levels_along(frame: _Frame, kept: Sequence[int]) -> list[Length]:
    """Elevation of every shot once the pipe is straight between kept ones."""
    levels: list[Length] = list(frame.levels_nm)
    corners = [(place, frame.levels_nm[place]) for place in kept]
    head_nm = frame.head_level_nm(kept[-1])
    if kept[-1] != len(levels) - 1 and head_nm is not None:
        corners.append((len(levels) - 1, head_nm))
    for (low, low_nm), (high, high_nm) in pairwise(corners):
        run_nm = frame.away_nm[high] - frame.away_nm[low]
        for place in range(low + 1, high + 1):
            share = Fraction(frame.away_nm[place] - frame.away_nm[low], run_nm)
            levels[place] = low_nm + share * (high_nm - low_nm)
    return levels
