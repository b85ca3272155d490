"""The parts of the Jobs page: the shelf, the form of a new job, plan files."""

from __future__ import annotations

from typing import Any, ClassVar

from kivy.uix.widget import Widget

from crewapp.palette import Kind
from crewapp.screens.jobs import shelf_rows
from crewapp.screens.parted_page import Part
from crewapp.state.jobs import JobsFace
from crewapp.widgets.choice_row import ChoiceRow
from crewapp.widgets.layout import Columns, Rows, SectionRule, Turning
from crewapp.widgets.row_list import RowList
from crewapp.widgets.text_area import TextArea
from crewapp.widgets.touchable import MainKey, TapKey
from crewapp.widgets.words import Words
from crewapp.wording import say


class ShelfPart(Part):
    """The books, and three ways to a new one."""

    def build(self) -> None:
        """Make the list and the keys."""
        self.list = RowList()
        self.list.nothing = say("No job on this tablet yet. Start one, or look at the demo.")
        self.list.bind(on_pick=lambda _, path: self.page.book_picked(path))
        keys = Columns(high_mm=22.0)
        for text, note, act in (
            (say("New job"), say("name it, type its size"), lambda: self.page.turn_to("new")),
            (say("Plan file"), say("from the office"), lambda: self.page.turn_to("plans")),
            (say("Demo"), say("three invented days"), lambda: self.page.open_demo()),
        ):
            key = TapKey(text=text, note=note, high_mm=22.0)
            key.bind(on_release=lambda _, do=act: do())
            keys.add_widget(key)
        self.add_widget(self.list)
        self.add_widget(keys)

    def title(self, face: JobsFace) -> str:
        """Return the page's name."""
        return say("Jobs")

    def place(self, face: JobsFace) -> str:
        """Return how many books there are."""
        return say("{count} on this tablet", count=len(face.books))

    def fill(self, face: JobsFace) -> None:
        """Show the shelf."""
        self.list.show_rows(shelf_rows(face))


class NewPart(Part):
    """The form of a new job: few words, and the size of a first surface if it is known."""

    back: ClassVar[str] = "shelf"

    def build(self) -> None:
        """Make the fields."""
        self.areas: dict[str, TextArea] = {}
        self.add_widget(Turning(self._who(), self._ground()))
        start = MainKey(text=say("Start the job"))
        start.bind(on_release=lambda _: self.page.start())
        self.add_widget(start)

    def _who(self) -> Rows:
        left = Rows()
        for field, words in (("name", say("Name of the job")), ("owner", say("Owner"))):
            left.add_widget(self._named(field, words))
        self.units = ChoiceRow([("us", say("feet and inches")), ("metric", say("metres"))])
        self.units.bind(on_pick=lambda _, name: self._units(name))
        left.add_widget(self.units)
        left.add_widget(Widget())
        return left

    def _ground(self) -> Rows:
        right = Rows()
        right.add_widget(SectionRule(text=say("First surface, if you know its size")))
        self.use = ChoiceRow([("green", say("green")), ("field", say("field"))])
        self.use.bind(on_pick=lambda _, name: self._keep(use=name))
        right.add_widget(self.use)
        self.along = TapKey(text="", high_mm=15.0)
        self.across = TapKey(text="", high_mm=15.0)
        self.along.bind(on_release=lambda _: self.page.ask("along"))
        self.across.bind(on_release=lambda _: self.page.ask("across"))
        sides = Columns(high_mm=15.0)
        sides.add_widget(self.along)
        sides.add_widget(self.across)
        right.add_widget(sides)
        self.note = Words(
            text=say(
                "Slits 16 in apart, 1 in by 9 in; piped slits 4 ft apart. A plan file can differ."
            ),
            lines=3,
            cap_mm=3.2,
        )
        right.add_widget(self.note)
        return right

    def _named(self, field: str, words: str) -> Rows:
        rows = Rows(gap_mm=1.0, wraps=True)
        rows.add_widget(SectionRule(text=words))
        area = TextArea(high_mm=15.0, multiline=False)
        area.bind(text=lambda _, text: self.page.keep_new(**{field: text}))
        self.areas[field] = area
        rows.add_widget(area)
        return rows

    def title(self, face: JobsFace) -> str:
        """Return the part's name."""
        return say("New job")

    def fill(self, face: JobsFace) -> None:
        """Show the form as it was left."""
        told = self.page.new_job()
        for field, area in self.areas.items():
            if area.text != getattr(told, field):
                area.text = getattr(told, field)
        self.units.chosen, self.use.chosen = told.unit_system, told.use
        self.along.text = told.along or say("Length ...")
        self.across.text = told.across or say("Width ...")

    def _units(self, name: str) -> None:
        """Change units; sides typed in the other unit are asked for anew."""
        self._keep(unit_system=name, along="", across="")

    def _keep(self, **typed: Any) -> None:
        self.page.keep_new(**typed)
        self.page.fill()


class PlansPart(Part):
    """Plan files in the inbox."""

    back: ClassVar[str] = "shelf"

    def build(self) -> None:
        """Make the list."""
        self.list = RowList()
        self.list.bind(on_pick=lambda _, name: self.page.plan_picked(name))
        self.add_widget(self.list)
        look = TapKey(text=say("Look again"), kind=Kind.QUIET)
        look.bind(on_release=lambda _: self.page.refresh())
        self.add_widget(look)

    def title(self, face: JobsFace) -> str:
        """Return the part's name."""
        return say("Plan files")

    def fill(self, face: JobsFace) -> None:
        """Show what lies in the inbox, or where to put it."""
        self.list.nothing = say(
            "Nothing here. Copy a plan file (JSON) into {folder}", folder=face.inbox
        )
        self.list.show_rows([{"key": name, "title": name} for name in face.plans])
