"""What a day lacks is told by name before it is closed."""

from __future__ import annotations

from typing import Any

from crewapp.commands.day import LogHours, LogWeather, SignDay
from crewapp.commands.passes import LogPass
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.pages.day.presenter import day_view
from crewapp.pages.day.view import ShowDay

FT_NM = 304_800_000


def missing(job: OpenJob) -> dict[str, list[str]]:
    """What is missing today: by where it is mended."""
    found: dict[str, list[str]] = {}
    for lead, text in day_view(job, ShowDay()).missing:
        found.setdefault(lead, []).append(text)
    return found


def cut(job: OpenJob, line_id: str) -> None:
    """Cut a line with a machine."""
    given: dict[str, Any] = {"length_nm": 30 * FT_NM, "length_typed": "30"}
    do(job, LogPass(surface_id="G7", line_ids=(line_id,), machine_id="T1", **given))


def test_machine_that_cut_is_named_until_it_has_hours(job: OpenJob) -> None:
    """A pass by a machine without hours is told by the machine's name, once."""
    cut(job, "S01")
    cut(job, "S02")
    assert missing(job)["hours"] == ["No hours of anybody yet", "No hours of T1, which cut today"]

    do(job, LogHours(of="machine", who="T1", run_min=60))
    assert missing(job)["hours"] == ["No hours of anybody yet"]


def test_person_who_wrote_is_named_once_others_have_hours(job: OpenJob) -> None:
    """Without any hours one line says it; then each who wrote and has none is named."""
    set_up_all(job, [("person", {"person_id": "Ana", "name": "Ana Invented", "role": "foreman"})])
    job.author = "Ana Invented"
    cut(job, "S01")
    do(job, LogHours(of="machine", who="T1", run_min=60))
    assert missing(job)["hours"] == ["No hours of anybody yet"]

    do(job, LogHours(of="person", who="Ben", run_min=480))
    assert missing(job)["hours"] == ["No hours of Ana, who wrote today"]
    do(job, LogHours(of="person", who="Ana", run_min=480))
    assert "hours" not in missing(job)


def test_signatures_are_told_by_who_gives_them(job: OpenJob) -> None:
    """Each role is asked for; a signature given before later entries is told as that."""
    day = job.clock.now().day
    assert missing(job)["sign"] == [
        "The foreman has not signed yet",
        "The owner has not signed yet",
    ]

    line = (((0, 0), (900, 200)),)
    do(job, SignDay(day=day, role="foreman", name="Ana", meaning="true_record", strokes=line))
    assert missing(job)["sign"] == ["The owner has not signed yet"]
    cut(job, "S01")
    assert missing(job)["sign"][0] == "The foreman signed before later entries"


def test_weather_and_tomorrow_are_missing_until_logged(job: OpenJob) -> None:
    """Both stand in the list with where they are logged."""
    assert {"weather", "tomorrow"} <= missing(job).keys()

    do(job, LogWeather(sky="clear", ground="firm"))
    assert "weather" not in missing(job)


def people(job: OpenJob) -> dict[str, str]:
    """Who is there to be given hours today, with those that each has."""
    return {one.who: one.hours for one in day_view(job, ShowDay()).workers if one.of == "person"}


def test_who_writes_can_have_hours_though_no_plan_names_him(job: OpenJob) -> None:
    """A job started by its size names nobody: whoever writes is there, and who has hours stays."""
    job.author = "Wren"
    assert people(job) == {"Ana": "", "Wren": ""}

    do(job, LogHours(of="person", who="Wren", run_min=480))
    do(job, LogHours(of="person", who="Ash", run_min=450))
    assert people(job) == {"Ana": "", "Wren": "8 h", "Ash": "7 h 30 min"}


def test_who_writes_and_is_in_the_plan_is_there_once(job: OpenJob) -> None:
    """By the short name or by the full one it is the same person."""
    set_up_all(job, [("person", {"person_id": "Ana", "name": "Ana Invented", "role": "foreman"})])
    for author in ("Ana", "Ana Invented", ""):
        job.author = author
        assert list(people(job)) == ["Ana"]
