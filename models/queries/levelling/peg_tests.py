"""Whether the laser of a setup is proven by a peg test, as a job stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction

from models.entries.bodies.instruments import Instrument, InstrumentEvent, PegTest
from models.entries.bodies.levels import LaserSetup
from models.entries.envelope import AnyEntry, Entry
from models.entries.kind_names import INSTRUMENT, INSTRUMENT_EVENT, PEG_TEST
from models.errors import CalculationInputError
from models.queries.levelling.setup_chain import chain_of, hanging_from
from models.science.levelling.collimation import PegReadings, collimation_error, peg_limit
from models.state.indexes import SETUPS_BY
from models.state.job_state import JobState, Place

PEG_EVERY_DAYS = 30
"""Days that a peg test holds where an instrument says nothing: common practice, no source."""


class Doubt(StrEnum):
    """Reason why a laser is not proven, as a sentence gives it."""

    UNNAMED = "which laser it was is not written down"
    NEVER = "no peg test of it is written down"
    OLD = "its last peg test is too long ago"
    DROPPED = "it was dropped and not peg-tested since"
    FAILED = "its peg test failed"


@dataclass(frozen=True, slots=True)
class JudgedTest:
    """A peg test worked out; ``error`` and ``limit`` are rises for each unit of distance."""

    entry: AnyEntry
    test: PegTest
    error: Fraction
    limit: Fraction

    @property
    def is_good(self) -> bool:
        """Whether the error is no larger than its limit; on it counts as within."""
        return abs(self.error) <= self.limit


@dataclass(frozen=True, slots=True)
class LaserProof:
    """Proof of the laser of one setup: the peg test that decides, and what is in doubt."""

    setup: Entry[LaserSetup]
    instrument_id: str
    test: JudgedTest | None
    doubt: Doubt | None

    @property
    def name(self) -> str:
        """The instrument by its name, or by the words written for it."""
        return self.instrument_id or self.setup.body.instrument or "the laser"


def readings_of(test: PegTest) -> PegReadings:
    """The figures of a peg test."""
    return PegReadings(
        test.mid_a_nm, test.mid_b_nm, test.end_a_nm, test.end_b_nm, test.to_a_nm, test.to_b_nm
    )


def judge_test(instrument: Instrument | None, entry: Entry[PegTest]) -> JudgedTest | None:
    """Work a peg test out; None where its second setup was as far from A as from B."""
    try:
        error = collimation_error(readings_of(entry.body))
    except CalculationInputError:
        return None
    return JudgedTest(entry, entry.body, error, limit_of(instrument))


def limit_of(instrument: Instrument | None) -> Fraction:
    """Largest error that a peg test of an instrument may show."""
    if instrument is None:
        return peg_limit(None, None)
    return peg_limit(instrument.peg_limit_millionths, instrument.plane_asec10)


def find_instrument(state: JobState, instrument_id: str) -> Instrument | None:
    """The instrument of a name, as last written."""
    return state.latest(INSTRUMENT, instrument_id)


def peg_tests_of(state: JobState, instrument_id: str) -> list[JudgedTest]:
    """Every peg test of an instrument that can be worked out, oldest first."""
    instrument = find_instrument(state, instrument_id)
    found = (judge_test(instrument, entry) for entry in state.current(PEG_TEST, instrument_id))
    return sorted((one for one in found if one), key=lambda one: _turn(state, one.entry))


def only_instrument(state: JobState) -> str:
    """Name of the job's one instrument; "" where it has none or several."""
    names = state.every_name(INSTRUMENT)
    return names[0] if len(names) == 1 else ""


def laser_proof(state: JobState, setup: Entry[LaserSetup]) -> LaserProof | None:
    """Proof of the laser of one setup; None where no instrument concerns it.

    A setup without the name of an instrument is judged only if the job had one before it.
    """
    name = setup.body.instrument_id
    if find_instrument(state, name) is None:
        if not _had_instrument(state, setup):
            return None
        return LaserProof(setup, name, None, Doubt.UNNAMED)
    test, doubt = _standing(state, name, setup)
    return LaserProof(setup, name, test, doubt)


def unproven_laser(state: JobState, setup_id: str) -> LaserProof | None:
    """First doubtful laser of a setup, or of one that it hangs from; None if none is in doubt."""
    for setup in chain_of(state, setup_id).setups:
        proof = laser_proof(state, setup)
        if proof is not None and proof.doubt is not None:
            return proof
    return None


def laser_today(
    state: JobState, instrument_id: str, day: str
) -> tuple[JudgedTest | None, Doubt | None]:
    """The newest peg test of an instrument, and why a setup on a day would want another."""
    return _before(_history(state, instrument_id), day, _days_held(state, instrument_id))


def setups_of_instrument(state: JobState, instrument_id: str) -> set[str]:
    """Setups of an instrument, and those that hang from them."""
    own = (body.setup_id for body in state.bodies(SETUPS_BY, instrument_id))
    return hanging_from(state, own)


_History = list[tuple[AnyEntry, JudgedTest | None]]
"""Tests of an instrument, and what befell it (None), in the order of their days."""


def _turn(state: JobState, entry: AnyEntry) -> tuple[str, Place]:
    """Order of what happened: notes typed up later belong to the day they tell of."""
    return entry.day, state.place_of(entry)


def _had_instrument(state: JobState, setup: AnyEntry) -> bool:
    turn = _turn(state, setup)
    return any(
        _turn(state, entry) < turn
        for name in state.every_name(INSTRUMENT)
        for entry in state.current(INSTRUMENT, name)
    )


def _history(state: JobState, instrument_id: str) -> _History:
    found: _History = [(one.entry, one) for one in peg_tests_of(state, instrument_id)]
    found += [
        (entry, None)
        for entry in state.current(INSTRUMENT_EVENT, instrument_id)
        if entry.body.what != "other"
    ]
    return sorted(found, key=lambda one: _turn(state, one[0]))


def _days_held(state: JobState, instrument_id: str) -> int:
    instrument = find_instrument(state, instrument_id)
    return PEG_EVERY_DAYS if instrument is None else instrument.peg_every_days


def _standing(
    state: JobState, instrument_id: str, setup: AnyEntry
) -> tuple[JudgedTest | None, Doubt | None]:
    """The test that tells of a setup, and the doubt that it leaves.

    That is the newest one before it. The first one after it tells too, while the laser was
    neither dropped nor adjusted in between: a failure puts in doubt what was shot since the
    last good test, and a pass proves what no test had.
    """
    turn, days = _turn(state, setup), _days_held(state, instrument_id)
    history = _history(state, instrument_id)
    before = [one for one in history if _turn(state, one[0]) < turn]
    after = next((test for entry, test in history if _turn(state, entry) > turn), None)
    test, doubt = _before(before, setup.day, days)
    if after is not None and not after.is_good:
        return after, Doubt.FAILED
    if after is not None and doubt in {Doubt.NEVER, Doubt.OLD, Doubt.DROPPED}:
        held = _days_apart(setup.day, after.entry.day)
        return (after, None) if held is not None and held <= days else (test, doubt)
    return test, doubt


def _before(history: _History, day: str, days: int) -> tuple[JudgedTest | None, Doubt | None]:
    """The newest test before a day, and what it leaves in doubt."""
    is_dropped = False
    for entry, test in reversed(history):
        is_dropped |= isinstance(entry.body, InstrumentEvent) and entry.body.what == "dropped"
        if test is None:
            continue
        if not test.is_good:
            return test, Doubt.FAILED
        held = _days_apart(entry.day, day)
        is_old = held is None or held > days
        return test, Doubt.DROPPED if is_dropped else Doubt.OLD if is_old else None
    return None, Doubt.DROPPED if is_dropped else Doubt.NEVER


def _days_apart(first: str, last: str) -> int | None:
    """Days from one day to another; None where one is in no calendar."""
    start, end = read_day(first), read_day(last)
    return (end - start).days if start and end else None


def read_day(text: str | None) -> date | None:
    """A day of the calendar, or None where the text is none."""
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        return None


def calibrations(state: JobState, setup: Entry[LaserSetup]) -> Iterator[date]:
    """Days on which the laser of a setup was calibrated: as the setup says, else by its name."""
    body = setup.body
    instrument = find_instrument(state, body.instrument_id)
    known = [instrument.calibrated_on or ""] if instrument is not None else []
    known += [
        entry.day
        for entry in state.current(INSTRUMENT_EVENT, body.instrument_id)
        if entry.body.what == "calibrated"
    ]
    told = [body.calibrated_on, *(day for day in known if day <= setup.day)]
    yield from (day for text in told if (day := read_day(text)) is not None)
