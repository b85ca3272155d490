"""The plan to pan and enlarge; a tapped line tells its life beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from crewapp.kit.drawing.plan_canvas import PlanCanvas
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.fact_list import Fact
from crewapp.kit.lists.text_list import FactList
from crewapp.kit.look.palette import CAP_LABEL_MM, CAP_LEAST_MM, TOUCH_MM
from crewapp.kit.look.theme import px
from crewapp.pages.frame.parted_page import Part, PartPanes
from crewapp.pages.plan.view import PlanPageView, Row
from crewapp.words.translate import say

KEYS_FROM_MM = 40.0


def facts_of(rows: Iterable[Row]) -> list[Fact]:
    """Return rows of a view as facts to read."""
    return [Fact(row.title, row.detail, row.figure, row.status) for row in rows]


class MapPart(Part):
    """Part with the plan, the story of a line or the surface, and where else to go."""

    needs_mm = (52.0, 96.0)

    def build(self) -> None:
        """Make the plan, the panel and the keys."""
        self.plan = PlanCanvas(cap_mm=CAP_LEAST_MM)
        self.plan.bind(on_pick=lambda _, key: self.page.pick_line(key))
        self.plan.bind(height=lambda plan, high: setattr(plan, "has_keys", high > px(KEYS_FROM_MM)))
        self.plan.keys[2].bind(on_release=lambda _: self.page.drop_line())
        self.told = FactList()
        self.told.nothing = say("Nothing is planned here yet. Lay lines out, or bring a plan file.")
        self.keys: dict[str, TapKey] = {}
        for name, text, act in self.page.places():
            key = TapKey(text=text, cap_mm=CAP_LABEL_MM + 0.3, high_mm=TOUCH_MM)
            key.bind(on_release=lambda _, do=act: do())
            self.keys[name] = key
        self.add_widget(PartPanes(self.plan, self.told, share=0.5, high_share=0.5))
        self.add_widget(KeyGrid(list(self.keys.values()), least_wide_mm=self.page.key_mm))

    def title(self, view: PlanPageView) -> str:
        """Return the title: the surface's name."""
        return view.surface_name or say("No surface yet")

    def place(self, view: PlanPageView) -> str:
        """Return the job's name, for the head."""
        return view.job_name

    def fill(self, view: PlanPageView) -> None:
        """Show the plan, and the line that was tapped or the surface as a whole."""
        self.plan.picture = view.picture
        self.plan.selected = view.line_id
        rows = view.life if view.line_id else (*view.summary, *_noted(view))
        named = [Fact(_named(view.line_id))] if view.line_id else []
        self.told.show_facts([*named, *facts_of(rows)])


def _named(key: str) -> str:
    """Return what the panel tells of, by the key of what was tapped."""
    kind, _, name = key.rpartition(":")
    return say("Collector {name}", name=name) if kind else say("Line {name}", name=name)


def _noted(view: PlanPageView) -> list[Row]:
    return [Row(note) for note in view.built.notes]


Places = list[tuple[str, str, Callable[[], Any]]]
"""Keys under the plan: name, words, what a tap does."""
