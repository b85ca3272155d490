"""A key that copies a text, so that it can be put into another program."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import ButtonKind
from crewapp.words.translate import say


class CopyKey(TapKey):
    """Copies ``copied`` on a tap and says so."""

    copied = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("text", say("Copy"))
        kwargs.setdefault("note", say("the folder"))
        kwargs.setdefault("kind", ButtonKind.QUIET)
        super().__init__(**kwargs)
        self.bind(copied=lambda *_: setattr(self, "note", say("the folder")))

    def on_release(self) -> None:
        """Copy the text; imported here, since a clipboard may be slow to be loaded."""
        from kivy.core.clipboard import Clipboard

        if Clipboard is not None and self.copied:
            Clipboard.copy(self.copied)
            self.note = say("copied")
