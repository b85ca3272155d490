"""Answers to tap for a setup: points, plane, grade, instrument, calibration."""

from __future__ import annotations

from collections.abc import Callable

from crewapp.kit.look.palette import Status
from crewapp.pages.grade.choice_view import Question
from crewapp.pages.grade.page_view import GradePageView
from crewapp.pages.grade.question_fields import SetupField
from crewapp.pages.grade.setup.view import SetupsView
from crewapp.pages.grade.view import Choice
from crewapp.words.dates import full_day
from crewapp.words.translate import say, translate_later

INSTRUMENTS = (translate_later("grade laser"), translate_later("level"))
MOST_POINTS = 9
ADD = "+"
"""Answer that adds a laser to the job."""


def _ask_check(setups: SetupsView, view: GradePageView) -> Question:
    known = []
    if setups.is_graded:
        known.append(say("Under a dialled grade only the point of the backsight can prove it."))
    setup = view.grade.setup
    return Question(
        say("Check shot: where does the rod stand?"),
        setups.check_points(),
        known,
        setup.status if setup else Status.CHECK,
        setup.proof if setup else "",
    )


def _ask_point(setups: SetupsView, _view: GradePageView) -> Question:
    marks = [point for point in setups.points if point.is_benchmark]
    turns = [point for point in setups.points if not point.is_benchmark]
    shown = [*marks, *turns[::-1]][:MOST_POINTS]
    answers = [Choice(point.name, f"{point.name}  {point.level}") for point in shown]
    return Question(say("Backsight: where does the rod stand?"), answers)


def _ask_plane(_setups: SetupsView, _view: GradePageView) -> Question:
    answers = (Choice("level", say("level plane")), Choice("graded", say("dialled grade")))
    return Question(say("Which plane does the laser sweep?"), answers)


def _ask_grade(setups: SetupsView, _view: GradePageView) -> Question:
    design = say("design {grade}", grade=setups.figures.grade(setups.design_ppm))
    answers = (Choice(str(setups.design_ppm), design), Choice("pad", say("another grade")))
    known = [say("As it stands on the instrument, falling with the flow.")]
    return Question(say("Which grade is dialled?"), answers, known)


def _ask_instrument(setups: SetupsView, _view: GradePageView) -> Question:
    names = dict.fromkeys([*setups.instruments, *(say(name) for name in INSTRUMENTS)])
    if setups.lasers:
        names = dict.fromkeys(one.instrument_id for one in setups.lasers)
    answers = [Choice(name, name) for name in names]
    return Question(say("Which instrument?"), [*answers, Choice(ADD, say("Add a laser"))])


def _ask_calibrated(setups: SetupsView, _view: GradePageView) -> Question:
    days = dict.fromkeys([setups.today, *setups.calibrated])
    is_us = setups.figures.is_us
    told = {day: say("today") if day == setups.today else full_day(day, is_us) for day in days}
    answers = [Choice(day, words) for day, words in told.items()]
    answers += [Choice("pad", say("days ago")), Choice("", say("not known"))]
    return Question(say("When was it last calibrated?"), answers)


QUESTIONS: dict[SetupField, Callable[[SetupsView, GradePageView], Question]] = {
    "check": _ask_check,
    "point": _ask_point,
    "plane": _ask_plane,
    "grade": _ask_grade,
    "instrument": _ask_instrument,
    "calibrated": _ask_calibrated,
}
