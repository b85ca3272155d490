"""The tiles of the Plan screen: what can be typed or chosen, and how it stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from crewapp.kit.input.fall_field import fall_field
from crewapp.kit.input.fields import LengthEntry, count_field, length_field
from crewapp.kit.input.key_grammar import Grammar, KeyKind
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.kit.input.plausible import Band, Bands
from crewapp.pages.plan.question_fields import (
    RainField,
    ShapeField,
    ShapeTile,
    TermsField,
    TermsTile,
)
from crewapp.pages.plan.view import GatesView, PlanPageView, UseTerms
from crewapp.words.translate import say, translate_later
from models.units import NM_PER, LengthUnit, parse_bearing, show_bearing
from models.units.job_units import Figures

Field = TypeVar("Field", bound=str)
Texts = Mapping[str, Any]

_IN, _FT = NM_PER[LengthUnit.IN], NM_PER[LengthUnit.FT]
LEAST_SPACING_NM = 10_000_000  # what is odd above it is asked about once the lines are seen
MOST_UDEG, MOST_SIGNS = 360_000_000, 10
USE_NAMES = {
    "green": translate_later("green"),
    "field": translate_later("field"),
    "fairway": translate_later("fairway"),
}
SHORT_USES = {"sand_slit": translate_later("sand"), "piped_slit": translate_later("piped")}
SHAPE_NAMES = {
    "rectangle": translate_later("rectangle"),
    "circle": translate_later("circle"),
    "offsets": translate_later("baseline"),
    "file": translate_later("file"),
}


@dataclass(frozen=True, slots=True)
class Tile(Generic[Field]):
    """Tile of the Plan screen: what a tap on it asks for, its name, and its value."""

    field: Field
    name: str
    value: str


def bearing_field(name: str) -> FieldSpec:
    """Return a field for a bearing, degrees clockwise from the plan's north."""
    return FieldSpec(
        name=name,
        unit="deg",
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=3, places=2),
        parse=parse_bearing,
        show=show_bearing,
        bands=Bands(Band(0, MOST_UDEG - 1)),
    )


def narrow_field(figures: Figures, name: str, most_nm: int, least_nm: int = 1) -> FieldSpec:
    """Return a field for a spacing, width or depth."""
    entry = LengthEntry.INCHES if figures.is_us else LengthEntry.MM
    return length_field(name, entry, Bands(Band(least_nm, most_nm)))


def ground_field(
    figures: Figures, name: str, least_nm: int = 0, *, is_signed: bool = False
) -> FieldSpec:
    """Return a field for a length along the ground, up to 5,000 ft."""
    entry = LengthEntry.FEET_TENTHS if figures.is_us else LengthEntry.METRE_HUNDREDTHS
    lowest = -5000 * _FT if is_signed else least_nm
    return length_field(name, entry, Bands(Band(lowest, 5000 * _FT)), is_signed=is_signed)


def terms_fields(figures: Figures) -> dict[TermsField, FieldSpec]:
    """Return the fields of a layout's terms."""
    return {
        "spacing": narrow_field(figures, say("Spacing of the lines"), 600 * _IN, LEAST_SPACING_NM),
        "bearing": bearing_field(say("Bearing of the lines, from north, clockwise")),
        "setback": narrow_field(figures, say("Setback from the edge"), 999 * _IN, 0),
        "width": narrow_field(figures, say("Width of the slit"), 24 * _IN),
        "depth": narrow_field(figures, say("Depth of the slit"), 60 * _IN),
        "deepest": narrow_field(figures, say("Deepest that the machine cuts"), 60 * _IN),
        "first": narrow_field(figures, say("First line in from the left edge"), 600 * _IN, 0),
        "least": ground_field(figures, say("Shorter pieces are left out")),
        "turning": ground_field(figures, say("Least turning radius of the machine")),
    }


def shape_fields(figures: Figures) -> dict[ShapeField, FieldSpec]:
    """Return the fields of a new surface's shape."""
    return {
        "along": ground_field(figures, say("Length, along its bearing"), 1),
        "across": ground_field(figures, say("Width, square to that"), 1),
        "radius": ground_field(figures, say("Radius from its middle"), 1),
        "bearing": bearing_field(say("Bearing of its length, from north, clockwise")),
        "east": ground_field(figures, say("East of the plan's origin"), is_signed=True),
        "north": ground_field(figures, say("North of the plan's origin"), is_signed=True),
        "station": ground_field(figures, say("Station along the baseline")),
        "left": ground_field(figures, say("Offset to the left edge"), is_signed=True),
        "right": ground_field(figures, say("Offset to the right edge"), is_signed=True),
    }


def rain_fields(figures: Figures) -> dict[RainField, FieldSpec]:
    """Return the fields of what the gates are reckoned from; the figures are the entry's own."""
    rate = ("in/h", 25_400, 1) if figures.is_us else ("mm/h", 1000, 0)
    soil_rate = ("in/h", 25_400, 2) if figures.is_us else ("mm/h", 1000, 1)  # far slower
    return {
        "sand": _decimal(say("Water through the sand, saturated"), *rate, (1, 10**7)),
        "roughness": _decimal(say("Manning's n of the pipe"), "", 10**6, 4, (5_000, 50_000)),
        "rain": narrow_field(figures, say("Depth of the rain"), 40 * _IN),
        "rain_min": count_field(say("How long it rains"), "min", Bands(Band(1, 10_000))),
        "bore": narrow_field(figures, say("Bore of the pipe in the slits"), 12 * _IN),
        "fall": fall_field(figures, say("Fall of the pipe in the slits, % or 1:n")),
        "soil": _decimal(say("Water through the soil, saturated"), *soil_rate, (1, 10**7)),
        "layer": narrow_field(figures, say("Depth to the impermeable layer"), 400 * _IN),
    }


def price_field(item: str, per: str) -> FieldSpec:
    """Return a field for a price, in hundredths of the money used."""
    return _decimal(item, say("for {per}", per=per), 100, 2, (0, 10**10))


def _decimal(name: str, unit: str, per_unit: int, places: int, band: tuple[int, int]) -> FieldSpec:
    """Return a field typed with a point, kept in whole parts of its unit."""
    step = 10**places
    return FieldSpec(
        name=name,
        unit=unit,
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=6, places=places),
        parse=lambda text: _parts(text, step) * per_unit // step,
        show=lambda value: f"{value / per_unit:.{places}f} {unit}".strip(),
        bands=Bands(Band(*band)),
    )


def _parts(text: str, step: int) -> int:
    whole, _, rest = text.partition(".")
    places = len(str(step)) - 1
    return int(whole or "0") * step + int(rest.ljust(places, "0")[:places] or "0")


def typed_or_default(spec: FieldSpec, text: Any, otherwise: str = "") -> str:
    """Return a text as the figure it stands for; what was not typed otherwise."""
    if not text:
        return otherwise
    try:
        return spec.show(spec.parse(str(text)))
    except ValueError:
        return str(text)


def terms_tiles(view: PlanPageView, use: str, texts: Texts) -> list[Tile[TermsTile]]:
    """Return the tiles of the layout of one use; what was typed stands before what stood."""
    terms = next((one for one in view.uses if one.use == use), UseTerms(use))
    typed = texts.get(use) or {}
    fields = terms_fields(view.figures)

    def value(name: TermsField, otherwise: str = "\u2013") -> str:
        return typed_or_default(fields[name], typed.get(name), getattr(terms, name) or otherwise)

    first = say("both alike")
    if typed.get("first") and typed["first"] != "even":
        first = typed_or_default(fields["first"], typed["first"])
    elif not typed.get("first"):
        first = terms.first or first
    kind = say("none") if typed.get("none") else say(SHORT_USES[use])
    bearing = view.preview.bearings.get(use, "\u2013")
    return [
        Tile("use", say("Lines"), kind),
        Tile("spacing", say("Spacing"), value("spacing")),
        Tile("bearing", say("Bearing"), value("bearing", bearing)),
        Tile("machine", say("Machine"), brief(typed.get("machine") or terms.machine) or "\u2013"),
        Tile("width", say("Slit width"), value("width")),
        Tile("depth", say("Slit depth"), value("depth")),
        Tile(
            "setback",
            say("Setback"),
            typed_or_default(fields["setback"], texts.get("setback"), view.setback or "0"),
        ),
        Tile("first", say("First line"), first),
        Tile("least", say("Shortest"), value("least", say("any"))),
        Tile("turning", say("Turning"), value("turning", "0")),
        Tile("compare", say("Bearings"), say("Compare")),
    ]


def shape_tiles(new: Texts, figures: Figures) -> list[Tile[ShapeTile]]:
    """Return the tiles of a new surface."""
    fields = shape_fields(figures)
    shape = str(new.get("shape") or "rectangle")

    def tile(name: ShapeField, words: str, otherwise: str = "\u2013") -> Tile[ShapeTile]:
        return Tile(name, words, typed_or_default(fields[name], new.get(name), otherwise))

    tiles: list[Tile[ShapeTile]] = [
        Tile("name", say("Name"), str(new.get("name") or new.get("surface_id") or "")),
        Tile("ground", say("What it is"), say(USE_NAMES[str(new.get("use") or "green")])),
        Tile("shape", say("Shape"), say(SHAPE_NAMES[shape])),
    ]
    if shape == "rectangle":
        tiles += [tile("along", say("Length")), tile("across", say("Width"))]
    elif shape == "circle":
        tiles.append(tile("radius", say("Radius")))
    elif shape == "offsets":
        count = len(new.get("rows") or ())
        tiles.append(Tile("offsets", say("Stations"), str(count)))
    else:
        return [*tiles, *_file_tiles(new)]
    if shape != "circle":
        tiles.append(tile("bearing", say("Bearing"), "0 deg"))
    tiles.append(tile("east", say("East"), "0"))
    tiles.append(tile("north", say("North"), "0"))
    return tiles


def brief(name: str) -> str:
    """Return a name as a tile can bear it: its beginning, and a file's ending."""
    if len(name) <= MOST_SIGNS or " " in name:
        return name
    stem, point, ending = name.rpartition(".")
    return f"{stem[:4]}...{ending[:4]}" if point else f"{name[: MOST_SIGNS - 3]}..."


def _file_tiles(new: Texts) -> list[Tile[ShapeTile]]:
    """Return the tiles of an outline that is drawn in a file."""
    source = str(new.get("source") or "")
    tiles: list[Tile[ShapeTile]] = [Tile("file", say("File"), brief(source) or "\u2013")]
    if source.lower().endswith((".dxf", ".csv")):
        tiles.append(Tile("unit", say("Unit"), str(new.get("unit") or say("as it says"))))
    if source.lower().endswith(".dxf"):
        tiles.append(Tile("layer", say("Layer"), str(new.get("layer") or "\u2013")))
    if source:
        mended = say("mended") if new.get("mended") else say("as drawn")
        tiles.append(Tile("mended", say("Outline"), mended))
    return tiles


def rain_tiles(gates: GatesView, texts: Texts, figures: Figures) -> list[Tile[RainField]]:
    """Return the tiles of what the gates are reckoned from."""
    fields = rain_fields(figures)
    names: dict[RainField, str] = {
        "sand": say("Sand lets through"),
        "rain": say("Rain"),
        "rain_min": say("It lasts"),
        "roughness": say("Manning's n"),
        "bore": say("Slit pipe bore"),
        "fall": say("Slit pipe fall"),
        "soil": say("Soil lets through"),
        "layer": say("Impermeable layer"),
    }
    return [
        Tile(
            name,
            words,
            typed_or_default(fields[name], texts.get(name), gates.terms.get(name) or "\u2013"),
        )
        for name, words in names.items()
    ]


RAIN_KEPT: dict[RainField, str] = {
    "sand": "sand_um_per_h",
    "roughness": "roughness_millionths",
    "rain": "rain_nm",
    "rain_min": "rain_min",
    "bore": "pipe_bore_nm",
    "fall": "pipe_fall_millionths",
    "soil": "soil_um_per_h",
    "layer": "impermeable_depth_nm",
}
"""Field of the screen to the field of the entry."""

RAIN_NEEDED: tuple[RainField, ...] = ("sand", "roughness", "rain", "rain_min")


def rain_terms(texts: Texts, figures: Figures) -> dict[str, int]:
    """Return what was typed of the rain and the pipe, as the entry keeps it."""
    fields = rain_fields(figures)
    return {
        kept: fields[name].parse(str(texts[name]))
        for name, kept in RAIN_KEPT.items()
        if texts.get(name)
    }
