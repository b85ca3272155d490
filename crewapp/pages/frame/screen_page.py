"""Base class of every screen: its view, its draft, and the shell round it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from crewapp.commands.command import Command
from crewapp.commands.query import Query
from crewapp.kit.input.holder import StateHolder
from crewapp.kit.panes.layout import Page
from crewapp.pages.frame.frame_protocol import Frame

if TYPE_CHECKING:
    from crewapp.job.open_job import JobChanges


class ScreenPage(Page):
    """A page that shows a view of the open job.

    A subclass makes its ``query``, builds its parts in ``build`` and fills them in
    ``show`` with the view that comes back. ``refresh`` reads the view anew; the shell
    calls it when the page comes to the front and after every command while it is there.
    ``keeps_room`` is for pages that log: the undo strip's room stays free there, so that
    nothing moves when it comes.
    """

    name: ClassVar[str]
    keeps_room: ClassVar[bool] = True

    def __init__(self, shell: Frame, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.shell = shell
        self.read = StateHolder[Any](None)  # refuses a view from another thread
        self.draft = shell.drafts.read(self.name)
        self.build()

    def build(self) -> None:
        """Make the parts, once."""
        raise NotImplementedError

    def show(self, view: Any) -> None:
        """Fill the parts with what was read."""
        raise NotImplementedError

    def caution(self) -> str:
        """Return what can hurt somebody at this page's work, in a line; "" where nothing can."""
        return ""

    def query(self) -> Query[Any]:
        """Return the query of this page: about a surface, a pass, a day."""
        raise NotImplementedError

    def refresh(self) -> None:
        """Read the view anew, away from the glass."""
        self.shell.worker.ask(self.query(), self._take, self.shell.say_failed)

    def _take(self, view: Any) -> None:
        self.read.value = view
        self.show(view)

    def step_back(self) -> None:
        """Go back from a part of the page; a page without parts stays."""

    def do(self, command: Command) -> None:
        """Carry a command out; the shell shows what was inked and what it raised."""
        self.shell.do(command, self.after_command)

    def after_command(self, changed: JobChanges) -> None:
        """Go on after a command of this page was inked."""

    def keep_draft(self, **typed: Any) -> None:
        """Keep half-typed input so that it survives a kill."""
        self.draft = {**self.draft, **typed}
        self.shell.drafts.keep(self.name, self.draft)

    def drop_draft(self) -> None:
        """Forget half-typed input: it was inked or given up."""
        self.draft = {}
        self.shell.drafts.clear(self.name)
