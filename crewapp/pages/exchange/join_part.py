"""Joining a job that lies in a store: a second tablet finds it, takes it, and shows its code."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.input.break_words import FOLD, fold_long_words, tail_of
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.marks.code_card import CodeCard
from crewapp.kit.marks.progress_bar import WorkProgressBar
from crewapp.kit.panes.layout import Rows
from crewapp.kit.text.fit_text import FitSentences
from crewapp.pages.exchange.store_fields import store_text
from crewapp.pages.exchange.view import ExchangeView, StoreJob
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.words.translate import say

BAR_HIGH_MM = 20.0


class JoinPart(Part):
    """The jobs that lie in the store; a tap makes a book of one."""

    needs_mm = (54.0, 104.0)

    def build(self) -> None:
        """Make the list, the code and the keys."""
        self.list = RowList()
        self.list.bind(on_pick=lambda _, key: self._pick(key))
        self.bar = WorkProgressBar(size_hint_y=None, height=px(BAR_HIGH_MM))
        self.found = Rows()
        self.found.add_widget(self.list)
        self.card = CodeCard()
        self.words = FitSentences(cap_mm=3.5)
        self.look = TapKey(text=say("Look for jobs"))
        self.look.bind(on_release=lambda _: self._look())
        self.where = TapKey(text=say("Where to"), kind=ButtonKind.QUIET)
        self.where.bind(on_release=lambda _: self.page.turn_to("where"))
        side = Stack()
        side.add_widget(self.card)
        side.add_widget(KeyGrid((self.look, self.where), least_wide_mm=24.0))
        side.add_widget(self.words)
        self.add_widget(PartPanes(side, self.found, share=0.46, high_share=0.6))

    back: ClassVar[str] = "home"

    def title(self, view: ExchangeView) -> str:
        """Return the title of this part."""
        return say("Join a job")

    def fill(self, view: ExchangeView) -> None:
        """Show the jobs of the store, or how to look for them."""
        self.back = "home" if view.job else "jobs"  # type: ignore[misc]  # where it came from
        self.card.code = view.own_code
        self.words.sentences = [
            say(
                "Then read this code to a tablet of the job: added there, what you write "
                "reaches the others."
            ),
            *(
                [say("Looked for in {place}", place=tail_of(store_text(view.where), FOLD))]
                if view.where
                else []
            ),
        ]
        self.follow()

    def follow(self) -> None:
        """Show how far the looking or the joining is."""
        runner, view = self.page.runner, self.page.view
        if runner.is_busy != (self.bar.parent is self.found):
            if runner.is_busy:
                self.found.add_widget(self.bar, index=len(self.found.children))
            else:
                self.found.remove_widget(self.bar)
        self.bar.text, self.bar.share = runner.words, runner.share
        self.look.text = say("Stop") if runner.is_busy else say("Look for jobs")
        self.look.kind = ButtonKind.PRIMARY if view.where else ButtonKind.PLAIN
        self.where.kind = ButtonKind.QUIET if view.where else ButtonKind.PRIMARY
        self.look.disabled = not view.where and not runner.is_busy
        self._show_found(view)

    def _show_found(self, view: ExchangeView) -> None:
        ended = self.page.runner.ended
        jobs = ended.jobs if ended is not None and ended.kind == "found" else ()
        self.list.nothing = self._nothing(view)
        self.list.show_rows([job_row(one) for one in jobs])

    def _nothing(self, view: ExchangeView) -> str:
        ended = self.page.runner.ended
        if self.page.runner.is_busy:
            return ""
        if ended is not None and ended.kind in ("refused", "cut", "stopped"):
            return fold_long_words("\n".join(ended.sentences))
        if ended is not None and ended.kind == "found":
            return say("No job lies there yet.")
        if not view.where:
            return say("Say first where the job lies: on a stick, a share or a server.")
        return say("Look for the jobs that lie there.")

    def _look(self) -> None:
        if self.page.runner.is_busy:
            self.page.runner.stop()
        else:
            self.page.find()

    def _pick(self, key: str) -> None:
        if self.page.runner.ended is None or self.page.runner.is_busy:
            return
        job = next(one for one in self.page.runner.ended.jobs if one.key == key)
        if job.here:
            self.page.shell.say_failed(say("It is on this tablet already: {name}.", name=job.here))
        else:
            self.page.join(key)


def job_row(job: StoreJob) -> dict[str, Any]:
    """Return a job of the store as a row of the list."""
    size = f"{job.size / 1_000_000:.1f}"
    detail = say("{count:file|files}, {size} MB", count=job.files, size=size)
    if job.here:
        detail = say("on this tablet already")
    return {"key": job.key, "title": job.name.replace("-", " "), "detail": detail}
