"""Pieces of slit that one drive of a machine cut, worked out from the length that was driven."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from models.errors import CalculationInputError
from models.units.spec import FOOT_NM

Source = Literal["measured", "drive", "plan", "old"]
"""What a length of a piece rests on."""

END_NM = 1_000_000
"""A piece that ends within a millimetre of the drive's end ends with the drive."""


class DriveStretch(NamedTuple):
    """A stretch that a leg is to cut on a drive.

    Attributes
    ----------
    line_id : str
        Line that it lies in. [-]
    leg : int
        Which leg, from 1; 0 is not known. [-]
    from_nm, to_nm : int
        Along the drive, from where the first blade goes in, the way it is driven. [nm]
    station_nm : int
        Place on the line, from its planned start, where the stretch begins on the drive. [nm]
    """

    line_id: str
    leg: int
    from_nm: int
    to_nm: int
    station_nm: int


class DrivePiece(NamedTuple):
    """A piece that a leg cut in a line.

    Attributes
    ----------
    line_id : str
        Line that it lies in. [-]
    leg : int
        Which leg, from 1; 0 is not known. [-]
    from_nm, to_nm : int
        Along the line from its planned start; below zero or beyond its end where it ran over. [nm]
    by : str
        What it rests on: the length typed for it, the drive's, or the stakes of the plan. [-]
    """

    line_id: str
    leg: int
    from_nm: int
    to_nm: int
    by: Source


class DriveMatch(NamedTuple):
    """Pieces of a drive, and how its length agrees with the plan.

    Attributes
    ----------
    pieces : tuple of DrivePiece
        In the order of the stretches. [nm]
    planned_nm : int
        Length of the drive by the plan. [nm]
    agrees : str
        ``agrees`` within the allowance, else ``stopped`` short or ``ran_over``. [-]
    """

    pieces: tuple[DrivePiece, ...]
    planned_nm: int
    agrees: Literal["agrees", "stopped", "ran_over"]


def drive_allowance_nm(planned_nm: int) -> int:
    """How far the length of a drive may lie off its plan and still be that drive.

    Parameters
    ----------
    planned_nm : int
        Length of the drive by the plan. [nm]

    Returns
    -------
    allowance_nm : int
        The larger of 1 ft and a hundredth. [nm]

    Notes
    -----
    What a tape or a wheel over turf is good to: common practice, no source.

    Examples
    --------
    By hand: a hundredth of 200 ft is 2 ft.

    >>> drive_allowance_nm(200 * FOOT_NM) // FOOT_NM, drive_allowance_nm(FOOT_NM) // FOOT_NM
    (2, 1)
    """
    return max(FOOT_NM, planned_nm // 100)


def match_drive(
    stretches: Sequence[DriveStretch], length_nm: int, *, is_along: bool = True
) -> DriveMatch:
    """Pieces that a drive cut, from its planned stretches and the length driven.

    The tape starts at zero where the first blade goes in, which is at a stake; so what the
    length is more or less than the plan falls to the far end, and to the pieces that end
    there. Ends at keep-outs are staked on both sides: a length says nothing of them::

        stakes    |----a----|   keep-out   |-----b-----|
        longer    |----a----|              |-----b--------|
        stopped   |----a----|              |--b--|

    Parameters
    ----------
    stretches : sequence of DriveStretch
        What was to be cut; at least one. [nm]
    length_nm : int
        From where the first blade went in to where the last came out. [nm]
    is_along : bool
        Driven from the start of the lines to their end. [-]

    Returns
    -------
    match : DriveMatch
        Pieces, none of them empty. [nm]

    Raises
    ------
    CalculationInputError
        If there is no stretch, or the length is not above zero.

    Notes
    -----
    Derived here. All in whole nanometres, so that pieces add up exactly.

    Examples
    --------
    By hand: leg 2 stops for a keep-out from 19.25 to 19.75 m; 99.04 m were driven of 99.

    >>> m = 10**9
    >>> found = match_drive(
    ...     [
    ...         DriveStretch("S37", 1, 0, 99 * m, 0),
    ...         DriveStretch("S40a", 2, 0, 19_250_000_000, 0),
    ...         DriveStretch("S40b", 2, 19_750_000_000, 99 * m, 0),
    ...     ],
    ...     99_040_000_000,
    ... )
    >>> [(one.line_id, one.to_nm - one.from_nm, one.by) for one in found.pieces]
    [('S37', 99040000000, 'drive'), ('S40a', 19250000000, 'plan'), ('S40b', 79290000000, 'plan')]
    """
    if not stretches or length_nm <= 0:
        raise CalculationInputError(
            what="the pieces of a drive",
            why=f"{len(stretches)} stretches and a length of {length_nm} nm were given",
            accepted="Give at least one stretch and a length above zero",
        )
    planned_nm = max(one.to_nm for one in stretches)
    off_nm = length_nm - planned_nm
    is_near = abs(off_nm) <= drive_allowance_nm(planned_nm)
    ends = [min(_end_nm(one, planned_nm, off_nm), length_nm) for one in stretches]
    cut = [(one, end) for one, end in zip(stretches, ends, strict=True) if end > one.from_nm]
    alone = len(stretches) == 1
    pieces = tuple(_piece(one, end, length_nm, is_along, alone) for one, end in cut)
    return DriveMatch(
        pieces, planned_nm, "agrees" if is_near else "stopped" if off_nm < 0 else "ran_over"
    )


def _end_nm(stretch: DriveStretch, planned_nm: int, off_nm: int) -> int:
    """Where a stretch ended on the drive, were it not stopped short."""
    runs_on = off_nm > 0 and planned_nm - stretch.to_nm <= END_NM
    return stretch.to_nm + off_nm if runs_on else stretch.to_nm


def _piece(
    stretch: DriveStretch, end_nm: int, length_nm: int, is_along: bool, alone: bool
) -> DrivePiece:
    """A piece on its line, from its stretch and where it ended on the drive."""
    cut_nm = end_nm - stretch.from_nm
    if is_along:
        from_nm, to_nm = stretch.station_nm, stretch.station_nm + cut_nm
    else:
        from_nm, to_nm = stretch.station_nm - cut_nm, stretch.station_nm
    is_whole = stretch.from_nm <= END_NM and length_nm - end_nm <= END_NM
    by: Source = "measured" if alone and is_whole else "drive" if is_whole else "plan"
    return DrivePiece(stretch.line_id, stretch.leg, from_nm, to_nm, by)
