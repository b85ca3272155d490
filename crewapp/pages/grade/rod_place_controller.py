"""Where the rod stands: on which collector, at which station, on what."""

from __future__ import annotations

from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.grade.choice_view import Question
from crewapp.pages.grade.controller import Controller
from crewapp.pages.grade.fields import station_field
from crewapp.pages.grade.page_view import GradePageView
from crewapp.pages.grade.question_fields import RodPlaceField, RodPlaceQuestion
from crewapp.pages.grade.view import ON_WORDS, SHOT_ON, Choice, on_grade_words
from crewapp.words.translate import say


class RodPlaceController(Controller[RodPlaceField]):
    """Chooses the collector, the station and what the rod stands on."""

    def pad_question(self, name: RodPlaceField, view: GradePageView) -> PadQuestion | None:
        """Return the station's field."""
        grade = view.grade
        words = say("Station of the rod")
        return PadQuestion(station_field(grade.figures, words, grade.start_nm, grade.end_nm))

    def take_figure(self, name: RodPlaceField, value: int, text: str) -> None:
        """Stand the rod at the station typed, and go on shooting."""
        self.page.drop_typed()
        self.page.stand_rod(value)
        self._shoot()

    def question(self, name: RodPlaceField, view: GradePageView) -> Question | None:
        """Return the question that keys answer, or None."""
        grade = view.grade
        if name == "collector":
            return Question(say("Which collector?"), grade.collectors)
        answers = [Choice(f"on:{on}", say(ON_WORDS[on])) for on in SHOT_ON]
        answers.append(Choice("station", say("type a station")))
        station = grade.figures.station(self.page.station_nm)
        now = say("{station} {what}", station=station, what=say(ON_WORDS[self.page.rod_stands_on]))
        target = on_grade_words(grade, self.page.rod_stands_on, self.page.station_nm)
        title = say("What does the rod stand on?")
        return Question(title, answers, [say("Now {where}, {target}.", where=now, target=target)])

    def take_choice(self, name: RodPlaceField, key: str) -> None:
        """Take the answer that was tapped."""
        if name == "collector":
            self.page.arrive(collector_id=key)
            self.page.refresh()
        elif key == "station":
            self.page.ask(RodPlaceQuestion("station"))
        else:
            self.page.keep_draft(on=key.partition(":")[2], station_nm=None)
            self.page.turn_to("pipe", pad="shot", typed="", pad_open=True)

    def _shoot(self) -> None:
        self.page.turn_to("pipe")
        self.page.ask("shot")
