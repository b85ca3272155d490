"""The Plan screen: surfaces and their lines, laid out, taken off, and what the water may do."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, ClassVar

from crewapp.commands.plan.layout import LayOut
from crewapp.pages.frame.folder_text import folder_text
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.question_name import QuestionName
from crewapp.pages.plan.controllers import (
    Controller,
    ShapeController,
    TermsController,
    WaterController,
)
from crewapp.pages.plan.map_part import Places
from crewapp.pages.plan.question_fields import (
    ShapeQuestion,
    ShapeTile,
    SurfaceQuestion,
    TermsField,
)
from crewapp.pages.plan.surface_page import SurfacePage
from crewapp.pages.plan.view import PlanPageView, Row, ShowPlan, TakeoffItem
from crewapp.words.translate import say

WHICH_SURFACE = SurfaceQuestion("surface")


class PlanPage(SurfacePage):
    """The page of the plan. ``arrive(surface_id=...)`` opens it on a surface."""

    name: ClassVar[str] = "plan"
    parts: ClassVar[dict[str, str]] = {
        "plan": "crewapp.pages.plan.map_part:MapPart",
        "terms": "crewapp.pages.plan.terms_part:TermsPart",
        "bearings": "crewapp.pages.plan.list_part:BearingsPart",
        "drives": "crewapp.pages.plan.list_part:DrivesPart",
        "shape": "crewapp.pages.plan.terms_part:ShapePart",
        "name": "crewapp.pages.plan.new_part:NamePart",
        "offsets": "crewapp.pages.plan.new_part:OffsetsPart",
        "takeoff": "crewapp.pages.plan.takeoff_part:TakeoffPart",
        "item": "crewapp.pages.plan.takeoff_part:ItemPart",
        "gates": "crewapp.pages.plan.takeoff_part:GatesPart",
        "rain": "crewapp.pages.plan.takeoff_part:RainPart",
        "choose": "crewapp.pages.plan.list_part:ChoosePart",
    }

    def build(self) -> None:
        """Make the page and what it does for each subject."""
        super().build()
        self.terms, self.shape = TermsController(self), ShapeController(self)
        self.water = WaterController(self)
        self.controllers: dict[str, Controller[Any]] = {
            "terms": self.terms,
            "shape": self.shape,
            "water": self.water,
        }

    def caution(self) -> str:
        """Return the caution where estimates are on the screen."""
        if self.part_name() not in {"plan", "takeoff", "item", "gates"}:
            return ""
        return say("An estimate: a licensed engineer designs drainage. Local codes come first.")

    def places(self) -> Places:
        """Return the keys under the plan."""
        return [
            ("surface", say("Ground"), lambda: self.choose(WHICH_SURFACE)),
            ("terms", say("Lay out"), self.begin_layout),
            ("drives", say("Passes"), lambda: self.turn_to("drives")),
            ("takeoff", say("Take-off"), lambda: self.turn_to("takeoff")),
            ("gates", say("Gates"), lambda: self.turn_to("gates")),
            ("built", say("As-built"), self._to_built),
        ]

    def _to_built(self) -> None:
        self.shell.go("built", surface_id=self.view.surface_id if self.view else "")

    @property
    def new(self) -> dict[str, Any]:
        """The new surface as it was typed so far; empty where none is."""
        found: dict[str, Any] = self.draft.get("new") or {}
        return found

    @property
    def use(self) -> str:
        """The use whose lines are laid out."""
        return str(self.draft.get("use") or "sand_slit")

    def typed_of(self, surface_id: str) -> dict[str, Any]:
        """Return what was typed of a surface's lines."""
        found: dict[str, Any] = (self.draft.get("terms") or {}).get(surface_id) or {}
        return found

    def laid_surface(self) -> str:
        """Return the surface to lay out: the new one, or the one in front."""
        shown = self.view.surface_id if self.view else self.surface_id
        return str(self.new.get("surface_id") or shown)

    def query(self) -> ShowPlan:
        """Ask for what the part in front shows, by what was typed."""
        return replace(
            super().query(),
            use=self.use,
            typed=self.typed_of(self.laid_surface()),
            new=self.new,
        )

    def begin_layout(self) -> None:
        """Begin to lay out the surface in front; with none, a new one."""
        if self.view is not None and self.view.surface_id:
            self.turn_to("terms", new={})
        else:
            self.choose(WHICH_SURFACE)

    def choose(self, question: QuestionName) -> None:
        """Ask something by a list."""
        self.turn_to("choose", choosing=str(question))

    def question(self, view: PlanPageView) -> tuple[str, str, tuple[Row, ...]]:
        """Return the question that is open: its words, the way back, the answers."""
        subject, _, name = str(self.draft.get("choosing", "")).partition(":")
        if subject in self.controllers:
            return self.controllers[subject].question(name, view)
        new = tuple(
            Row(say("New {ground}", ground=say(ground)), say("typed in, or from a file"), key=key)
            for key, ground in self.shape.grounds()
        )
        return say("Which surface?"), "plan", (*view.surfaces, *new)

    def empty_text(self) -> str:
        """Say what there is to do where a list is empty."""
        if self.draft.get("choosing") == str(ShapeQuestion("file")):
            folder = folder_text(str(self.shell.tablet.folder / "inbox"))
            return say("Nothing here. Copy GeoJSON, DXF or CSV into {folder}", folder=folder)
        return super().empty_text()

    def take_choice(self, key: str) -> None:
        """Take the answer to the question that is open."""
        subject, _, name = str(self.draft.get("choosing", "")).partition(":")
        if subject in self.controllers:
            self.controllers[subject].take_choice(name, key)
        elif key.startswith("new:"):
            self.shape.begin(key.removeprefix("new:"))
        else:
            self.keep_draft(new={})
            self.choose_surface(key)

    def pad_question(self, field: str) -> PadQuestion | None:
        """Return what the pad asks for a field."""
        subject, _, name = field.partition(":")
        if self.view is None or subject not in self.controllers:
            return None
        return self.controllers[subject].pad_question(name, self.view)

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take the figure of a field."""
        subject, _, name = field.partition(":")
        self.drop_typed()
        if subject in self.controllers:
            self.controllers[subject].take_figure(name, value, text)

    def ask_term(self, field: TermsField) -> None:
        """Ask for one term of the layout."""
        self.terms.ask(field)

    def ask_shape(self, field: ShapeTile) -> None:
        """Ask for one measure of the new surface."""
        self.shape.ask(field)

    def take_bearing(self, key: str) -> None:
        """Take a bearing of the table."""
        self.terms.keep(bearing=key.removesuffix(" deg"))
        self.turn_to("terms")

    def item(self, view: PlanPageView) -> TakeoffItem | None:
        """Return the item of the take-off that is looked at."""
        key = self.draft.get("item")
        return next((one for one in view.takeoff.items if one.key == key), None)

    def lay_out(self) -> None:
        """Write the lines as they are drawn."""
        if self.view is not None and not self.view.preview.why_not:
            request = self.view.preview.request
            surface_id = self.laid_surface()
            self.do(LayOut(surface_id=surface_id, request=request))

    def after_command(self, changed: Any) -> None:
        """Forget what was typed of lines or rain, once it is inked."""
        if self.part_name() == "rain":
            self.turn_to("gates", rain={})
        if self.part_name() != "terms":
            return
        surface_id = self.laid_surface()
        typed = {**(self.draft.get("terms") or {})}
        typed.pop(surface_id, None)
        self.keep_draft(terms=typed, new={}, surface=surface_id, line="")
        self.turn_to("plan")
