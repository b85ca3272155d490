"""What is shown after an action: the flag that is new comes before one that only grew."""

from __future__ import annotations

from crewapp.actions.slits import log_pass, place_sand
from crewapp.faces.inked import inked_face
from crewapp.open_job import Changed, OpenJob

FT_NM = 304_800_000
TENTH_M3_PL = 10**14


def place(job: OpenJob, moisture: str) -> Changed:
    """Put sand into the pass; none of it was delivered."""
    return place_sand(
        job,
        surface_id="G7",
        pass_id="G7-01",
        material_id="sand",
        moisture=moisture,
        volume_pl=TENTH_M3_PL,
        amount_typed="0.1 m3",
    )


def test_new_flag_is_shown_before_one_that_grew(job: OpenJob) -> None:
    """Sand that never came in is told at each load; that this load was damp is told at this one."""
    log_pass(job, surface_id="G7", line_ids=("S01",), length_nm=30 * FT_NM, length_typed="30")
    assert "delivered" in inked_face(job, place(job, "dry")).raised_title
    assert "delivered" in inked_face(job, place(job, "dry")).raised_title

    assert "damp" in inked_face(job, place(job, "damp")).raised_title
