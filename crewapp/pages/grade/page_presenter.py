"""Reads for the Grade screen what the part in front shows."""

from __future__ import annotations

from crewapp.job.dispatch import answers
from crewapp.job.open_job import OpenJob
from crewapp.pages.grade.covering.presenter import cover_face
from crewapp.pages.grade.laser.presenter import laser_face
from crewapp.pages.grade.page_view import GradeScreen, ShowGrade
from crewapp.pages.grade.presenter import grade_face
from crewapp.pages.grade.setup.presenter import setups_face
from crewapp.pages.grade.shots_presenter import shots_face


@answers(ShowGrade)
def grade_screen(job: OpenJob, query: ShowGrade) -> GradeScreen:
    """Read the collector, and of ``needs`` (setups, shots, cover, lasers) what is named."""
    grade = grade_face(job, query.collector_id, query.on)
    name = grade.collector_id
    return GradeScreen(
        grade,
        setups_face(job, name) if "setups" in query.needs else None,
        shots_face(job, name) if "shots" in query.needs else None,
        cover_face(job, name, query.from_nm, query.to_nm) if "cover" in query.needs else None,
        laser_face(job) if "lasers" in query.needs else None,
    )
