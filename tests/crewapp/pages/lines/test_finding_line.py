"""A flag in the language set: figures in the job's units, words among its facts translated."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from crewapp.commands.day import LogUtility
from crewapp.commands.loads import PlaceHopper
from crewapp.commands.passes import LogPass
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.pages.lines.finding_line import finding_line
from crewapp.words.translate import set_language

FT_NM = 304_800_000


@pytest.fixture
def _spanish() -> Iterator[None]:
    """Speak Spanish for one test."""
    set_language("es")
    yield
    set_language("en")


@pytest.mark.usefixtures("_spanish")
def test_word_of_a_check_is_translated(job: OpenJob) -> None:
    """Sand that was wet is mojada."""
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT_NM, length_typed="30 ft"))
    changed = do(
        job, PlaceHopper(surface_id="G7", material_id="sand", pass_id="G7-01", moisture="wet")
    )
    said = [finding_line(one, job.figures) for one in changed.come if one.check == "sand_moist"]

    assert said == ["La arena puesta en G7-01 estaba mojada; cargas anotadas así: 1."]


@pytest.mark.usefixtures("_spanish")
def test_words_of_a_person_stay_as_they_are(job: OpenJob) -> None:
    """What was hit was typed by somebody: it is a name, not a word of ours."""
    changed = do(job, LogUtility(event="hit", what="wire", where="at the green"))

    assert finding_line(changed.come[0], job.figures) == "Golpeado: wire, at the green."


def test_english_is_the_checks_own(job: OpenJob) -> None:
    """Nothing is translated into English."""
    changed = do(job, LogUtility(event="hit", what="gas", where="line S01"))

    assert finding_line(changed.come[0], job.figures) == "Hit: gas, line S01."
