"""Typing of where to exchange: a kind of place, its fields, a password kept unseen."""

from __future__ import annotations

from dataclasses import replace
from importlib import import_module
from typing import Any

from crewapp.pages.exchange.store_fields import (
    SECRET,
    StoreField,
    address_of,
    field_of,
    missing_fields,
    typed_of,
)
from crewapp.tablet.settings import NotSavedError
from crewapp.words.translate import say
from sync.stores.errors import StoreAddressError


class StoreController:
    """Takes the fields of a store into the page's draft; the password stays in memory alone."""

    def __init__(self, page: Any) -> None:
        self.page = page
        self.secret = ""

    @property
    def kind(self) -> str:
        """The kind of place chosen, or of the one that is set."""
        return str(self.page.draft.get("kind") or self._set()[0])

    @property
    def typed_fields(self) -> dict[str, str]:
        """Fields that were typed for that kind."""
        kept = (self.page.draft.get("store") or {}).get(self.kind)
        kind, told = self._set()
        return dict(kept) if kept is not None else (told if kind == self.kind else {})

    def _set(self) -> tuple[str, dict[str, str]]:
        return typed_of(self.page.shell.tablet.settings().store)

    @property
    def field(self) -> StoreField | None:
        """The field that is being typed."""
        return field_of(self.kind, str(self.page.draft.get("store_field", "")))

    def choose(self, kind: str) -> None:
        """Take a kind of place."""
        self.page.keep_draft(kind=kind)
        self.page.fill()

    def keep_field(self, field: str, text: str) -> None:
        """Keep what is typed for a field."""
        if field == SECRET:
            self.secret = text
            return
        kept = {
            **(self.page.draft.get("store") or {}),
            self.kind: {**self.typed_fields, field: text},
        }
        self.page.keep_draft(store=kept)

    def value(self, field: str) -> str:
        """Return what stands on a field's tile; of a password only whether one was typed."""
        if field == SECRET:
            if self.secret:
                return say("typed")
            is_set = self.page.view.has_secret and self.kind == self._set()[0]
            return say("kept, not shown") if is_set else ""
        return self.typed_fields.get(field, "")

    def missing_fields(self) -> list[str]:
        """Return the names of the fields still to be typed."""
        return missing_fields(self.kind, self.typed_fields)

    def keep(self) -> None:
        """Keep the place in the settings, and the password where only its owner can read it."""
        tablet, secret, typed = self.page.shell.tablet, self.secret, self.typed_fields
        try:
            where = address_of(self.kind, typed)
            tablet.keep_settings(replace(tablet.settings(), store=str(where)))
        except (StoreAddressError, NotSavedError) as fault:
            self.page.shell.say_failed(str(fault))
            return

        def keep_secret() -> None:
            if secret:
                secrets = import_module("sync.stores.secrets")
                told = secrets.Secret(typed.get("user", "").strip(), secret)
                secrets.keep_secret(where, tablet.folder, told)

        self.page.shell.worker.run(keep_secret, lambda _: self._kept(), self.page.shell.say_failed)

    def _kept(self) -> None:
        self.secret = ""
        part = "home" if self.page.view is not None and self.page.view.job else "join"
        self.page.runner.ended = None
        self.page.keep_draft(part=part, kind="", store={}, store_field="")
        self.page.refresh()
