"""Reads for the Grade screen what the part in front shows."""

from __future__ import annotations

from crewapp.job.open_job import OpenJob
from crewapp.pages.grade.covering.presenter import cover_face
from crewapp.pages.grade.laser.presenter import laser_face
from crewapp.pages.grade.page_view import GradeScreen
from crewapp.pages.grade.presenter import grade_face
from crewapp.pages.grade.setup.presenter import setups_face
from crewapp.pages.grade.shots_presenter import shots_face


def grade_screen(
    job: OpenJob,
    collector_id: str = "",
    on: str = "",
    needs: tuple[str, ...] = (),
    from_nm: int | None = None,
    to_nm: int | None = None,
) -> GradeScreen:
    """Read the collector, and of ``needs`` (setups, shots, cover, lasers) what is named."""
    grade = grade_face(job, collector_id, on)
    name = grade.collector_id
    return GradeScreen(
        grade,
        setups_face(job, name) if "setups" in needs else None,
        shots_face(job, name) if "shots" in needs else None,
        cover_face(job, name, from_nm, to_nm) if "cover" in needs else None,
        laser_face(job) if "lasers" in needs else None,
    )
