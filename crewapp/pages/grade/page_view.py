"""The whole Grade screen: what every part needs, and what only the part in front does."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.query import Query
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


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowGrade(Query[GradeScreen]):
    """What the Grade page shows of a collector, with what ``needs`` names.

    ``needs`` may name setups, shots, cover and lasers.
    """

    collector_id: str = ""
    on: str = ""
    needs: tuple[str, ...] = ()
    from_nm: int | None = None
    to_nm: int | None = None
