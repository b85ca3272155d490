"""Readings out of force, listed where a reader would look for them, with the reason."""

from __future__ import annotations

from collections.abc import Iterator

from models.entries import id_fields
from models.entries.bodies.collector_work import UtilityMet
from models.entries.bodies.day import Struck
from models.entries.bodies.levels import GradeShot
from models.entries.bodies.passes import PassCut, Probe
from models.entries.bodies.planning import PermanentPoint
from models.entries.body import Body
from models.entries.envelope import AnyEntry
from models.entries.keys import split_key
from models.entries.kind_names import GRADE_SHOT, PASS, PROBE
from models.ledger.current_readings import overtaken_probes
from models.queries.levelling.elevations import current_inverts
from models.state.indexes import CUTS_OF
from models.state.job_state import JobState
from models.units.job_units import Figures
from sync.papers.asbuilt.features.collector_features import station_place
from sync.papers.asbuilt.features.course import Place
from sync.papers.asbuilt.features.feature_types import VoidReading
from sync.papers.asbuilt.features.slit_features import probe_place
from sync.papers.asbuilt.features.survey_features import place_or_none
from sync.papers.day.facts.flags import reason_of
from sync.papers.wording.entry_text import details_of, line_names, title_of

STRUCK, OVERTAKEN = "struck", "overtaken"
_IN_THE_GROUND = frozenset({"pass", "probe", "pipe_laid", "sand_placed", "turf_strip"})
_IN_THE_GROUND |= {"grade_shot", "layer_check", "hold_point", "utility"}
_IN_THE_GROUND |= {"tie", "permanent_point"}
_NEWER = "measured again at the same place"
_CUT_OVER = "cut again over its place"


def void_readings(state: JobState, figures: Figures) -> tuple[VoidReading, ...]:
    """Struck readings, those of struck passes, then overtaken ones, in the order of the book."""
    struck = [
        _struck(state, figures, entry)
        for day in sorted(state.days)
        for entry in state.days[day]
        if state.is_struck(entry.id) and entry.kind in _IN_THE_GROUND and entry.body is not None
    ]
    overtaken = [
        _row(state, figures, old, OVERTAKEN, _why(new), new.author, details_of(new, figures))
        for old, new in (*_older_probes(state), *_older_shots(state))
    ]
    return (*struck, *_of_struck_passes(state, figures), *overtaken)


def _of_struck_passes(state: JobState, figures: Figures) -> Iterator[VoidReading]:
    """Probes that nobody struck, of passes that somebody did: they are readings of nothing."""
    struck: dict[str, AnyEntry] = {}
    for entry in state.entries_in_order():
        if isinstance(entry.body, PassCut) and state.is_struck(entry.id):
            struck[entry.body.pass_id] = entry
    for pass_id, cut in struck.items():
        if state.latest(PASS, pass_id) is not None:
            continue
        of_pass = _struck(state, figures, cut)
        reason = f"its pass {pass_id} was struck: {of_pass.reason}"
        for entry in state.current(PROBE, pass_id):
            yield _row(state, figures, entry, STRUCK, reason, of_pass.by, "")


def _struck(state: JobState, figures: Figures, entry: AnyEntry) -> VoidReading:
    strikers = [state.entries[by] for by in state.struck_by[entry.id] if by in state.entries]
    instead = [one for one in strikers if not isinstance(one.body, Struck)]
    return _row(
        state,
        figures,
        entry,
        STRUCK,
        "; ".join(dict.fromkeys(reason_of(one) for one in strikers)),
        ", ".join(dict.fromkeys(one.author for one in strikers)),
        "; ".join(details_of(one, figures) for one in instead),
    )


def _row(
    state: JobState,
    figures: Figures,
    entry: AnyEntry,
    how: str,
    reason: str,
    by: str,
    instead: str,
) -> VoidReading:
    body = entry.body
    surface_id = id_fields.surface_id_of(body) or _surface_of(state, body)
    return VoidReading(
        how=how,
        kind=title_of(entry.kind),
        surface_id=surface_id,
        line_id=id_fields.line_id_of(body) or line_names(id_fields.line_ids_of(body)),
        collector_id=id_fields.collector_id_of(body),
        at=_place_of(state, surface_id, body),
        said=details_of(entry, figures),
        reason=reason,
        by=by,
        instead=instead,
        day=entry.day,
        author=entry.author,
    )


def _surface_of(state: JobState, body: Body | None) -> str:
    """Surface of a reading that names its pass alone, though the pass be struck."""
    key = ("surface_of_pass", "")
    if key not in state.memo:
        cuts = (entry.body for entry in state.entries_in_order() if entry.kind == "pass")
        state.memo[key] = {c.pass_id: c.surface_id for c in cuts if isinstance(c, PassCut)}
    return str(state.memo[key].get(id_fields.pass_id_of(body), ""))


def _place_of(state: JobState, surface_id: str, body: Body | None) -> Place | None:
    if isinstance(body, Probe):
        return probe_place(state, surface_id, body)
    if isinstance(body, GradeShot):
        return station_place(state, body.collector_id, body.station_nm)
    if isinstance(body, PermanentPoint | UtilityMet):
        return place_or_none(body.x_nm, body.y_nm)
    return None


def _why(new: AnyEntry) -> str:
    """What a reading was overtaken by."""
    return _CUT_OVER if isinstance(new.body, PassCut) else _NEWER


def _older_probes(state: JobState) -> Iterator[tuple[AnyEntry, AnyEntry]]:
    """Current probes that were overtaken, with the reading or the pass that did so."""
    for key in state.every_name(CUTS_OF):
        yield from overtaken_probes(state, *split_key(key))


def _older_shots(state: JobState) -> Iterator[tuple[AnyEntry, AnyEntry]]:
    """Current invert shots with the newer one at the same station."""
    for collector_id in state.every_name(GRADE_SHOT):
        newest = {shot.station_nm: shot.entry for shot in current_inverts(state, collector_id)}
        for entry in state.current(GRADE_SHOT, collector_id):
            shot = entry.body
            if shot.on in {"invert", "obvert"}:
                new = newest.get(shot.station_nm)
                if new is not None and new.id != entry.id:
                    yield entry, new
