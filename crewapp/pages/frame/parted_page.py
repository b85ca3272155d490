"""A page that shows one part of its work at a time, and asks for figures by the pad.

Which part is in front and what is half-typed are kept in the page's draft, so
that a kill loses neither.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any, ClassVar

from kivy.clock import Clock
from kivy.core.window import Window
from kivy.uix.boxlayout import BoxLayout

from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import CAP_LABEL_MM, EDGE_MM, GAP_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import HEAD_MM, Rows, TwoPanes
from crewapp.kit.text.label import TextLabel
from crewapp.pages.frame.pad_sheet import PadQuestion, PadSheet, lay_over
from crewapp.pages.frame.question_name import QuestionName
from crewapp.pages.frame.screen_page import ScreenPage
from crewapp.words.translate import say


class Part(BoxLayout):
    """Part of a page. ``build`` makes it once, ``fill`` shows the view.

    ``back`` names the part that the Back key leads to, "" for a part without
    the key; ``has_head`` is False where the part needs the head's room.
    ``needs_mm`` is the least height on a wide and on a high page: with less, while a
    flag takes the room, the page asks for the flag to be read first.
    """

    back: ClassVar[str] = ""
    has_head: ClassVar[bool] = True
    needs_mm: ClassVar[tuple[float, float]] = (50.0, 88.0)

    def __init__(self, page: Any, **kwargs: Any) -> None:
        super().__init__(orientation="vertical", spacing=px(GAP_MM), **kwargs)
        self.page = page
        self.build()

    def build(self) -> None:
        """Make what the part is made of, once."""
        raise NotImplementedError

    def fill(self, view: Any) -> None:
        """Show what was read."""
        raise NotImplementedError

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        raise NotImplementedError

    def place(self, view: Any) -> str:
        """Return where we are, for the right end of the head."""
        return ""


class PartPanes(TwoPanes):
    """Two parts of a part; they turn as the tablet is held, not as the room left by a flag."""

    def _turn(self, *_: object) -> None:
        is_wide = Window.width >= Window.height
        self.orientation = "horizontal" if is_wide else "vertical"
        share = self.share if is_wide else self.high_share
        for part, part_share in zip(self.parts, (share, 1 - share), strict=True):
            part.size_hint = (part_share, 1) if is_wide else (1, part_share)


class Stack(Rows):
    """Parts under each other from the top down; what is left over stays free below."""

    spare = 0.0

    def do_layout(self, *args: Any) -> None:
        """Keep the room left over under the parts."""
        if all(child.size_hint_y is None for child in self.children):
            used = sum(child.height for child in self.children)
            used += self.spacing * max(len(self.children) - 1, 0)
            spare = max(self.height - used, 0)
            if abs(self.spare - spare) > 0.5:
                self.spare = spare
                self.padding = [0, 0, 0, spare]
        super().do_layout(*args)


class PartedPage(ScreenPage):
    """A page of parts. A subclass lists ``parts`` (name to module:class), the first first.

    It answers ``pad_question(field)`` with what the pad needs and takes the figure in
    ``take_figure``. Once a figure is inked, ``drop_typed`` forgets what was typed.
    """

    parts: ClassVar[dict[str, str]]

    def build(self) -> None:
        """Make the page's head; parts are made at their first visit."""
        self.made: dict[str, Part] = {}
        self.view: Any = None
        self.part: Part | None = None
        self.sheet: PadSheet | None = None
        self.back = TapKey(
            text=say("Back"), kind=ButtonKind.QUIET, wide_mm=24.0, cap_mm=CAP_LABEL_MM
        )
        self.back.bind(on_release=lambda _: self.turn_to(self.part.back if self.part else ""))
        self.wait = TextLabel(cap_mm=4.2, lines=3)
        self.wait.text = say("Read the flag below, then tap Seen.")
        self._look = Clock.create_trigger(lambda _: self._make_room(), -1)
        self.bind(parent=lambda *_: self._leave_or_come(), size=lambda *_: self._look())

    def part_name(self) -> str:
        """Return the part to show; the one in the draft unless it has nothing to show now."""
        name = str(self.draft.get("part", ""))
        return name if name in self.parts else next(iter(self.parts))

    def turn_to(self, name: str, **kept: Any) -> None:
        """Bring a part to the front, remembering it."""
        self.keep_draft(part=name, **kept)
        self.fill()

    def step_back(self) -> None:
        """Do what the Back key does, where the part in front has it."""
        if self.part is not None and self.part.back:
            self.back.dispatch("on_release")

    def show(self, view: Any) -> None:
        """Show a view that was read."""
        self.view = view
        self.fill()

    def fill(self) -> None:
        """Show the part in front from the view last read."""
        if self.view is None:
            return
        part = self._bring(self.part_name())
        self.head.title, self.head.place = part.title(self.view), part.place(self.view)
        part.fill(self.view)
        if self.parent is self.shell and self.shell.caution.text != self.caution():
            self.shell.arrange()  # another part may have another danger
        if self.draft.get("pad_open") and self.sheet is None and self.parent is not None:
            self.ask(str(self.draft.get("pad", "")))

    def _bring(self, name: str) -> Part:
        if name not in self.made:
            module, _, made = self.parts[name].partition(":")
            self.made[name] = getattr(import_module(module), made)(self)
        part = self.made[name]
        if part is not self.part:
            if self.part is not None:
                self.remove_widget(self.part)
            self.part = part
            self._set_child(self.head, part.has_head, self, len(self.children))
            self._set_child(self.back, bool(part.back), self.head.tools, 0)
            self.head.redraw()
        self._make_room()
        return part

    def _make_room(self) -> None:
        """Show the part, or a word in its place while there is no room for it."""
        part = self.part
        if part is None:
            return
        head = px(TOUCH_MM + GAP_MM if part.back else HEAD_MM) + px(GAP_MM)
        room = self.height - 2 * px(EDGE_MM) - (head if part.has_head else 0.0)
        fits = room >= px(part.needs_mm[0 if Window.width >= Window.height else 1]) - 1
        self._set_child(part, fits, self, 0)
        self._set_child(self.wait, not fits, self, 0)

    @staticmethod
    def _set_child(child: Any, is_shown: bool, holder: Any, index: int) -> None:
        if is_shown != (child.parent is holder):
            if is_shown:
                holder.add_widget(child, index=index)
            else:
                holder.remove_widget(child)

    def pad_question(self, field: str) -> PadQuestion | None:
        """Return the pad's question for a field, or None where it has none now."""
        raise NotImplementedError

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take the figure of a field."""
        raise NotImplementedError

    def ask(self, question: QuestionName | str) -> None:
        """Lay the pad over the screen for a field, half-typed text put back."""
        field = str(question)
        asked = self.pad_question(field)
        if asked is None or self.sheet is not None:
            self.keep_draft(pad_open=False)
            return
        typed = str(self.draft.get("typed", "")) if self.draft.get("pad") == field else ""
        self.keep_draft(pad=field, typed=typed, pad_open=True)
        self.sheet = PadSheet(asked, typed)
        self.sheet.bind(
            on_typed=lambda _, text: self.keep_draft(typed=text),
            on_figure=lambda _, value, text, ending: self._enter(field, value, text, ending),
            on_leave=lambda _: self._close_pad(),
        )
        lay_over(self.shell, self.sheet)
        self.shell.lift_caution()

    def _enter(self, field: str, value: int, text: str, ending: str) -> None:
        """Take the figure; the typed text stays in the draft until it is inked."""
        self._lift_sheet()
        self.keep_draft(pad_open=False)
        self.take_figure(field, value, text, ending)

    def _close_pad(self) -> None:
        self._lift_sheet()
        self.drop_typed()
        self.fill()

    def drop_typed(self) -> None:
        """Forget what was typed: it was inked, taken over or given up."""
        self.keep_draft(pad="", typed="", pad_open=False)

    def _lift_sheet(self) -> None:
        if self.sheet is not None:
            self.shell.remove_widget(self.sheet)
            self.sheet = None

    def _leave_or_come(self) -> None:
        """Take the pad away with the page; its text waits in the draft."""
        if self.parent is None:
            self._lift_sheet()
