"""Loads: tickets in, hoppers out, coils and spoil, and the balance of each material."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, ClassVar

from crewapp.commands.loads import HaulSpoil, PlaceHopper, SetHopper, TakeDelivery
from crewapp.kit.input.plausible import Band
from crewapp.kit.input.work_fields import run_field, ticket_field, volume_field, weight_field
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import PartedPage
from crewapp.pages.loads.view import LoadsView, MaterialRow, ShowLoads, amount_field
from crewapp.pages.passes.figure_requests import HOPPER_PL, moisture_question, moistures
from crewapp.words.translate import say
from models.units import PL_PER, VolumeUnit

SPOIL_PL = Band(PL_PER[VolumeUnit.L] * 50, 20 * PL_PER[VolumeUnit.YD3])
_NO_LOAD: dict[str, Any] = {"material_id": "", "ticket": "", "has_ticket": False}


class LoadsPage(PartedPage):
    """The page of what comes in and goes out."""

    name: ClassVar[str] = "loads"
    parts: ClassVar[dict[str, str]] = {
        "home": "crewapp.pages.loads.home_part:LoadsHomePart",
        "delivery": "crewapp.pages.loads.delivery_part:DeliveryPart",
        "balance": "crewapp.pages.loads.lists_part:BalancePart",
        "coils": "crewapp.pages.loads.lists_part:CoilsPart",
        "today": "crewapp.pages.loads.lists_part:TodayLoadsPart",
        "strike": "crewapp.pages.loads.lists_part:LoadStrikePart",
    }

    def query(self) -> ShowLoads:
        """Ask for all loads of the job."""
        return ShowLoads()

    def caution(self) -> str:
        """Say what sand and trucks can do."""
        return say("Sand dust harms lungs: wet it, wear a mask. Stay clear of reversing trucks.")

    def part_name(self) -> str:
        """Return the part kept in the draft; a delivery needs its material."""
        name = super().part_name()
        return "home" if name == "delivery" and self.material is None else name

    def choice_of(self, name: str) -> str:
        """Return a choice kept in the draft as text."""
        return str(self.draft.get(name) or "")

    @property
    def material(self) -> MaterialRow | None:
        """The material that is being taken in."""
        view = self.view
        return view.material(self.choice_of("material_id")) if isinstance(view, LoadsView) else None

    @property
    def sand_id(self) -> str:
        """The sand that hoppers bring out: the one chosen, or the job's first."""
        names = [one.material_id for one in self.view.sands]
        chosen = self.choice_of("sand_id")
        return chosen if chosen in names else next(iter(names), "")

    def start_delivery(self, material_id: str) -> None:
        """Begin a delivery with the question of its ticket."""
        self.turn_to("delivery", **{**_NO_LOAD, "material_id": material_id})
        self.ask("ticket")

    def take_ticket(self, ticket: str) -> None:
        """Keep the ticket, or that there is none, and ask for the amount."""
        self.drop_typed()
        self.turn_to("delivery", ticket=ticket, has_ticket=True)
        if self.material is not None:
            self.ask(amount_field(self.material))

    def deliver(self, text: str, moisture: str, **amount: Any) -> None:
        """Ink the load of the delivery."""
        material = self.material
        if material is None:
            return
        is_coil = material.is_coiled and "length_nm" in amount
        self.do(
            TakeDelivery(
                material_id=material.material_id,
                ticket=self.choice_of("ticket"),
                amount_typed=text,
                moisture=moisture or None,
                coil_id=self.view.next_coil if is_coil else "",
                **amount,
            )
        )

    def load_hopper(self, tenths: int, moisture: str) -> None:
        """Ink one hopper load into the pass that is open, or the surface."""
        is_whole = self.choice_of("into") == "surface"
        self.do(
            PlaceHopper(
                surface_id=self.view.surface_id,
                material_id=self.sand_id,
                pass_id="" if is_whole else self.view.pass_id,
                loads_tenths=tenths,
                moisture=moisture,
            )
        )

    def after_command(self, changed: Any) -> None:
        """Go on from what was inked."""
        self.drop_typed()
        kind = changed.entries[-1].kind
        if kind == "delivery":
            self.keep_draft(**_NO_LOAD, part="home")
        elif kind == "struck":
            self.keep_draft(strike_id="", part="today")

    def pad_question(self, field: str) -> PadQuestion | None:
        """Return what to ask for one of this page's fields."""
        if not isinstance(self.view, LoadsView) or field not in _ASKED:
            return None
        if field in _NEEDS_MATERIAL and self.material is None:
            return None
        return _ASKED[field](self)

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take a figure from the pad; an amount keeps its unit, for it may be any of three."""
        asked = self.pad_question(field)
        unit = asked.spec.unit if asked is not None else ""
        _TAKEN[field](self, value, f"{text} {unit}".strip(), ending)


def _endings(page: LoadsPage) -> tuple[tuple[str, str], ...]:
    """Return the keys that end an amount: sand is felt as it comes off the truck."""
    return moistures() if page.material is not None and page.material.use == "sand" else ()


def _ask_amount(page: LoadsPage, spec: Any) -> PadQuestion:
    ticket = page.choice_of("ticket")
    place = say("ticket {ticket}", ticket=ticket) if ticket else say("no ticket")
    return PadQuestion(spec, place, _endings(page), moisture_question())


def _name(page: LoadsPage) -> str:
    return page.material.material_id if page.material is not None else ""


_ASKED: dict[str, Callable[[LoadsPage], PadQuestion]] = {
    "ticket": lambda page: PadQuestion(
        ticket_field(say("Ticket"), page.view.ticket_letters), _name(page)
    ),
    "weight": lambda page: _ask_amount(page, weight_field(page.view.figures, _name(page))),
    "volume": lambda page: _ask_amount(page, volume_field(page.view.figures, _name(page))),
    "length": lambda page: _ask_amount(page, run_field(page.view.figures, _name(page))),
    "spoil": lambda page: PadQuestion(
        volume_field(page.view.figures, say("Spoil away"), SPOIL_PL), page.view.surface_name
    ),
    "hopper": lambda page: PadQuestion(
        volume_field(page.view.figures, say("One full hopper"), HOPPER_PL), page.sand_id
    ),
}
_NEEDS_MATERIAL = frozenset({"ticket", "weight", "volume", "length"})
_TAKEN: dict[str, Callable[[LoadsPage, int, str, str], None]] = {
    "ticket": lambda page, _value, text, _ending: page.take_ticket(text),
    "weight": lambda page, value, text, ending: page.deliver(text, ending, mass_ug=value),
    "volume": lambda page, value, text, ending: page.deliver(text, ending, volume_pl=value),
    "length": lambda page, value, text, ending: page.deliver(text, ending, length_nm=value),
    "spoil": lambda page, value, text, _ending: page.do(
        HaulSpoil(volume_pl=value, volume_typed=text, surface_id=page.view.surface_id)
    ),
    "hopper": lambda page, value, _text, _ending: page.do(
        SetHopper(material_id=page.sand_id, hopper_pl=value)
    ),
}
