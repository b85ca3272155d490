"""The Grade screen: the laser, the shots along a collector, and leave to cover it."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.commands.command import Command
from crewapp.commands.grade import ShootGrade
from crewapp.kit.input.forms import Form
from crewapp.kit.keys.touchable import buzz
from crewapp.kit.look.palette import Status
from crewapp.pages.frame.form_filling import FormFilling
from crewapp.pages.frame.pad_sheet import PadQuestion, lay_over
from crewapp.pages.frame.parted_page import PartedPage
from crewapp.pages.frame.question_name import QuestionName
from crewapp.pages.go_ahead.view import GoAheadView
from crewapp.pages.grade.ahead_controller import GoAheads
from crewapp.pages.grade.choice_view import Question
from crewapp.pages.grade.controller import Controller
from crewapp.pages.grade.covering.cover_part import CoverController
from crewapp.pages.grade.covering.view import CoverView
from crewapp.pages.grade.laser.laser_part import FormController, LaserController
from crewapp.pages.grade.page_view import GradePageView, ShowGrade
from crewapp.pages.grade.question_fields import RodPlaceQuestion
from crewapp.pages.grade.rod_place_controller import RodPlaceController
from crewapp.pages.grade.setup.setup_part import SetupController
from crewapp.pages.grade.setup.view import SetupsView
from crewapp.pages.grade.shot_sheet import ShotSheet, shot_field
from crewapp.pages.grade.shots_part import ListController
from crewapp.pages.grade.view import (
    ON_WORDS,
    judge_reading,
    next_station,
    on_grade_nm,
    proof_at,
    step,
)
from crewapp.words.translate import say
from models.entries.id_fields import instrument_id_of

NEEDS = {
    "setup": ("setups",),
    "run": ("setups",),
    "shots": ("shots",),
    "strike": ("shots",),
    "cover": ("cover",),
    **dict.fromkeys(("laser", "peg", "form"), ("lasers",)),
}


class GradePage(PartedPage):
    """The page of the laser. ``arrive(collector_id=...)`` opens it on a collector."""

    name: ClassVar[str] = "grade"
    parts: ClassVar[dict[str, str]] = {
        "pipe": "crewapp.pages.grade.pipe_part:PipePart",
        "setup": "crewapp.pages.grade.setup.setup_part:SetupPart",
        "run": "crewapp.pages.grade.setup.run_part:RunPart",
        "laser": "crewapp.pages.grade.laser.laser_part:LaserPart",
        "peg": "crewapp.pages.grade.laser.peg_part:PegPart",
        "form": "crewapp.pages.frame.form_part:FormPart",
        "shots": "crewapp.pages.grade.shots_part:ListPart",
        "told": "crewapp.pages.grade.shots_part:PipeAdvicePart",
        "strike": "crewapp.pages.grade.shots_part:StrikeShotPart",
        "cover": "crewapp.pages.grade.covering.cover_part:CoverPart",
        "anyway": "crewapp.pages.go_ahead.anyway_part:GoOnAnywayPart",
        "choose": "crewapp.pages.grade.choice_part:ChoicePart",
    }
    view: GradePageView | None

    def build(self) -> None:
        """Make the page and what it does for each subject."""
        super().build()
        self.filling = FormFilling(self, lambda name: self.controllers["laser"].form(name))
        self.controllers: dict[str, Any] = {
            "setup": SetupController(self),
            "shots": ListController(self),
            "cover": CoverController(self),
            "where": RodPlaceController(self),
            "laser": LaserController(self, self.filling),
            "form": FormController(self, self.filling),
        }
        self.ahead = GoAheads(self)
        self.check_told: tuple[str, str] | None = None
        self._ahead: int | None = None
        self._count = -1

    def arrive(self, collector_id: str = "") -> None:
        """Open on a collector, at its two strips."""
        if collector_id != self.draft.get("collector", ""):
            self.view = None
            self._ahead = None
            self.keep_draft(collector=collector_id, station_nm=None, on="")
        self.keep_draft(part="pipe")

    def query(self) -> ShowGrade:
        """Ask for what the part in front shows."""
        part = self.part_name()
        if part == "choose":
            subject = str(self.draft.get("choosing", "")).partition(":")[0]
            part = subject
        return ShowGrade(
            collector_id=str(self.draft.get("collector", "")),
            on=str(self.draft.get("on", "")),
            needs=NEEDS.get(part, ()),
            from_nm=self.draft.get("cover_from"),
            to_nm=self.draft.get("cover_to"),
        )

    def turn_to(self, name: str, **kept: Any) -> None:
        """Bring a part to the front and read what it shows."""
        super().turn_to(name, **kept)
        self.refresh()

    def show(self, view: GradePageView) -> None:
        """Show what was read; a shot taken back takes the rod back to its station."""
        if view.grade.shot_count < self._count:
            self._ahead = None
            self.keep_draft(station_nm=None)
        self._count = view.grade.shot_count
        self.check_told = None
        super().show(view)

    def fill(self) -> None:
        """Show the part in front, and the rod pad over it if it is up."""
        super().fill()
        if self.view is not None and isinstance(self.sheet, ShotSheet):
            grade = self.view.grade
            self.sheet.show_place(grade, self.rod_stands_on, self.station_nm)
            first, last = self._guard_words()
            self.sheet.show_verdict(
                grade.last_title, grade.last, [*first, *grade.sentences(), *last]
            )
            self.sheet.pad.chart = grade.chart

    def part_name(self) -> str:
        """Return the part in the draft; going on anyway only while something has to wait."""
        name = super().part_name()
        is_over = name == "anyway" and self.view is not None and self.blocking_go_ahead() is None
        return "pipe" if is_over else name

    def blocking_go_ahead(self) -> GoAheadView | None:
        """Return why work along the collector has to wait, or None."""
        return self.ahead.blocking_go_ahead()

    def caution(self) -> str:
        """Say what can hurt somebody at the part in front."""
        return self.ahead.caution(self.part_name())

    def _guard_words(self) -> tuple[list[str], list[str]]:
        """Words for the rod pad that hides the page: what has to wait first, a caution last."""
        view = self.ahead.gravest()
        is_urgent = view is not None and Status(view.status) in {Status.OUT, Status.CHECK}
        return ([view.sentence] if view is not None and is_urgent else []), [self.caution()]

    @property
    def rod_stands_on(self) -> str:
        """Name of what the rod stands on."""
        shown = self.view.grade.on if self.view else "invert"
        return str(self.draft.get("on", "")) or shown

    @property
    def station_nm(self) -> int:
        """Where the rod stands: as chosen, or one spacing past the last shot."""
        chosen = self._ahead if self._ahead is not None else self.draft.get("station_nm")
        if isinstance(chosen, int):
            return chosen
        return self.view.grade.next_nm if self.view else 0

    def setups(self) -> SetupsView:
        """Choices of the setup as last read."""
        found = self.view.setups if self.view else None
        assert found is not None
        return found

    def cover(self) -> CoverView:
        """The range that is to be covered."""
        found = self.view.cover if self.view else None
        assert found is not None
        return found

    def show_refusal(self) -> None:
        """Keep what was typed when a command is refused; the banner has the reason."""
        if isinstance(self.sheet, ShotSheet):
            self._lift_sheet()
        self.fill()

    def choose(self, question: QuestionName, back: str) -> None:
        """Ask something by keys; ``back`` is the part to return to."""
        self.turn_to("choose", choosing=str(question), choose_back=back)

    def choose_none(self) -> None:
        """Leave a question without an answer."""
        self.turn_to(str(self.draft.get("choose_back", "pipe")))

    def question(self, view: GradePageView) -> Question | None:
        """Return the question that is open."""
        controller, name = self._controller(str(self.draft.get("choosing", "")))
        return controller.question(name, view) if controller else None

    def take_choice(self, key: str) -> None:
        """Take the answer to the question that is open."""
        controller, name = self._controller(str(self.draft.get("choosing", "")))
        if controller:
            controller.take_choice(name, key)

    def ink_form(self, form: Form, command: Command) -> None:
        """Ink a form that is filled in."""
        self.filling.send(form, command)

    def after_form(self, form: Form, changed: Any) -> None:
        """Show the laser that the form was about."""
        name = instrument_id_of(changed.entries[-1].body)
        self.turn_to("laser", laser=name, setup=None)

    def _controller(self, full: str) -> tuple[Controller[Any] | None, str]:
        subject, _, name = full.partition(":")
        return self.controllers.get(subject), name

    def pad_question(self, field: str) -> PadQuestion | None:
        """Return what the pad asks for a field."""
        if self.view is None:
            return None
        if field == "shot":
            spec = shot_field(self.view.grade, self.rod_stands_on, self.station_nm)
            return PadQuestion(spec) if self.view.grade.setup else None
        controller, name = self._controller(field)
        return controller.pad_question(name, self.view) if controller else None

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take the figure of a field."""
        controller, name = self._controller(field)
        if controller:
            controller.take_figure(name, value, text)

    def ask(self, question: QuestionName | str) -> None:
        """Lay the pad over the screen; for a shot the rod pad, which stays."""
        field = str(question)
        if field == "shot" and self.ahead.blocking_go_ahead(self.rod_stands_on) is not None:
            self.keep_draft(pad_open=False)
            self.turn_to("anyway")
            return
        asked = self.pad_question(field) if field == "shot" else None
        if asked is None or self.sheet is not None:
            super().ask(field)
            return
        typed = str(self.draft.get("typed", "")) if self.draft.get("pad") == field else ""
        self.keep_draft(pad=field, typed=typed, pad_open=True)
        sheet = self.sheet = ShotSheet(asked, typed)
        sheet.bind(
            on_typed=lambda _, text: self.keep_draft(typed=text),
            on_figure=lambda _, value, text, ending: self._shoot(value, text),
            on_leave=lambda _: self._close_pad(),
        )
        sheet.pad.bind(
            on_step=lambda _, ways: self._step(ways),
            on_where=lambda _: self._where(),
            on_undo=lambda _: self.shell.undo(),
        )
        lay_over(self.shell, sheet)
        self.shell.lift_caution()
        self.fill()

    def _step(self, ways: int) -> None:
        """Move the rod by a spacing."""
        assert self.view is not None
        grade = self.view.grade
        station = step(self.station_nm, ways, grade.start_nm, grade.end_nm, grade.step_nm)
        self.stand_rod(station)

    def stand_rod(self, station_nm: int | None, **kept: Any) -> None:
        """Stand the rod at a station; None for the one that comes next."""
        self._ahead = None
        self.keep_draft(station_nm=station_nm, **kept)
        self.fill()

    def _where(self) -> None:
        """Choose where the rod stands; what is typed waits."""
        self._lift_sheet()
        self.keep_draft(pad_open=False)
        self.choose(RodPlaceQuestion("place"), "pipe")

    def _shoot(self, value: int, text: str) -> None:
        """Give the verdict in the same frame, then ink the shot."""
        assert self.view is not None
        grade, on, at_nm = self.view.grade, self.rod_stands_on, self.station_nm
        setup, sheet = grade.setup, self.sheet
        if setup is None or not isinstance(sheet, ShotSheet):
            return
        if self.ahead.blocking_go_ahead(on) is not None:
            self._lift_sheet()
            self.ask("shot")  # the digits wait in the draft
            return
        rod_nm, proof = on_grade_nm(grade, on, at_nm), proof_at(setup, at_nm)
        verdict = judge_reading(grade.aim(on), rod_nm, value, grade.figures, proof)
        station = grade.figures.station(at_nm)
        sheet.show_verdict(
            say("{station} {what}", station=station, what=say(ON_WORDS[on])), verdict, []
        )
        if verdict.status == Status.OUT:
            buzz()
        self._ahead = next_station(
            (grade.last_nm(on), at_nm), grade.start_nm, grade.end_nm, grade.step_nm
        )
        sheet.clear_reading()
        sheet.show_place(grade, on, self.station_nm)
        self.shell.do(
            ShootGrade(
                setup_id=setup.setup_id,
                collector_id=grade.collector_id,
                station_nm=at_nm,
                station_typed=station,
                on=on,
                reading_nm=value,
                reading_typed=text,
            ),
            self._shot,
            lambda: self._not_shot(at_nm),
        )

    def _shot(self, _changed: Any) -> None:
        """The shot is inked: forget its digits, remember where the rod goes next."""
        typed = self.sheet.pad.keypad.typed if isinstance(self.sheet, ShotSheet) else ""
        self.keep_draft(typed=typed, station_nm=self._ahead)
        self._ahead = None

    def _not_shot(self, at_nm: int) -> None:
        self._ahead = None
        self.keep_draft(station_nm=at_nm)
        self.show_refusal()
