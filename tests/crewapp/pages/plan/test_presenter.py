"""What the Plan screen shows of a job, read without a window."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from crewapp.commands.entries import Strike
from crewapp.commands.passes import LogPass, LogProbe
from crewapp.handlers.flags import answer_to
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.kit.drawing.plan_picture import LineState
from crewapp.pages.plan.presenter import plan_page_view
from crewapp.pages.plan.view import ShowPlan
from models.plan.collector import PlanPoint
from models.state.indexes import PASSES
from tests.crewapp.pages.frame_driver import open_book, put_book

FT_NM, IN_NM = 304_800_000, 25_400_000


@pytest.fixture
def job(tmp_path: Path) -> Iterator[OpenJob]:
    """The small job, nothing cut; entries get names that no book has."""
    from uuid6 import uuid7

    opened = open_book(put_book(tmp_path))
    opened.new_id = lambda: str(uuid7())
    yield opened
    opened.close()


def cut(job: OpenJob, *depths: int) -> str:
    """Cut lines S01 and S04 and probe the first; return the id of the last probe."""
    do(
        job,
        LogPass(surface_id="G7", line_ids=("S01", "S04"), length_nm=30 * FT_NM, length_typed="30"),
    )
    pass_id = job.state.current(PASSES)[-1].body.pass_id
    last = ""
    for number, depth in enumerate(depths):
        changed = do(
            job,
            LogProbe(
                pass_id=pass_id,
                line_id="S01",
                along_nm=(3 + number) * FT_NM,
                depth_nm=depth * IN_NM,
                depth_typed=str(depth),
            ),
        )
        last = changed.entries[0].id
    return last


def test_struck_reading_stays_in_the_life_of_its_line(job: OpenJob) -> None:
    """With its figure and the reason; it no longer counts."""
    do(job, Strike(entry_id=cut(job, 9, 4), reason="stone under the rod"))
    life = plan_page_view(job, ShowPlan(line_id="S01")).life
    struck = next(row for row in life if row.title.startswith("Struck"))

    assert (struck.figure, struck.detail) == ("4 in", "stone under the rod")
    assert next(row for row in life if row.title == "Probes").figure == "1"


def test_answered_flag_says_by_whom(job: OpenJob) -> None:
    """An answer stands in the life of the line, with its reason."""
    cut(job, 9, 7)
    flag = next(one for one in job.board.open_flags() if "depth" in one.finding.key)
    do(job, answer_to(flag, answer="accept", why="rock below"))
    details = [row.detail for row in plan_page_view(job, ShowPlan(line_id="S01")).life]

    assert "accepted as is by foreman: rock below" in details


def test_life_tells_nothing_of_the_neighbour(job: OpenJob) -> None:
    """Flags and readings of S01 are none of S04's, though one pass cut both."""
    cut(job, 9, 7)
    own = {row.title for row in plan_page_view(job, ShowPlan(line_id="S01")).life}
    other = {row.title for row in plan_page_view(job, ShowPlan(line_id="S04")).life}

    assert any("S01" in title for title in own)
    assert not any("S01" in title for title in other)
    assert [row.title for row in plan_page_view(job, ShowPlan(line_id="S02")).life] == [
        "Planned",
        "Not cut yet",
    ]


def test_keep_outs_and_the_collector_are_drawn(job: OpenJob) -> None:
    """From the kept layout and the collector's course."""
    from crewapp.handlers.plan.layout import lay_out

    head = [
        PlanPoint(x_nm=x * FT_NM, y_nm=y * FT_NM) for x, y in ((8, 2), (12, 2), (12, 6), (8, 6))
    ]
    lay_out(
        job,
        "G7",
        keep_outs=[{"name": "box", "ring": head}],
        terms=[{"use": "sand_slit", "spacing_nm": 406_400_000}],
    )
    picture = plan_page_view(job, ShowPlan()).picture

    assert len(picture.keep_outs) == 1
    assert any(line.key == "S01" for line in picture.lines)
    assert any(row.title == "Keep-outs" for row in plan_page_view(job, ShowPlan()).summary)


def test_today_is_told_from_before(job: OpenJob) -> None:
    """A line cut on another day is done, not today's."""
    cut(job, 9)
    before = {line.key: line.state for line in plan_page_view(job, ShowPlan()).picture.lines}
    job.clock.set_to("2026-05-12", 480)  # type: ignore[attr-defined]
    after = {line.key: line.state for line in plan_page_view(job, ShowPlan()).picture.lines}

    assert (before["S01"], after["S01"]) == (LineState.TODAY, LineState.DONE)


def test_piped_slits_can_go(job: OpenJob) -> None:
    """Asked for none, the preview has none, and says nothing of them."""
    view = plan_page_view(job, ShowPlan(part="terms", typed={"piped_slit": {"none": "yes"}}))

    assert not any(line.key.startswith("P") for line in view.preview.picture.lines)
    assert view.preview.request["without"] == ["piped_slit"]


@pytest.mark.parametrize(
    ("new", "why"),
    [
        ({"shape": "circle"}, "its radius still to be typed"),
        ({"shape": "file"}, "the file it is drawn in still to be typed"),
        ({"shape": "rectangle", "along": "10"}, "its width still to be typed"),
        ({"shape": "offsets", "rows": [{"station": "0", "left": "1"}]}, "needs 2 or more"),
        ({"shape": "file", "path": "/no/such.dxf"}, "No such file"),
    ],
)
def test_shape_that_is_not_whole_says_what_is_missing(
    job: OpenJob, new: dict[str, object], why: str
) -> None:
    """In a sentence, and nothing is drawn."""
    view = plan_page_view(
        job, ShowPlan(part="shape", new={"surface_id": "F1", "name": "Low", **new})
    )

    assert why in view.preview.why_not
    assert view.preview.picture.outline == ()


def test_kept_plan_is_read_without_the_library() -> None:
    """Of what the page reads to show a kept plan, nothing imports the geometry library."""
    import subprocess

    code = (
        "import sys; sys.modules['shapely'] = None; sys.modules['numpy'] = None\n"
        "import crewapp.pages.plan.presenter, crewapp.pages.plan.line_presenter, "
        "crewapp.pages.plan.takeoff_presenter"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)

    assert (done.returncode, done.stderr) == (0, "")
