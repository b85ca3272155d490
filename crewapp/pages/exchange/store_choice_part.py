"""Parts that choose the store: the kind of place, its fields, the sticks at the tablet."""

from __future__ import annotations

from typing import ClassVar

from kivy.uix.widget import Widget

from crewapp.kit.input.break_words import tail_of
from crewapp.kit.keys.choice_row import ChoiceRow
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.key_pages import KeyPages
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel
from crewapp.kit.text.text_area import TextArea
from crewapp.pages.exchange.store_fields import FIELDS, KINDS, LONGEST, SECRET, StoreField
from crewapp.pages.exchange.view import ExchangeView
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say

FIELD_CAP_MM = 4.0
ALONE_MOST, BESIDE_MOST = 34, 18


class StoreChoicePart(Part):
    """Choose a kind of place and type its fields; kept by one key."""

    back: ClassVar[str] = "home"
    needs_mm = (58.0, 90.0)

    def build(self) -> None:
        """Make the kinds, the tiles and the key that keeps them."""
        kinds = [(name, say(text)) for name, text in KINDS.items()]
        self.kinds = ChoiceRow(kinds, least_wide_mm=27.0)  # for the longest of their words
        self.kinds.bind(on_pick=lambda _, kind: self.page.store.choose(kind))
        self.tiles = KeyPages(least_wide_mm=40.0, most_high_mm=20.0)
        self.keep = MainKey(text="", is_logging=False)
        self.keep.bind(on_release=lambda _: self.page.store.keep())
        self.made: tuple[str, ...] = ()
        self.add_widget(self.kinds)
        self.add_widget(self.tiles)
        self.add_widget(self.keep)

    def title(self, view: ExchangeView) -> str:
        """Return the title of this part."""
        return say("Where to exchange")

    def fill(self, view: ExchangeView) -> None:
        """Show the kind chosen, its fields, and what is still to be typed."""
        store = self.page.store
        self.kinds.chosen = store.kind
        fields = FIELDS.get(store.kind, ())
        told = tuple(store.value(one.field) for one in fields)
        if (store.kind, *told) != self.made:
            self.made = (store.kind, *told)
            self.tiles.show_keys([self._tile(one) for one in fields])
        lacks = store.missing_fields()
        if not store.kind:
            self.keep.text, self.keep.note = say("Choose a kind of place"), ""
        elif lacks:
            self.keep.text = say("Still to be typed")
            self.keep.note = ", ".join(lacks)
        else:
            self.keep.text, self.keep.note = say("Exchange there from now on"), ""
        self.keep.disabled = not store.kind or bool(lacks)

    def _tile(self, field: StoreField) -> TapKey:
        most = ALONE_MOST if self.page.store.kind == "folder" else BESIDE_MOST
        value = tail_of(self.page.store.value(field.field), most) or (
            "\u2013" if field.is_spare else "..."
        )
        key = TapKey(text=value, note=say(field.name), cap_mm=FIELD_CAP_MM)
        key.bind(on_release=lambda _: self._tapped(field))
        return key

    def _tapped(self, field: StoreField) -> None:
        is_folder = self.page.store.kind == "folder"
        self.page.turn_to("folders" if is_folder else "field", store_field=field.field)


class FoldersPart(Part):
    """The sticks and shares that stand ready; or the folder is typed."""

    back: ClassVar[str] = "where"

    def build(self) -> None:
        """Make the list and the two keys."""
        self.list = RowList()
        self.list.nothing = say(
            "No stick or share stands ready. Plug it in and look again, or type its folder."
        )
        self.list.bind(on_pick=lambda _, path: self._pick(path))
        look = TapKey(text=say("Look again"), kind=ButtonKind.QUIET)
        look.bind(on_release=lambda _: self.page.refresh())
        write = TapKey(text=say("Type the folder"))
        write.bind(on_release=lambda _: self.page.turn_to("field", store_field="path"))
        self.add_widget(self.list)
        self.add_widget(KeyGrid((look, write), least_wide_mm=30.0))

    def title(self, view: ExchangeView) -> str:
        """Return the title: the question of this part."""
        return say("Which stick or share?")

    def fill(self, view: ExchangeView) -> None:
        """Show what is mounted."""
        self.list.show_rows([folder_row(path) for path in view.folders])

    def _pick(self, path: str) -> None:
        self.page.store.keep_field("path", path)
        self.page.turn_to("where")


class FieldPart(Part):
    """Part with one field, high on the page: a keyboard may cover what lies low."""

    back: ClassVar[str] = "where"

    def build(self) -> None:
        """Make the line, the example and the key."""
        self.area = TextArea(high_mm=18.0, multiline=False, longest=LONGEST)
        self.area.bind(text=lambda _, text: self._typed(text))
        self.example = TextLabel(lines=3, size_hint_y=None, height=px(15.0))
        self.done = TapKey(text=say("Done"), kind=ButtonKind.PRIMARY, high_mm=22.0)
        self.done.bind(on_release=lambda _: self.page.turn_to("where"))
        self.shown = ""
        for part in (self.area, self.example, self.done, Widget()):
            self.add_widget(part)

    def title(self, view: ExchangeView) -> str:
        """Return the title: the field's name."""
        field = self.page.store.field
        return say(field.name) if field is not None else say("Where to exchange")

    def place(self, view: ExchangeView) -> str:
        """Name the kind of place."""
        return say(KINDS.get(self.page.store.kind, ""))

    def fill(self, view: ExchangeView) -> None:
        """Show what was typed; a password shows as dots."""
        field = self.page.store.field
        if field is None:
            return
        is_secret = field.field == SECRET
        self.shown = ""  # what is put in by us is not typed
        self.area.password = is_secret
        typed = (
            self.page.store.secret
            if is_secret
            else self.page.store.typed_fields.get(field.field, "")
        )
        if self.area.text != typed:
            self.area.text = typed
        self.shown = field.field
        if is_secret:
            self.example.text = say(
                "It is kept on this tablet for its owner alone, and never shown again."
            )
        else:
            self.example.text = (
                say("Such as {example}", example=field.example) if (field.example) else ""
            )

    def _typed(self, text: str) -> None:
        if self.shown:
            self.page.store.keep_field(self.shown, text)


def folder_row(path: str) -> dict[str, str]:
    """Return a stick or share as a row: its own name large, where it is below."""
    folder, _, name = path.rpartition("/")
    return {"key": path, "title": tail_of(name, ALONE_MOST), "detail": tail_of(folder, ALONE_MOST)}
