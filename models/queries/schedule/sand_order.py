"""Orders for sand: stock on the site, use per day, amount still needed, day to call it in."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from models.entries.bodies.job import Material
from models.entries.bodies.loads import Delivery
from models.entries.bodies.passes import SandPlaced
from models.entries.bodies.planning import TakeoffTerms
from models.entries.envelope import Entry
from models.entries.index import B, Index
from models.entries.kind_names import DELIVERY, LAYER_CHECK, MATERIAL, TAKEOFF_TERMS
from models.queries.materials.sand_balance import dry_pl, on_hand_pl
from models.queries.schedule.daily_work import PartRecord
from models.queries.takeoff.job_takeoff import job_takeoff
from models.science.schedule.production import remaining_nm, working_date
from models.science.schedule.sand_call_in import CallIn, sand_call_in
from models.science.takeoff.items import Item
from models.state.indexes import SAND_OF
from models.state.job_state import JobState
from models.units import round_half_even
from models.units.station import StationRange

SAND_ITEMS = (Item.SLIT_SAND, Item.COLLECTOR_SAND)


@dataclass(frozen=True, slots=True)
class SandCall:
    """Stock and need of one sand, in loose volume as dry.

    ``daily_pl`` is the most that a day took; None while none was placed. ``needed_pl`` is
    what the rest of the plan takes, None with several sands. ``call`` and ``call_on`` are
    None and empty while nothing can be said, or where what is on hand is enough.
    """

    material_id: str
    on_hand_pl: int | None
    daily_pl: int | None
    needed_pl: int | None
    lead_days: int
    call: CallIn | None
    call_on: str

    @property
    def is_enough(self) -> bool:
        """Whether what is on hand serves for all that is left."""
        known = self.needed_pl is not None and self.on_hand_pl is not None
        return known and (self.on_hand_pl or 0) >= (self.needed_pl or 0)


def sand_calls(
    state: JobState, day: str, parts: Sequence[PartRecord], rest: frozenset[int]
) -> tuple[SandCall, ...]:
    """Every sand of the job that may be used, and when to call for more of it."""
    materials = [state.latest(MATERIAL, name) for name in state.every_name(MATERIAL)]
    sands = [
        one for one in materials if isinstance(one, Material) and one.use == "sand" and one.suitable
    ]
    needed = needed_pl(state, day, parts) if len(sands) == 1 else None
    return tuple(_call(state, day, sand.material_id, needed, rest) for sand in sands)


def needed_pl(state: JobState, day: str, parts: Sequence[PartRecord]) -> int:
    """Sand that the rest of the plan takes at the end of a day, with what is spilt."""
    terms = state.latest(TAKEOFF_TERMS)
    waste = terms.sand_waste_permille if isinstance(terms, TakeoffTerms) else 0
    shares = sand_per_nm(state)
    total = sum(
        (
            shares.get((part.subject, part.use), Fraction(0)) * _without_sand_nm(state, day, part)
            for part in parts
        ),
        Fraction(0),
    )
    return round_half_even(total * (1000 + waste), 1000)


def _without_sand_nm(state: JobState, day: str, part: PartRecord) -> int:
    """Length of a part that still takes sand: a laid pipe does until its sand was checked."""
    if part.use != "collector":
        return part.left_nm
    checks = [
        entry.body
        for entry in state.current(LAYER_CHECK, part.subject)
        if entry.day <= day and entry.body.layer == "sand"
    ]
    covered_nm, reached_nm = 0, None
    for low, high in sorted(StationRange.between(check.from_nm, check.to_nm) for check in checks):
        begun_nm = low if reached_nm is None else max(low, reached_nm)
        covered_nm += max(0, high - begun_nm)
        reached_nm = max(high, begun_nm)
    return remaining_nm(part.planned_nm, covered_nm)


def sand_per_nm(state: JobState) -> dict[tuple[str, str], Fraction]:
    """Sand in place for each nm of a part, by the take-off [pl/nm]."""
    found: dict[tuple[str, str], Fraction] = {}
    lengths = (Item.SAND_SLIT_LENGTH, Item.PIPED_SLIT_LENGTH, Item.COLLECTOR_LENGTH)
    for part in job_takeoff(state).parts:
        for use in part.uses:
            sizes = {line.item: Fraction(line.amount.size) for line in use.lines}
            length = sum((sizes.get(item, Fraction(0)) for item in lengths), Fraction(0))
            sand = sum((sizes.get(item, Fraction(0)) for item in SAND_ITEMS), Fraction(0))
            if length:
                found[(part.subject, use.use)] = sand / length
    return found


def _call(
    state: JobState, day: str, material_id: str, needed: int | None, rest: frozenset[int]
) -> SandCall:
    on_hand = _on_hand(state, material_id, day)
    most = _most_in_a_day(state, material_id, day)
    terms = state.latest(TAKEOFF_TERMS)
    lead = terms.sand_lead_days if isinstance(terms, TakeoffTerms) else 1
    bare = SandCall(material_id, on_hand, most, needed, lead, None, "")
    if on_hand is None or not most or bare.is_enough:
        return bare
    call = sand_call_in(max(on_hand, 0), most, lead)
    on = working_date(date.fromisoformat(day), call.call_in_days, rest).isoformat()
    return SandCall(material_id, on_hand, most, needed, lead, call, on)


def _on_hand(state: JobState, material_id: str, day: str) -> int | None:
    """What lay on the site at the end of a day: the balance less what moved since."""
    now = on_hand_pl(state, material_id)
    if now is None:
        return None
    came = sum(_dry(state, material_id, e) for e in _since(state, DELIVERY, material_id, day))
    went = sum(_dry(state, material_id, e) for e in _since(state, SAND_OF, material_id, day))
    return now - came + went


def _since(state: JobState, index: Index[B, str], material_id: str, day: str) -> list[Entry[B]]:
    return [entry for entry in state.current(index, material_id) if entry.day > day]


def _dry(state: JobState, material_id: str, entry: Entry[SandPlaced | Delivery]) -> int:
    """One load in or out as dry volume; 0 where it can't be known."""
    load = entry.body
    mass, volume = load.mass_ug or 0, load.volume_pl or 0
    return dry_pl(state, material_id, mass, volume, load.moisture) or 0


def _most_in_a_day(state: JobState, material_id: str, day: str) -> int | None:
    """The most sand that one day took, as dry; None without any that can be measured."""
    daily: dict[str, int] = defaultdict(int)
    for entry in state.current(SAND_OF, material_id):
        if entry.day <= day:
            daily[entry.day] += _dry(state, material_id, entry)
    return max(daily.values(), default=0) or None
