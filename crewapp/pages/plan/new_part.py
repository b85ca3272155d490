"""A new surface's name, and the stations of a baseline with their offsets."""

from __future__ import annotations

from typing import Any, ClassVar

from kivy.uix.widget import Widget

from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import KEY_MM, ButtonKind
from crewapp.kit.panes.layout import Columns
from crewapp.kit.text.text_area import TextArea
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.plan.forms import shape_fields, typed_or_default
from crewapp.pages.plan.question_fields import ShapeQuestion
from crewapp.pages.plan.view import PlanPageView
from crewapp.words.translate import say

LONGEST = 80


class NamePart(Part):
    """The name of a new surface, in words."""

    back: ClassVar[str] = "shape"

    def build(self) -> None:
        """Build the field of this part."""
        self.area = TextArea(high_mm=15.0, multiline=False, longest=LONGEST)
        self.area.bind(text=lambda _, text: self._typed(text))
        done = MainKey(text=say("Done"), is_logging=False)
        done.bind(on_release=lambda _: self.page.turn_to("shape"))
        for part in (self.area, Widget(), done):
            self.add_widget(part)

    def title(self, view: PlanPageView) -> str:
        """Ask for the name."""
        return say("Name of the surface")

    def fill(self, view: PlanPageView) -> None:
        """Show the name as it stands."""
        name = str(self.page.new.get("name", ""))
        if self.area.text != name:
            self.area.text = name

    def _typed(self, text: str) -> None:
        if self.area.get_root_window() is not None:
            self.page.shape.keep(name=text)


class OffsetsPart(Part):
    """Stations along a baseline, each with its offsets to the edge on both sides."""

    back: ClassVar[str] = "shape"

    def build(self) -> None:
        """Make the list and the keys."""
        self.rows = RowList()
        self.rows.nothing = say("Tape a baseline. At each station measure square to both edges.")
        self.add = MainKey(text=say("Add a station"), is_logging=False)
        self.add.bind(on_release=lambda _: self.page.ask(ShapeQuestion("station")))
        self.drop = TapKey(text=say("Take the last back"), kind=ButtonKind.QUIET, high_mm=KEY_MM)
        self.drop.bind(on_release=lambda _: self.page.shape.drop_row())
        foot = Columns(high_mm=KEY_MM)
        foot.add_widget(self.drop)
        foot.add_widget(self.add)
        self.add_widget(self.rows)
        self.add_widget(foot)

    def title(self, view: PlanPageView) -> str:
        """Say what is measured."""
        return say("Baseline and offsets")

    def fill(self, view: PlanPageView) -> None:
        """Show the stations and their offsets."""
        fields = shape_fields(view.figures)
        rows: list[dict[str, Any]] = self.page.new.get("rows") or []
        self.rows.show_rows(
            [
                {
                    "key": str(number),
                    "title": typed_or_default(fields["station"], row.get("station")),
                    "detail": say(
                        "left {left}, right {right}",
                        left=typed_or_default(fields["left"], row.get("left"), "\u2013"),
                        right=typed_or_default(fields["right"], row.get("right"), "\u2013"),
                    ),
                }
                for number, row in enumerate(rows)
            ]
        )
        self.drop.disabled = not rows
