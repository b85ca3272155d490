"""The After the rain screen: entries once the work is done, and proofs of the materials.

Three doors lead here: Day to the rain and the ground, Loads to the tests of sand, and
As-built to the ties of ends; each leads back to where it came from.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any, ClassVar

from crewapp.commands.after_rain import LogInfiltration, LogSurfaceCondition
from crewapp.commands.command import Command
from crewapp.kit.input.forms import Answers, Form
from crewapp.pages.after_rain.forms import rain_form, seen_form, surface_of
from crewapp.pages.after_rain.repair_forms import repair_form, top_up_form
from crewapp.pages.after_rain.ring_forms import (
    FILLED_UP,
    LEVEL,
    RingQuestion,
    TimedLevel,
    level_field,
    ring_form,
    show_run,
)
from crewapp.pages.after_rain.sand_forms import box_form, jar_form, sieve_form
from crewapp.pages.after_rain.tie_forms import outlet_form, point_form, tie_form
from crewapp.pages.after_rain.view import AfterRainView, ShowAfterRain
from crewapp.pages.frame.form_filling import PAD, FormFilling
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import PartedPage
from crewapp.words.translate import say

DOORS = {"day": "day", "loads": "loads", "built": "built"}
FORMS = {
    "rain": rain_form,
    "seen": seen_form,
    "ring": ring_form,
    "top_up": top_up_form,
    "repair": repair_form,
    "point": point_form,
    "outlet": outlet_form,
    "box": box_form,
    "jar": jar_form,
    "sieve": sieve_form,
}
RING = f"{RingQuestion.subject}:"


class AfterRainPage(PartedPage):
    """The page. ``arrive(part=...)`` opens it at ``home``, ``sand`` or ``ties``."""

    name: ClassVar[str] = "after"
    parts: ClassVar[dict[str, str]] = {
        "home": "crewapp.pages.after_rain.parts:HomePart",
        "form": "crewapp.pages.frame.form_part:FormPart",
        "looks": "crewapp.pages.after_rain.parts:GroundLookPart",
        "rains": "crewapp.pages.after_rain.parts:RainsPart",
        "ring": "crewapp.pages.after_rain.ring_part:RingPart",
        "ties": "crewapp.pages.after_rain.tests_part:TiesPart",
        "sand": "crewapp.pages.after_rain.tests_part:SandPart",
        "sheets": "crewapp.pages.after_rain.tests_part:SheetsPart",
    }
    view: AfterRainView | None

    def build(self) -> None:
        """Make the page and what fills its forms."""
        super().build()
        self.filling = FormFilling(self, self._form)

    def part_name(self) -> str:
        """Return the part in the draft; a form only while it can be filled in."""
        name = super().part_name()
        if name != "form" or self.view is None:
            return name
        form = self.filling.form
        if form is None:
            return "home"
        return "looks" if form.name == "seen" and self.filling.step is None else name

    def query(self) -> ShowAfterRain:
        """The part in front."""
        return ShowAfterRain(part=self.part_name())

    def arrive(self, part: str = "") -> None:
        """Open at a part."""
        if part in self.parts:
            self.keep_draft(part=part)

    def turn_to(self, name: str, **kept: Any) -> None:
        """Bring a part to the front, or go back through the door one came in by."""
        if name in DOORS:
            self.keep_draft(part="home")
            self.shell.go(DOORS[name])
            return
        if name == "looks":
            kept = {"form": "seen", "at": "", "writing": False, **kept}
        super().turn_to(name, **kept)
        if name in ("rains", "sand"):
            self.refresh()

    def begin_look(self) -> None:
        """Take a look: the surface is chosen first where there are several."""
        is_chosen = surface_of(self.filling.answers_of("seen"), self._told())
        self.turn_to("looks")
        if not is_chosen:
            self.filling.begin("seen")

    def ink_condition(self, condition: str) -> None:
        """Ink how the ground is seen."""
        form = self.filling.form
        if form is not None and self.filling.step is None:
            seen = form.command(self.filling.answers)
            assert isinstance(seen, LogSurfaceCondition)
            self.shell.do(replace(seen, condition=condition), self._seen)

    def _seen(self, _changed: Any) -> None:
        """Keep the place for the next look; its time is the clock's again."""
        kept = {key: value for key, value in self.filling.answers.items() if key != "at"}
        self.keep_draft(answers={**self.draft.get("answers", {}), "seen": kept})
        self.fill()

    def _told(self) -> AfterRainView:
        return self.view or AfterRainView()

    def _form(self, name: str) -> Form | None:
        view = self.view
        if view is None:
            return None
        sort, _, rest = name.partition("/")
        answers: Answers = self.filling.answers_of(name)
        if sort == "tie":
            return tie_form(rest, view, answers) if view.points else None
        made = FORMS.get(sort)
        return made(view, answers) if made else None

    def pad_question(self, field: str) -> PadQuestion | None:
        """Return the pad's field for a question, or for a level in the ring."""
        if not field.startswith(RING):
            return self.filling.pad_question(field)
        if self.view is None:
            return None
        after_s = self.ring_pending if field == str(LEVEL) else None
        if after_s is None:
            spec = level_field(self.view.figures, say("Filled up to"))
            return PadQuestion(spec, say("over the ground"))
        spec = level_field(self.view.figures, say("Level"))
        return PadQuestion(spec, say("at {time}", time=show_run(after_s)))

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take a figure typed for a question, or a level of the ring."""
        self.drop_typed()
        if field == str(LEVEL):
            self._take_level(value, text)
        elif field == str(FILLED_UP):
            self._take_refill(value)
        else:
            self.filling.take_figure(field.removeprefix(PAD), value, text)

    def ink_form(self, form: Form, command: Command) -> None:
        """Ink a form that is filled in; a ring test goes to its clock first."""
        if form.name == "ring":
            self.turn_to("ring")
        else:
            self.filling.send(form, command)

    def after_form(self, form: Form, changed: Any) -> None:
        """Go back to where the form was begun."""
        self.turn_to(form.back)

    @property
    def ring_readings(self) -> list[TimedLevel]:
        """Readings of the ring so far."""
        return [TimedLevel.from_plain(one) for one in self.draft.get("ring_readings", ())]

    @property
    def ring_began_ms(self) -> int | None:
        """When the first reading was tapped."""
        began = self.draft.get("ring_began")
        return None if began is None else int(began)

    @property
    def ring_pending(self) -> int | None:
        """Seconds of a reading that was tapped and not typed yet."""
        pending = self.draft.get("ring_pending")
        return None if pending is None else int(pending)

    def tap_reading(self, now_ms: int) -> None:
        """Hold the moment of a reading, and ask for its level."""
        if self.ring_pending is None:
            began = now_ms if self.ring_began_ms is None else self.ring_began_ms
            self.keep_draft(ring_began=began, ring_pending=max((now_ms - began) // 1000, 0))
        self.ask(LEVEL)

    def _take_level(self, value: int, text: str) -> None:
        reading = TimedLevel(self.ring_pending or 0, value, text)
        kept = [one.to_plain() for one in self.ring_readings if one.after_s < reading.after_s]
        self.keep_draft(ring_readings=[*kept, reading.to_plain()], ring_pending=None)
        self.fill()

    def _take_refill(self, value: int) -> None:
        readings = [one.to_plain() for one in self.ring_readings]
        if readings:
            readings[-1]["up"] = value
            self.keep_draft(ring_readings=readings)
        self.fill()

    def drop_reading(self) -> None:
        """Forget the reading that was tapped, or the last one; with the first, the clock stops."""
        readings = [one.to_plain() for one in self.ring_readings]
        if self.ring_pending is None:
            readings = readings[:-1]
        began = self.ring_began_ms if readings else None
        self.keep_draft(ring_readings=readings, ring_pending=None, ring_began=began)
        self.fill()

    def ink_ring(self) -> None:
        """Ink the test with all its readings."""
        form = self._form("ring")
        if form is None:
            return
        test = form.command(self.filling.answers_of("ring"))
        assert isinstance(test, LogInfiltration)
        readings = tuple(one.to_reading() for one in self.ring_readings)
        self.shell.do(replace(test, readings=readings), self._ring_inked, self.fill)

    def _ring_inked(self, _changed: Any) -> None:
        self.filling.forget("ring")
        self.keep_draft(ring_readings=[], ring_pending=None, ring_began=None)
        self.turn_to("home")
