"""Readings that are out: what was answered, and what that makes of their line."""

from __future__ import annotations

from sync.papers.asbuilt.features.feature_types import AsBuilt, LineStatus, ProbeAt
from sync.papers.asbuilt.features.gather import as_built
from tests.sync.papers.asbuilt.small_green import green, written_green
from tests.sync.papers.day_writer import FT, IN, DayWriter


def answer(book: DayWriter, beginning: str, said: str) -> None:
    """Answer every flag whose key begins so."""
    for flag in book.board().flags():
        if flag.finding.key.startswith(beginning):
            facts = {"flag": flag.finding.key, "figures": flag.finding.figures}
            book.write("disposition", **facts, answer=said, why="seen on site")


def status_of(job: AsBuilt, line_id: str) -> LineStatus:
    """Status of a line of the green."""
    return {line.line_id: line.status for line in job.lines}[line_id]


def probe_on(job: AsBuilt, line_id: str) -> ProbeAt:
    """First probe of a line."""
    return next(probe for probe in job.probes if probe.line_id == line_id)


def test_accepted_reading_says_by_whom_and_why() -> None:
    """S2's shallow probe was accepted as is; S3's deep one stands open."""
    accepted, open_still = probe_on(green(), "S2"), probe_on(green(), "S3")

    assert (accepted.answered.text, accepted.answered.by) == ("accepted as is", "Green 1")
    assert (accepted.answered.why, accepted.answered.is_accepted) == ("Green 1", True)
    assert (open_still.answered.text, open_still.answered.is_accepted) == ("", False)


def test_line_is_accepted_only_with_all_its_readings() -> None:
    """One more shallow probe on S2, not answered yet, and the line is out again."""
    book = written_green()
    book.write("probe", pass_id="G1-2", line_id="S2", along_nm=2 * FT, depth_nm=8 * IN)

    assert status_of(as_built(book.state), "S2") is LineStatus.OUT


def test_reading_with_two_flags_is_answered_with_both() -> None:
    """Too deep and too wide: the answer to one flag alone does not answer the reading."""
    book = written_green()
    wide = {"along_nm": 2 * FT, "depth_nm": 11 * IN, "width_nm": 3 * IN}
    book.write("probe", pass_id="G1-1", line_id="S1", **wide)
    answer(book, "depth_deep/G1-1", "accept")
    half = as_built(book.state)
    answer(book, "width_out/G1-1", "waive")
    whole = as_built(book.state)

    assert status_of(half, "S1") is LineStatus.OUT
    assert status_of(whole, "S1") is LineStatus.ACCEPTED
    taken = next(probe for probe in whole.probes if probe.width_nm == 3 * IN)
    assert set(taken.answered.text.split(", ")) == {"accepted as is", "waived"}


def test_reading_to_be_reworked_is_not_accepted() -> None:
    """Rework is an answer, and the line stays out until it is read anew."""
    book = written_green()
    answer(book, "depth_deep/G1-3", "rework")
    job = as_built(book.state)

    assert probe_on(job, "S3").answered.text == "to be reworked"
    assert status_of(job, "S3") is LineStatus.OUT


def test_slit_too_wide_is_out() -> None:
    """A probe of the right depth whose slit is 3 in wide, where 1 in was wanted."""
    book = written_green()
    book.write("pass", pass_id="G1-8", surface_id="G1", line_ids=["S4"], length_nm=40 * FT)
    probe = {"pass_id": "G1-8", "line_id": "S4", "along_nm": FT}
    book.write("probe", **probe, depth_nm=9 * IN, width_nm=3 * IN)

    assert status_of(as_built(book.state), "S4") is LineStatus.OUT


def test_invert_that_is_out_carries_its_answer() -> None:
    """The invert at 0+40, 0.05 ft high, once waived."""
    book = written_green()
    answer(book, "grade_out/C1", "waive")
    (shot,) = [one for one in as_built(book.state).inverts if one.off_nm]

    assert (shot.answered.text, shot.answered.is_accepted) == ("waived", True)
