"""The Exchange screen: entries to and from other tablets and the office, by a store or a file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from crewapp.commands.transfer import TransferKind, TransferRequest
from crewapp.kit.input.break_words import fold_long_words
from crewapp.kit.look.palette import Status
from crewapp.pages.exchange.runner import TransferRunner, transfer_runner
from crewapp.pages.exchange.store_controller import StoreController
from crewapp.pages.exchange.tablet_controller import TabletController
from crewapp.pages.exchange.view import ExchangeView, TransferResult
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import PartedPage
from crewapp.words.translate import say

if TYPE_CHECKING:
    from crewapp.pages.exchange.transfers import Transfer


class ExchangePage(PartedPage):
    """The page of the exchange. ``arrive(part=...)`` opens a part of it; it needs no open job."""

    name: ClassVar[str] = "sync"
    keeps_room: ClassVar[bool] = False
    parts: ClassVar[dict[str, str]] = {
        "home": "crewapp.pages.exchange.home_part:HomePart",
        "less": "crewapp.pages.exchange.questions_part:ShrunkStorePart",
        "host": "crewapp.pages.exchange.questions_part:HostPart",
        "aside": "crewapp.pages.exchange.home_part:RejectedPart",
        "where": "crewapp.pages.exchange.store_choice_part:StoreChoicePart",
        "folders": "crewapp.pages.exchange.store_choice_part:FoldersPart",
        "field": "crewapp.pages.exchange.store_choice_part:FieldPart",
        "tablets": "crewapp.pages.exchange.tablets_part:TabletsPart",
        "named": "crewapp.pages.exchange.tablets_part:NewTabletPart",
        "tablet": "crewapp.pages.exchange.tablets_part:TabletPart",
        "hand": "crewapp.pages.exchange.handover_part:HandoverPart",
        "take": "crewapp.pages.exchange.handover_part:TakeHandoverPart",
        "join": "crewapp.pages.exchange.join_part:JoinPart",
    }

    def build(self) -> None:
        """Make the page and what it does for each subject."""
        super().build()
        self.runner: TransferRunner = transfer_runner(self.shell)
        self.runner.watch = self.show_progress
        self.store, self.tablets = StoreController(self), TabletController(self)

    def arrive(self, part: str = "home", **kept: Any) -> None:
        """Open a part of the page."""
        self.keep_draft(part=part, **kept)

    def refresh(self) -> None:
        """Read how things stand, away from the glass; there may be no job open."""
        worker, tablet = self.shell.worker, self.shell.tablet

        def read() -> Any:
            from crewapp.pages.exchange.presenter import exchange_view

            return exchange_view(worker.find_job(), tablet)

        worker.run(read, self._take, self.shell.say_failed)

    def part_name(self) -> str:
        """Return the part to show; without a job there is only joining one."""
        name = super().part_name()
        if self.view is None:
            return name
        name = self._instead_of(name)
        needs_job = name not in ("join", "where", "folders", "field", "host")
        return "join" if needs_job and not self.view.job else name

    def _instead_of(self, name: str) -> str:
        """Return the part itself, or the one before it while it has nothing to show."""
        kind = self.runner.ended.kind if self.runner.ended is not None else ""
        if name in ("less", "host") and kind != name:
            return "home"
        if (name == "named" and not self.tablets.code) or (
            name == "tablet" and self.tablets.row is None
        ):
            return "tablets"
        return "where" if name == "field" and self.store.field is None else name

    def turn_to(self, name: str, **kept: Any) -> None:
        """Bring a part to the front; ``jobs`` leads to the page of that name."""
        if name == "jobs":
            self.shell.go("jobs")
        else:
            super().turn_to(name, **kept)

    def fill(self) -> None:
        """Show the part in front; a code that is being typed stays over it."""
        super().fill()
        if self.view is not None and self.parent is not None:
            self.tablets.resume()

    def _leave_or_come(self) -> None:
        super()._leave_or_come()
        if self.parent is None:
            self.tablets.lift()

    def show_progress(self) -> None:
        """Show how far the transfer is."""
        follow = getattr(self.part, "follow", None)
        if self.parent is not None and follow is not None:
            follow()

    def main(self) -> None:
        """Do the one next thing: say where to, exchange, or stop."""
        view: ExchangeView = self.view
        if self.runner.is_busy:
            self.runner.stop()
        elif not view.where:
            self.turn_to("where")
        else:
            self.exchange()

    def exchange(self, *, allow_less: bool = False, over_gaps: bool = False) -> None:
        """Exchange with the store that is set."""
        request = TransferRequest(
            kind=TransferKind.EXCHANGE, allow_less=allow_less, over_gaps=over_gaps
        )
        self.run(request, "home")

    def join(self, key: str) -> None:
        """Make a book of a job that lies in the store."""
        self.run(TransferRequest(kind=TransferKind.JOIN_STORE, key=key), "join")

    def find(self) -> None:
        """Look which jobs lie in the store."""
        if not self.runner.is_busy and self.view.where:
            self.run(TransferRequest(kind=TransferKind.FIND_JOBS), "join")

    def take(self, name: str) -> None:
        """Take a handed-over file into the open job."""
        path = Path(self.view.inbox) / name
        self.run(TransferRequest(kind=TransferKind.TAKE_FILE, path=path), "home")

    def make_file(self) -> None:
        """Put the job into one file."""
        until = str(self.draft.get("hand_day") or self.view.day)
        day = until if self.draft.get("up_to") else ""
        with_photos = self.draft.get("pictures") != "without"
        request = TransferRequest(kind=TransferKind.MAKE_FILE, day=day, with_photos=with_photos)
        self.run(request, "hand")

    def run(self, request: TransferRequest, part: str) -> None:
        """Run a transfer beside the crew's work, and show the part that follows it."""

        def work(transfer: Transfer) -> TransferResult:
            from crewapp.pages.exchange.transfers import run_transfer

            return run_transfer(transfer, request)

        shell = self.shell
        if self.runner.start(work, lambda ended: shell.pages.get("sync", self).show_result(ended)):
            self.turn_to(part, again=[str(request.kind), part])
        else:
            shell.say_failed(say("An exchange is running. Stop it, or wait for its end."))

    def show_result(self, ended: TransferResult) -> None:
        """Tell what came of a transfer: in its part, and over every other page."""
        if ended.kind in ("less", "host"):
            self.shell.go("sync", part=ended.kind)
        elif ended.kind == "joined":
            self.keep_draft(part="home")
            self.shell.open_book(Path(ended.path))
        else:
            self._tell(ended)
            self.shell.page.refresh()

    def _tell(self, ended: TransferResult) -> None:
        """Say in the banner what came from whom, or what stopped it while nobody looked."""
        if ended.kind in ("whole", "cut", "stopped") and (ended.came or ended.kind == "whole"):
            self.shell.count_flags(ended.open_flags)
        if ended.came:
            text = say("from {who}", who=", ".join(ended.came_from)) if ended.came_from else ""
            self.shell.show_news(say("{count:entry|entries} came", count=ended.came), text)
        elif ended.kind in ("cut", "refused") and self.parent is None:
            title = say("Exchange cut short") if ended.kind == "cut" else say("Not exchanged")
            self.shell.show_news(title, fold_long_words(ended.sentences[0]), Status.CHECK)

    def accept_host(self) -> None:
        """Take the server as known, and do again what met it."""
        unknown, again = self.runner.unknown_host, self.draft.get("again")

        def accept() -> None:
            from sync.stores.ssh_hosts import accept_host  # the library is heavy

            accept_host(unknown)

        def go_on(_: Any) -> None:
            name, part = again if again else (TransferKind.EXCHANGE, "home")
            if name in (TransferKind.EXCHANGE, TransferKind.FIND_JOBS):
                self.run(TransferRequest(kind=TransferKind(name)), part)
            else:
                self.turn_to(part)

        self.shell.worker.run(accept, go_on, self.shell.say_failed)

    def pad_question(self, field: str) -> PadQuestion | None:
        """Ask for nothing by the number pad."""
        return None

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take nothing from the number pad."""

    def after_command(self, changed: Any) -> None:
        """Read the list of tablets anew, since it was changed."""
        self.turn_to("tablets", code="", letters="", called="", why="")
