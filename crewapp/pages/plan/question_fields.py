"""Names of the questions that the Plan page asks, a class for each of its controllers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

from crewapp.pages.frame.question_name import QuestionName

TermsField = Literal[
    "use",
    "machine",
    "spacing",
    "bearing",
    "setback",
    "width",
    "depth",
    "deepest",
    "first",
    "least",
    "turning",
]
TermsTile = Literal["compare"] | TermsField
ShapeField = Literal[
    "ground",
    "shape",
    "file",
    "unit",
    "layer",
    "along",
    "across",
    "radius",
    "bearing",
    "east",
    "north",
    "station",
    "left",
    "right",
]
ShapeTile = Literal["name", "offsets", "mended"] | ShapeField
RainField = Literal["sand", "roughness", "rain", "rain_min", "bore", "fall", "soil", "layer"]
WaterField = Literal["price"] | RainField


@dataclass(frozen=True, slots=True)
class SurfaceQuestion(QuestionName):
    """Question that chooses the surface to show."""

    subject: ClassVar[str] = "plan"
    field: Literal["surface"]


@dataclass(frozen=True, slots=True)
class TermsQuestion(QuestionName):
    """Question about the lines of one use."""

    subject: ClassVar[str] = "terms"
    field: TermsField


@dataclass(frozen=True, slots=True)
class ShapeQuestion(QuestionName):
    """Question about a new surface."""

    subject: ClassVar[str] = "shape"
    field: ShapeField


@dataclass(frozen=True, slots=True)
class WaterQuestion(QuestionName):
    """Question about a price, or what the gates are reckoned from."""

    subject: ClassVar[str] = "water"
    field: WaterField
