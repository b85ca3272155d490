"""Entries of collector work other than levels: layers, hold points, protection."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from models.entries.bodies.passes import COLLECTOR, NOTE
from models.entries.body import Body
from models.entries.shows import Quantity, Shows
from models.plan.collector import Layer
from models.plan.field_types import Coordinate, Label, Latitude, Longitude, Nm, Span, Typed, Words

_FROM = Shows(label="From", quantity=Quantity.STATION, column="from")
_TO = Shows(label="To", quantity=Quantity.STATION, column="to")

PlacedBy = Literal["plane", "line", "collector", "ties", "none", "position"]
"""What a place was told by; a position is the tablet's own, never a survey."""

POSITION = frozenset({"placed_by", "lat_ndeg", "lon_ndeg", "placed_sd_nm"})
"""Fields of a place by position, which came later."""

_PLACED_BY = "what its place was told by; null: by its coordinates, where it has any"
_LATITUDE = "latitude as the tablet had it, WGS 84, billionths of a degree, north positive"
_LONGITUDE = "longitude as the tablet had it, WGS 84, billionths of a degree, east positive"
_GOOD_TO = "radius within which the tablet holds the position for likelier than not, nm"


class LayerCheck(Body):
    """A layer of the collector placed and looked at, from station to station."""

    kind: ClassVar[str] = "layer_check"

    collector_id: Annotated[Label, COLLECTOR] = Field(description="collector")
    from_nm: Annotated[Nm, _FROM] = Field(description="lower station, nm")
    to_nm: Annotated[Nm, _TO] = Field(description="upper station, nm")
    layer: Annotated[Layer, Shows(label="Layer", quantity=Quantity.CHOICE, column="layer")] = Field(
        description="which layer"
    )
    thickness_nm: Annotated[
        Span | None,
        Shows(label="Thickness", quantity=Quantity.DEPTH, column="thickness"),
    ] = Field(default=None, description="least thickness measured, nm")
    thickness_typed: Typed = Field(default="", description="thickness as typed")
    continuous: Annotated[
        bool | None, Shows(label="Continuous", quantity=Quantity.YES_NO, column="continuous")
    ] = Field(default=None, description="tracer wire: a signal was traced from end to end")
    note: Annotated[Words, NOTE] = Field(default="", description="remarks")


class HoldPoint(Body):
    """Leave given to cover a length of the collector."""

    kind: ClassVar[str] = "hold_point"

    collector_id: Annotated[Label, COLLECTOR] = Field(description="collector")
    from_nm: Annotated[Nm, _FROM] = Field(description="lower station, nm")
    to_nm: Annotated[Nm, _TO] = Field(description="upper station, nm")
    released_by: Annotated[
        Label, Shows(label="Released by", quantity=Quantity.NAME, column="by", choices="person")
    ] = Field(description="who accepted the work")
    note: Annotated[Words, NOTE] = Field(default="", description="what was looked at")


class TrenchProtection(Body):
    """How people in a trench are kept safe, judged by a competent person."""

    kind: ClassVar[str] = "trench_protection"

    collector_id: Annotated[Label, COLLECTOR] = Field(description="collector")
    from_nm: Annotated[Nm, _FROM] = Field(description="lower station, nm")
    to_nm: Annotated[Nm, _TO] = Field(description="upper station, nm")
    depth_nm: Annotated[Span, Shows(label="Depth", quantity=Quantity.DEPTH, column="depth")] = (
        Field(description="greatest depth, nm")
    )
    depth_typed: Typed = Field(default="", description="depth as typed")
    protection: Annotated[
        Literal["sloped", "shored", "shield", "nobody_enters", "judged_stable", "stable_rock"],
        Shows(label="Protection", quantity=Quantity.CHOICE, column="step"),
    ] = Field(description="protection in place")
    judged_by: Annotated[
        Label, Shows(label="Judged by", quantity=Quantity.NAME, column="by", choices="person")
    ] = Field(description="competent person who looked at it")


class GoAhead(Body):
    """Work gone on with although what guards people is missing, and why."""

    kind: ClassVar[str] = "go_ahead"

    place: Label = Field(description="surface or collector")
    missing: Literal["locate_ticket", "trench_protection"] = Field(
        description="what was missing when work went on"
    )
    reason: Label = Field(description="why it went on")


class UtilityMet(Body):
    """Something found in the ground, or hit."""

    kind: ClassVar[str] = "utility"
    left_out: ClassVar[frozenset[str]] = POSITION

    event: Annotated[
        Literal["found", "hit"], Shows(label="Event", quantity=Quantity.CHOICE, column="step")
    ] = Field(description="found whole, or hit")
    what: Annotated[Label, Shows(label="What", quantity=Quantity.NAME, column="what")] = Field(
        description="what it is: irrigation, electric, gas, water..."
    )
    where: Annotated[Words, Shows(label="Where", quantity=Quantity.WORDS, column="where")] = Field(
        description="where, in words a stranger can follow"
    )
    x_nm: Coordinate | None = Field(default=None, description="east of the local origin, nm")
    y_nm: Coordinate | None = Field(default=None, description="north of the local origin, nm")
    depth_nm: Annotated[
        Span | None,
        Shows(label="Depth", quantity=Quantity.DEPTH, column="depth", said="{value} deep"),
    ] = Field(default=None, description="depth below turf, nm")
    depth_typed: Typed = Field(default="", description="depth as typed")
    action: Annotated[Words, replace(NOTE, label="Done about it")] = Field(
        default="", description="what was done about it"
    )
    placed_by: PlacedBy | None = Field(default=None, description=_PLACED_BY)
    lat_ndeg: Latitude | None = Field(default=None, description=_LATITUDE)
    lon_ndeg: Longitude | None = Field(default=None, description=_LONGITUDE)
    placed_sd_nm: Span | None = Field(default=None, description=_GOOD_TO)


class OutletSeen(Body):
    """An outlet as it was seen: whether it runs, and where it is."""

    kind: ClassVar[str] = "outlet_seen"
    left_out: ClassVar[frozenset[str]] = frozenset(
        {"invert_nm", "invert_typed", "water_nm", "water_typed"}
    )

    outlet_id: Annotated[
        Label, Shows(label="Outlet", quantity=Quantity.NAME, column="outlet", notes="collector")
    ] = Field(description="outlet; the name of its collector where it has none of its own")
    flows: Annotated[
        Literal["free", "slow", "blocked", "dry"],
        Shows(label="Runs", quantity=Quantity.CHOICE, column="flows", notes="step"),
    ] = Field(description="how it runs")
    note: Annotated[Words, NOTE] = Field(
        default="", description="where it is, and what else was seen"
    )
    invert_nm: Annotated[
        Nm | None,
        Shows(label="Invert", quantity=Quantity.LEVEL, column="invert", said="invert {value}"),
    ] = Field(default=None, description="invert there as measured, nm above datum")
    invert_typed: Typed = Field(default="", description="invert as typed")
    water_nm: Annotated[
        Nm | None,
        Shows(label="Water", quantity=Quantity.LEVEL, column="water", said="water at {value}"),
    ] = Field(default=None, description="level of the water that stands there, nm above datum")
    water_typed: Typed = Field(default="", description="water level as typed")
    placed_by: PlacedBy | None = Field(default=None, description=_PLACED_BY)
    lat_ndeg: Latitude | None = Field(default=None, description=_LATITUDE)
    lon_ndeg: Longitude | None = Field(default=None, description=_LONGITUDE)
    placed_sd_nm: Span | None = Field(default=None, description=_GOOD_TO)
