"""Count of the inverts that a release to cover rests on, by what their readings prove."""

from __future__ import annotations

from dataclasses import dataclass

from models.queries.grade.laid_pipe import laid_pipe
from models.science.quality.verdict import Verdict
from models.state.job_state import JobState
from models.units.station import StationRange


@dataclass(frozen=True, slots=True)
class ReleasedInverts:
    """Inverts of a stretch: proven within tolerance, within as read alone, and out."""

    proven: int = 0
    as_read: int = 0
    out: int = 0

    @property
    def total(self) -> int:
        """Inverts in the stretch."""
        return self.proven + self.as_read + self.out


def count_inverts(state: JobState, collector_id: str, stretch: StationRange) -> ReleasedInverts:
    """Count the inverts of a collector in a stretch, its ends with it, as they stand."""
    pipe = laid_pipe(state, collector_id)
    verdicts = [
        shot.verdict
        for shot in (pipe.shots if pipe is not None else ())
        if stretch.holds(shot.at.station_nm)
    ]
    return ReleasedInverts(
        proven=sum(verdict is Verdict.OK for verdict in verdicts),
        as_read=sum(verdict is Verdict.WITHIN for verdict in verdicts),
        out=sum(verdict.is_out for verdict in verdicts),
    )
