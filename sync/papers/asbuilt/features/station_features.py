"""Features measured along a collector: stations, inverts as shot, stretches released."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.science.quality.verdict import Verdict
from sync.papers.asbuilt.features.answers import ReadingAnswer
from sync.papers.asbuilt.features.course import Course, Place


@dataclass(frozen=True, slots=True)
class StationMark:
    """A round station of a collector with its design invert."""

    station_nm: int
    at: Place
    design_nm: Fraction


@dataclass(frozen=True, slots=True)
class InvertShot:
    """The invert as last shot at a station; ``off_nm`` is positive when it lies high."""

    collector_id: str
    station_nm: int
    at: Place | None
    invert_nm: Fraction
    design_nm: Fraction
    off_nm: Fraction
    low_nm: int
    high_nm: int
    verdict: Verdict
    answered: ReadingAnswer
    setup_id: str
    day: str
    author: str


@dataclass(frozen=True, slots=True)
class ReleasedStretch:
    """Leave that was given to cover a stretch of a collector."""

    collector_id: str
    from_nm: int
    to_nm: int
    course: Course
    released_by: str
    day: str
    note: str
