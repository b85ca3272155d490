"""Days on the glass have one form: the weekday first, the year last, and a time behind it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest

from crewapp.job.open_job import OpenJob
from crewapp.pages.after_rain.presenter import after_rain_view
from crewapp.pages.after_rain.view import ShowAfterRain
from crewapp.pages.day.presenter import day_view
from crewapp.pages.day.view import ShowDay
from crewapp.pages.flags.presenter import flags_view
from crewapp.pages.flags.view import ShowFlags
from crewapp.pages.go_ahead.presenter import digging_view, trench_view
from crewapp.pages.grade.laser.presenter import laser_view
from crewapp.pages.grade.setup.presenter import setups_view
from crewapp.pages.grade.shots_presenter import shots_view
from crewapp.pages.loads.presenter import loads_view
from crewapp.pages.loads.view import ShowLoads
from crewapp.pages.plan.asbuilt.presenter import as_built_view
from crewapp.pages.plan.line_presenter import line_life
from crewapp.pages.today.presenter import today_view
from crewapp.pages.today.view import ShowToday
from crewapp.tablet.clock import TabletClock
from crewapp.words.translate import set_language
from models.book.store import Book
from models.entries.kind_names import COLLECTOR, SURFACE

DAYS = ["2026-05-11", "2026-05-12", "2026-05-13"]
AS_KEYS = {"day", "today", "key", "entry_id", "check_code", "arrive", "leads_to", "valid_from"}
AS_KEYS |= {"expires_on", "zone", "of_day", "calibrated_on", "calibrated"}
AS_KEYS |= {"day_words"}  # the head of Today: of today alone, the year is left out
"""Fields of views by which things are found; a page says them in words or not at all."""
ISO = re.compile(r"\d{4}-\d\d-\d\d")
SHORT = re.compile(r"\b(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun) \w+ \d+(?!\d|,? \d{4})")


def words_of(told: Any, name: str = "") -> Iterator[str]:
    """Give every text of a view that is shown."""
    if isinstance(told, str):
        yield told
    elif is_dataclass(told):
        for one in fields(told):
            if one.name not in AS_KEYS:
                yield from words_of(getattr(told, one.name), one.name)
    elif isinstance(told, tuple | list):
        for one in told:
            yield from words_of(one, name)


def faces_of(job: OpenJob) -> Iterator[Any]:
    """Give the views that tell of days, with every part of them."""
    yield today_view(job, ShowToday())
    yield loads_view(job, ShowLoads())
    yield laser_view(job)
    for collector_id in job.state.every_name(COLLECTOR):
        yield shots_view(job, collector_id)
        yield setups_view(job, collector_id)
        yield digging_view(job, collector_id)
        yield trench_view(job, collector_id)
        for part in ("flow", "cover", "quantities", "stands", ""):
            yield as_built_view(job, collector_id, part)
    for part in ("", "rains", "sand", "ring", "outlets"):
        yield after_rain_view(job, ShowAfterRain(part=part))
    for day in DAYS:
        yield day_view(job, ShowDay(day=day))
    yield flags_view(job, ShowFlags())
    for flag in job.board.flags():
        yield flags_view(job, ShowFlags(key=flag.finding.key))
    for surface_id in job.state.every_name(SURFACE):
        surface: Any = job.state.latest(SURFACE, surface_id)
        for line in surface.lines:
            yield line_life(job, surface, line.line_id)


@pytest.mark.parametrize("name", ["larkfield.book", "larkfield-finished.book"])
def test_no_face_tells_a_day_in_another_form(demo_folder: Path, name: str) -> None:
    """Neither as 2026-05-13 nor without its year, on the third day and when all is done."""
    job = OpenJob(Book.open(demo_folder / name, stream="", read_only=True), TabletClock(), "")
    set_language("en")
    try:
        found = [text for view in faces_of(job) for text in words_of(view)]
    finally:
        job.close()
    told = [text for text in found if re.search(r"May \d+, 2026", text)]

    assert sorted({text for text in found if ISO.search(text) or SHORT.search(text)}) == []
    assert len(told) > 20
    assert [text for text in told if re.search(r"May \d+, 2026 \d\d:\d\d", text)]
