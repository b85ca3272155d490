"""Facts in every file of an as-built: whose work, in which units, from which datum."""

from __future__ import annotations

from models.science.shapes.projection import NANODEGREES
from sync.papers.asbuilt.features.feature_types import AsBuilt

LOCAL_GRID = (
    "Local plane of the job, not tied to the Earth: find it again by the ties to permanent points."
)
NOT_A_LOCATE = "Lines lie where they were planned; lengths, depths and inverts are as measured."


def about_job(job: AsBuilt) -> tuple[tuple[str, str], ...]:
    """Facts that go with the features, in words; what is not known is left out."""
    facts = (
        ("job", job.job_name),
        ("job_id", job.job_id),
        ("site", job.site),
        ("owner", job.owner),
        ("contractor", job.contractor),
        ("from_day", job.first_day),
        ("to_day", job.last_day),
        ("units", "ft, in" if job.is_us else "m, mm"),
        ("datum", job.datum or "the job's own"),
        ("plane", plane_words(job)),
        ("origin_found", job.origin_found),
        ("cut_length", job.figures.length(job.cut_nm)),
        *(
            (name, job.figures.length(length_nm))
            for name, length_nm in (
                ("cut_off_plan", job.off_plan_nm),
                ("cut_again", sum(line.again_nm for line in job.lines)),
                ("cut_beyond", sum(line.beyond_nm for line in job.lines)),
            )
            if length_nm
        ),
        ("places", NOT_A_LOCATE),
    )
    return tuple((name, said) for name, said in facts if said)


def plane_words(job: AsBuilt) -> str:
    """Plane of the coordinates: where its origin lies, or that it is tied to nothing."""
    if job.projection is None:
        return LOCAL_GRID
    lat, lon = job.projection.lat_ndeg / NANODEGREES, job.projection.lon_ndeg / NANODEGREES
    return (
        f"Local plane, origin at latitude {lat:.9f}, longitude {lon:.9f} (WGS 84), y to true north"
    )
