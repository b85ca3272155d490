"""The figures that the Pass page asks for, and where each of them goes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from crewapp.commands.entries import Correct
from crewapp.commands.loads import SetHopper
from crewapp.kit.input.plausible import Band
from crewapp.kit.input.work_fields import (
    depth_field,
    run_field,
    shift_field,
    volume_field,
    weight_field,
    width_field,
)
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.words.translate import say
from models.units import PL_PER, UG_PER, MassUnit, VolumeUnit

# What goes into one pass: a barrow to some hoppers.
PASS_PL = Band(PL_PER[VolumeUnit.L] * 5, 4 * PL_PER[VolumeUnit.YD3])
PASS_UG = Band(UG_PER[MassUnit.KG] * 5, 6 * UG_PER[MassUnit.TON])
HOPPER_PL = Band(PL_PER[VolumeUnit.L] * 50, 5 * PL_PER[VolumeUnit.YD3])


@dataclass(frozen=True, slots=True)
class FigureRequest:
    """How the pad asks for a field; most need a pass that is open."""

    ask: Callable[[Any], PadQuestion | None]
    needs_pass: bool = True


def moistures() -> tuple[tuple[str, str], ...]:
    """Return how sand can feel, as keys that end the pad."""
    return (("dry", say("dry")), ("damp", say("damp")), ("wet", say("wet")))


def moisture_question() -> str:
    """Return the question that those keys answer."""
    return say("Enter by how the sand feels.")


def _length(page: Any) -> PadQuestion:
    view = page.view
    spec = run_field(view.figures, say("Length driven"), view.planned_nm or None)
    return PadQuestion(spec, ", ".join(view.picked))


def _shift(page: Any) -> PadQuestion:
    return PadQuestion(shift_field(page.view.figures, say("Shift from the pass before")))


def _sod(page: Any) -> PadQuestion:
    spec = depth_field(page.view.figures, say("Thickness of the sod"), None)
    return PadQuestion(spec)


def _limits(page: Any, line_id: str) -> Any:
    line = page.card.line(line_id)
    return line.limits if line is not None else None


def _at(page: Any, line_id: str, along_nm: int) -> str:
    length = page.view.figures.length(along_nm)
    return str(say("{line} at {along}", line=line_id, along=length))


def _depth(page: Any) -> PadQuestion | None:
    place = page.place_now()
    if place is None:
        return None
    limits = _limits(page, place.line_id)
    spec = depth_field(page.view.figures, say("Depth"), limits.design_nm if limits else None)
    return PadQuestion(spec, _at(page, place.line_id, place.along_nm))


def _fix_depth(page: Any) -> PadQuestion | None:
    row = next(
        (one for one in page.card.written if one.entry_id == page.choice_of("strike_id")), None
    )
    if row is None or row.is_struck or row.kind != "probe":
        return None
    limits = _limits(page, row.line_id)
    name = say("Depth as it was read")
    spec = depth_field(page.view.figures, name, limits.design_nm if limits else None)
    return PadQuestion(spec, _at(page, row.line_id, row.along_nm))


def _width(page: Any) -> PadQuestion:
    place = page.place_now()
    limits = _limits(page, place.line_id) if place else None
    return PadQuestion(
        width_field(page.view.figures, say("Width"), limits.width_nm if limits else None)
    )


def _along(page: Any) -> PadQuestion:
    place = page.place_now()
    line_id = page.choice_of("line_id") or (place.line_id if place else page.card.lines[0].line_id)
    name = say("Distance from the start")
    line = page.card.line(line_id)
    end_nm = line.to_nm if line is not None else page.card.length_nm
    return PadQuestion(run_field(page.view.figures, name, None, end_nm), line_id)


def _sand_volume(page: Any) -> PadQuestion:
    spec = volume_field(page.view.figures, say("Sand"), PASS_PL)
    return PadQuestion(spec, page.card.pass_id, moistures(), moisture_question())


def _sand_weight(page: Any) -> PadQuestion:
    spec = weight_field(page.view.figures, say("Sand"), PASS_UG)
    return PadQuestion(spec, page.card.pass_id, moistures(), moisture_question())


def _hopper(page: Any) -> PadQuestion:
    return PadQuestion(volume_field(page.view.figures, say("One full hopper"), HOPPER_PL))


def _pipe(page: Any) -> PadQuestion:
    line = page.card.line(page.part.line_id)
    slit_nm = line.length_nm if line is not None else page.card.length_nm
    spec = run_field(page.view.figures, say("Length of pipe"), slit_nm)
    return PadQuestion(spec, page.part.line_id)


def _piece(page: Any) -> PadQuestion:
    line_id = page.choice_of("piece_line")
    name = say("Length of this piece")
    length_nm = sum(
        one.to_nm - one.from_nm for one in page.view.drive.stretches if one.line_id == line_id
    )
    return PadQuestion(run_field(page.view.figures, name, length_nm or None), line_id)


ASKED: dict[str, FigureRequest] = {
    "length": FigureRequest(_length, needs_pass=False),
    "shift": FigureRequest(_shift, needs_pass=False),
    "sod": FigureRequest(_sod),
    "piece": FigureRequest(_piece, needs_pass=False),
    "depth": FigureRequest(_depth),
    "fix_depth": FigureRequest(_fix_depth),
    "width": FigureRequest(_width),
    "along": FigureRequest(_along),
    "sand_volume": FigureRequest(_sand_volume),
    "sand_weight": FigureRequest(_sand_weight),
    "hopper": FigureRequest(_hopper),
    "pipe": FigureRequest(_pipe),
}


def _take_length(page: Any, value: int, text: str, _ending: str) -> None:
    page.cut(value, text)


def _take_piece(page: Any, value: int, text: str, _ending: str) -> None:
    page.drop_typed()
    page.keep_piece(value, text)


def _take_shift(page: Any, value: int, text: str, _ending: str) -> None:
    page.drop_typed()
    page.keep_draft(shift_nm=value, shift_typed=text)
    page.fill()


def _take_sod(page: Any, value: int, text: str, _ending: str) -> None:
    page.drop_typed()
    page.finish_turf("put_back", value, text)


def _take_depth(page: Any, value: int, text: str, _ending: str) -> None:
    page.part.take(value, text)


def _take_fix(page: Any, value: int, text: str, _ending: str) -> None:
    page.do(
        Correct(
            entry_id=page.choice_of("strike_id"),
            reason=page.choice_of("fix"),
            fields={"depth_nm": value, "depth_typed": text},
        )
    )


def _take_width(page: Any, value: int, text: str, _ending: str) -> None:
    page.drop_typed()
    page.turn_to("probe", width_nm=value, width_typed=text)


def _take_along(page: Any, value: int, text: str, _ending: str) -> None:
    page.drop_typed()
    place = page.place_now()
    line_id = page.choice_of("line_id") or (place.line_id if place else page.card.lines[0].line_id)
    page.turn_to("probe", line_id=line_id, along_nm=value, along_typed=text)


def _take_volume(page: Any, value: int, text: str, ending: str) -> None:
    typed = f"{text} {_sand_volume(page).spec.unit}"
    page.part.place_sand(ending, amount_typed=typed, volume_pl=value)


def _take_weight(page: Any, value: int, text: str, ending: str) -> None:
    typed = f"{text} {_sand_weight(page).spec.unit}"
    page.part.place_sand(ending, amount_typed=typed, mass_ug=value)


def _take_hopper(page: Any, value: int, _text: str, _ending: str) -> None:
    page.do(SetHopper(material_id=page.part.material_id, hopper_pl=value))


def _take_pipe(page: Any, value: int, text: str, _ending: str) -> None:
    page.part.lay(value, text)


TAKEN: dict[str, Callable[[Any, int, str, str], None]] = {
    "length": _take_length,
    "shift": _take_shift,
    "sod": _take_sod,
    "piece": _take_piece,
    "depth": _take_depth,
    "fix_depth": _take_fix,
    "width": _take_width,
    "along": _take_along,
    "sand_volume": _take_volume,
    "sand_weight": _take_weight,
    "hopper": _take_hopper,
    "pipe": _take_pipe,
}
