"""Check shots as proof of a setup, and the shots that a bad one puts in doubt."""

from __future__ import annotations

from dataclasses import dataclass

from models.entries.bodies.levels import CheckShot, GradeShot
from models.entries.envelope import AnyEntry, Entry
from models.entries.kind_names import BENCHMARK, CHECK_SHOT, GRADE_SHOT, SETUP, TURNING_POINT
from models.queries.levelling.elevations import plane_of
from models.queries.levelling.setup_chain import Chain, chain_of, hanging_from, is_on_rod, setups_on
from models.science.levelling.closure import ALLOWANCES, Allowance, AllowanceKind, is_allowed
from models.science.levelling.laser_plane import Length
from models.state.indexes import SHOTS_FROM
from models.state.job_state import JobState, Place

REPEAT = Allowance(
    "0.02 ft",
    AllowanceKind.FIXED,
    6_096_000,
    source="common practice, no source: half of the usual tolerance of an invert",
)
"""A check shot from a setup that looks back on a benchmark itself."""

RUN = ALLOWANCES["0.012ft-setup"]
"""A run of setups by turning points; nobody writes down how far it went."""


BEFORE_ALL: Place = ((0, ""), (0, ""))
"""A place in the book before every entry."""


@dataclass(frozen=True, slots=True)
class Proof:
    """A check shot and by how much it misses: computed less known, positive when high.

    ``setups`` is the number of setups between the benchmarks; ``is_run`` says
    that they hang together by turning points.
    """

    entry: Entry[CheckShot]
    on_point: str
    missed_nm: Length
    setups: int
    is_run: bool

    @property
    def allowance(self) -> Allowance:
        """Rule that the check shot is held against."""
        return RUN if self.is_run else REPEAT

    @property
    def is_good(self) -> bool:
        """Whether it misses by no more than is allowed; on it counts as within."""
        return is_allowed(self.missed_nm, self.allowance, setups=self.setups)


def proofs_of(state: JobState, setup_id: str) -> list[Proof]:
    """Check shots of a setup that can be judged, in the order of the book.

    A shot on a point that nobody knows proves nothing. Under a graded plane only
    the backsight point itself can be checked: the station of another is not known.
    """
    chain = chain_of(state, setup_id)
    if not chain.setups:
        return []
    found = []
    for entry in state.current(CHECK_SHOT, setup_id):
        shot = entry.body
        if is_on_rod(shot.reading_nm):
            proof = _proof(state, chain, entry, shot)
            if proof is not None:
                found.append(proof)
    return found


def _proof(state: JobState, chain: Chain, entry: Entry[CheckShot], shot: CheckShot) -> Proof | None:
    setup = chain.setups[0].body
    if not is_on_rod(setup.backsight_nm) or setup.backsight_nm is None:
        return None
    if shot.on_point == setup.on_point:
        return Proof(entry, shot.on_point, setup.backsight_nm - shot.reading_nm, 1, False)
    known = state.latest(BENCHMARK, shot.on_point)
    if known is None or setup.plane == "graded" or not chain.is_sound:
        return None
    plane = plane_of(state, setup.setup_id)
    if plane is None:
        return None
    missed_nm = plane.elevation_nm - shot.reading_nm - known.elevation_nm
    return Proof(entry, shot.on_point, missed_nm, len(chain.setups), len(chain.setups) > 1)


def can_be_checked(state: JobState, entry: AnyEntry) -> bool:
    """Whether a check shot is on a point whose level is known without it."""
    shot = entry.body
    if not isinstance(shot, CheckShot) or not is_on_rod(shot.reading_nm):
        return False
    setup = state.latest(SETUP, shot.setup_id)
    on_backsight = setup is not None and setup.on_point == shot.on_point
    return on_backsight or state.latest(BENCHMARK, shot.on_point) is not None


@dataclass(frozen=True, slots=True)
class Miss:
    """The last check shot of a setup, which misses, and the shots that it puts in doubt."""

    proof: Proof
    in_doubt: tuple[Entry[GradeShot], ...]

    @property
    def stations_nm(self) -> tuple[int, int]:
        """Lowest and highest station in doubt; the same where there is one or none."""
        stations = [shot.body.station_nm for shot in self.in_doubt]
        return (min(stations), max(stations)) if stations else (0, 0)


def miss_of(state: JobState, setup_id: str, *, is_run: bool) -> Miss | None:
    """Whether the last check shot of one sort misses, and what hangs on it.

    A good check shot after a bad one shows that the rod was misread, and puts
    the setup right again.
    """
    proofs = [proof for proof in proofs_of(state, setup_id) if proof.is_run == is_run]
    if not proofs or proofs[-1].is_good:
        return None
    good = [state.place_of(proof.entry) for proof in proofs if proof.is_good]
    since = good[-1] if good else BEFORE_ALL
    return Miss(proofs[-1], tuple(shots_since(state, setup_id, since, is_run=is_run)))


def shots_since(
    state: JobState, setup_id: str, since: Place, *, is_run: bool
) -> list[Entry[GradeShot]]:
    """Shots that hang on a setup after a place in the book and still stand.

    A run that misses puts in doubt every setup on the way, one setup those that
    hang from turning points read after it. A shot taken again since, from
    wherever, doesn't count any more.
    """
    if is_run:
        setups = {setup.body.setup_id for setup in chain_of(state, setup_id).setups}
    else:
        setups = {setup_id, *_hanging_since(state, setup_id, since)}
    shots = [
        shot
        for name in sorted(setups)
        for shot in state.current(SHOTS_FROM, name)
        if state.place_of(shot) > since
    ]
    collectors = {shot.body.collector_id for shot in shots}
    newest = _newest_ids(state, collectors)
    return sorted((shot for shot in shots if shot.id in newest), key=state.place_of)


def _hanging_since(state: JobState, setup_id: str, since: Place) -> set[str]:
    points = {
        entry.body.point_id
        for entry in state.current(TURNING_POINT, setup_id)
        if state.place_of(entry) > since
    }
    return hanging_from(state, (name for point in points for name in setups_on(state, point)))


def _newest_ids(state: JobState, collectors: set[str]) -> set[str]:
    """Ids of the newest shot at each station of some collectors, pipe by pipe."""
    ids: set[str] = set()
    for collector_id in collectors:
        last: dict[tuple[str, int], str] = {}
        for entry in state.current(GRADE_SHOT, collector_id):
            shot = entry.body
            on = "invert" if shot.on == "obvert" else shot.on
            last[(on, shot.station_nm)] = entry.id
        ids.update(last.values())
    return ids
