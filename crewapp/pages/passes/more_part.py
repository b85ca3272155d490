"""Choices for the next pass: surface, machine, kind of line, passes before."""

from __future__ import annotations

from typing import Any

from kivy.uix.widget import Widget

from crewapp.commands.passes import SetBlade
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.lists.list_row import ListRow
from crewapp.kit.lists.row_list import RowList
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.passes.view import Choice, PassView
from crewapp.words.translate import say


class PassChoicesPart(Part):
    """Tiles that lead to the lists, each saying what is chosen now."""

    back = "cut"

    def build(self) -> None:
        """Build the tiles of this part."""
        self.tiles = {
            name: ListRow(key=name, pick=self._open)
            for name in ("surface", "use", "machine", "pass", "shift")
        }
        self.asked: dict[str, ListRow] = {}  # of questions about the next pass
        self.grid = KeyGrid(tuple(self.tiles.values()), least_wide_mm=44.0)
        self.add_widget(self.grid)
        self.add_widget(Widget())

    def title(self, view: PassView) -> str:
        """Say what is chosen here."""
        return say("For the next pass")

    def fill(self, view: PassView) -> None:
        """Show what is chosen now."""
        uses = {one.key: one.text for one in view.uses}
        shift = self.page.choice_of("shift_typed")
        told = {
            "surface": (say("Surface"), view.surface_name),
            "use": (say("Kind of line"), uses.get(view.use, "")),
            "machine": (
                say("Machine"),
                " \u00b7 ".join(filter(None, (view.machine_id, view.blade_text))),
            ),
            "pass": (say("Passes cut"), say("{count} on this surface", count=len(view.passes))),
            "shift": (say("Shift measured"), shift or say("none")),
        }
        for name, (title, detail) in told.items():
            self.tiles[name].title, self.tiles[name].detail = title, detail
        self._fill_asked(view)

    def _fill_asked(self, view: PassView) -> None:
        """Show a tile for each further question about the next pass, with its answer."""
        steps = {question.step.field: question.step for question in view.questions}
        if self.asked.keys() != steps.keys():
            self.asked = {name: ListRow(key=name, pick=self._open) for name in steps}
            self.grid.show_keys((*self.tiles.values(), *self.asked.values()))
        for name, tile in self.asked.items():
            answer = self.page.filling.answers_of(name).get(name)
            tile.title, tile.detail = (
                steps[name].name,
                steps[name].answer_text(answer) or say("none"),
            )

    def _open(self, name: str) -> None:
        if name == "shift":
            self.page.ask("shift")
        elif name in self.asked:
            self.page.filling.begin(name)
        else:
            self.page.turn_to("choose", choosing=name)


class ChoosePart(Part):
    """List to choose one thing from."""

    back = "more"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList()
        self.rows.nothing = say("There is nothing to choose from yet.")
        self.rows.bind(on_pick=lambda _, key: self._pick(key))
        self.add_widget(self.rows)

    def title(self, view: PassView) -> str:
        """Return the title of this list."""
        names = {
            "surface": say("Surface"),
            "use": say("Kind of line"),
            "machine": say("Machine"),
            "pass": say("Passes cut"),
        }
        return names.get(self.page.choice_of("choosing"), say("Surface"))

    def place(self, view: PassView) -> str:
        """Return the surface's name, for the head."""
        return view.surface_name

    def fill(self, view: PassView) -> None:
        """Show the list chosen."""
        lists = {
            "surface": view.surfaces,
            "use": view.uses,
            "machine": (*view.machines, *view.blades),
            "pass": view.passes,
        }
        chosen = lists.get(self.page.choice_of("choosing"), view.surfaces)
        self.rows.show_rows([choice_row(one) for one in chosen])

    def _pick(self, key: str) -> None:
        name = self.page.choice_of("choosing")
        if name == "pass":
            self.page.open_pass(key)
            return
        if name == "machine" and key in {one.key for one in self.page.view.blades}:
            _, leg, what = key.split(":")
            machine_id = self.page.view.machine_id
            self.page.do(SetBlade(machine_id=machine_id, leg=int(leg), what=what))
            return
        field = {"use": "use", "machine": "machine_id"}.get(name, "surface_id")
        kept: dict[str, Any] = {field: key, "picked": [], "part": "cut"}
        if field == "surface_id":
            kept["use"] = ""
        self.page.choose(**kept)


def choice_row(choice: Choice) -> dict[str, Any]:
    """Return a choice as a row of a list."""
    return {
        "key": choice.key,
        "title": choice.text,
        "detail": choice.detail,
        "status": choice.status,
    }
