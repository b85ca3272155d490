"""The whole Grade screen: what every part needs, and what only the part in front does."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.state.grade import GradeFace
from crewapp.state.grade_cover import CoverFace
from crewapp.state.grade_list import ShotsFace
from crewapp.state.grade_setup import SetupsFace
from crewapp.state.laser import LaserFace


@dataclass(frozen=True, slots=True)
class GradeScreen:
    """The collector as it stands; the rest is None while its part is not in front."""

    grade: GradeFace
    setups: SetupsFace | None = None
    shots: ShotsFace | None = None
    cover: CoverFace | None = None
    lasers: LaserFace | None = None
