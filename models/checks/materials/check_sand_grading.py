"""sand_grading: a sieve sheet puts the sand outside the table that it has to meet."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import material_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.kind_names import MATERIAL, SIEVE_TEST
from models.queries.materials.gradings import grading_of
from models.science.materials.gradation import BandResult
from models.science.quality.verdict import Verdict
from models.state.job_state import JobState
from models.units.percent import percent_beside_limits


def examine(state: JobState, material_id: str) -> Iterator[Finding]:
    """Hold the newest sieve sheet of a sand against the table of its edition."""
    grading = grading_of(state, material_id)
    if grading is None or grading.use != "sand":
        return
    out = [one for one in grading.bands if one.verdict is Verdict.OUT]
    if out:
        entry = state.entries[grading.entry_id]
        yield make_finding(
            "sand_grading",
            material_id,
            [*state.current(MATERIAL, material_id)[-1:], entry],
            material_id=material_id,
            edition=grading.edition,
            bands=", ".join(map(_said, out)),
        )


def _said(one: BandResult) -> str:
    """A band with what was found and what is allowed, in percent to tenths."""
    names = " + ".join(str(grain) for grain in one.band.grains)
    found_share = one.share or 0
    share = percent_beside_limits(found_share, one.band.low, one.band.high, 1)
    is_short = one.band.low is not None and found_share < one.band.low
    limit = f"at least {one.band.low}" if is_short else f"at most {one.band.high}"
    return f"{names} mm {share} % where {limit} % is allowed"


CHECK = Check(
    id="sand_grading",
    severity=Severity.FIX,
    problem="The sieve sheet of the sand is outside the table it is held to.",
    why="Sand that is too fine or too mixed packs tight and lets in less water than was reckoned "
    "with; sand that is too coarse may not be held by the soil beside it.",
    cure="Place no more of it until it is settled. Ask the owner in writing, or have sand of "
    "another sheet brought.",
    message="{material_id} is outside {edition}: {bands}.",
    watches={"sieve_test": material_of_entry, "material": material_of_entry},
    subjects=lambda state: state.every_name(SIEVE_TEST),
    examine=examine,
)
