"""Names of the questions that the Grade page asks, a class for each of its controllers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

from crewapp.pages.frame.question_name import QuestionName

SetupField = Literal[
    "point",
    "plane",
    "grade",
    "abreast",
    "instrument",
    "calibrated",
    "days",
    "backsight",
    "check",
    "foresight",
]
CoverField = Literal[
    "from",
    "to",
    "thick:bedding",
    "thick:surround",
    "thick:sand",
    "wire",
    "protect",
    "depth",
    "judge",
    "release",
]
RodPlaceField = Literal["collector", "place", "station"]
PegField = Literal["mid_a", "mid_b", "end_a", "end_b", "to_a", "to_b"]
LaserField = Literal["which"] | PegField
ShotsField = Literal["correct"]


@dataclass(frozen=True, slots=True)
class SetupQuestion(QuestionName):
    """Question about a setup of the laser."""

    subject: ClassVar[str] = "setup"
    field: SetupField


@dataclass(frozen=True, slots=True)
class CoverQuestion(QuestionName):
    """Question about covering the collector."""

    subject: ClassVar[str] = "cover"
    field: CoverField


@dataclass(frozen=True, slots=True)
class RodPlaceQuestion(QuestionName):
    """Question where the rod stands."""

    subject: ClassVar[str] = "where"
    field: RodPlaceField


@dataclass(frozen=True, slots=True)
class LaserQuestion(QuestionName):
    """Question about the laser: which one, or a figure of its peg test."""

    subject: ClassVar[str] = "laser"
    field: LaserField


@dataclass(frozen=True, slots=True)
class ShotsQuestion(QuestionName):
    """Question about a reading in the list."""

    subject: ClassVar[str] = "shots"
    field: ShotsField
