"""Base class of the Plan and As-built pages: a surface, and a line tapped on its plan."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.pages.frame.parted_page import PartedPage
from crewapp.pages.plan.view import PlanPageView, ShowPlan
from crewapp.words.translate import say


class SurfacePage(PartedPage):
    """A page over one surface's plan. Subclasses name their parts and ``places``."""

    key_mm: ClassVar[float] = 19.5  # least width of a key under the plan
    view: PlanPageView | None

    def arrive(self, surface_id: str = "", part: str = "", collector_id: str = "") -> None:
        """Open on a surface, a part, or a collector."""
        if surface_id and surface_id != self.surface_id:
            self.keep_draft(surface=surface_id, line="")
        if collector_id:
            self.keep_draft(collector=collector_id)
        if part:
            self.keep_draft(part=part)

    @property
    def surface_id(self) -> str:
        """The surface chosen, "" for the one that has work."""
        return str(self.draft.get("surface", ""))

    def query(self) -> ShowPlan:
        """Ask for what the part in front shows."""
        return ShowPlan(
            part=self.part_name(),
            surface_id=self.surface_id,
            line_id=str(self.draft.get("line", "")),
            collector_id=str(self.draft.get("collector", "")),
        )

    def turn_to(self, name: str, **kept: Any) -> None:
        """Bring a part to the front and read what it shows."""
        super().turn_to(name, **kept)
        self.refresh()

    def pick_line(self, key: str) -> None:
        """Tell the life of a line; the same line again tells of the surface."""
        self.keep_draft(line="" if key == self.draft.get("line") else key)
        self.refresh()

    def drop_line(self) -> None:
        """Tell of the whole surface again."""
        if self.draft.get("line"):
            self.pick_line(str(self.draft["line"]))

    def empty_text(self) -> str:
        """Say what there is to do where a list is empty."""
        return say("There is nothing to choose from yet.")

    def choose_surface(self, surface_id: str) -> None:
        """Show another surface's plan."""
        self.keep_draft(surface=surface_id, line="", part="plan")
        self.fill()
        self.refresh()
