"""Parts of the hand-over without a store: one file made, one file taken in."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.input.break_words import fold_long_words
from crewapp.kit.keys.choice_row import ChoiceRow
from crewapp.kit.keys.copy_key import CopyKey
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.fact_list import Fact
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.lists.text_list import FactList
from crewapp.kit.look.palette import ButtonKind, Status
from crewapp.kit.look.theme import px
from crewapp.kit.marks.progress_bar import WorkProgressBar
from crewapp.kit.panes.layout import Rows
from crewapp.kit.text.path_text import PathLabel
from crewapp.pages.exchange.view import ExchangeView, TransferResult
from crewapp.pages.frame.folder_text import folder_text
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.words.dates import full_day
from crewapp.words.translate import say

BAR_HIGH_MM, PATH_HIGH_MM = 20.0, 19.0


class HandoverPart(Part):
    """Part that hands a job over: its choices, the key that makes the file, where it lies."""

    back: ClassVar[str] = "home"
    needs_mm = (76.0, 118.0)

    def build(self) -> None:
        """Make the choices, the words and the keys."""
        self.told = FactList()
        self.bar = WorkProgressBar(size_hint_y=None, height=px(BAR_HIGH_MM))
        self.path = PathLabel(lines=4, cap_mm=3.5, size_hint_y=None, height=px(PATH_HIGH_MM))
        self.copy = CopyKey()
        self.left = Rows()
        self.left.add_widget(self.told)
        self.what = ChoiceRow(across=2)
        self.what.bind(on_pick=lambda _, name: self._take(up_to="" if name == "job" else "day"))
        self.pictures = ChoiceRow(
            [("with", say("with pictures")), ("without", say("without pictures"))], across=2
        )
        self.pictures.bind(on_pick=lambda _, name: self._take(pictures=name))
        self.make = MainKey(text=say("Make the file"), is_logging=False)
        self.make.bind(on_release=lambda _: self.page.make_file())
        self.take = TapKey(text=say("Take a file in"), note="")
        self.take.bind(on_release=lambda _: self.page.turn_to("take"))
        self.more = TapKey(text=say("Make another"))
        self.more.bind(on_release=lambda _: self._again())
        self.side = Stack()
        self.add_widget(PartPanes(self.left, self.side, share=0.5, high_share=0.32))

    def title(self, view: ExchangeView) -> str:
        """Return the title of this part."""
        return say("Hand over in one file")

    def fill(self, view: ExchangeView) -> None:
        """Show the choices, and the file that was made."""
        words = say("up to {day}", day=full_day(self.day(view), view.is_us))
        self.what.show_choices([("job", say("the whole job")), ("day", words)])
        self.what.chosen = "day" if self.page.draft.get("up_to") else "job"
        self.pictures.chosen = str(self.page.draft.get("pictures") or "with")
        self.take.note = say("{count} in the inbox", count=len(view.handed))
        self.follow()

    def day(self, view: ExchangeView) -> str:
        """Return the day that a file for a day leads up to."""
        return str(self.page.draft.get("hand_day") or view.day)

    def follow(self) -> None:
        """Show how far it is, then where the file lies."""
        runner = self.page.runner
        ended = runner.ended if runner.ended is not None and runner.ended.kind == "made" else None
        self._put(self.bar, runner.is_busy, len(self.left.children))
        choices = [self.what, self.pictures, self.make]
        wanted = [*(choices if ended is None else [self.path, self.copy, self.more]), self.take]
        if self.side.children[::-1] != wanted:
            self.side.clear_widgets()
            for part in wanted:
                self.side.add_widget(part)
        self.bar.text, self.bar.share = runner.words, runner.share
        self.make.disabled = runner.is_busy
        if ended is not None:
            self.path.said = folder_text(ended.path)
            self.copy.copied = ended.path.rpartition("/")[0]
        refused = runner.ended if runner.ended and runner.ended.kind == "refused" else None
        self.told.show_facts(handover_facts(ended, refused))

    def _put(self, part: Any, is_shown: bool, index: int) -> None:
        if is_shown != (part.parent is self.left):
            if is_shown:
                self.left.add_widget(part, index=index)
            else:
                self.left.remove_widget(part)

    def _again(self) -> None:
        self.page.runner.ended = None
        self.follow()

    def _take(self, **kept: str) -> None:
        self.page.keep_draft(**kept)
        self.page.fill()


class TakeHandoverPart(Part):
    """Hand-over files in the inbox; a tap takes one into the open job."""

    back: ClassVar[str] = "hand"

    def build(self) -> None:
        """Build the list of this part."""
        self.list = RowList()
        self.list.bind(on_pick=lambda _, name: self.page.take(name))
        look = TapKey(text=say("Look again"), kind=ButtonKind.QUIET)
        look.bind(on_release=lambda _: self.page.refresh())
        self.add_widget(self.list)
        self.add_widget(look)

    def title(self, view: ExchangeView) -> str:
        """Return the title: the question of this part."""
        return say("Take in which file?")

    def place(self, view: ExchangeView) -> str:
        """Name the job that it goes into."""
        return say("into {job}", job=view.job)

    def fill(self, view: ExchangeView) -> None:
        """Show what lies in the inbox, or where to put it."""
        self.list.nothing = say(
            "Nothing here. Copy a file that ends in .crew into {folder}",
            folder=folder_text(view.inbox),
        )
        self.list.show_rows([{"key": name, "title": name} for name in view.handed])


def handover_facts(made: TransferResult | None, refused: TransferResult | None) -> list[Fact]:
    """Say what a hand-over is, what was made, or why it was not."""
    if refused is not None:
        return [Fact(say("Not made"), fold_long_words(refused.sentences[0]), status=Status.CHECK)]
    if made is not None:
        text = say("Send it, or copy it to a stick. Whoever has crewapp takes it in.")
        rest = "\n".join((*made.sentences, text))
        return [Fact(say("The file is made"), rest, status=Status.OK)]
    text = say(
        "All that is written for the job goes into one file, for a stick or an e-mail. Another "
        "tablet or the office takes it in; taken in twice it does no harm."
    )
    return [Fact(say("One file for all of it"), text)]
