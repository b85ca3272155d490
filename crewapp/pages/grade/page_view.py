"""View of the whole Grade screen: what every part needs, and what only the one in front does."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.query import Query
from crewapp.pages.grade.covering.view import CoverView
from crewapp.pages.grade.laser.view import LaserView
from crewapp.pages.grade.setup.view import SetupsView
from crewapp.pages.grade.shots_view import ShotsView
from crewapp.pages.grade.view import GradeView


@dataclass(frozen=True, slots=True)
class GradePageView:
    """The collector as it stands; the rest is None while its part is not in front."""

    grade: GradeView
    setups: SetupsView | None = None
    shots: ShotsView | None = None
    cover: CoverView | None = None
    lasers: LaserView | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowGrade(Query[GradePageView]):
    """Query for what the Grade page shows of a collector, with what ``needs`` names.

    ``needs`` may name setups, shots, cover and lasers.
    """

    collector_id: str = ""
    on: str = ""
    needs: tuple[str, ...] = ()
    from_nm: int | None = None
    to_nm: int | None = None
