"""Entries of the day: hours, weather, delays, photos, answers, signatures."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from models.entries.bodies.passes import NOTE
from models.entries.body import Body
from models.entries.shows import Quantity, Shows
from models.plan.field_types import Count, IsoDay, Label, Minutes, Span, TenthsC, Typed, Ug, Words

Answer = Literal["accept", "rework", "waive"]
Coordinate = Annotated[int, Field(strict=True, ge=0, le=10_000)]


class Hours(Body):
    """Hours of one person or one machine on one day."""

    kind: ClassVar[str] = "hours"

    of: Annotated[Literal["person", "machine"], Shows(label="Of", quantity=Quantity.CHOICE)] = (
        Field(description="whose hours")
    )
    who: Annotated[Label, Shows(label="Who", quantity=Quantity.NAME, column="who")] = Field(
        description="person_id or machine_id"
    )
    run_min: Annotated[Minutes, Shows(label="Run", quantity=Quantity.MINUTES, column="run")] = (
        Field(description="worked or running, minutes")
    )
    idle_min: Annotated[
        Minutes, Shows(label="Idle", quantity=Quantity.MINUTES, column="idle", said="idle {value}")
    ] = Field(default=0, description="standing by, minutes")
    down_min: Annotated[
        Minutes, Shows(label="Down", quantity=Quantity.MINUTES, column="down", said="down {value}")
    ] = Field(default=0, description="broken down, minutes")
    note: Annotated[Words, NOTE] = Field(default="", description="remarks")


class Weather(Body):
    """Weather and ground at a time of the day."""

    kind: ClassVar[str] = "weather"

    sky: Annotated[
        Literal["clear", "cloud", "rain", "storm", "fog", "snow"],
        Shows(label="Sky", quantity=Quantity.CHOICE, column="sky"),
    ] = Field(description="sky")
    ground: Annotated[
        Literal["dry", "firm", "soft", "wet", "standing_water"],
        Shows(label="Ground", quantity=Quantity.CHOICE, column="ground"),
    ] = Field(description="ground")
    low_tenths_c: Annotated[
        TenthsC | None, Shows(label="Lowest", quantity=Quantity.TEMPERATURE)
    ] = Field(default=None, description="lowest, tenths of a degree C")
    high_tenths_c: Annotated[
        TenthsC | None, Shows(label="Highest", quantity=Quantity.TEMPERATURE)
    ] = Field(default=None, description="highest, tenths of a degree C")
    temperature_typed: Annotated[Typed, Shows(label="Temperature", quantity=Quantity.WORDS)] = (
        Field(default="", description="temperature as typed")
    )
    rain_nm: Annotated[
        Span | None,
        Shows(label="Rain", quantity=Quantity.DEPTH, column="rain", said="rain {value}"),
    ] = Field(default=None, description="rain since the last reading, nm")
    rain_typed: Typed = Field(default="", description="rain as typed")
    wind: Annotated[
        Words, Shows(label="Wind", quantity=Quantity.WORDS, column="note", said="wind {value}")
    ] = Field(default="", description="wind, in words")


class Delay(Body):
    """Time lost and why."""

    kind: ClassVar[str] = "delay"

    cause: Annotated[Label, Shows(label="Cause", quantity=Quantity.NAME, column="what")] = Field(
        description="why work stopped"
    )
    start_min: Annotated[
        Minutes | None,
        Shows(label="Start", quantity=Quantity.TIME_OF_DAY, column="start", said="from {value}"),
    ] = Field(default=None, description="start, minutes after midnight")
    lost_min: Annotated[Minutes, Shows(label="Lost", quantity=Quantity.MINUTES, column="lost")] = (
        Field(description="time lost, minutes")
    )
    note: Annotated[Words, NOTE] = Field(default="", description="remarks")


class Note(Body):
    """Anything else worth writing down."""

    kind: ClassVar[str] = "note"

    text: Annotated[
        str,
        Field(min_length=1, max_length=4000),
        Shows(label="Note", quantity=Quantity.WORDS, column="note"),
    ] = Field(description="the note")
    needs_owner: Annotated[
        bool, Shows(label="For the owner", quantity=Quantity.YES_NO, column="owner")
    ] = Field(default=False, description="the owner must decide or act")


class Photo(Body):
    """A photo, kept as a file named by its content."""

    kind: ClassVar[str] = "photo"

    sha256: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")] = Field(
        description="SHA-256 of the file"
    )
    suffix: Literal["jpg", "png"] = Field(default="jpg", description="kind of picture")
    caption: Words = Field(default="", description="what it shows and which way it looks")
    where: Words = Field(default="", description="where it was taken")


class Tomorrow(Body):
    """What the next day needs."""

    kind: ClassVar[str] = "tomorrow"

    work: Words = Field(default="", description="what is to be done")
    must_be_clear: Words = Field(default="", description="ground that must be free for the crew")
    sand_ug: Ug | None = Field(default=None, description="sand to call in, ug")
    sand_typed: Typed = Field(default="", description="sand as typed")


class Disposition(Body):
    """The answer to a flag: by whom and why is in the envelope and here."""

    kind: ClassVar[str] = "disposition"

    flag: Annotated[str, Field(min_length=1, max_length=300)] = Field(
        description="key of the flag answered"
    )
    figures: Annotated[str, Field(max_length=64)] = Field(
        description="digest of the facts it was answered for"
    )
    said: Words = Field(default="", description="the flag as it read when it was answered")
    answer: Answer = Field(description="accept as is, rework, or waive")
    why: Annotated[str, Field(min_length=1, max_length=4000)] = Field(description="reason")


class Signature(Body):
    """A signature as drawn, for a day."""

    kind: ClassVar[str] = "signature"

    of_day: IsoDay = Field(description="day signed for")
    role: Literal["foreman", "owner"] = Field(description="who signs")
    name: Label = Field(description="name of the signer")
    meaning: Literal["true_record", "received", "agreed"] = Field(description="what it says")
    strokes: tuple[tuple[tuple[Coordinate, Coordinate], ...], ...] = Field(
        description="pen strokes, points in thousandths of the box's width"
    )
    check_code: Annotated[str, Field(max_length=80)] = Field(
        default="", description="check code of the entries signed for"
    )


class DayClosed(Body):
    """The day is done and its sheet stands."""

    kind: ClassVar[str] = "day_closed"

    of_day: IsoDay = Field(description="day closed")
    open_flags: Count = Field(description="flags that stood open when it was closed")
    check_code: Annotated[str, Field(max_length=80)] = Field(
        description="check code of the entries it closes over"
    )


class DayReopened(Body):
    """A closed day is taken up again, and why."""

    kind: ClassVar[str] = "day_reopened"

    of_day: IsoDay = Field(description="day reopened")
    why: Annotated[str, Field(min_length=1, max_length=4000)] = Field(description="reason")


class Struck(Body):
    """Crosses out entries and puts nothing in their place."""

    kind: ClassVar[str] = "struck"

    why: Annotated[str, Field(min_length=1, max_length=4000)] = Field(description="reason")
