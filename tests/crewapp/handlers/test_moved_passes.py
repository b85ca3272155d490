"""A pass corrected to another line takes its probes along, each struck and superseded."""

from __future__ import annotations

from typing import Any

from crewapp.commands.entries import Correct
from crewapp.commands.passes import LogPass, LogProbe
from crewapp.handlers.entries import undo_last
from crewapp.job.dispatch import do
from crewapp.job.open_job import JobChanges, OpenJob
from models.entries.kind_names import PASS, PROBE

FT_NM, IN_NM = 304_800_000, 25_400_000


def cut(job: OpenJob, *line_ids: str) -> str:
    """Cut lines, probe each once; return the id of the pass."""
    given: dict[str, Any] = {"surface_id": "G7", "length_nm": 30 * FT_NM, "length_typed": "30"}
    changed = do(job, LogPass(line_ids=line_ids, **given))
    for line_id in line_ids:
        depth: dict[str, Any] = {"depth_nm": 9 * IN_NM, "depth_typed": "9"}
        do(job, LogProbe(pass_id="G7-01", line_id=line_id, along_nm=2 * FT_NM, **depth))
    return changed.entries[0].id


def probed(job: OpenJob) -> list[str]:
    """Lines of the probes that stand."""
    return sorted(body.line_id for body in job.state.bodies(PROBE, "G7-01"))


def raised(job: OpenJob) -> list[tuple[str, str]]:
    """Checks that speak of probes on other lines, with the line."""
    found = job.board.findings()
    return [(one.check, one.place) for one in found if one.check == "probe_on_other_line"]


def moved(job: OpenJob, *line_ids: str) -> JobChanges:
    """Correct the pass to other lines."""
    entry_id = job.state.current(PASS, "G7-01")[0].id
    return do(job, Correct(entry_id=entry_id, reason="wrong line", fields={"line_ids": line_ids}))


def test_probes_follow_their_pass_and_the_old_ones_stay_readable(job: OpenJob) -> None:
    """Struck with the same reason, written again on the line in its place, on their day."""
    cut(job, "S01")
    (old,) = job.state.current(PROBE, "G7-01")

    changed = moved(job, "S02")

    (new,) = job.state.current(PROBE, "G7-01")
    body: Any = new.body
    assert (body.line_id, body.depth_typed, new.day) == ("S02", "9", old.day)
    assert (new.strikes, new.reason) == ((old.id,), "wrong line")
    assert changed.entries[-1].kind == "pass"
    assert raised(job) == []


def test_only_probes_of_the_line_that_changed_follow(job: OpenJob) -> None:
    """The line that both have keeps its probes, wherever it stands among them."""
    cut(job, "S01", "S02")

    changed = moved(job, "S02", "S03")

    assert probed(job) == ["S02", "S03"]
    assert [entry.kind for entry in changed.entries] == ["probe", "pass"]


def test_probes_stay_and_are_named_where_nobody_can_tell(job: OpenJob) -> None:
    """Two lines corrected to one: which of the two it was is for a person to say."""
    cut(job, "S01", "S02")

    moved(job, "S03")

    assert probed(job) == ["S01", "S02"]
    assert sorted(raised(job)) == [("probe_on_other_line", "S01"), ("probe_on_other_line", "S02")]


def test_other_corrections_leave_probes_alone(job: OpenJob) -> None:
    """A length corrected moves nothing."""
    entry_id = cut(job, "S01")

    changed = do(
        job,
        Correct(
            entry_id=entry_id,
            reason="tape misread",
            fields={"length_nm": 31 * FT_NM, "length_typed": "31"},
        ),
    )

    assert [entry.kind for entry in changed.entries] == ["pass"]


def test_undo_brings_pass_and_probes_back(job: OpenJob) -> None:
    """One tap takes the whole correction back."""
    cut(job, "S01")

    undo_last(job, moved(job, "S02"))

    assert probed(job) == ["S01"]
    assert next(job.state.bodies(PASS, "G7-01")).line_ids == ("S01",)
    assert raised(job) == []
