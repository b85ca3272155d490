"""Pass: cut the next lines, probe them, fill them; one pass after the other."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.commands.command import Command
from crewapp.commands.passes import LogPass, LogProbe, LogTurf, PieceLength
from crewapp.kit.input.forms import Form
from crewapp.pages.frame.form_filling import PAD, FormFilling
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import PartedPage
from crewapp.pages.go_ahead.view import GoAheadView
from crewapp.pages.passes.figure_requests import ASKED, TAKEN
from crewapp.pages.passes.probe_places import ProbePlace
from crewapp.pages.passes.view import PassCard, PassView, ShowPass, next_probe
from crewapp.words.translate import say

_OF_PASS = frozenset({"probe", "hub", "place", "written", "strike", "sand", "pipe", "finish"})
_ONE_PASS: dict[str, Any] = {
    "line_id": "",
    "along_nm": None,
    "along_typed": "",
    "width_nm": None,
    "width_typed": "",
    "strike_id": "",
    "fix": "",
}


_ONE_DRIVE: dict[str, Any] = {
    "shift_nm": None,
    "shift_typed": "",
    "drive_nm": None,
    "drive_typed": "",
    "pieces": {},
    "piece_line": "",
}


class PassPage(PartedPage):
    """The page of slit work."""

    name: ClassVar[str] = "pass"
    parts: ClassVar[dict[str, str]] = {
        "cut": "crewapp.pages.passes.cut_part:CutPart",
        "lines": "crewapp.pages.passes.lines_part:LinesPart",
        "drive": "crewapp.pages.passes.lines_part:DrivePart",
        "more": "crewapp.pages.passes.more_part:PassChoicesPart",
        "choose": "crewapp.pages.passes.more_part:ChoosePart",
        "form": "crewapp.pages.frame.form_part:FormPart",
        "probe": "crewapp.pages.passes.probe_part:ProbePart",
        "hub": "crewapp.pages.passes.hub_part:HubPart",
        "place": "crewapp.pages.passes.place_part:PlacePart",
        "written": "crewapp.pages.passes.entries_part:EntriesPart",
        "strike": "crewapp.pages.passes.entries_part:PassStrikePart",
        "sand": "crewapp.pages.passes.sand_part:SandPart",
        "pipe": "crewapp.pages.passes.pipe_part:PipePart",
        "finish": "crewapp.pages.passes.finish_part:FinishPart",
        "anyway": "crewapp.pages.go_ahead.anyway_part:GoOnAnywayPart",
    }

    def build(self) -> None:
        """Make the page and the filling of further questions about a pass."""
        super().build()
        self.filling = FormFilling(self, self._form)

    def arrive(self, surface_id: str = "", pass_id: str = "") -> None:
        """Come for a surface, or for a pass on it."""
        if surface_id and surface_id != self.draft.get("surface_id"):
            self.keep_draft(surface_id=surface_id, pass_id="", picked=[], part="cut", use="")
        if pass_id:
            self.open_pass(pass_id)

    def _form(self, name: str) -> Form | None:
        """The question about a field of the next pass, by the field's name."""
        asked = self.view.questions if isinstance(self.view, PassView) else ()
        found = next((one for one in asked if one.step.field == name), None)
        return found.form(say("For the next pass"), "more") if found is not None else None

    def ink_form(self, form: Form, command: Command) -> None:
        """Keep an answer: it is inked with the pass."""
        self.turn_to(form.back)

    def answers(self) -> dict[str, Any]:
        """Fields of the next pass that were answered by questions of their own."""
        answers: dict[str, Any] = {}
        for question in self.view.questions:
            answers |= question.fields(self.filling.answers_of(question.step.field))
        return answers

    def query(self) -> ShowPass:
        """Ask with what was chosen so far; the rest is proposed."""
        picked = self.draft.get("picked", [])
        return ShowPass(
            surface_id=str(self.draft.get("surface_id", "")),
            pass_id=str(self.draft.get("pass_id", "")),
            machine_id=str(self.draft.get("machine_id", "")),
            use=str(self.draft.get("use", "")),
            picked=tuple(picked) if isinstance(picked, list) else (),
        )

    def part_name(self) -> str:
        """Return the part kept in the draft, if there is a pass for it."""
        name = super().part_name()
        card = self.view.card if isinstance(self.view, PassView) else None
        if name in _OF_PASS and card is None:
            return "cut"
        if name == "form" and self.view is not None and self.filling.form is None:
            return "more"
        if name == "anyway" and self.view is not None and self.blocking_go_ahead() is None:
            return "cut"
        return name

    @property
    def card(self) -> PassCard:
        """Card of the open pass; parts of a pass are displayed only while there is one."""
        card: PassCard = self.view.card
        return card

    def choice_of(self, name: str) -> str:
        """Return a choice kept in the draft as text."""
        return str(self.draft.get(name) or "")

    def open_pass(self, pass_id: str, part: str = "hub") -> None:
        """Open the pass of an id."""
        self.keep_draft(**_ONE_PASS, pass_id=pass_id, part=part)
        self.refresh()

    def next_pass(self) -> None:
        """Leave the open pass for the next one."""
        self.keep_draft(**_ONE_PASS, pass_id="", picked=[], part="cut")
        self.refresh()

    def choose(self, **chosen: Any) -> None:
        """Keep choices that change what is proposed, and read anew."""
        self.keep_draft(**chosen)
        self.refresh()

    def place_now(self) -> ProbePlace | None:
        """Return where the next probe is: the place chosen, or the one proposed."""
        line_id, along = self.choice_of("line_id"), self.draft.get("along_nm")
        if self.card.line(line_id) is not None and isinstance(along, int):
            return ProbePlace(line_id, along)
        place = next_probe(self.card, self.view.figures)
        if place is not None and self.card.line(line_id) is not None:
            return ProbePlace(line_id, place.along_nm)
        return place

    def blocking_go_ahead(self) -> GoAheadView | None:
        """Return why the next pass has to wait, or None."""
        ahead = self.view.ahead if isinstance(self.view, PassView) else None
        return ahead if ahead is not None and ahead.is_no else None

    def caution(self) -> str:
        """Say what can hurt somebody along a slit."""
        return say("Stop the blades before clearing them. Keep people clear. Dig by hand at marks.")

    def pad_question(self, field: str) -> PadQuestion | None:
        """Return what to ask for one of this page's fields."""
        if field.startswith(PAD):
            return self.filling.pad_question(field)
        if not isinstance(self.view, PassView) or field not in ASKED:
            return None
        if ASKED[field].needs_pass and self.view.card is None:
            return None
        if field == "length" and self.blocking_go_ahead() is not None:
            return None  # no pass is cut before its go-ahead
        return ASKED[field].ask(self)

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take a figure from the pad."""
        if field.startswith(PAD):
            self.drop_typed()
            self.filling.take_figure(field.removeprefix(PAD), value, text)
            return
        TAKEN[field](self, value, text, ending)

    def cut(self, length_nm: int, length_typed: str) -> None:
        """Ink the pass with the length as measured; ask first where it is not the plan's."""
        self.keep_draft(drive_nm=length_nm, drive_typed=length_typed)
        drive = self.view.drive
        if drive.stretches and drive.match(length_nm).agrees != "agrees":
            self.drop_typed()
            self.turn_to("drive")
        else:
            self.log_pass()

    def driven_nm(self) -> int:
        """Return the length driven that waits for an answer, nm; 0 while none does."""
        waiting = self.draft.get("drive_nm")
        return waiting if isinstance(waiting, int) else 0

    def typed_pieces(self) -> dict[str, int]:
        """Return the lengths of pieces of the next pass that were typed for themselves, nm."""
        return {name: length_nm for name, (length_nm, _) in self._pieces().items()}

    def _pieces(self) -> dict[str, tuple[int, str]]:
        kept = self.draft.get("pieces")
        return dict(kept) if isinstance(kept, dict) else {}

    def keep_piece(self, length_nm: int, typed: str) -> None:
        """Keep the length of one piece for the next pass."""
        pieces = self._pieces() | {self.choice_of("piece_line"): (length_nm, typed)}
        self.keep_draft(pieces={name: list(piece) for name, piece in pieces.items()})
        self.turn_to("drive")

    def log_pass(self) -> None:
        """Ink the pass with the lines picked, the length driven and the pieces that were typed."""
        pieces = self._pieces()
        self.do(
            LogPass(
                surface_id=self.view.surface_id,
                line_ids=self.view.picked,
                length_nm=self.driven_nm(),
                length_typed=self.choice_of("drive_typed"),
                pieces=tuple(
                    PieceLength(name, length_nm, typed)
                    for name, (length_nm, typed) in pieces.items()
                    if name in self.view.picked
                ),
                machine_id=self.view.machine_id,
                shift_nm=self.draft.get("shift_nm"),
                shift_typed=self.choice_of("shift_typed"),
                more=self.answers(),
            )
        )

    def finish_turf(self, step: str, sod_nm: int | None = None, sod_typed: str = "") -> None:
        """Ink a step of the turf over the open pass.

        The first strip that goes back on a surface in a day asks how thick its sod is; who
        goes back from that question without an answer is not asked again.
        """
        view = self.view
        is_asked = self.choice_of("sod_asked") == view.surface_id
        if step == "put_back" and sod_nm is None and not view.sod_text and not is_asked:
            self.keep_draft(sod_asked=view.surface_id)
            self.ask("sod")
            return
        self.do(
            LogTurf(
                surface_id=view.surface_id,
                line_ids=tuple(line.line_id for line in self.card.lines),
                step=step,
                pass_id=self.card.pass_id,
                sod_nm=sod_nm,
                sod_typed=sod_typed,
            )
        )

    def probe(self, depth_nm: int, depth_typed: str) -> None:
        """Ink one depth at the place on the screen; with the width if one was typed for it."""
        place = self.place_now()
        if place is None:
            return
        self.shell.do(
            LogProbe(
                pass_id=self.card.pass_id,
                line_id=place.line_id,
                along_nm=place.along_nm,
                along_typed=self.choice_of("along_typed"),
                depth_nm=depth_nm,
                depth_typed=depth_typed,
                width_nm=self.draft.get("width_nm"),
                width_typed=self.choice_of("width_typed"),
            ),
            self.after_command,
            getattr(self.part, "show_not_inked", None),
        )

    def after_command(self, changed: Any) -> None:
        """Go on from what was inked."""
        self.drop_typed()
        last = changed.entries[-1]
        if last.kind == "pass":
            for question in self.view.questions:
                self.filling.forget(question.step.field)
            kept = {**_ONE_PASS, **_ONE_DRIVE, "picked": []}
            self.keep_draft(**kept, pass_id=last.body.pass_id, part="probe")
        elif last.kind == "probe":
            part = "written" if self.choice_of("fix") else "probe"
            self.keep_draft(**_ONE_PASS, part=part)
        elif last.kind == "blade_set":
            self.keep_draft(part="more")
        elif last.kind == "struck":
            self.keep_draft(**_ONE_PASS, part="written")
        elif last.kind == "pipe_laid":
            self.keep_draft(pipe_line="", joined=False, capped=False)  # told for each line anew
