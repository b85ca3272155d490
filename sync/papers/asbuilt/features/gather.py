"""Reads a job state into the features of its as-built."""

from __future__ import annotations

from models.checks.flag_board import FlagBoard
from models.entries.bodies.planning import LocalPlane
from models.entries.kind_names import LOCAL_PLANE
from models.science.shapes.projection import LocalProjection
from models.state.job_state import JobState
from models.units.job_units import figures_of
from sync.papers.asbuilt.features.answers import Answers
from sync.papers.asbuilt.features.collector_features import (
    inverts_of,
    joints_of,
    released_of,
    runs_of,
)
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.features.slit_features import lines_of_job, probes_of_job, surfaces_of
from sync.papers.asbuilt.features.struck_readings import void_readings
from sync.papers.asbuilt.features.survey_features import (
    outlets_of,
    photos_of,
    points_of,
    ties_of,
    utilities_of,
)
from sync.papers.wording.missing_sections import MissingSections


def as_built(
    state: JobState, board: FlagBoard | None = None, made: MissingSections | None = None
) -> AsBuilt:
    """Gather everything that lies in the ground; ``board`` spares looking for flags anew.

    What can't be read off the book is noted in ``made`` and left out.
    """
    part = (made or MissingSections()).make_or_notice
    answers = Answers(board or FlagBoard(state))
    job, latest = state.job, state.latest(LOCAL_PLANE)
    plane = latest if isinstance(latest, LocalPlane) else None
    projection = LocalProjection(plane.lon_ndeg, plane.lat_ndeg) if plane else None
    figures = figures_of(job.unit_system if job else "us", job.station_style if job else "us_100ft")
    probes = part("probes", (), probes_of_job, state, answers)
    lines = part("lines", (), lines_of_job, state, probes)
    return AsBuilt(
        job_id=job.job_id if job else "",
        job_name=job.name if job else "",
        site=job.site if job else "",
        owner=job.owner if job else "",
        contractor=job.contractor if job else "",
        datum=job.datum if job else "",
        figures=figures,
        projection=projection,
        origin_found=plane.how if plane else "",
        first_day=min(state.days, default=""),
        last_day=max(state.days, default=""),
        surfaces=part("surfaces", (), surfaces_of, state, lines),
        lines=lines,
        probes=probes,
        collectors=part("collectors", (), runs_of, state, figures.is_us),
        inverts=part("inverts", (), inverts_of, state, answers),
        joints=part("joints", (), joints_of, state),
        released=part("released", (), released_of, state),
        utilities=part("utilities", (), utilities_of, state, projection),
        points=part("points", (), points_of, state),
        ties=part("ties", (), ties_of, state),
        photos=part("photos", (), photos_of, state),
        outlets=part("outlets", (), outlets_of, state, projection),
        void_readings=part("set aside", (), void_readings, state, figures),
    )
