"""Slit work of the demo: a pass cut, its probes, its sand, its pipe."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from crewapp.commands.loads import PlaceHopper
from crewapp.commands.passes import LayPipe, LogPass, LogProbe, PlaceSand
from crewapp.demo.typist import Typist, eighths
from crewapp.job.dispatch import do
from models.entries.bodies.passes import PassCut
from models.entries.kind_names import MACHINE, PASS, SURFACE
from models.queries.layout.drive_pieces import plan_pass

_FT_NM = 304_800_000
_LONG_FT = 25
SAND = "slit sand"
DESIGN_EIGHTHS = 72
"""The slits are 9 in deep."""


def cut(
    typist: Typist, surface_id: str, *line_ids: str, machine: str, minutes: int, shift: str = ""
) -> str:
    """Cut one pass along its lines, measured to the last half foot; return its name."""
    state = typist.job.state
    surface, cutter = state.latest(SURFACE, surface_id), state.latest(MACHINE, machine)
    assert surface is not None
    driven_nm = plan_pass(state, surface, line_ids, cutter).length_nm
    halves = driven_nm * 2 // _FT_NM
    typed = f"{halves / 2:g}"
    changed = do(
        typist.job,
        LogPass(
            surface_id=surface_id,
            line_ids=line_ids,
            length_nm=typist.feet(typed),
            length_typed=typed,
            machine_id=machine,
            shift_nm=typist.inches(shift) if shift else None,
            shift_typed=shift,
            run_min=minutes,
        ),
    )
    body = changed.entries[0].body
    assert isinstance(body, PassCut)
    typist.wait(60 * minutes)
    return body.pass_id


def places_ft(length_nm: int, gap_ft: int) -> list[int]:
    """Whole feet along a line where probes are taken: near both ends, no gap too wide."""
    last = length_nm // _FT_NM - 2
    gaps = max(1, -(-(last - 2) // gap_ft))
    return [2 + round(Fraction((last - 2) * place, gaps)) for place in range(gaps + 1)]


def probe(
    typist: Typist,
    pass_id: str,
    line_id: str,
    depths: Sequence[int] = (),
    *,
    gap_ft: int,
    skip: int = 0,
) -> None:
    """Probe a line from end to end.

    ``depths`` are eighths of an inch, for the places where the story needs
    them; beyond them the ground decides, round the design. ``skip`` leaves out
    places that have been probed already.
    """
    found = typist.job.state.latest(PASS, pass_id)
    assert isinstance(found, PassCut)
    line = typist.line(found.surface_id, line_id)
    for number, along_ft in enumerate(places_ft(line.length_nm, gap_ft)):
        if number < skip:
            continue
        uneven = typist.chance.choice((-2, -1, -1, 0, 0, 0, 1, 1, 2, 3))
        depth = depths[number] if number < len(depths) else DESIGN_EIGHTHS + uneven
        probe_at(typist, pass_id, line_id, along_ft, depth, width=number == 0)


def probe_at(
    typist: Typist, pass_id: str, line_id: str, along_ft: int, depth: int, *, width: bool = False
) -> str:
    """Take one probe; return the id of its entry."""
    typist.wait(18, 50)
    across = eighths(typist.chance.choice((8, 8, 8, 9))) if width else ""
    changed = do(
        typist.job,
        LogProbe(
            pass_id=pass_id,
            line_id=line_id,
            along_nm=typist.feet(str(along_ft)),
            along_typed=str(along_ft),
            depth_nm=typist.inches(eighths(depth)),
            depth_typed=eighths(depth),
            width_nm=typist.inches(across) if across else None,
            width_typed=across,
        ),
    )
    return changed.entries[0].id


def fill_by_hopper(
    typist: Typist, surface_id: str, pass_id: str, tenths: int, moisture: str
) -> None:
    """Fill the slits of a pass from the towed hopper."""
    typist.wait(120, 300)
    do(
        typist.job,
        PlaceHopper(
            surface_id=surface_id,
            material_id=SAND,
            pass_id=pass_id,
            loads_tenths=tenths,
            moisture=moisture,
        ),
    )


def fill_by_barrow(typist: Typist, surface_id: str, pass_id: str, share: Fraction) -> None:
    """Fill the slit of a pass by barrow, to a share of the volume that was cut."""
    typist.wait(100, 240)
    found = typist.job.state.latest(PASS, pass_id)
    assert isinstance(found, PassCut)
    cut_nm = sum(piece.length_nm for piece in found.pieces)
    cut_ft3 = Fraction(cut_nm, _FT_NM) * Fraction(9, 144)
    placed_ft3 = float(cut_ft3 * share)
    typed = f"{placed_ft3:.1f} ft3" if placed_ft3 >= 1 else f"{placed_ft3:.2f} ft3"
    do(
        typist.job,
        PlaceSand(
            surface_id=surface_id,
            material_id=SAND,
            pass_id=pass_id,
            volume_pl=typist.job.figures.read_volume(typed),
            amount_typed=typed,
        ),
    )


def pipe(typist: Typist, surface_id: str, line_id: str, coil_id: str, *, joined: bool) -> None:
    """Lay pipe on the floor of a piped slit; a long one has a foot to spare for its tail."""
    typist.wait(90, 200)
    whole_ft = typist.line(surface_id, line_id).length_nm // _FT_NM
    typed = str(whole_ft + (whole_ft >= _LONG_FT))
    do(
        typist.job,
        LayPipe(
            surface_id=surface_id,
            line_id=line_id,
            material_id="1 in slit pipe",
            coil_id=coil_id,
            length_nm=typist.feet(typed),
            length_typed=typed,
            connected=joined,
            end_capped=True,
        ),
    )
