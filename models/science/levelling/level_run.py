"""A run of level sights, before and after it is reduced."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Sight:
    """A line of level notes: a point and the readings on it.

    A turning point has a foresight and a backsight on one line.

    Attributes
    ----------
    point : str
        Name of the point the rod stood on. [-]
    bs_nm : int or None
        Backsight. [nm on the rod]
    is_nm : int or None
        Intermediate sight. [nm on the rod]
    fs_nm : int or None
        Foresight, the last reading of a setup. [nm on the rod]
    known_nm : int or None
        Elevation known beforehand. [nm above datum]
    distance_nm : int or None
        Length run since the line where the last foresight was read. [nm]
    remarks : str
        Anything else that was written. [-]
    """

    point: str
    bs_nm: int | None = None
    is_nm: int | None = None
    fs_nm: int | None = None
    known_nm: int | None = None
    distance_nm: int | None = None
    remarks: str = ""

    @property
    def elevation_reading_nm(self) -> int | None:
        """The reading that gives this point its elevation [nm on the rod], if there is one."""
        return self.fs_nm if self.fs_nm is not None else self.is_nm

    @property
    def opens_setup(self) -> bool:
        """Whether this line is a backsight alone, on a point already known."""
        return self.bs_nm is not None and self.elevation_reading_nm is None


@dataclass(frozen=True, slots=True)
class LevelLine:
    """A line of notes with what was worked out for it.

    Attributes
    ----------
    sight : Sight
        The line as booked. [nm]
    setup : int
        Which setup of the instrument this line closes or belongs to, from 1. [-]
    elevation_nm : int
        Elevation by height of instrument, before any adjustment. [nm above datum]
    hi_nm : int or None
        Height of instrument of the setup this line opens. [nm above datum]
    rise_nm : int or None
        Rise from the line before; a fall is negative; None where a leg starts. [nm]
    starts_leg : bool
        Whether the elevation was taken as known, not read from the line before. [-]
    carried_from : int or None
        Index of the line whose elevation a backsight standing alone repeats. [-]
    """

    sight: Sight
    setup: int
    elevation_nm: int
    hi_nm: int | None
    rise_nm: int | None
    starts_leg: bool
    carried_from: int | None = None


@dataclass(frozen=True, slots=True)
class Closing:
    """A known elevation met again: how far the run missed it.

    Attributes
    ----------
    line : int
        Index of the line in the run, from 0. [-]
    known_nm : int
        Elevation held to be true. [nm above datum]
    computed_nm : int
        Elevation the run arrived at. [nm above datum]
    """

    line: int
    known_nm: int
    computed_nm: int

    @property
    def ec_nm(self) -> int:
        """Error of closure, computed less known [nm]; the correction is its negative."""
        return self.computed_nm - self.known_nm


@dataclass(frozen=True, slots=True)
class ReducedRun:
    """A run with its elevations, its sums and the known points it met.

    Attributes
    ----------
    lines : tuple of LevelLine
        Every line in the order booked. [nm]
    closings : tuple of Closing
        Every known elevation met after the start. [nm]
    """

    lines: tuple[LevelLine, ...]
    closings: tuple[Closing, ...] = field(default=())

    @property
    def setups(self) -> int:
        """How often the instrument was set up."""
        return sum(line.hi_nm is not None for line in self.lines)

    @property
    def sum_bs_nm(self) -> int:
        """Sum of the backsights [nm]."""
        return sum(line.sight.bs_nm or 0 for line in self.lines)

    @property
    def sum_fs_nm(self) -> int:
        """Sum of the foresights [nm]."""
        return sum(line.sight.fs_nm or 0 for line in self.lines)

    @property
    def sum_rise_nm(self) -> int:
        """Sum of the rises [nm]."""
        return sum(max(line.rise_nm or 0, 0) for line in self.lines)

    @property
    def sum_fall_nm(self) -> int:
        """Sum of the falls, as a positive figure [nm]."""
        return sum(max(-(line.rise_nm or 0), 0) for line in self.lines)

    @property
    def gain_nm(self) -> int:
        """Last elevation less first [nm], summed over the legs where there are several."""
        starts = [index for index, line in enumerate(self.lines) if line.starts_leg]
        ends = [*(start - 1 for start in starts[1:]), len(self.lines) - 1]
        return sum(
            self.lines[end].elevation_nm - self.lines[start].elevation_nm
            for start, end in zip(starts, ends, strict=True)
        )

    @property
    def page_agrees(self) -> bool:
        """Whether sum BS - sum FS equals last - first; proves arithmetic, not readings."""
        return self.sum_bs_nm - self.sum_fs_nm == self.gain_nm

    @property
    def rise_and_fall_agrees(self) -> bool:
        """Whether rises and falls, summed line by line, give every elevation again."""
        level_nm = 0
        for line in self.lines:
            level_nm = line.elevation_nm if line.rise_nm is None else level_nm + line.rise_nm
            if level_nm != line.elevation_nm:
                return False
        return self.sum_rise_nm - self.sum_fall_nm == self.gain_nm

    @property
    def distance_nm(self) -> int | None:
        """Length of the whole run [nm], or None unless every foresight has its distance."""
        lengths = [x.sight.distance_nm for x in self.lines if x.sight.fs_nm is not None]
        known = [length for length in lengths if length is not None]
        return sum(known) if len(known) == len(lengths) else None
