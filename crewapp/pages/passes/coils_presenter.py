"""Reads the coils of pipe: what came in, what was drawn, what is left on each."""

from __future__ import annotations

from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.passes.view import Coil
from crewapp.words.translate import say
from models.entries.bodies.loads import Delivery
from models.state.indexes import COIL_IN, DRAWN_NM


def coils_of(job: OpenJob) -> tuple[Coil, ...]:
    """Coils delivered, those with most used first, empty ones last."""
    rows = []
    for coil_id in job.state.every_name(COIL_IN):
        came = list(job.state.bodies(COIL_IN, coil_id))
        total = sum(body.length_nm or 0 for body in came)
        drawn = job.state.total(DRAWN_NM, coil_id)
        rows.append((_coil(job, coil_id, came[-1], total, drawn), total - drawn, drawn))
    rows.sort(key=lambda row: (row[1] <= 0, -row[2], row[0].coil_id))
    return tuple(row[0] for row in rows)


def _coil(job: OpenJob, coil_id: str, load: Delivery, total_nm: int, drawn_nm: int) -> Coil:
    left = total_nm - drawn_nm
    if left < 0:
        over = job.figures.length(-left)
        return Coil(coil_id, load.material_id, say("{over} overdrawn", over=over), Status.CHECK)
    text = say(
        "{left} left of {total}",
        left=job.figures.length(left),
        total=job.figures.length(total_nm),
    )
    return Coil(coil_id, load.material_id, text, Status.OK if left else Status.NOT_MEASURED)
