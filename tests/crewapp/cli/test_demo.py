"""The demo: three days with real faults in them, the same on every run, in a folder of its own."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.books import book_to_read
from crewapp.cli.demo import make_demo
from crewapp.cli.main import main
from crewapp.demo.folder import FINISHED, DemoFolderError, room_for_demo
from crewapp.demo.identity import steady_ids
from crewapp.demo.monday import DAY as MONDAY
from crewapp.demo.signing import scribble
from crewapp.demo.slitting import places_ft
from crewapp.demo.story import STREAM
from crewapp.demo.tuesday import DAY as TUESDAY
from crewapp.demo.typist import NoSuchFlagError, eighths
from crewapp.demo.wednesday import DAY as WEDNESDAY
from crewapp.handlers.plan.layout import preview
from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import SetClock
from models.book.store import Book
from models.entries.kind_names import LAYOUT, PROBE, SURFACE
from models.entries.kinds import KINDS
from models.plan.line import LineUse
from models.queries.layout.next_pass import lines_left
from models.queries.levelling.elevations import current_inverts
from models.state.indexes import DAY_ACTS

FT = 304_800_000
HUNDREDTH_NM = 3_048_000
UNUSED = {"blade_set", "go_ahead", "photo", "structure", "trench_protection", "unit_price"}
UNUSED |= {"instrument", "instrument_event", "peg_test"}  # its laser came with a paper of its own
UNUSED |= {"tablet_added", "tablet_revoked"}  # the demo is written by one tablet alone


@pytest.fixture
def demo(demo_book: Path) -> Iterator[OpenJob]:
    """The demo's job, open to be looked at."""
    with book_to_read(demo_book) as job:
        yield job


@pytest.fixture
def finished(demo_folder: Path) -> Iterator[OpenJob]:
    """The same job worked to its end, open to be looked at."""
    with book_to_read(demo_folder / FINISHED) as job:
        yield job


def names_found(told: dict[str, object], day: str) -> set[str]:
    """Return the checks that found something on a day, from what the command tells."""
    days = told["days"]
    assert isinstance(days, list)
    found = next(one["found"] for one in days if one["day"] == day)
    return {one["flag"].split("/")[0] for one in found}


def test_demo_is_made_the_same_twice(demo_folder: Path, tmp_path: Path) -> None:
    """Book and sheets have the same bytes on every run."""
    make_demo(tmp_path / "again", quiet=True)

    first, again = (
        {str(p.relative_to(f)): p.read_bytes() for p in sorted(f.rglob("*")) if p.is_file()}
        for f in (demo_folder, tmp_path / "again")
    )
    beside = {name for name in first if name.endswith(("-wal", "-shm", ".ballast"))}
    assert [n for n in first if n not in beside and first[n] != again.get(n)] == []
    assert len([n for n in first if n.startswith("sheets/")]) == 12
    assert len([n for n in first if n.startswith("plan/")]) == 5
    assert {"asbuilt/asbuilt.pdf", "asbuilt/asbuilt.dxf", "asbuilt/csv/lines.csv"} <= set(first)


def test_demo_finds_its_faults_day_by_day(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each day raises the faults that its story has, and no others."""
    assert main(["demo", "--out", str(tmp_path / "d"), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)

    usual = {"day_closed_with_flags_open", "locate_ticket_about_to_expire"}
    assert names_found(told, MONDAY) - usual == {"depth_deep", "sand_short"}
    assert names_found(told, TUESDAY) - usual == {
        "delivery_without_ticket",
        "depth_drifting",
        "depth_shallow",
        "grade_out",
        "line_skipped",
    }
    assert names_found(told, WEDNESDAY) - usual == {
        "belly",
        "grade_out",
        "locate_ticket_expired",
        "sand_moist",
    }


def test_drift_is_seen_before_anything_is_out(demo: OpenJob) -> None:
    """The worn blade shows as a run of shallow readings before one is out of tolerance."""
    depths = [
        body.depth_nm
        for pass_id in ("F2-05", "F2-06")
        for body in demo.state.bodies(PROBE, pass_id)
    ]
    limit_nm = 215_900_000  # 8-1/2 in
    first_out = next(i for i, depth_nm in enumerate(depths) if depth_nm < limit_nm)

    assert first_out >= 8
    assert all(depth_nm < 228_600_000 for depth_nm in depths[first_out - 8 : first_out])


def test_rework_leaves_the_old_readings(demo: OpenJob) -> None:
    """The places that were out were probed again, and both readings stand in the book."""
    at: dict[tuple[str, int], list[int]] = {}
    for body in demo.state.bodies(PROBE, "F2-06"):
        at.setdefault((body.line_id, body.along_nm), []).append(body.depth_nm)
    twice = [depths for depths in at.values() if len(depths) > 1]

    assert len(twice) == 3
    assert all(first < 215_900_000 <= last for first, last in twice)


def test_collector_lies_as_the_story_says(demo: OpenJob) -> None:
    """Inverts are within 0.04 ft of the design but for the one that sank: read 0.11 ft low."""
    off = {
        shot.station_nm // (10 * FT): round(
            float(shot.elevation_nm - (29_016_960_000 + shot.station_nm // 100)) / HUNDREDTH_NM
        )
        for shot in current_inverts(demo.state, "C1")
        if shot.elevation_nm is not None
    }

    assert sorted(off) == list(range(14))
    assert {tens: error for tens, error in off.items() if abs(error) > 4} == {10: -11}


def test_demo_uses_nearly_every_kind_of_entry(demo: OpenJob, finished: OpenJob) -> None:
    """Only what neither three ordinary days nor the end of the job bring is left out."""
    used = {entry.kind for entry in finished.state.entries.values()}

    assert set(KINDS) - used == UNUSED
    assert 250 <= len(demo.state.entries) <= 420
    assert len(finished.state.entries) > 1_000


def test_finished_job_has_every_line_cut_and_no_flag_open(demo: OpenJob, finished: OpenJob) -> None:
    """The copy begins with the book of the three days, and ends with nothing left to do."""
    begun = list(demo.state.entries)
    surfaces: list[Any] = [finished.state.latest(SURFACE, name) for name in ("G5", "F2")]
    uses: tuple[LineUse, ...] = ("sand_slit", "piped_slit")

    assert list(finished.state.entries)[: len(begun)] == begun
    assert not list(finished.board.open_flags())
    assert not [
        line
        for surface in surfaces
        for use in uses
        for line in lines_left(finished.state, surface, use)
    ]


def test_layouts_are_those_the_program_lays(demo: OpenJob) -> None:
    """The kept layouts, lines and drives, are what laying the same surfaces anew gives."""
    for name in ("G5", "F2"):
        kept = demo.state.latest(LAYOUT, name)
        assert kept is not None
        laid = preview(demo, name, terms=[terms.model_dump() for terms in kept.terms])

        assert laid.surface.lines == next(demo.state.bodies(SURFACE, name)).lines
        assert laid.layout.model_copy(update={"source": kept.source}) == kept


def test_clock_only_goes_on(demo: OpenJob) -> None:
    """Entries follow one another in time, on the days they are written for or later."""
    entries = list(demo.state.entries.values())

    assert all(a.at_ms <= b.at_ms for a, b in zip(entries, entries[1:], strict=False))
    assert {entry.zone for entry in entries} == {"America/Chicago"}
    assert {entry.day for entry in entries} == {"2026-05-08", MONDAY, TUESDAY, WEDNESDAY}


def test_every_day_is_closed_and_one_was_closed_twice(demo: OpenJob) -> None:
    """All three sheets stand; Tuesday's is its second revision."""
    acts = [[e.kind for e in demo.state.current(DAY_ACTS, d)] for d in (MONDAY, TUESDAY, WEDNESDAY)]

    assert acts == [["day_closed"], ["day_closed", "day_reopened", "day_closed"], ["day_closed"]]
    assert all(demo.state.is_closed(day) for day in (MONDAY, TUESDAY, WEDNESDAY))


def test_answers_of_the_story_still_stand(demo: OpenJob) -> None:
    """The belly, the expired ticket and the short sand are answered, and shown as answered."""
    answered = {flag.finding.check for flag in demo.board.flags() if flag.answer is not None}

    assert {"belly", "locate_ticket_expired", "sand_short"} <= answered


def test_story_and_checks_cannot_drift_apart(job: OpenJob, clock: SetClock) -> None:
    """An answer to a flag that was never raised stops the demo with a sentence."""
    from crewapp.demo.typist import Typist

    with pytest.raises(NoSuchFlagError, match="nothing raised belly about C1"):
        Typist(job, clock, "2026-05-11").answer("belly", "C1", "accept", "fine")


def test_demo_is_made_anew_over_an_earlier_one(tmp_path: Path) -> None:
    """A folder that holds only a demo may be used again, also after it was looked at."""
    make_demo(tmp_path / "d", quiet=True)
    assert main(["verify", str(tmp_path / "d" / "larkfield.book")]) == 0

    assert make_demo(tmp_path / "d", quiet=True)["entries"] > 250


@pytest.mark.parametrize(
    "name", ["holiday.txt", "other.book", "sheets/holiday.txt", "asbuilt/csv/mine.ods"]
)
def test_demo_touches_no_folder_of_somebody_else(tmp_path: Path, name: str) -> None:
    """Anything that no demo made keeps the folder from being cleared."""
    path = tmp_path / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("mine")

    with pytest.raises(DemoFolderError, match="Nothing was changed"), room_for_demo(tmp_path):
        pass
    assert path.read_text() == "mine"


def test_demo_that_somebody_wrote_in_is_kept(tmp_path: Path) -> None:
    """What a user wrote into the demo's book is not thrown away."""
    book = Book.create(tmp_path / "larkfield.book", stream="tablet-b", reserve_bytes=0)
    book.commit(
        id="a", kind="note", v=1, body={"text": "mine", "needs_owner": False}, at_ms=1,
        offset_min=0, zone="UTC", author="me", job="x", day="2026-05-14",
    )  # fmt: skip
    book.close()

    told = "somebody has written in since"
    with pytest.raises(DemoFolderError, match=told), room_for_demo(tmp_path):
        pass


def test_demo_that_is_open_is_kept(tmp_path: Path) -> None:
    """The book of a demo that another window has open is not pulled away."""
    with (
        Book.create(tmp_path / "larkfield.book", stream=STREAM, reserve_bytes=0),
        pytest.raises(DemoFolderError, match="open in another window"),
        room_for_demo(tmp_path),
    ):
        pass


@pytest.mark.parametrize(
    ("count", "typed"), [(72, "9"), (71, "8-7/8"), (70, "8-3/4"), (68, "8-1/2"), (66, "8-1/4")]
)
def test_eighths_are_written_as_typed(count: int, typed: str) -> None:
    """Eighths are written in their lowest terms, as a foreman writes them."""
    assert eighths(count) == typed


@pytest.mark.parametrize(("length_ft", "gap_ft"), [(120, 24), (64, 24), (21, 14), (58, 14)])
def test_probe_places_leave_no_gap(length_ft: int, gap_ft: int) -> None:
    """Probes stand within 3 ft of both ends and no further apart than asked."""
    places = places_ft(length_ft * FT, gap_ft)

    assert places[0] <= 3
    assert length_ft - places[-1] <= 3
    assert max(b - a for a, b in zip(places, places[1:], strict=False)) <= gap_ft + 1


def test_ids_are_ordered_and_steady(clock: SetClock) -> None:
    """Ids have the layout of version 7, grow with time, and are the same every time."""
    one, two = (steady_ids(clock, "x") for _ in range(2))
    ids = [one() for _ in range(40)]
    first = ids[0]

    assert [two() for _ in range(40)] == ids == sorted(set(ids))
    assert (first[14], first[19] in "89ab") == ("7", True)
    assert int(first.replace("-", "")[:12], 16) == clock.at_ms


def test_scribble_stays_in_its_box() -> None:
    """An invented signature lies within the pad and is the same for a name."""
    strokes = scribble("Wren Okonjo-Hale")

    assert strokes == scribble("Wren Okonjo-Hale") != scribble("Ilse Varga-Thorne")
    assert all(0 <= x <= 1000 and 0 <= y <= 400 for stroke in strokes for x, y in stroke)
