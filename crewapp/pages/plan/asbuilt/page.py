"""The As-built screen: the ground as built against the plan, and the package for the owner."""

from __future__ import annotations

from typing import ClassVar

from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.plan.map_part import Places
from crewapp.pages.plan.surface_page import SurfacePage
from crewapp.pages.plan.view import PlanPageView, Row
from crewapp.words.translate import say


class AsBuiltPage(SurfacePage):
    """The page of the as-built. ``arrive(surface_id=...)`` opens it on a surface."""

    name: ClassVar[str] = "built"
    parts: ClassVar[dict[str, str]] = {
        "plan": "crewapp.pages.plan.map_part:MapPart",
        "profile": "crewapp.pages.plan.asbuilt.parts:ProfilePart",
        "quantities": "crewapp.pages.plan.asbuilt.parts:QuantitiesPart",
        "package": "crewapp.pages.plan.asbuilt.parts:PackagePart",
        "choose": "crewapp.pages.plan.list_part:ChoosePart",
    }

    def places(self) -> Places:
        """Return the keys under the plan."""
        return [
            ("surface", say("Ground"), lambda: self.choose("surface")),
            ("profile", say("Profile"), lambda: self.turn_to("profile")),
            ("quantities", say("Placed"), lambda: self.turn_to("quantities")),
            ("package", say("Package"), lambda: self.turn_to("package")),
            ("ties", say("Ties"), lambda: self.shell.go("after", part="ties")),
            ("plan", say("Plan"), self._to_plan),
        ]

    def _to_plan(self) -> None:
        self.shell.go("plan", surface_id=self.view.surface_id if self.view else "")

    def choose(self, choosing: str) -> None:
        """Ask something by a list."""
        self.turn_to("choose", choosing=choosing)

    def question(self, view: PlanPageView) -> tuple[str, str, tuple[Row, ...]]:
        """Return the question that is open."""
        if self.draft.get("choosing") == "collector":
            return say("Which collector?"), "profile", view.built.collectors
        return say("Which surface?"), "plan", view.surfaces

    def take_choice(self, key: str) -> None:
        """Take the answer that was tapped."""
        if self.draft.get("choosing") == "collector":
            self.turn_to("profile", collector=key)
        else:
            self.choose_surface(key)

    def pad_question(self, field: str) -> PadQuestion | None:
        """Ask for nothing by the pad: nothing is typed here."""
        return None

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take nothing from the pad."""
