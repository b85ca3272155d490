"""Views of the laser's setup: fields to choose, and the run it hangs from."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from crewapp.kit.look.palette import Status
from crewapp.pages.grade.laser.view import LaserCard
from crewapp.pages.grade.view import Choice
from crewapp.words.translate import say
from models.science.levelling.laser_plane import Length
from models.units.job_units import Figures

PPM = 1_000_000


@dataclass(frozen=True, slots=True)
class KnownPoint:
    """A benchmark or turning point that the rod can stand on."""

    name: str
    level_nm: Length
    level: str
    is_benchmark: bool


@dataclass(frozen=True, slots=True)
class RunRow:
    """Line of the level run: a sight and what follows from it."""

    title: str
    detail: str
    figure: str
    status: str = ""


@dataclass(frozen=True, slots=True)
class SetupsView:
    """View of the setup's part of the screen.

    ``allowed_nm`` is how far a check shot may miss; ``height_nm`` is the laser's
    height, so that a check shot can be judged the moment it is typed. ``laser_id`` is
    the laser to take: the only one, or the one of the day's last setup.
    """

    collector_id: str
    figures: Figures
    points: tuple[KnownPoint, ...] = ()
    instruments: tuple[str, ...] = ()
    calibrated: tuple[str, ...] = ()
    instrument: str = ""
    calibrated_on: str = ""
    today: str = ""
    design_ppm: int = 0
    start_nm: int = 0
    end_nm: int = 0
    setup_id: str = ""
    on_point: str = ""
    height_nm: Length | None = None
    is_graded: bool = False
    allowed_nm: int = 0
    next_turning: str = "TP1"
    run: tuple[RunRow, ...] = ()
    lasers: tuple[LaserCard, ...] = ()
    laser_id: str = ""
    closes: str = ""
    closes_status: str = Status.NOT_MEASURED

    def level_of(self, name: str) -> Length | None:
        """Level of a known point."""
        return next((point.level_nm for point in self.points if point.name == name), None)

    def check_points(self) -> tuple[Choice, ...]:
        """Points that can prove the setup, those it does not stand on first.

        Under a graded plane only the backsight's own point can: nobody knows the
        station of another.
        """
        told = [Choice(point.name, f"{point.name} {point.level}") for point in self.points]
        own = [one for one in told if one.key == self.on_point]
        if self.is_graded:
            return tuple(own)
        others = {p.name for p in self.points if p.is_benchmark} - {self.on_point}
        return (*(one for one in told if one.key in others), *own)


@dataclass(frozen=True, slots=True)
class SetupDraft:
    """A setup as far as it has been chosen; the backsight is not in it, it is read."""

    on_point: str = ""
    plane: str = "level"
    grade_ppm: int | None = None
    at_station_nm: int | None = None
    instrument: str = ""
    calibrated_on: str = ""
    laser_id: str = ""
    chosen: tuple[str, ...] = field(default=())

    def missing_text(self, lasers: tuple[LaserCard, ...] = ()) -> str:
        """Say what is still to be chosen; nothing when the backsight can be read."""
        if not self.on_point:
            return say("Choose the point that the rod stands on.")
        if lasers and not self.laser_id:
            return say("Choose which laser it is.")
        if self.plane == "graded" and self.grade_ppm is None:
            return say("Say which grade is dialled.")
        if self.plane == "graded" and self.at_station_nm is None:
            return say("Say the station abreast of the point.")
        return ""

    def fields(self) -> dict[str, Any]:
        """Return the fields of the command, but for the reading."""
        told: dict[str, Any] = {
            "on_point": self.on_point,
            "plane": self.plane,
            "instrument": "" if self.laser_id else self.instrument,
            "calibrated_on": None if self.laser_id else self.calibrated_on or None,
            "instrument_id": self.laser_id,
        }
        if self.plane == "graded":
            told |= {
                "fall_nm": self.grade_ppm or 0,
                "run_nm": PPM,
                "at_station_nm": self.at_station_nm or 0,
            }
        return told

    def to_plain(self) -> dict[str, Any]:
        """Return the choices as a draft that survives a kill."""
        return {
            "on_point": self.on_point,
            "plane": self.plane,
            "grade_ppm": self.grade_ppm,
            "at_station_nm": self.at_station_nm,
            "instrument": self.instrument,
            "calibrated_on": self.calibrated_on,
            "laser_id": self.laser_id,
            "chosen": list(self.chosen),
        }


def draft_from_plain(told: Any) -> SetupDraft:
    """Return a kept draft; what can't be read counts as none."""
    try:
        return SetupDraft(**{**told, "chosen": tuple(told.get("chosen", ()))})
    except (AttributeError, TypeError):
        return SetupDraft()


def judge_check(
    height_nm: Length, level_nm: Length, reading_nm: int, allowed_nm: int, figures: Figures
) -> tuple[str, str]:
    """Say by how much a check shot misses: computed less known, positive when high."""
    missed_nm = Fraction(height_nm) - reading_nm - level_nm
    rise, allowed = figures.rise(round(missed_nm)), figures.rise(allowed_nm)
    is_good = abs(missed_nm) <= allowed_nm
    if not is_good and rise == allowed:
        rise = figures.fine(round(missed_nm))
    if is_good:
        return Status.OK, say("misses by {rise}, {allowed} allowed", rise=rise, allowed=allowed)
    text = say("misses by {rise}, {allowed} allowed: set up again", rise=rise, allowed=allowed)
    return Status.OUT, text
