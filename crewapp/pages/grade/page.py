"""The Grade screen: the laser, the shots along a collector, and leave to cover it."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.commands.command import Command
from crewapp.commands.grade import ShootGrade
from crewapp.kit.input.forms import Form
from crewapp.kit.keys.touchable import buzz
from crewapp.kit.look.palette import Status
from crewapp.pages.frame.form_filling import Filling
from crewapp.pages.frame.pad_sheet import Asked, lay_over
from crewapp.pages.frame.parted_page import PartedPage
from crewapp.pages.go_ahead.view import GoAheadFace
from crewapp.pages.grade.ahead_controller import Ahead
from crewapp.pages.grade.choice_view import Question
from crewapp.pages.grade.controller import Errand
from crewapp.pages.grade.covering.cover_part import CoverErrand
from crewapp.pages.grade.covering.view import CoverFace
from crewapp.pages.grade.laser.laser_part import FormErrand, LaserErrand
from crewapp.pages.grade.page_view import GradeScreen, ShowGrade
from crewapp.pages.grade.setup.setup_part import SetupErrand
from crewapp.pages.grade.setup.view import SetupsFace
from crewapp.pages.grade.shot_sheet import ShotSheet, shot_field
from crewapp.pages.grade.shots_part import ListErrand
from crewapp.pages.grade.view import ON_WORDS, judge_reading, next_station, on_grade_nm, step
from crewapp.pages.grade.where_controller import WhereErrand
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
        "told": "crewapp.pages.grade.shots_part:ToldPart",
        "strike": "crewapp.pages.grade.shots_part:StrikeShotPart",
        "cover": "crewapp.pages.grade.covering.cover_part:CoverPart",
        "anyway": "crewapp.pages.go_ahead.anyway_part:AnywayPart",
        "choose": "crewapp.pages.grade.choice_part:ChoicePart",
    }
    told: GradeScreen | None

    def build(self) -> None:
        """Make the page and what it does for each subject."""
        super().build()
        self.filling = Filling(self, lambda name: self.errands["laser"].form(name))
        self.errands: dict[str, Any] = {
            "setup": SetupErrand(self),
            "shots": ListErrand(self),
            "cover": CoverErrand(self),
            "where": WhereErrand(self),
            "laser": LaserErrand(self, self.filling),
            "form": FormErrand(self, self.filling),
        }
        self.ahead = Ahead(self)
        self.check_told: tuple[str, str] | None = None
        self._ahead: int | None = None
        self._count = -1

    def arrive(self, collector_id: str = "") -> None:
        """Open on a collector, at its two strips."""
        if collector_id != self.draft.get("collector", ""):
            self.told = None
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

    def show(self, face: GradeScreen) -> None:
        """Show what was read; a shot taken back takes the rod back to its station."""
        if face.grade.shot_count < self._count:
            self._ahead = None
            self.keep_draft(station_nm=None)
        self._count = face.grade.shot_count
        self.check_told = None
        super().show(face)

    def fill(self) -> None:
        """Show the part in front, and the rod pad over it if it is up."""
        super().fill()
        if self.told is not None and isinstance(self.sheet, ShotSheet):
            grade = self.told.grade
            self.sheet.show_place(grade, self.on, self.station_nm)
            first, last = self._guard_words()
            self.sheet.show_verdict(
                grade.last_title, grade.last, [*first, *grade.sentences(), *last]
            )
            self.sheet.pad.chart = grade.chart

    def part_name(self) -> str:
        """Return the part in the draft; going on anyway only while something has to wait."""
        name = super().part_name()
        is_over = name == "anyway" and self.told is not None and self.not_yet() is None
        return "pipe" if is_over else name

    def not_yet(self) -> GoAheadFace | None:
        """Return why work along the collector has to wait, or None."""
        return self.ahead.not_yet()

    def caution(self) -> str:
        """Say what can hurt somebody at the part in front."""
        return self.ahead.caution(self.part_name())

    def _guard_words(self) -> tuple[list[str], list[str]]:
        """Words for the rod pad that hides the page: what has to wait first, a caution last."""
        told = self.ahead.told()
        is_urgent = told is not None and Status(told.status) in {Status.OUT, Status.CHECK}
        return ([told.said] if told is not None and is_urgent else []), [self.caution()]

    @property
    def on(self) -> str:
        """What the rod stands on."""
        shown = self.told.grade.on if self.told else "invert"
        return str(self.draft.get("on", "")) or shown

    @property
    def station_nm(self) -> int:
        """Where the rod stands: as chosen, or one spacing past the last shot."""
        chosen = self._ahead if self._ahead is not None else self.draft.get("station_nm")
        if isinstance(chosen, int):
            return chosen
        return self.told.grade.next_nm if self.told else 0

    def setups(self) -> SetupsFace:
        """What the setup is chosen from."""
        found = self.told.setups if self.told else None
        assert found is not None
        return found

    def cover(self) -> CoverFace:
        """The range that is to be covered."""
        found = self.told.cover if self.told else None
        assert found is not None
        return found

    def refused(self) -> None:
        """An action was refused: its reason stands in the banner, what was typed is kept."""
        if isinstance(self.sheet, ShotSheet):
            self._lift_sheet()
        self.fill()

    def choose(self, name: str, back: str) -> None:
        """Ask something by keys; ``back`` is the part to return to."""
        self.turn_to("choose", choosing=name, choose_back=back)

    def choose_none(self) -> None:
        """Leave a question without an answer."""
        self.turn_to(str(self.draft.get("choose_back", "pipe")))

    def question(self, face: GradeScreen) -> Question | None:
        """Return the question that is open."""
        errand, name = self._errand(str(self.draft.get("choosing", "")))
        return errand.question(name, face) if errand else None

    def chosen(self, key: str) -> None:
        """Take the answer to the question that is open."""
        errand, name = self._errand(str(self.draft.get("choosing", "")))
        if errand:
            errand.chosen(name, key)

    def ink_form(self, form: Form, command: Command) -> None:
        """Ink a form that is filled in."""
        self.filling.send(form, command)

    def form_inked(self, form: Form, changed: Any) -> None:
        """Show the laser that the form told of."""
        name = instrument_id_of(changed.entries[-1].body)
        self.turn_to("laser", laser=name, setup=None)

    def _errand(self, full: str) -> tuple[Errand | None, str]:
        subject, _, name = full.partition(":")
        return self.errands.get(subject), name

    def asked(self, field: str) -> Asked | None:
        """Return what the pad asks for a field."""
        if self.told is None:
            return None
        if field == "shot":
            spec = shot_field(self.told.grade, self.on, self.station_nm)
            return Asked(spec) if self.told.grade.setup else None
        errand, name = self._errand(field)
        return errand.asked(name, self.told) if errand else None

    def entered(self, field: str, value: int, text: str, ending: str) -> None:
        """Take the figure of a field."""
        errand, name = self._errand(field)
        if errand:
            errand.entered(name, value, text)

    def ask(self, field: str) -> None:
        """Lay the pad over the screen; for a shot the rod pad, which stays."""
        if field == "shot" and self.ahead.not_yet(self.on) is not None:
            self.keep_draft(pad_open=False)
            self.turn_to("anyway")
            return
        asked = self.asked(field) if field == "shot" else None
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
        assert self.told is not None
        grade = self.told.grade
        station = step(self.station_nm, ways, grade.start_nm, grade.end_nm, grade.step_nm)
        self.stand(station)

    def stand(self, station_nm: int | None, **kept: Any) -> None:
        """Stand the rod at a station; None for the one that comes next."""
        self._ahead = None
        self.keep_draft(station_nm=station_nm, **kept)
        self.fill()

    def _where(self) -> None:
        """Choose where the rod stands; what is typed waits."""
        self._lift_sheet()
        self.keep_draft(pad_open=False)
        self.choose("where:place", "pipe")

    def _shoot(self, value: int, text: str) -> None:
        """Give the verdict in the same frame, then ink the shot."""
        assert self.told is not None
        grade, on, at_nm = self.told.grade, self.on, self.station_nm
        setup, sheet = grade.setup, self.sheet
        if setup is None or not isinstance(sheet, ShotSheet):
            return
        if self.ahead.not_yet(on) is not None:
            self._lift_sheet()
            self.ask("shot")  # the digits wait in the draft
            return
        verdict = judge_reading(grade.aim(on), on_grade_nm(grade, on, at_nm), value, grade.figures)
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
        self.refused()
