"""Controller of one part of the Grade page: its questions by pad or keys, its commands."""

from __future__ import annotations

from typing import Any, Generic, Literal, Protocol, TypeVar

from crewapp.commands.command import Command
from crewapp.pages.frame.frame_protocol import Frame
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.question_name import QuestionName
from crewapp.pages.grade.choice_view import Question
from crewapp.pages.grade.covering.view import CoverView
from crewapp.pages.grade.page_view import GradePageView
from crewapp.pages.grade.setup.view import SetupsView

Field = TypeVar("Field", bound=str)


class CollectorPage(Protocol):
    """Grade page as its controllers need it."""

    shell: Frame
    draft: dict[str, Any]
    controllers: dict[str, Any]
    check_told: tuple[str, str] | None

    @property
    def view(self) -> GradePageView | None:
        """View as last read, None before."""

    @property
    def rod_stands_on(self) -> str:
        """Name of what the rod stands on."""

    @property
    def station_nm(self) -> int:
        """Where the rod stands."""

    def arrive(self, collector_id: str = "") -> None:
        """Open on a collector."""

    def refresh(self) -> None:
        """Read anew what the page shows."""

    def setups(self) -> SetupsView:
        """Choices of the setup as last read."""

    def cover(self) -> CoverView:
        """The range that is to be covered."""

    def ask(self, question: QuestionName | Literal["shot"]) -> None:
        """Ask for a figure by a pad."""

    def choose(self, question: QuestionName, back: str) -> None:
        """Ask something by keys; ``back`` is the part to return to."""

    def turn_to(self, name: str, **kept: Any) -> None:
        """Bring a part of the page to the front."""

    def keep_draft(self, **typed: Any) -> None:
        """Keep half-typed input so that it survives a kill."""

    def part_name(self) -> str:
        """Name the part in front."""

    def drop_typed(self) -> None:
        """Forget what was typed on the pad: it was inked."""

    def show_refusal(self) -> None:
        """Show that a command was refused; what was typed is kept."""

    def stand_rod(self, station_nm: int | None, **kept: Any) -> None:
        """Stand the rod at a station."""


class Controller(Generic[Field]):
    """Controller of one subject; it knows its questions by their field."""

    def __init__(self, page: CollectorPage) -> None:
        self.page = page

    def pad_question(self, name: Field, view: GradePageView) -> PadQuestion | None:
        """Return the pad's question for a field, or None where it has none now."""
        return None

    def take_figure(self, name: Field, value: int, text: str) -> None:
        """Take a figure from the pad."""

    def question(self, name: Field, view: GradePageView) -> Question | None:
        """Return the question that keys answer, or None where there is none now."""
        return None

    def take_choice(self, name: Field, key: str) -> None:
        """Take the answer that was tapped."""

    def ink(self, command: Command, then: str) -> None:
        """Carry a command out, then forget what was typed and show a part."""

        def done(_changed: Any) -> None:
            self.page.drop_typed()
            self.page.turn_to(then)

        self.page.shell.do(command, done, self.page.show_refusal)
