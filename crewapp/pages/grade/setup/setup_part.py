"""Setting the laser up: what it stands on, how it is dialled, its backsight, its proof."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any, Literal, get_args

from crewapp.commands.grade import CheckSetup, ReadTurningPoint, SetUpLaser
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.look.palette import CAP_LABEL_MM
from crewapp.kit.panes.layout import SectionRule
from crewapp.kit.text.fit_text import FitSentences
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.grade.choice_view import Question
from crewapp.pages.grade.controller import Controller
from crewapp.pages.grade.fields import days_field, grade_field, rod_field, station_field
from crewapp.pages.grade.foot_keys import FootKeys
from crewapp.pages.grade.laser.view import key_words
from crewapp.pages.grade.page_view import GradePageView
from crewapp.pages.grade.question_fields import LaserQuestion, SetupField, SetupQuestion
from crewapp.pages.grade.setup.options import ADD, QUESTIONS
from crewapp.pages.grade.setup.view import SetupDraft, SetupsView, draft_from_plain, judge_check
from crewapp.words.dates import full_day
from crewapp.words.translate import say

CHECK, FORESIGHT = SetupQuestion("check"), SetupQuestion("foresight")
HALF_MM_NM = 500_000
HALF_HUNDREDTH_NM = 1_524_000


class SetupPart(Part):
    """The setup as far as it is chosen; its main key reads the backsight."""

    has_head = False

    def build(self) -> None:
        """Make a key for each thing to choose."""
        self.rule = SectionRule(text=say("Set the laser up"))
        self.grid = KeyGrid(least_wide_mm=38.0)
        self.keys = {name: self._key(name) for name in FIELDS}
        self.hint = FitSentences()
        self.main = MainKey(text="", is_logging=False)
        self.main.bind(on_release=lambda _: self.page.ask(SetupQuestion("backsight")))
        self.foot = FootKeys(
            self.main,
            (
                ("back", say("Back"), lambda: self.page.turn_to("pipe")),
                ("check", say("Check shot"), lambda: self.page.choose(CHECK, "pipe")),
                ("turning", say("Turning point"), lambda: self.page.ask(FORESIGHT)),
                ("run", say("Level run"), lambda: self.page.turn_to("run")),
            ),
        )
        for part in (self.rule, self.grid, self.hint, self.foot):
            self.add_widget(part)

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        return say("Grade")

    def _key(self, name: SetupKey) -> TapKey:
        key = TapKey(text="", cap_mm=CAP_LABEL_MM + 0.5)
        key.words.lines = 1
        key.bind(on_release=lambda _: self._choose(name))
        return key

    def _choose(self, name: SetupKey) -> None:
        if name == "abreast":
            self.page.ask(SetupQuestion("abreast"))
        elif name == "laser":
            self.page.controllers["setup"].to_laser()
        else:
            self.page.choose(SetupQuestion(name), "setup")

    def fill(self, view: GradePageView) -> None:
        """Show what is chosen, and what is still lacking."""
        setups = view.setups
        if setups is None:
            return
        draft = current_draft(self.page.draft.get("setup"), setups)
        for name, (words, text) in field_texts(draft, setups).items():
            self.keys[name].note, self.keys[name].text = words, text
        self.grid.show_keys([self.keys[name] for name in visible_fields(draft, setups)])
        lacks = draft.missing_text(setups.lasers)
        self.main.disabled = bool(lacks)
        self.main.text = say("Read the backsight")
        self.main.note = say("rod on {point}", point=draft.on_point) if not lacks else ""
        standing = say("{setup} stands on {point}.", setup=setups.setup_id, point=setups.on_point)
        self.hint.sentences = [lacks] if lacks else [standing] if setups.setup_id else []
        for touch in ("check", "turning", "run"):
            self.foot.touches[touch].disabled = not setups.setup_id


SetupKey = Literal["point", "plane", "grade", "abreast", "instrument", "calibrated", "laser"]
FIELDS: tuple[SetupKey, ...] = get_args(SetupKey)
GRADED: frozenset[SetupKey] = frozenset({"grade", "abreast"})


def visible_fields(draft: SetupDraft, view: SetupsView) -> list[SetupKey]:
    """Return the keys that say something, no more than a small tablet has room for.

    A laser of the job has its own calibration. While there is none, the key of a dialled
    plane's instrument alone leads to adding one.
    """
    left_out = set() if draft.plane == "graded" else set(GRADED)
    if view.lasers:
        left_out.add("calibrated")
    elif draft.plane == "graded":
        left_out.add("laser")
    return [name for name in FIELDS if name not in left_out]


def current_draft(kept: Any, view: SetupsView) -> SetupDraft:
    """Return the draft kept, or a new one: what is no reading carries over."""
    if kept:
        draft = draft_from_plain(kept)
        is_known = draft.on_point in {point.name for point in view.points}
        is_there = draft.laser_id in {laser.instrument_id for laser in view.lasers}
        laser_id = draft.laser_id if is_there else view.laser_id
        return replace(draft, on_point=draft.on_point if is_known else "", laser_id=laser_id)
    only = view.points[0].name if len(view.points) == 1 else ""
    return SetupDraft(
        only,
        instrument=view.instrument,
        calibrated_on=view.calibrated_on,
        laser_id=view.laser_id,
    )


def field_texts(draft: SetupDraft, view: SetupsView) -> dict[SetupKey, tuple[str, str]]:
    """Return the words and the value on each key."""
    level = next((p.level for p in view.points if p.name == draft.on_point), "")
    is_dialled = draft.grade_ppm is not None
    at_nm = draft.at_station_nm
    ask = say("choose")
    return {
        "point": (say("rod stands on"), f"{draft.on_point} {level}".strip() or ask),
        "plane": (
            say("plane"),
            say("dialled grade") if draft.plane == "graded" else say("level plane"),
        ),
        "grade": (
            say("dialled"),
            view.figures.grade(draft.grade_ppm or 0) if is_dialled else ask,
        ),
        "abreast": (
            say("point is abreast of"),
            ask if at_nm is None else view.figures.station(at_nm),
        ),
        "instrument": (
            say("instrument"),
            (draft.laser_id if view.lasers else draft.instrument) or ask,
        ),
        "laser": key_words(view.lasers, draft.laser_id),
        "calibrated": (
            say("calibrated"),
            full_day(draft.calibrated_on, view.figures.is_us) or say("not known"),
        ),
    }


class SetupController(Controller[SetupField]):
    """Asks for a setup, its check shot and its turning points, and inks them."""

    def draft(self) -> SetupDraft:
        """The setup as far as it is chosen."""
        view = self.page.setups()
        return current_draft(self.page.draft.get("setup"), view)

    def to_laser(self) -> None:
        """Go to the laser and its peg test; to a new one while the job has none."""
        laser, view = self.page.controllers["laser"], self.page.setups()
        if not view.lasers:
            laser.begin_adding()
        elif self.draft().laser_id:
            laser.look_at(self.draft().laser_id)
        else:
            self.page.choose(LaserQuestion("which"), "setup")

    def keep(self, **chosen: Any) -> None:
        """Keep a choice, and show the setup again."""
        self.page.turn_to("setup", setup=replace(self.draft(), **chosen).to_plain())

    def pad_question(self, name: SetupField, view: GradePageView) -> PadQuestion | None:
        """Return what the pad asks."""
        setups = view.setups
        if setups is None:
            return None
        figures, draft = setups.figures, self.draft()
        if name == "backsight":
            spec = rod_field(figures, say("Backsight"))
            return None if draft.missing_text(setups.lasers) else PadQuestion(spec, draft.on_point)
        if name == "check":
            point = str(self.page.draft.get("checking", ""))
            return PadQuestion(rod_field(figures, say("Check shot")), point)
        if name == "foresight":
            return PadQuestion(rod_field(figures, say("Foresight")), setups.next_turning)
        if name == "abreast":
            words = say("Station abreast of {point}", point=draft.on_point or say("the point"))
            return PadQuestion(station_field(figures, words, setups.start_nm, setups.end_nm))
        return PadQuestion(days_field() if name == "days" else grade_field(figures))

    def take_figure(self, name: SetupField, value: int, text: str) -> None:
        """Take a figure: readings are inked at once, settings kept in the draft."""
        if name == "backsight":
            self._set_up(value, text)
        elif name == "check":
            self._check(value, text)
        elif name == "foresight":
            self._turn(value, text)
        else:
            self.page.drop_typed()
            if name == "abreast":
                self.keep(at_station_nm=value)
            elif name == "grade":
                self.keep(grade_ppm=value)
            else:
                self.keep(calibrated_on=days_before(self.page.setups().today, value))

    def _set_up(self, value: int, text: str) -> None:
        view, draft = self.page.setups(), self.draft()

        def done(_changed: Any) -> None:
            self.page.drop_typed()
            self.page.keep_draft(setup=None)
            self.page.choose(CHECK, "pipe")

        self.page.shell.do(
            SetUpLaser(
                backsight_nm=value,
                backsight_typed=text,
                collector_id=view.collector_id,
                reading_error_nm=HALF_HUNDREDTH_NM if view.figures.is_us else HALF_MM_NM,
                **draft.fields(),
            ),
            done,
            self.page.show_refusal,
        )

    def _check(self, value: int, text: str) -> None:
        """Say at once by how much it misses, and ink it."""
        view = self.page.setups()
        point = str(self.page.draft.get("checking", ""))
        level_nm = view.level_of(point)
        if view.height_nm is not None and level_nm is not None:
            self.page.check_told = judge_check(
                view.height_nm, level_nm, value, view.allowed_nm, view.figures
            )
        self.ink(
            CheckSetup(
                setup_id=view.setup_id, on_point=point, reading_nm=value, reading_typed=text
            ),
            "pipe",
        )
        self.page.turn_to("pipe")

    def _turn(self, value: int, text: str) -> None:
        """Ink a foresight; the next setup stands on its point."""
        view, draft = self.page.setups(), self.draft()

        def done(_changed: Any) -> None:
            self.page.drop_typed()
            plain = replace(draft, on_point=view.next_turning).to_plain()
            self.page.turn_to("setup", setup=plain)

        self.page.shell.do(
            ReadTurningPoint(
                setup_id=view.setup_id,
                point_id=view.next_turning,
                foresight_nm=value,
                foresight_typed=text,
            ),
            done,
            self.page.show_refusal,
        )

    def question(self, name: SetupField, view: GradePageView) -> Question | None:
        """Return the question that keys answer, or None."""
        if view.setups is None:
            return None
        return QUESTIONS[name](view.setups, view)

    def take_choice(self, name: SetupField, key: str) -> None:
        """Take the answer that was tapped."""
        if name == "check":
            self.page.keep_draft(checking=key)
            self.page.ask(CHECK)
        elif key == ADD:
            self.page.controllers["laser"].begin_adding()
        elif name == "instrument" and self.page.setups().lasers:
            self.keep(laser_id=key)
        elif key == "pad":
            self.page.ask(SetupQuestion("days" if name == "calibrated" else "grade"))
        elif name == "grade":
            self.keep(grade_ppm=int(key))
        else:
            fields = {"point": "on_point", "calibrated": "calibrated_on"}
            self.keep(**{fields.get(name, name): key})


def days_before(today: str, days: int) -> str:
    """Return the day so many days before, as it is written in the book."""
    return (date.fromisoformat(today) - timedelta(days=days)).isoformat()
