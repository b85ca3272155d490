"""The parts of the Jobs page: the library, the form of a new job, plan files."""

from __future__ import annotations

from typing import Any, ClassVar

from kivy.uix.anchorlayout import AnchorLayout

from crewapp.kit.keys.choice_row import ChoiceRow
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import CAP_LEAST_MM, ButtonKind
from crewapp.kit.panes.labelled_field import LabelledField
from crewapp.kit.panes.layout import Columns
from crewapp.kit.text.label import TextLabel
from crewapp.kit.text.text_area import TextArea
from crewapp.pages.frame.folder_text import folder_text
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.jobs.page import library_rows
from crewapp.pages.jobs.view import JobsView
from crewapp.words.translate import say

LONGEST_NAME = 80


class LibraryPart(Part):
    """The books, and three ways to a new one; the settings beside them."""

    def build(self) -> None:
        """Make the list and the keys."""
        self.list = RowList()
        self.list.nothing = say("No job on this tablet yet. Start one, or look at the demo.")
        self.list.bind(on_pick=lambda _, path: self.page.pick_book(path))
        keys = []
        for text, note, act in (
            (say("New job"), say("by its size"), lambda: self.page.turn_to("new")),
            (say("Plan file"), say("from office"), lambda: self.page.turn_to("plans")),
            (say("Exchange"), say("join a job"), lambda: self.page.to_exchange()),
            (say("Demo"), say("invented"), lambda: self.page.open_demo()),
            (say("Settings"), say("this tablet"), lambda: self.page.shell.go("settings")),
        ):
            key = TapKey(text=text, note=note, high_mm=22.0)
            key.bind(on_release=lambda _, do=act: do())
            keys.append(key)
        self.add_widget(self.list)
        self.add_widget(KeyGrid(keys, high_mm=22.0))

    def title(self, view: JobsView) -> str:
        """Return the page's name."""
        return say("Jobs")

    def place(self, view: JobsView) -> str:
        """Return how many books there are."""
        return say("{count} on this tablet", count=len(view.books))

    def fill(self, view: JobsView) -> None:
        """Show the books of the library."""
        self.list.show_rows(library_rows(view))


class NewPart(Part):
    """The form of a new job: few words."""

    back: ClassVar[str] = "shelf"

    def build(self) -> None:
        """Build the fields of this part."""
        self.areas: dict[str, TextArea] = {}
        for field, words in (("name", say("Name of the job")), ("owner", say("Owner"))):
            area = TextArea(high_mm=15.0, multiline=False, longest=LONGEST_NAME)
            area.bind(text=lambda _, text, kept=field: self.page.keep_new(**{kept: text}))
            self.areas[field] = area
            self.add_widget(LabelledField(words, area))
        self.units = ChoiceRow([("us", say("feet and inches")), ("metric", say("metres"))])
        self.units.bind(on_pick=lambda _, name: self._units(name))
        self.add_widget(LabelledField(say("Units"), self.units))
        self.next = MainKey(text=say("Next: its first surface"), is_logging=False)
        self.next.bind(on_release=lambda _: self.page.turn_to("ground"))
        foot = AnchorLayout(anchor_y="bottom")
        foot.add_widget(self.next)
        self.add_widget(foot)

    def title(self, view: JobsView) -> str:
        """Return the part's name."""
        return say("New job")

    def fill(self, view: JobsView) -> None:
        """Show the form as it was left."""
        told = self.page.new_job()
        for field, area in self.areas.items():
            if area.text != getattr(told, field):
                area.text = getattr(told, field)
        self.units.chosen = told.unit_system

    def _units(self, name: str) -> None:
        """Change units; sides typed in the other unit are asked for anew."""
        if name != self.page.new_job().unit_system:
            self.page.keep_new(unit_system=name, along="", across="")
            self.page.fill()


class GroundPart(Part):
    """The size of a new job's first surface, if it is known, and the start."""

    back: ClassVar[str] = "new"

    def build(self) -> None:
        """Build the keys of this part."""
        self.use = ChoiceRow([("green", say("green")), ("field", say("field"))])
        self.use.bind(on_pick=lambda _, name: self._keep(use=name))
        self.add_widget(self.use)
        sides = Columns(high_mm=15.0)
        self.sides: dict[str, TapKey] = {}
        for field in ("along", "across"):
            key = TapKey(text="", high_mm=15.0)
            key.bind(on_release=lambda _, asked=field: self.page.ask(asked))
            self.sides[field] = key
            sides.add_widget(key)
        self.add_widget(sides)
        self.note = TextLabel(text="", lines=3, cap_mm=CAP_LEAST_MM)
        self.add_widget(self.note)
        start = MainKey(text=say("Start the job"))
        start.bind(on_release=lambda _: self.page.start())
        self.add_widget(start)

    def title(self, view: JobsView) -> str:
        """Return the part's name."""
        return say("First surface")

    def place(self, view: JobsView) -> str:
        """Say that it may be left out."""
        return say("if you know its size")

    def fill(self, view: JobsView) -> None:
        """Show the form as it was left."""
        told = self.page.new_job()
        self.use.chosen = told.use
        self.sides["along"].text = told.along or say("Length ...")
        self.sides["across"].text = told.across or say("Width ...")
        self.note.text = _common_slits(told.unit_system == "us")

    def _keep(self, **typed: Any) -> None:
        self.page.keep_new(**typed)
        self.page.fill()


def _common_slits(is_us: bool) -> str:
    """Say the slits that a surface typed by its size gets, in the units of the job."""
    slits = say("Slits 400 mm apart, 25 mm by 230 mm; piped slits 1.2 m apart.")
    if is_us:
        slits = say("Slits 16 in apart, 1 in by 9 in; piped slits 4 ft apart.")
    other = say("For other sizes, a collector or a crew, take a plan file from the office.")
    return f"{slits} {other}"


class PlansPart(Part):
    """Plan files and handed-over files in the inbox."""

    back: ClassVar[str] = "shelf"

    def build(self) -> None:
        """Build the list of this part."""
        self.list = RowList()
        self.list.bind(on_pick=lambda _, name: self.page.pick_plan(name))
        self.add_widget(self.list)
        look = TapKey(text=say("Look again"), kind=ButtonKind.QUIET)
        look.bind(on_release=lambda _: self.page.refresh())
        self.add_widget(look)

    def title(self, view: JobsView) -> str:
        """Return the part's name."""
        return say("Plan files")

    def fill(self, view: JobsView) -> None:
        """Show what lies in the inbox, or where to put it."""
        self.list.nothing = say(
            "Nothing here. Copy a plan file (JSON) or a handed-over job (.crew) into {folder}",
            folder=folder_text(view.inbox),
        )
        handed = [
            {"key": name, "title": name, "detail": say("handed over")} for name in view.handed
        ]
        self.list.show_rows([*({"key": name, "title": name} for name in view.plans), *handed])


class PlanForPart(Part):
    """Whether a plan file is for the job that is open, or a new one."""

    back: ClassVar[str] = "plans"

    def build(self) -> None:
        """Make the words and the two keys."""
        self.words = TextLabel(cap_mm=4.0, lines=5)
        self.to_open = TapKey(text="", high_mm=22.0)
        self.to_open.words.lines = 3
        self.to_open.bind(on_release=lambda _: self.page.plan_to_open())
        self.to_new = TapKey(text=say("Make a new job of it"), high_mm=22.0)
        self.to_new.bind(on_release=lambda _: self.page.plan_to_new())
        self.add_widget(self.words)
        self.add_widget(KeyGrid((self.to_open, self.to_new), least_wide_mm=60.0, high_mm=22.0))

    def title(self, view: JobsView) -> str:
        """Return the title: the file's name."""
        return str(self.page.draft.get("plan", "")) or say("Plan files")

    def fill(self, view: JobsView) -> None:
        """Name the open job."""
        self.words.text = (
            say(
                "What was written on other tablets is taken in. What is here stays; taken in "
                "twice it does no harm."
            )
            if self.page.is_handover
            else say(
                "What the file names is planned anew, what it leaves out stays. "
                "Lines that carry work are not moved."
            )
        )
        self.to_open.text = say("Add it to {job}", job=view.open_job)
        self.to_open.disabled = not view.open_job
