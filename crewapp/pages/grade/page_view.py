"""The whole Grade screen: what every part needs, and what only the part in front does."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.pages.grade.covering.view import CoverFace
from crewapp.pages.grade.laser.view import LaserFace
from crewapp.pages.grade.setup.view import SetupsFace
from crewapp.pages.grade.shots_view import ShotsFace
from crewapp.pages.grade.view import GradeFace


@dataclass(frozen=True, slots=True)
class GradeScreen:
    """The collector as it stands; the rest is None while its part is not in front."""

    grade: GradeFace
    setups: SetupsFace | None = None
    shots: ShotsFace | None = None
    cover: CoverFace | None = None
    lasers: LaserFace | None = None
