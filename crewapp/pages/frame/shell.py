"""The shell: tabs along the edge, one page in front, the undo strip below it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kivy.uix.floatlayout import FloatLayout

from crewapp.commands.command import Command
from crewapp.kit.keys.tab_bar import Tab, TabBar
from crewapp.kit.look.palette import EDGE_MM, Status
from crewapp.kit.look.theme import px
from crewapp.kit.marks.banner import Banner
from crewapp.kit.marks.mark_line import MarkLine
from crewapp.kit.marks.notice_strip import NoticeStrip
from crewapp.kit.marks.undo_strip import UndoStrip
from crewapp.pages.frame.open_book_result import OpenBookResult
from crewapp.pages.frame.page_list import PLACES, TABS, tab_words
from crewapp.pages.frame.screen_page import ScreenPage
from crewapp.pages.frame.shell_layout import place_all
from crewapp.pages.frame.worker import JobWorker
from crewapp.pages.lines.undo_view import ShowUndoLine
from crewapp.tablet.drafts import Drafts
from crewapp.tablet.settings import NotSavedError, Tablet
from crewapp.words.translate import say

if TYPE_CHECKING:
    from crewapp.job.open_job import JobChanges


class Shell(FloatLayout):
    """Holds the pages, each made at its first visit, and the strips round them."""

    def __init__(self, tablet: Tablet, worker: JobWorker, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.tablet = tablet
        self.worker = worker
        worker.heads = tablet.heads
        self.drafts = Drafts(tablet.drafts, self.say_failed)
        self.pages: dict[str, ScreenPage] = {}
        self.open_flags = 0
        self.front = ""
        self.rain: Any = None  # the lock over everything, while it is on
        self.exchange: Any = None  # what runs beside the crew's work, across pages made anew
        self._is_passing = False  # whether the banner goes with the next thing inked
        self._flag = ""  # the flag just raised that it tells of
        self._make_frame()
        self.bind(size=self.arrange, pos=self.arrange)
        worker.listen(self._changed)
        self.keep_today: Callable[[dict[str, Any]], None] = lambda plain: None

    def _make_frame(self) -> None:
        """Make what stands round the page, in the language and the millimetres set."""
        self.tabs = TabBar(self._tabs(), current=self.front or "today", size_hint=(None, None))
        self.tabs.bind(on_pick=lambda _, name: self._pick_tab(name))
        self.strip = UndoStrip(size_hint=(None, None))
        self.strip.bind(on_undo=lambda _: self.undo())
        self.notice = NoticeStrip(title=say("Read only"), size_hint=(None, None))
        self.notice.text = say("The book can be looked at here; nothing can be logged.")
        self.banner = Banner(answer=say("Seen"), size_hint=(None, None))
        self.banner.bind(on_answered=lambda _: self._drop_banner())
        self.banner.bind(height=lambda *_: self.arrange())  # it grows with its words
        self.caution = MarkLine()
        self.add_widget(self.tabs)
        self.add_widget(self.caution)

    def first_page(self) -> ScreenPage:
        """Bring Today to the front without asking the worker: the book is not open yet."""
        return self._bring("today")

    def open_book(self, path: Path) -> None:
        """Open a book in place of the one that is open, then show Today.

        If it can't be opened, the Jobs page shows why and what else there is.
        """

        def opened(told: OpenBookResult) -> None:
            self._set_shown(self.strip, False)
            self._drop_banner()
            self._set_shown(self.notice, bool(told.read_only_reason))
            if told.read_only_reason:
                self._show_banner(Status.CHECK, say("Read only"), told.read_only_reason)
            self._keep_last_book(path)
            self.go("today")
            self._tell_renewal()
            if told.missing:
                self._show_banner(Status.OUT, say("Entries are missing"), told.missing)

        def failed(text: str) -> None:
            self.go("jobs")
            self.say_failed(text)

        if self.exchange is not None and self.exchange.is_busy:
            self.say_failed(say("An exchange is running. Stop it, or wait for its end."))
            return
        author = self.tablet.settings().author
        self.worker.open(path, author, self.tablet.stream, opened, failed)

    def _tell_renewal(self) -> None:
        """Say plainly that a restored or copied tablet writes under a new code from now on."""
        code = self.tablet.take_renewal()
        if code:
            text = say(
                "It was put back from a backup, or copied. So that no two tablets write as one, "
                "it now writes as {code}. Nothing is lost: all that it wrote stays, and the "
                "others learn of the new code at the next exchange.",
                code=code,
            )
            self._show_banner(Status.CHECK, say("This tablet has a new code"), text)

    def _keep_last_book(self, path: Path) -> None:
        try:
            self.tablet.keep_settings(replace(self.tablet.settings(), last_book=str(path)))
        except NotSavedError as fault:
            self.say_failed(str(fault))

    @property
    def page(self) -> ScreenPage:
        """The page in front."""
        return self.pages[self.front]

    def go(self, name: str, **asked: Any) -> ScreenPage:
        """Bring a page to the front, made now if this is its first visit."""
        if name == "flags" and self._flag:
            self._drop_banner()  # it stands there with all the others
        page = self._bring(name)
        arrive = getattr(page, "arrive", None)
        if arrive is not None and asked:
            arrive(**asked)
        page.refresh()
        return page

    def _pick_tab(self, name: str) -> None:
        """Bring a page to the front; one that is there goes a step back, as by its Back key."""
        if name == self.front:
            self.page.step_back()
        self.go(name)

    def _bring(self, name: str) -> ScreenPage:
        if name not in self.pages:
            module, _, made = PLACES[name].partition(":")
            self.pages[name] = getattr(import_module(module), made)(self, size_hint=(None, None))
        if self.front:
            self.remove_widget(self.page)
        self.front = name
        self.tabs.current = name
        self.add_widget(self.page, index=len(self.children))
        self.arrange()
        return self.page

    def do(
        self,
        command: Command,
        done: Callable[[JobChanges], None],
        refused: Callable[[], None] | None = None,
    ) -> None:
        """Carry a command out; a refusal is displayed, ``refused`` is called, nothing is lost."""

        def failed(text: str) -> None:
            self.say_failed(text)
            if refused is not None:
                refused()

        self.worker.do(command, done, failed)

    def undo(self) -> None:
        """Cross out what the last tap inked."""
        self.worker.undo(lambda _: self._end_undo(), self.say_failed)

    def say_failed(self, text: str) -> None:
        """Show why something was not done."""
        self._show_banner(Status.CHECK, say("Not done"), text)
        self._is_passing = True

    def show_news(self, title: str, text: str, status: Status = Status.OK) -> None:
        """Tell of something that came by itself; it goes with the next thing inked."""
        self._show_banner(status, title, text)
        self._is_passing = True

    def say_wait(self, text: str) -> None:
        """Say that something takes a moment."""
        self._show_banner(Status.NOT_MEASURED, say("One moment"), text)

    def show_finding(self, title: str, text: str, status: Status) -> None:
        """Show a flag that a command has just raised."""
        self._show_banner(status, title, text)

    def lift_caution(self) -> None:
        """Bring the caution over a pad that was laid on the page, where the pad leaves it room."""
        if self.caution.height <= px(EDGE_MM):
            self.remove_widget(self.caution)
            self.add_widget(self.caution)

    def lock(self) -> None:
        """Lay the rain lock over everything; touches reach nothing but its four keys."""
        from crewapp.pages.frame.pad_sheet import lay_over
        from crewapp.pages.frame.rain_sheet import RainSheet

        if self.rain is None:
            self.rain = RainSheet(inked=self._inked())
            self.rain.bind(on_do=lambda _, name: self._do_locked(name))
            lay_over(self, self.rain)

    def unlock(self) -> None:
        """Take the rain lock away."""
        if self.rain is not None:
            self.remove_widget(self.rain)
            self.rain = None

    def _inked(self) -> str:
        """What the last tap inked, while it can be taken back."""
        return str(self.strip.text) if self.strip.parent is self else ""

    def _do_locked(self, name: str) -> None:
        if name == "undo":
            self.undo()
            return
        self.unlock()
        if name == "pass":
            self.go("pass")
        elif name == "delay":
            self.go("day", form="delay")

    def count_flags(self, count: int) -> None:
        """Show on the tab how many flags are open."""
        if count != self.open_flags:
            self.open_flags = count
            self.tabs.show_tabs(self._tabs())

    def reword(self) -> None:
        """Make everything anew, after the language or the screen was set."""
        front, strip, notice, banner = self.front, self.strip, self.notice, self.banner
        kept = [part.parent is self for part in (strip, notice, banner)]
        self.unlock()
        self.clear_widgets()
        self.pages.clear()
        self.front = ""
        self._make_frame()
        self.strip.text = strip.text
        self.banner.status = banner.status
        self.banner.title, self.banner.text = banner.title, banner.text
        for part, is_shown in zip((self.strip, self.notice, self.banner), kept, strict=True):
            self._set_shown(part, is_shown)
        if front:
            self.go(front)

    def _changed(self, changed: JobChanges) -> None:
        """After a command: say what was inked, show what it raised, read anew."""
        self.worker.ask(ShowUndoLine(changed=changed), self._show_inked, self.say_failed)
        if self.front:
            self.page.refresh()

    def _show_inked(self, view: Any) -> None:
        self.strip.text = view.text if view.can_undo else ""
        self._set_shown(self.strip, view.can_undo)
        self.count_flags(view.open_flags)
        if self._is_passing or self._flag in view.gone:
            self._drop_banner()  # what was not done is done after all; news are old
        if view.raised_title:
            self._show_banner(view.raised_status, view.raised_title, view.raised_text)
            self._flag = view.raised_key

    def _end_undo(self) -> None:
        self._set_shown(self.strip, False)
        if self._flag:
            self._drop_banner()  # what raised it is struck
        if self.front:
            self.page.refresh()

    def _show_banner(self, status: str, title: str, text: str) -> None:
        self.banner.status, self.banner.title, self.banner.text = status, title, text
        self._is_passing, self._flag = False, ""
        self._set_shown(self.banner, True)

    def _drop_banner(self) -> None:
        self._is_passing, self._flag = False, ""
        self._set_shown(self.banner, False)

    def _set_shown(self, part: Any, is_shown: bool) -> None:
        if is_shown != (part.parent is self):
            (self.add_widget if is_shown else self.remove_widget)(part)
        if self.rain is not None:
            self.remove_widget(self.rain)
            self.add_widget(self.rain)  # it lies over whatever came
            self.rain.inked = self._inked()
        self.arrange()

    def _tabs(self) -> tuple[Tab, ...]:
        words, count = tab_words(), {"flags": self.open_flags}
        return tuple(Tab(name, words[name], count.get(name, 0)) for name in TABS)

    def arrange(self, *_: object) -> None:
        """Put every part in its place."""
        place_all(self, self.tablet.settings().left_handed)
