"""Actions along the slits: what they write and what they refuse."""

from __future__ import annotations

from typing import Any

import pytest

from crewapp.commands.entries import Strike
from crewapp.commands.passes import (
    LayPipe,
    LogPass,
    LogProbe,
    LogTurf,
    PlaceSand,
    SetBlade,
    WaterIn,
)
from crewapp.handlers.passes import (
    PassTakenError,
    UnknownLegError,
    UnknownLineError,
    UnknownPassError,
    next_pass_id,
)
from crewapp.job.dispatch import do
from crewapp.job.open_job import JobChanges, OpenJob
from crewapp.pages.lines.entry_line import entry_line
from models.entries.bodies.passes import PassCut, PipeLaid, Probe, SandPlaced, TurfStrip, WateredIn
from models.entries.envelope import EntryRefusedError
from models.entries.kind_names import BLADE_SET, MACHINE, PASS
from models.ledger.ledger import ledger_of
from models.state.indexes import DRAWN_NM
from sync.papers.wording.entry_text import SAY

FT, IN = 304_800_000, 25_400_000


def cut(job: OpenJob, *lines: str, pass_id: str = "") -> JobChanges:
    """Cut a pass 30 ft long."""
    return do(
        job,
        LogPass(
            surface_id="G7",
            line_ids=lines or ("S01", "S04"),
            length_nm=30 * FT,
            length_typed="30",
            pass_id=pass_id,
        ),
    )


def probe(job: OpenJob, pass_id: str = "G7-01", line_id: str = "S01", depth: int = 9) -> JobChanges:
    """Probe at 2 ft, so many inches deep."""
    return do(
        job,
        LogProbe(
            pass_id=pass_id,
            line_id=line_id,
            along_nm=2 * FT,
            depth_nm=depth * IN,
            depth_typed=str(depth),
        ),
    )


def test_pass_is_named_and_counted(job: OpenJob) -> None:
    """Passes are named for their surface, one after another."""
    bodies = [cut(job, "S01", "S04").entries[0].body, cut(job, "S02", "S05").entries[0].body]

    assert [body.pass_id for body in bodies if isinstance(body, PassCut)] == ["G7-01", "G7-02"]
    assert next_pass_id(job, "G7") == "G7-03"
    done = (one.share.done for _, _, one in ledger_of(job.state).every_piece())
    assert sum(done) == 4 * 30 * FT


def test_name_of_a_struck_pass_is_not_given_again(job: OpenJob) -> None:
    """Probes of a struck pass still bear its name: they must not count for another pass."""
    first = cut(job, "S01").entries[0]
    probe(job)
    do(job, Strike(entry_id=first.id, reason="cut on the other green"))

    second = cut(job, "S01").entries[0].body

    assert isinstance(second, PassCut)
    assert second.pass_id == "G7-02"
    with pytest.raises(PassTakenError, match="G7-03 would be accepted"):
        cut(job, "S01", pass_id="G7-01")


def test_pass_name_skips_one_that_is_taken(job: OpenJob) -> None:
    """A name given by hand is not given out again."""
    cut(job, "S01", pass_id="G7-02")

    assert next_pass_id(job, "G7") == "G7-03"


def test_pass_refuses_a_line_off_the_plan(job: OpenJob) -> None:
    """A line that the plan doesn't have is named, with those it has."""
    with pytest.raises(UnknownLineError, match="G7 has no line S99 on its plan. Its lines are S01"):
        cut(job, "S01", "S99")

    assert job.state.every_name(PASS) == []


def test_pass_on_a_surface_without_a_plan_is_taken(job: OpenJob) -> None:
    """Where nobody has planned lines, none can be wrong."""
    changed = do(job, LogPass(surface_id="X", line_ids=("1",), length_nm=FT, length_typed="1"))

    assert changed.entries[0].kind == "pass"


def test_probe_is_kept_as_typed(job: OpenJob) -> None:
    """A depth is stored in nanometres beside what was typed."""
    cut(job)

    body = probe(job).entries[0].body

    assert isinstance(body, Probe)
    assert (body.depth_nm, body.depth_typed, body.width_nm) == (228_600_000, "9", None)


def test_probe_out_of_tolerance_comes_back_as_a_flag(job: OpenJob) -> None:
    """The action itself says what its entry raised, and what another cured."""
    cut(job)

    raised = probe(job, depth=8)
    cured = probe(job, depth=9)

    assert [finding.check for finding in raised.come] == ["depth_shallow"]
    assert [finding.check for finding in cured.gone] == ["depth_shallow"]


def test_probe_needs_its_pass(job: OpenJob) -> None:
    """A probe of a pass that nobody logged is refused."""
    with pytest.raises(UnknownPassError, match="there is no pass G7-01 yet"):
        probe(job)


def test_probe_needs_a_line_of_its_pass(job: OpenJob) -> None:
    """A probe on a line that the pass did not cut is refused."""
    cut(job)
    with pytest.raises(UnknownLineError, match="pass G7-01 has no line S02"):
        probe(job, line_id="S02")


def test_probe_refuses_a_depth_below_nothing(job: OpenJob) -> None:
    """A negative depth is refused with what would be accepted."""
    cut(job)
    with pytest.raises(EntryRefusedError, match="depth below finished turf"):
        probe(job, depth=-1)


def test_turf_strip_is_logged(job: OpenJob) -> None:
    """Turf is lifted over lines of the plan, and over no others."""
    body = do(job, LogTurf(surface_id="G7", line_ids=("S01",), step="lifted")).entries[0].body

    assert body == TurfStrip(surface_id="G7", line_ids=("S01",), step="lifted")
    with pytest.raises(UnknownLineError):
        do(job, LogTurf(surface_id="G7", line_ids=("Q1",), step="lifted"))


def test_sand_is_placed_by_volume_or_mass(job: OpenJob) -> None:
    """One of volume and mass is the record; both or neither is refused."""
    cut(job)

    body = (
        do(job, PlaceSand(surface_id="G7", material_id="sand", pass_id="G7-01", volume_pl=5))
        .entries[0]
        .body
    )

    assert isinstance(body, SandPlaced)
    assert (body.volume_pl, body.mass_ug) == (5, None)
    wrong: tuple[dict[str, Any], ...] = ({}, {"volume_pl": 5, "mass_ug": 5})
    for amounts in wrong:
        with pytest.raises(EntryRefusedError, match="either a volume or a mass"):
            do(job, PlaceSand(surface_id="G7", material_id="sand", pass_id="G7-01", **amounts))


def test_sand_needs_its_pass(job: OpenJob) -> None:
    """Sand of a pass that nobody logged is refused."""
    with pytest.raises(UnknownPassError):
        do(job, PlaceSand(surface_id="G7", material_id="sand", pass_id="G7-09", volume_pl=5))


def test_water_is_logged(job: OpenJob) -> None:
    """Watering in is an entry of its surface."""
    body = do(job, WaterIn(surface_id="G7", note="slow")).entries[0].body

    assert body == WateredIn(surface_id="G7", note="slow")


def test_pipe_is_laid_in_lines_of_the_plan(job: OpenJob) -> None:
    """Pipe is drawn from its coil and laid in a planned line."""
    changed = do(
        job,
        LayPipe(
            surface_id="G7",
            line_id="P01",
            material_id="pipe",
            coil_id="A",
            length_nm=8 * FT,
            length_typed="8",
        ),
    )

    assert isinstance(changed.entries[0].body, PipeLaid)
    assert job.state.total(DRAWN_NM, "A") == 8 * FT
    with pytest.raises(UnknownLineError, match="no line P77"):
        do(
            job,
            LayPipe(
                surface_id="G7",
                line_id="P77",
                material_id="pipe",
                length_nm=FT,
                length_typed="1",
            ),
        )


def test_a_blade_is_set_for_a_leg_of_its_machine(job: OpenJob) -> None:
    """One leg or all of them is noted; a leg that the machine does not have is refused."""
    cutter = next(name for name in job.state.every_name(MACHINE) if legs_of(job, name) == 2)
    do(job, SetBlade(machine_id=cutter, what="changed"))
    do(job, SetBlade(machine_id=cutter, leg=2, what="depth_set", note="a notch deeper"))

    with pytest.raises(UnknownLegError, match="has no leg 3. It has 2 legs"):
        do(job, SetBlade(machine_id=cutter, leg=3, what="sharpened"))

    first, second = job.state.current(BLADE_SET, cutter)
    assert (first.body.leg, first.body.what) == (0, "changed")
    assert entry_line(second, job.figures) == f"{cutter}, leg 2: depth set"
    assert SAY[BLADE_SET.name](second.body, job.figures) == (
        f"{cutter}: leg 2 depth set, a notch deeper"
    )


def legs_of(job: OpenJob, machine_id: str) -> int:
    """Return how many legs a machine of the plan has."""
    machine = job.state.latest(MACHINE, machine_id)
    return machine.legs if machine is not None else 0


def test_turf_says_how_thick_its_sod_is(job: OpenJob) -> None:
    """The thickness stands with the strip that was put back, and in its line of text."""
    turf = LogTurf(
        surface_id="G7", line_ids=("S01",), step="put_back", sod_nm=3 * IN // 2, sod_typed="1-1/2"
    )
    (entry,) = do(job, turf).entries

    assert isinstance(entry.body, TurfStrip)
    assert (entry.body.sod_nm, entry.body.sod_typed) == (3 * IN // 2, "1-1/2")
    assert entry_line(entry, job.figures).endswith("sod 1-1/2 in")
