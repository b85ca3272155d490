"""Plan of the stake-out sheet: next passes heavy and named, later ones dashed, tapes drawn in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from models.entries.bodies.surfaces import Surface
from models.queries.layout.stakeout import StakeOut
from models.state.job_state import JobState
from sync.papers.day.facts.plan_views import plan_view
from sync.papers.drawing.plan_lines import LineProgress
from sync.papers.drawing.plan_strip import PlanLine, PlanView

NEXT_PASSES = 6
"""As many passes of each use are drawn heavy as a crew stakes ahead; common practice, no source."""

LEGEND = (
    "Heavy, with names where there is room: the next passes. Dashed: later ones. Thin: cut. "
    "Broad and grey: the tapes, each from its zero, and the collector."
)


def plan_to_drive(state: JobState, surface: Surface, staked: Sequence[StakeOut]) -> PlanView | None:
    """Plan of a surface with what is next on it."""
    view = plan_view(state, surface.surface_id, max(state.days, default=""))
    if view is None:
        return None
    coming = {name for one in staked for name in _coming(one)}
    lines = tuple(
        _shown(drawn, line.line_id, coming)
        for drawn, line in zip(view.lines, surface.lines, strict=True)
    )
    tapes = tuple(
        ((tape.zero.x_nm, tape.zero.y_nm), (tape.end.x_nm, tape.end.y_nm))
        for tape in (one.baseline for one in staked)
    )
    return replace(view, lines=lines, collectors_nm=(*view.collectors_nm, *tapes))


def _coming(staked: StakeOut) -> list[str]:
    """Lines not cut of the next passes."""
    left = [one for one in staked.passes if not one.is_done][:NEXT_PASSES]
    return [line.line_id for one in left for leg in one.legs for line in leg if not line.is_cut]


def _shown(line: PlanLine, line_id: str, coming: set[str]) -> PlanLine:
    if line_id in coming:
        return replace(line, standing=LineProgress.TODAY, label=line_id, is_out=False)
    is_cut = line.standing is not LineProgress.PLANNED
    standing = LineProgress.DONE if is_cut else LineProgress.PLANNED
    return replace(line, standing=standing, label="", is_out=False)
