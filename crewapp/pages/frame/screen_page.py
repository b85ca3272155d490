"""What every screen has in common: its face, its draft, and the shell round it."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.input.holder import StateHolder
from crewapp.kit.panes.layout import Page
from crewapp.pages.frame.frame_protocol import Frame


class ScreenPage(Page):
    """A page that shows a face.

    A subclass names its ``face`` (module:function in crewapp.pages.lines), builds its
    parts in ``build``, fills them in ``show`` and may pass choices to the face by
    ``choices``. ``refresh`` reads the face anew; the shell calls it when the page
    comes to the front and after every action while it is there. ``keeps_room`` is for
    pages that log: the undo strip's room stays free there, so that nothing moves when it comes.
    """

    name: ClassVar[str]
    face: ClassVar[str]
    keeps_room: ClassVar[bool] = True

    def __init__(self, shell: Frame, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.shell = shell
        self.read = StateHolder[Any](None)  # refuses a face from another thread
        self.draft = shell.drafts.read(self.name)
        self.build()

    def build(self) -> None:
        """Make the parts, once."""
        raise NotImplementedError

    def show(self, face: Any) -> None:
        """Fill the parts with what was read."""
        raise NotImplementedError

    def caution(self) -> str:
        """What can hurt somebody at this page's work, in a line; "" where nothing can."""
        return ""

    def choices(self) -> dict[str, Any]:
        """What the face is asked about: a surface, a pass, a day."""
        return {}

    def refresh(self) -> None:
        """Read the face anew, away from the glass."""
        self.shell.desk.ask(self.face, self._take, self.shell.say_failed, **self.choices())

    def _take(self, face: Any) -> None:
        self.read.value = face
        self.show(face)

    def step_back(self) -> None:
        """Go back from a part of the page; a page without parts stays."""

    def act(self, action: str, **fields: Any) -> None:
        """Do an action; the shell shows what was inked and what it raised."""
        self.shell.act(action, self.acted, **fields)

    def acted(self, changed: Any) -> None:
        """Go on after an action of this page was inked."""

    def keep_draft(self, **typed: Any) -> None:
        """Keep half-typed input so that it survives a kill."""
        self.draft = {**self.draft, **typed}
        self.shell.drafts.keep(self.name, self.draft)

    def drop_draft(self) -> None:
        """Forget half-typed input: it was inked or given up."""
        self.draft = {}
        self.shell.drafts.clear(self.name)
