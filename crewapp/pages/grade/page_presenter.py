"""Reads for the Grade screen what the part in front shows."""

from __future__ import annotations

from crewapp.job.dispatch import answers
from crewapp.job.open_job import OpenJob
from crewapp.pages.grade.covering.presenter import cover_view
from crewapp.pages.grade.laser.presenter import laser_view
from crewapp.pages.grade.page_view import GradePageView, ShowGrade
from crewapp.pages.grade.presenter import grade_view
from crewapp.pages.grade.setup.presenter import setups_view
from crewapp.pages.grade.shots_presenter import shots_view


@answers(ShowGrade)
def grade_page_view(job: OpenJob, query: ShowGrade) -> GradePageView:
    """Read the collector, and of ``needs`` (setups, shots, cover, lasers) what is named."""
    grade = grade_view(job, query.collector_id, query.on)
    name = grade.collector_id
    return GradePageView(
        grade,
        setups_view(job, name) if "setups" in query.needs else None,
        shots_view(job, name) if "shots" in query.needs else None,
        cover_view(job, name, query.from_nm, query.to_nm) if "cover" in query.needs else None,
        laser_view(job) if "lasers" in query.needs else None,
    )
