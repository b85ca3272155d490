"""Covering the collector: layers over a range, trench protection, leave to cover."""

from __future__ import annotations

from typing import Any

from crewapp.commands.grade import CheckLayer, NoteProtection, ReleaseHold
from crewapp.kit.input.list_rows import shorten
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import (
    CAP_LABEL_MM,
    GAP_MM,
    KEY_MM,
    STATUS,
    TOUCH_MM,
    ButtonKind,
    Status,
)
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import SectionRule, place_in
from crewapp.kit.text.fit_text import FitSentences
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.go_ahead.view import GoAheadView
from crewapp.pages.grade.choice_view import Question
from crewapp.pages.grade.controller import Controller
from crewapp.pages.grade.covering.view import (
    FLAGS,
    LASER,
    LAYER_WORDS,
    PROTECT,
    PROTECTION_WORDS,
    PROTECTIONS,
    SHOOT,
    THICK_LAYER,
    THICKNESS,
    CoverKey,
    CoverView,
    LayerKey,
)
from crewapp.pages.grade.fields import station_field, thickness_field, trench_depth_field
from crewapp.pages.grade.page_view import GradePageView
from crewapp.pages.grade.question_fields import CoverField, CoverQuestion
from crewapp.pages.grade.view import Choice
from crewapp.words.translate import say
from models.plan.collector import Layer

LONGEST = 88
KEY_KINDS: dict[CoverKey, ButtonKind] = {
    "release": ButtonKind.PRIMARY,
    "back": ButtonKind.QUIET,
}
RULE_HIGH_MM, LIST_LEAST_MM = 7.0, 5.0
INVERTS_SHARE = 0.58
"""The rule says left whether the range is released, right how many inverts of it are proven.

A key of the grid has no room for that in eight inches.
"""


class CoverPart(Part):
    """A key for each layer, bottom up, over the range that is to be covered."""

    has_head = False

    def build(self) -> None:
        """Make the keys; those of the layers follow from the plan."""
        self.rule = SectionRule(figure_share=INVERTS_SHARE)
        self.rule.height = px(RULE_HIGH_MM)
        self.grid = KeyGrid(least_wide_mm=30.0)
        self.keys: dict[CoverKey, TapKey] = {}
        self.mend = TapKey(kind=ButtonKind.PRIMARY, cap_mm=CAP_LABEL_MM)
        self.mend.bind(on_release=lambda _: self.page.controllers["cover"].mend())
        self.missing = FitSentences()
        for part in (self.rule, self.grid, self.missing):
            self.add_widget(part)

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        return say("Grade")

    def fill(self, view: GradePageView) -> None:
        """Show the range and how its layers stand."""
        cover = view.cover
        if cover is None:
            return
        self.rule.text, self.rule.figure = cover.release, cover.inverts
        station = cover.figures.station
        shown: dict[CoverKey, tuple[str, str]] = {
            "from": (station(cover.from_nm), say("from")),
            "to": (station(cover.to_nm), say("to")),
        }
        for row in cover.layers:
            text = row.text if row.status == Status.NOT_MEASURED else _marked(row.status, row.text)
            shown[LayerKey(row.layer)] = (say(LAYER_WORDS[row.layer]), text)
        shown["protect"] = (say("trench safety"), cover.protection)
        shown["release"] = (say("release to cover"), "")
        shown["back"] = (say("Back"), "")
        self.grid.show_keys([self._key(name, *texts) for name, texts in shown.items()])
        self._show_missing(cover)

    def _show_missing(self, cover: CoverView) -> None:
        """Make the largest, filled key what is missing; releasing is filled only without it."""
        is_lacking = bool(cover.missing)
        self.keys["release"].kind = ButtonKind.PLAIN if is_lacking else ButtonKind.PRIMARY
        spare = self.height - self.rule.height - self.grid.height - px(TOUCH_MM + 3 * GAP_MM)
        has_list = not is_lacking or spare >= 0
        is_roomy = spare >= px(KEY_MM - TOUCH_MM + LIST_LEAST_MM)
        place_in(self.missing, self, has_list, 0)
        place_in(self.mend, self, is_lacking, 1 if has_list else 0)
        if is_lacking:
            self.mend.text = shorten(cover.missing[0], LONGEST)
            rest = len(cover.missing) - 1
            more = say("and {count} more before it is covered", count=rest)
            self.mend.note = more if rest and is_roomy else ""
            self.mend.height = px(KEY_MM if is_roomy else TOUCH_MM)
            if rest and not is_roomy:
                self.mend.text += f"  +{rest}"
            self.missing.sentences = list(cover.missing[1:])
        else:
            self.missing.sentences = missing_words(cover)

    def _key(self, name: CoverKey, text: str, note: str) -> TapKey:
        if name not in self.keys:
            kind = KEY_KINDS.get(name, ButtonKind.PLAIN)
            key = TapKey(cap_mm=CAP_LABEL_MM + 0.3, kind=kind)
            key.words.lines = 1 if note else 2
            key.is_logging = isinstance(name, LayerKey)
            key.bind(on_release=lambda _: self.page.controllers["cover"].begin(name))
            self.keys[name] = key
        self.keys[name].text, self.keys[name].note = text, note
        return self.keys[name]


def _marked(status: str, text: str) -> str:
    """Put the word of a state before what it says."""
    return f"{say(STATUS[Status(status)].word)} {text}"


def missing_words(cover: CoverView) -> list[str]:
    """Say what is missing before the range is covered, the first thing first."""
    if not cover.missing:
        return [say("Nothing is missing before it is covered.")]
    return [say("Missing before it is covered:"), *cover.missing]


class CoverController(Controller[CoverField]):
    """Inks layers, trench protection and leave to cover."""

    def mend(self) -> None:
        """Go where the first thing missing is put right."""
        mend = self.page.cover().mend
        if mend == SHOOT:
            self.page.turn_to("pipe")
        elif mend == LASER:
            self.page.turn_to("laser")
        elif mend == FLAGS:
            self.page.shell.go("flags")
        elif mend is not None:
            self.begin(mend)

    def protect(self, ahead: GoAheadView) -> None:
        """Note how the stretch of a trench that lacks protection is kept safe."""
        back = self.page.part_name()
        self.page.keep_draft(protect_range=[ahead.from_nm, ahead.to_nm], protect_back=back)
        self.page.choose(CoverQuestion("protect"), back)

    def begin(self, name: CoverKey) -> None:
        """Take the tap on a key of the range, of a layer or of the protection."""
        bare = self._bare()
        if name == "from" or name == "to":
            self.page.ask(CoverQuestion(name))
        elif name == PROTECT and bare is not None:
            self.protect(bare)
        elif name == PROTECT or name == "release":
            self.page.keep_draft(protect_range=None, protect_back="cover")
            self.page.choose(CoverQuestion(name), "cover")
        elif name == "back":
            self.page.turn_to("pipe")
        elif bare is not None:
            self.page.turn_to("anyway")  # a layer is laid by somebody in the trench
        else:
            self._begin_layer(name.layer)

    def _bare(self) -> GoAheadView | None:
        """Return why nobody may enter the trench: deep, and nothing noted of its protection."""
        trench = self.page.view.grade.trench if self.page.view is not None else None
        return trench if trench is not None and trench.is_no else None

    def _begin_layer(self, layer: Layer) -> None:
        if layer == "bedding":
            self.page.ask(CoverQuestion("thick:bedding"))
        elif layer in THICKNESS:
            self.page.choose(CoverQuestion(THICKNESS[layer]), "cover")
        elif layer == "tracer_wire":
            self.page.choose(CoverQuestion("wire"), "cover")
        else:
            self._layer(layer)

    def _layer(self, layer: Layer, **found: Any) -> None:
        self.ink(CheckLayer(layer=layer, **self._range(), **found), "cover")

    def _range(self) -> dict[str, Any]:
        cover = self.page.cover()
        return {
            "collector_id": cover.collector_id,
            "from_nm": cover.from_nm,
            "to_nm": cover.to_nm,
        }

    def pad_question(self, name: CoverField, view: GradePageView) -> PadQuestion | None:
        """Return what the pad asks."""
        cover = view.cover
        if cover is None:
            return None
        if name in {"from", "to"}:
            words = say("From station") if name == "from" else say("To station")
            return PadQuestion(station_field(cover.figures, words, cover.start_nm, cover.end_nm))
        if name == "depth":
            low_nm, high_nm = self._protected(cover)
            part = f"{cover.figures.station(low_nm)} - {cover.figures.station(high_nm)}"
            return PadQuestion(trench_depth_field(cover.figures), part)
        words = say("Least {layer}", layer=say(LAYER_WORDS[THICK_LAYER[name]]))
        return PadQuestion(thickness_field(cover.figures, words))

    def take_figure(self, name: CoverField, value: int, text: str) -> None:
        """Take the figure that was typed."""
        if name == "depth":
            self.page.drop_typed()
            self.page.keep_draft(depth_nm=value, depth_typed=text)
            self.page.choose(CoverQuestion("judge"), "cover")
        elif name in {"from", "to"}:
            self.page.drop_typed()
            self.page.turn_to("cover", **{f"cover_{name}": value})
        else:
            self._layer(THICK_LAYER[name], thickness_nm=value, thickness_typed=text)

    def question(self, name: CoverField, view: GradePageView) -> Question | None:
        """Return the question that keys answer, or None."""
        cover = view.cover
        if cover is None:
            return None
        people = [Choice(person, person) for person in cover.people]
        if name == "release":
            return Question(say("Released to cover by whom?"), people, missing_words(cover))
        if name == "judge":
            return Question(say("Which competent person judged it?"), people, [caution()])
        if name == "protect":
            answers = [Choice(one, say(PROTECTION_WORDS[one])) for one in PROTECTIONS]
            return Question(say("How are people in the trench kept safe?"), answers, [caution()])
        if name == "wire":
            whole = Choice("whole", say("signal traced end to end"))
            return Question(say("Tracer wire"), (whole, Choice("broken", say("broken"))))
        answers = [Choice("measure", say("measure it")), Choice("placed", say("not measured"))]
        return Question(say(LAYER_WORDS[THICK_LAYER[name]]), answers)

    def take_choice(self, name: CoverField, key: str) -> None:
        """Take the answer that was tapped."""
        if name == "release":
            self.ink(ReleaseHold(released_by=key, **self._range()), "cover")
        elif name == "judge":
            self._protect(key)
        elif name == "protect":
            self.page.keep_draft(protection=key)
            self.page.ask(CoverQuestion("depth"))
        elif name == "wire":
            self._layer("tracer_wire", continuous=key == "whole")
        elif key == "measure":
            self.page.ask(CoverQuestion(name))
        else:
            self._layer(THICK_LAYER[name])

    def _protected(self, cover: CoverView) -> tuple[int, int]:
        """Stations that the protection is for: those that lack it, or the range to cover."""
        kept = self.page.draft.get("protect_range")
        return (kept[0], kept[1]) if kept else (cover.from_nm, cover.to_nm)

    def _protect(self, judge: str) -> None:
        draft = self.page.draft
        low_nm, high_nm = self._protected(self.page.cover())
        self.ink(
            NoteProtection(
                depth_nm=int(draft.get("depth_nm", 0)),
                depth_typed=str(draft.get("depth_typed", "")),
                protection=str(draft.get("protection", "")),
                judged_by=judge,
                collector_id=self.page.cover().collector_id,
                from_nm=low_nm,
                to_nm=high_nm,
            ),
            str(draft.get("protect_back") or "cover"),
        )


def caution() -> str:
    """Return what must be known before anybody climbs into a trench."""
    return say(
        "CAUTION: nobody enters an unprotected trench. A competent person judges it on the "
        "spot, each day and after rain; local rules go first. Judged stable holds under 5 ft "
        "(1.5 m) only."
    )
