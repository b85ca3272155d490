"""A long job made up entry by entry: greens of slits, one collector each, days of some 200 entries.

The same count gives the same job. About one probe in a hundred is shallow, as on a real job,
and one entry in two hundred corrects the one before it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from itertools import islice
from pathlib import Path
from random import Random
from typing import Any

from models.book.row import Draft
from models.book.store import Book
from models.entries.envelope import AnyEntry, body_fields, build_body, canonical_bytes, read_entry
from models.entries.kinds import KINDS
from models.state.job_state import JobState

IN = 25_400_000
FT = 12 * IN
SAND_LINES = 60
PIPED_LINES = 10
LENGTH_NM = 80 * FT
SHOTS = 30
FIRST_DAY = date(2026, 3, 2)
FIRST_MS = 1_772_409_600_000
DAY_MS = 86_400_000
ENTRIES_A_DAY = 200
STREAM = "5f" * 16

Fields = dict[str, Any]
Said = tuple[str, Fields]

SIZES = {
    "width_nm": IN,
    "width_tolerance_nm": IN // 4,
    "under_nm": IN // 2,
    "over_nm": IN,
    "probe_every_nm": 10 * FT,
    "probe_end_nm": 5 * FT,
}
SAND_SLITS = {**SIZES, "spacing_nm": 16 * IN, "depth_nm": 9 * IN}
PIPED_SLITS = {**SIZES, "spacing_nm": 96 * IN, "depth_nm": 10 * IN, "pipe_outside_nm": IN}


def line_fields(name: str, use: str, x_nm: int) -> Fields:
    """One planned line, straight up the plan."""
    ends = {"x1_nm": x_nm, "y1_nm": 0, "x2_nm": x_nm, "y2_nm": LENGTH_NM}
    return {"line_id": name, "use": use, "length_nm": LENGTH_NM, **ends}


def surface_fields(green: str, collector: str) -> Fields:
    """A green with its lines."""
    sand = [line_fields(f"S{n:02d}", "sand_slit", n * 16 * IN) for n in range(1, SAND_LINES + 1)]
    piped = [line_fields(f"P{n:02d}", "piped_slit", n * 96 * IN) for n in range(1, PIPED_LINES + 1)]
    return {
        "surface_id": green,
        "name": f"Green {green[1:]}",
        "use": "green",
        "sand_slits": SAND_SLITS,
        "piped_slits": PIPED_SLITS,
        "lines": [*sand, *piped],
        "collector_id": collector,
    }


def collector_fields(collector: str) -> Fields:
    """A collector of 300 ft at one in a hundred."""
    design = {
        "stationed_from": "outlet",
        "start_nm": 0,
        "length_nm": 300 * FT,
        "start_invert_nm": 90 * FT,
        "fall_nm": FT,
        "run_nm": 100 * FT,
        "high_nm": FT // 50,
        "low_nm": FT // 50,
        "least_grade_fall_nm": FT // 2,
        "shot_every_nm": 10 * FT,
        "bore_nm": 4 * IN,
        "outside_nm": 9 * IN // 2,
        "trench_width_nm": 8 * IN,
        "bedding_nm": IN,
        "bedding_least_nm": IN // 2,
        "cover_least_nm": 6 * IN,
        "protection_depth_nm": 5 * FT,
    }
    return {"collector_id": collector, "name": f"Main {collector}", "design": design}


def first_things() -> Iterator[Said]:
    """The job, its benchmark, its materials and its permission to dig."""
    yield "job", {"job_id": "long", "name": "Long job", "zone": "America/Chicago"}
    yield "benchmark", {"benchmark_id": "BM1", "elevation_nm": 100 * FT}
    sand = {"bulk_density_g_per_m3": 1_600_000, "hopper_pl": 10**15}
    yield "material", {"material_id": "sand", "use": "sand", **sand}
    yield "material", {"material_id": "pipe", "use": "pipe", "coil_nm": 300 * FT}
    yield "material", {"material_id": "pipe 4 in", "use": "pipe", "coil_nm": 250 * FT}
    for material in ("sand", "pipe", "pipe 4 in"):
        amount = {"mass_ug": 10**17} if material == "sand" else {"length_nm": 10**14}
        yield "delivery", {"material_id": material, "ticket": f"T-{material}", **amount}
    dates = {"valid_from": "2026-01-01", "expires_on": "2029-01-01"}
    yield "locate_ticket", {"ticket": "L-1", **dates}


def pass_said(green: str, line: str, number: int, chance: Random) -> Iterator[Said]:
    """A pass along one line: strip lifted, cut, probed, piped, filled, strip put back."""
    pass_id, piped = f"{green}-{number:02d}", line.startswith("P")
    depth_nm = (10 if piped else 9) * IN
    turf = {"surface_id": green, "pass_id": pass_id, "line_ids": [line]}
    yield "turf_strip", {**turf, "step": "lifted"}
    cut = {"surface_id": green, "line_ids": [line], "machine_id": "T1", "length_nm": LENGTH_NM}
    yield "pass", {"pass_id": pass_id, **cut, "length_typed": "80"}
    for place in range(10):
        off_nm = -IN if chance.random() < 0.01 else chance.randint(-2, 4) * IN // 8
        yield (
            "probe",
            {
                "pass_id": pass_id,
                "line_id": line,
                "along_nm": (4 + 8 * place) * FT,
                "depth_nm": depth_nm + off_nm,
                "depth_typed": "9-1/8",
                "width_nm": IN,
            },
        )
    if piped:
        laid = {
            "surface_id": green,
            "line_id": line,
            "material_id": "pipe",
            "coil_id": f"{green}-{number // 3}",
        }
        done = {"length_nm": LENGTH_NM, "connected": True, "end_capped": True}
        yield "pipe_laid", {**laid, **done, "length_typed": "80"}
    filled = {"surface_id": green, "pass_id": pass_id, "material_id": "sand"}
    volume_pl = 145_000_000_000_000 if piped else 142_000_000_000_000
    yield "sand_placed", {**filled, "volume_pl": volume_pl, "amount_typed": "0.19"}
    yield "turf_strip", {**turf, "step": "rolled"}


def collector_said(collector: str, chance: Random) -> Iterator[Said]:
    """A collector levelled from one setup, laid, covered layer by layer."""
    setup_id, whole = f"L-{collector}", {"from_nm": 0, "to_nm": 300 * FT}
    setup = {"setup_id": setup_id, "collector_id": collector, "on_point": "BM1"}
    yield "setup", {**setup, "backsight_nm": 2 * FT, "backsight_typed": "2.00"}
    for shot in range(SHOTS):
        station_nm = shot * 10 * FT
        invert_nm = 90 * FT + station_nm // 100 + chance.randint(-1, 1) * FT // 100
        read = {"on": "invert", "reading_nm": 102 * FT - invert_nm, "station_nm": station_nm}
        yield "grade_shot", {"setup_id": setup_id, "collector_id": collector, **read}
    yield "check_shot", {"setup_id": setup_id, "on_point": "BM1", "reading_nm": 2 * FT}
    laid = {"collector_id": collector, "material_id": "pipe 4 in", "length_nm": 300 * FT}
    yield "pipe_laid", laid
    yield "hold_point", {"collector_id": collector, **whole, "released_by": "Owner"}
    for layer in ("bedding", "pipe", "tracer_wire", "surround", "fabric", "sand", "sod"):
        looked = {"layer": layer, "thickness_nm": IN, "continuous": True}
        yield "layer_check", {"collector_id": collector, **whole, **looked}


def work_said() -> Iterator[Said]:
    """All the work of a job without an end, green after green, each with its collector first."""
    chance = Random(1)
    yield from first_things()
    number = 0
    while True:
        number += 1
        green, collector = f"G{number}", f"C{number}"
        yield "collector", collector_fields(collector)
        yield "surface", surface_fields(green, collector)
        lines = [f"S{n:02d}" for n in range(1, SAND_LINES + 1)]
        lines += [f"P{n:02d}" for n in range(1, PIPED_LINES + 1)]
        yield from collector_said(collector, chance)
        for turn, line in enumerate(lines, start=1):
            yield from pass_said(green, line, turn, chance)


def day_end_said(day: str) -> Iterator[Said]:
    """What is written when a day ends."""
    yield "weather", {"sky": "clear", "ground": "firm"}
    yield "hours", {"of": "person", "who": "Ann", "run_min": 540}
    sign = {"role": "foreman", "name": "Ann", "meaning": "true_record"}
    yield "signature", {"of_day": day, **sign, "strokes": [[[0, 0], [900, 200]]]}
    yield "day_closed", {"of_day": day, "open_flags": 0, "check_code": ""}


@dataclass
class Clerk:
    """Writes what is said into drafts, a day at a time."""

    written: int = 0
    days: int = 0
    last_probe: Draft | None = field(default=None)

    @property
    def day(self) -> str:
        """The day that is being written."""
        return (FIRST_DAY + timedelta(days=self.days)).isoformat()

    def draft(self, said: Said) -> Draft:
        """One draft with its id, its time and its day."""
        self.written += 1
        kind, fields = said
        return Draft(
            id=f"{self.written:08x}-0000-7000-8000-000000000000",
            kind=kind,
            v=KINDS[kind].version,
            body=body_fields(build_body(kind, fields)),
            at_ms=FIRST_MS + self.days * DAY_MS + (self.written - 1) % ENTRIES_A_DAY * 120_000,
            offset_min=-300,
            zone="America/Chicago",
            author="Ann",
            job="long",
            day=self.day,
            strikes=(),
            reason="",
        )

    def correction(self, draft: Draft) -> Draft:
        """The same thing written again, striking the first."""
        again = self.draft((draft.kind, dict(draft.body)))
        return replace(again, strikes=(draft.id,), reason="misread")


def drafts_without_end() -> Iterator[Draft]:
    """Drafts of the job in the order of writing."""
    clerk, work = Clerk(), work_said()
    while True:
        for number in range(ENTRIES_A_DAY - 5):
            draft = clerk.draft(next(work))
            yield draft
            if number == 100:
                yield clerk.correction(draft)
        for said in day_end_said(clerk.day):
            yield clerk.draft(said)
        clerk.days += 1


def drafts(count: int) -> Iterator[Draft]:
    """The first so many drafts of the job."""
    return islice(drafts_without_end(), count)


def entry_of(draft: Draft, number: int) -> AnyEntry:
    """A draft as the entry that it becomes, ``number`` counting from 1."""
    fields = {name: getattr(draft, name) for name in draft.__dataclass_fields__}
    place = {"stream": STREAM, "seq": number, "lc": number, "strikes": list(draft.strikes)}
    return read_entry(canonical_bytes({**fields, **place}))


def big_job(count: int) -> list[AnyEntry]:
    """The first so many entries of the job, in memory."""
    return [entry_of(draft, number) for number, draft in enumerate(drafts(count), start=1)]


def big_state(count: int) -> JobState:
    """State of the job after so many entries, looked at on its last day."""
    entries = big_job(count)
    state = JobState(entries)
    state.now_ms = entries[-1].at_ms
    return state


def write_big_book(path: Path, count: int) -> None:
    """Write the job into a new book."""
    with Book.create(path, stream=STREAM) as book:
        waiting = drafts(count)
        while some := list(islice(waiting, 1000)):
            book.commit_all(some)
