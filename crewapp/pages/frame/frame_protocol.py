"""The frame round a page as a protocol, so that neither imports the other's module."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from crewapp.commands.command import Command
from crewapp.kit.look.palette import Status
from crewapp.pages.frame.worker import JobWorker
from crewapp.tablet.drafts import Drafts
from crewapp.tablet.settings import Tablet

if TYPE_CHECKING:
    from crewapp.job.open_job import JobChanges


class Frame(Protocol):
    """The frame: pages in front of it, strips and pads over it, the open job behind it."""

    tablet: Tablet
    worker: JobWorker
    drafts: Drafts
    pages: dict[str, Any]  # those made by now, by name
    exchange: Any
    caution: Any  # the line at the foot of the glass
    keep_today: Callable[[dict[str, Any]], None]
    width: float
    height: float

    @property
    def page(self) -> Any:
        """The page in front."""

    def go(self, name: str, **asked: Any) -> Any:
        """Bring a page to the front."""

    def open_book(self, path: Path) -> None:
        """Open a book in place of the one that is open."""

    def do(
        self,
        command: Command,
        done: Callable[[JobChanges], None],
        refused: Callable[[], None] | None = None,
    ) -> None:
        """Carry a command out on the open job."""

    def undo(self) -> None:
        """Cross out what the last tap inked."""

    def lift_caution(self) -> None:
        """Bring the caution over a pad that was laid on the page."""

    def lock(self) -> None:
        """Lay the rain lock over everything."""

    def reword(self) -> None:
        """Make everything anew, after the language or the screen was set."""

    def count_flags(self, count: int) -> None:
        """Show how many flags are open."""

    def say_failed(self, text: str) -> None:
        """Show why something was not done."""

    def say_wait(self, text: str) -> None:
        """Say that something takes a moment."""

    def show_news(self, title: str, text: str, status: Status = Status.OK) -> None:
        """Tell of something that came by itself."""

    def arrange(self, *_: object) -> None:
        """Put every part in its place."""

    def add_widget(self, widget: Any, *args: Any, **kwargs: Any) -> None:
        """Lay a widget over the frame."""

    def remove_widget(self, widget: Any) -> None:
        """Take a widget away."""
