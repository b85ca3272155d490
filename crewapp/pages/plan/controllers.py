"""Controllers of the Plan page, one a subject: terms of lines, a new surface, the water."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Generic, TypeVar

from crewapp.commands.plan.plan_entries import SetDeepest, SetDrainageTerms, SetUnitPrice
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.plan.forms import (
    RAIN_NEEDED,
    SHAPE_NAMES,
    USE_NAMES,
    price_field,
    rain_fields,
    rain_terms,
    shape_fields,
    terms_fields,
)
from crewapp.pages.plan.question_fields import (
    ShapeField,
    ShapeQuestion,
    ShapeTile,
    TermsField,
    TermsQuestion,
    WaterField,
)
from crewapp.pages.plan.view import PlanPageView, Row
from crewapp.words.translate import say, translate_later

Field = TypeVar("Field", bound=str)
Question = tuple[str, str, tuple[Row, ...]]
UNITS = ("ft", "in", "m", "cm", "mm", "us-ft")
WHOLE_SURFACE = ("setback",)  # terms that hold for all its lines
LINES = {"sand_slit": translate_later("Sand slits"), "piped_slit": translate_later("Piped slits")}


class Controller(Generic[Field]):
    """Controller of one subject of the page."""

    def __init__(self, page: Any) -> None:
        self.page = page

    def question(self, name: Field, view: PlanPageView) -> Question:
        """Return a question of this subject: words, the way back, answers."""
        return "", "plan", ()

    def take_choice(self, name: Field, key: str) -> None:
        """Take the answer that was tapped."""

    def pad_question(self, name: Field, view: PlanPageView) -> PadQuestion | None:
        """Return what the pad asks for one of its fields."""
        return None

    def take_figure(self, name: Field, value: int, text: str) -> None:
        """Take the figure of one of its fields."""


class TermsController(Controller[TermsField]):
    """The terms of the lines of one use."""

    CHOSEN: tuple[TermsField, ...] = ("use", "machine", "first")

    def ask(self, field: TermsField) -> None:
        """Ask for a term, by the pad or by a list."""
        question = TermsQuestion(field)
        if field in self.CHOSEN:
            self.page.choose(question)
        else:
            self.page.ask(question)

    def keep(self, **texts: Any) -> None:
        """Keep what was typed of the use chosen, or of the whole surface."""
        surface_id, use = self.page.laid_surface(), self.page.use
        typed = {**(self.page.draft.get("terms") or {})}
        own = {**(typed.get(surface_id) or {})}
        for name, text in texts.items():
            if name in WHOLE_SURFACE:
                own[name] = text
            else:
                own[use] = {**(own.get(use) or {}), name: text}
        typed[surface_id] = own
        self.page.keep_draft(terms=typed)

    def question(self, name: TermsField, view: PlanPageView) -> Question:
        """Ask which lines, which machine, or where the first line lies."""
        if name == "machine":
            deepest = tuple(
                Row(
                    say("How deep {machine} cuts", machine=one.title),
                    say("at the most; no slit is planned deeper"),
                    one.figure or say("not known"),
                    key=f"deepest:{one.key}",
                )
                for one in view.machines
            )
            return say("Which machine cuts them?"), "terms", (*view.machines, *deepest)
        if name == "first":
            rows: tuple[Row, ...] = (
                Row(say("Both edges alike"), say("the margins are the same"), key="even"),
                Row(say("Typed"), say("from the left edge, looking along"), key="typed"),
            )
            return say("Where does the first line lie?"), "terms", rows
        rows = tuple(Row(say(words), key=use) for use, words in LINES.items())
        none = tuple(
            Row(
                say("No {lines}", lines=say(words).lower()),
                say("lines there are go"),
                key=f"no:{use}",
            )
            for use, words in LINES.items()
        )
        return say("Which lines?"), "terms", (*rows, *none)

    def take_choice(self, name: TermsField, key: str) -> None:
        """Take the lines, the machine or the first line."""
        if name == "use":
            use = key.removeprefix("no:")
            self.page.keep_draft(use=use)
            self.keep(none="yes" if key.startswith("no:") else "")
        elif key.startswith("deepest:"):
            self.page.keep_draft(deepest_of=key.removeprefix("deepest:"))
            self.page.ask(TermsQuestion("deepest"))
            return
        elif name == "machine":
            self.keep(machine=key)
        elif key == "even":
            self.keep(first="even")
        self.page.turn_to("terms")
        if name == "first" and key == "typed":
            self.page.ask(TermsQuestion("first"))

    def pad_question(self, name: TermsField, view: PlanPageView) -> PadQuestion | None:
        """Ask for a figure on the pad."""
        spec = terms_fields(view.figures).get(name)
        place = str(self.page.draft.get("deepest_of", "")) if name == "deepest" else ""
        return PadQuestion(spec, place) if spec else None

    def take_figure(self, name: TermsField, value: int, text: str) -> None:
        """Keep a figure, and draw the lines anew; how deep a machine cuts is inked at once."""
        if name == "deepest":
            machine_id = str(self.page.draft.get("deepest_of", ""))
            self.page.do(SetDeepest(machine_id=machine_id, deepest_nm=value))
            return
        self.keep(**{name: text})
        self.page.turn_to("terms")


class ShapeController(Controller[ShapeField]):
    """Controller of the new surface being typed."""

    CHOSEN: tuple[ShapeField, ...] = ("ground", "shape", "file", "unit", "layer")

    def grounds(self) -> list[tuple[str, str]]:
        """Return what a new surface may be: keys and words."""
        return [(f"new:{use}", words) for use, words in USE_NAMES.items()]

    def begin(self, use: str) -> None:
        """Begin a new surface of a use, under the next free name."""
        name = self.page.view.next_names.get(use, "A")
        named = f"{say(USE_NAMES[use]).capitalize()} {name}"
        new = {"surface_id": name, "name": named, "use": use, "shape": "rectangle"}
        self.page.turn_to("shape", new=new)

    def keep(self, **texts: Any) -> None:
        """Keep what was typed of it."""
        self.page.keep_draft(new={**self.page.new, **texts})

    def ask(self, field: ShapeTile) -> None:
        """Ask for one thing of it: by a list, in words, in rows, or on the pad."""
        if field == "name" or field == "offsets":
            self.page.turn_to(field)
        elif field == "mended":
            self.keep(mended="" if self.page.new.get("mended") else "yes")
            self.page.turn_to("shape")
        elif field in self.CHOSEN:
            self.page.choose(ShapeQuestion(field))
        else:
            self.page.ask(ShapeQuestion(field))

    def question(self, name: ShapeField, view: PlanPageView) -> Question:
        """Ask what it is, its shape, or the file it is drawn in."""
        if name == "ground":
            rows = tuple(Row(say(words), key=use) for use, words in USE_NAMES.items())
            return say("What is it?"), "shape", rows
        if name == "shape":
            rows = tuple(Row(say(words), key=shape) for shape, words in SHAPE_NAMES.items())
            return say("What shape?"), "shape", rows
        if name == "unit":
            rows = tuple(Row(unit, key=unit) for unit in UNITS)
            return say("In which unit is it drawn?"), "shape", rows
        if name == "layer":
            return say("Which layer is the outline on?"), "shape", view.preview.layers
        return say("Which file?"), "shape", self._files()

    def _files(self) -> tuple[Row, ...]:
        """Return the drawings in the inbox."""
        folder = self.page.shell.tablet.folder / "inbox"
        endings = (".geojson", ".json", ".dxf", ".csv")
        found = sorted(p.name for p in folder.glob("*") if p.suffix.lower() in endings)
        return tuple(Row(name, key=name) for name in found)

    def take_choice(self, name: ShapeField, key: str) -> None:
        """Take the answer; another file is read by itself anew."""
        kept = {"ground": "use"}.get(name, name)
        if name == "file":
            path = str(Path(self.page.shell.tablet.folder) / "inbox" / key) if key else ""
            self.keep(source=key, path=path, unit="", layer="", mended="")
        else:
            self.keep(**{kept: key})
        self.page.turn_to("shape")

    def pad_question(self, name: ShapeField, view: PlanPageView) -> PadQuestion | None:
        """Ask for a measure on the pad."""
        spec = shape_fields(view.figures).get(name)
        return PadQuestion(spec) if spec else None

    def take_figure(self, name: ShapeField, value: int, text: str) -> None:
        """Keep a measure; a station goes on to its offsets."""
        if name in ("station", "left", "right"):
            self._row(name, text)
            return
        self.keep(**{name: text})
        self.page.turn_to("shape")

    def _row(self, name: ShapeField, text: str) -> None:
        """Keep one measure of the row in hand, and ask for the next."""
        rows = [*(self.page.new.get("rows") or [])]
        if name == "station":
            rows.append({"station": text})
        elif rows:
            rows[-1] = {**rows[-1], name: text}
        self.keep(rows=rows)
        self.page.turn_to("offsets")
        if name == "station":
            self.page.ask(ShapeQuestion("left"))
        elif name == "left":
            self.page.ask(ShapeQuestion("right"))

    def drop_row(self) -> None:
        """Take the last station back."""
        self.keep(rows=[*(self.page.new.get("rows") or [])][:-1])
        self.page.turn_to("offsets")


class WaterController(Controller[WaterField]):
    """Prices of the take-off, and the rain that the gates are reckoned with."""

    def texts(self) -> dict[str, str]:
        """Return what was typed of the rain."""
        found: dict[str, str] = self.page.draft.get("rain") or {}
        return found

    def pad_question(self, name: WaterField, view: PlanPageView) -> PadQuestion | None:
        """Ask for a price, or a figure of the rain."""
        if name == "price":
            item = self.page.item(view)
            return PadQuestion(price_field(item.name, item.per)) if item and item.per else None
        spec = rain_fields(view.figures).get(name)
        return PadQuestion(spec) if spec else None

    def take_figure(self, name: WaterField, value: int, text: str) -> None:
        """Ink a price; keep a figure of the rain until all that is needed is there."""
        item = self.page.item(self.page.view)
        if name == "price" and item is not None:
            self.page.do(SetUnitPrice(item=item.key, price_cents=value, per=item.per))
            return
        self.page.keep_draft(rain={**self.texts(), name: text})
        self.page.turn_to("rain")

    def ink_rain(self) -> None:
        """Ink the figures that the gates are reckoned with."""
        view = self.page.view
        given = rain_terms(self.texts(), view.figures)
        self.page.do(SetDrainageTerms(surface_id=view.surface_id, **given))

    def is_whole(self, view: PlanPageView) -> bool:
        """Whether all that is needed was typed, or stands, and something is new."""
        typed = self.texts()
        has_all = all(typed.get(name) or view.gates.terms.get(name) for name in RAIN_NEEDED)
        return has_all and any(typed.values())
