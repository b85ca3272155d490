"""Commands of passes, probes, turf, sand and pipe along the slits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True)
class PieceLength:
    """Length of what was cut of one line, as it was measured for itself."""

    line_id: str
    length_nm: int
    length_typed: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LogPass(Command):
    """Log one drive of the machine; the pass is named here unless a name is given.

    The length is the drive's, first blade in to last blade out; what it comes to in each
    line is worked out from the plan, but for ``pieces`` that were measured for themselves.
    """

    surface_id: str
    line_ids: tuple[str, ...]
    length_nm: int
    length_typed: str
    machine_id: str = ""
    pass_id: str = ""
    shift_nm: int | None = None
    shift_typed: str = ""
    run_min: int | None = None
    note: str = ""
    pieces: tuple[PieceLength, ...] = ()
    more: Mapping[str, object] = field(default_factory=dict)
    """Answers to further questions about a pass, by the fields of its body."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogProbe(Command):
    """Log one depth reading on a line of a pass."""

    pass_id: str
    line_id: str
    along_nm: int
    depth_nm: int
    depth_typed: str
    along_typed: str = ""
    width_nm: int | None = None
    width_typed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogTurf(Command):
    """Log the turf strip lifted, put back or rolled over lines."""

    surface_id: str
    line_ids: tuple[str, ...]
    step: str
    pass_id: str = ""
    sod_nm: int | None = None
    sod_typed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetBlade(Command):
    """Log that a blade of a machine, or all of them, was changed, sharpened or set."""

    machine_id: str
    what: str
    leg: int = 0
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceSand(Command):
    """Log sand put into the slits of a pass, by volume or by mass."""

    surface_id: str
    material_id: str
    pass_id: str = ""
    volume_pl: int | None = None
    mass_ug: int | None = None
    amount_typed: str = ""
    hoppers_tenths: int | None = None
    moisture: str = "dry"


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterIn(Command):
    """Log the sand of a pass, or of a surface, watered in."""

    surface_id: str
    pass_id: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LayPipe(Command):
    """Log pipe laid in a piped slit or in a collector."""

    material_id: str
    length_nm: int
    length_typed: str
    surface_id: str = ""
    line_id: str = ""
    collector_id: str = ""
    coil_id: str = ""
    connected: bool = False
    end_capped: bool = False
