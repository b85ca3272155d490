"""Starts the app as ``python -m crewapp`` does, and tells of pages and of what was inked."""

from __future__ import annotations

from typing import Any

from tests.crewapp import watched

watched.settle()


def main() -> None:
    """Open the app with its shell watched."""
    from kivy.clock import Clock

    from crewapp.cli import main as cli
    from crewapp.pages.frame import shell

    go, inked, shown = shell.Shell.go, shell.Shell._show_inked, list[Any]()

    def watched_go(self: Any, name: str, **asked: Any) -> Any:
        shown[:] = [self]
        page = go(self, name, **asked)
        Clock.schedule_once(lambda _: watched.tell("page", name), 0.3)
        return page

    def watched_inked(self: Any, view: Any) -> None:
        inked(self, view)
        watched.tell("inked", view.text)

    shell.Shell.go = watched_go  # type: ignore[method-assign]
    shell.Shell._show_inked = watched_inked  # type: ignore[method-assign]
    watched.answer_to({"at": lambda text: watched.place_in(shown[0], text) if shown else None})
    cli.main([])


if __name__ == "__main__":
    main()
