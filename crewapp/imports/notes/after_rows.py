"""Rows of typed-up notes for what comes beside and after the work: tests, ties, rain, repairs."""

from __future__ import annotations

from crewapp.imports.notes.after_cells import moment, ring_readings, with_unit
from crewapp.imports.notes.cells import Cell, RowKind, amount, bare, choice, measured, names, text

_SURFACE = Cell("surface", text("surface_id"), needed=True)
_SURFACE_IF_ANY = Cell("surface", text("surface_id"))
_MATERIAL = Cell("material", text("material_id"), needed=True)
_COLLECTOR_IF_ANY = Cell("collector", text("collector_id"))
_LINE_IF_ANY = Cell("lines", text("line_id"))
_NOTE = Cell("note", text("note"))
_POINT = Cell("point", text("point_id"), needed=True)
_WHAT_IF_ANY = Cell("what", text("what"))
_A_BOX, _A_MASS = "a volume such as 1 ft3, 28.3 L", "a mass such as 98 lb, 44.5 kg"

AFTER_ROWS: tuple[RowKind, ...] = (
    RowKind(
        "rain",
        "rain",
        (
            Cell("depth", measured("depth", "depth"), needed=True),
            Cell("began", moment("began_ms", "began")),
            Cell("stopped", moment("stopped_ms", "stopped"), needed=True),
            Cell("gauge", text("gauge")),
            _NOTE,
        ),
    ),
    RowKind(
        "surface seen",
        "surface_seen",
        (
            _SURFACE,
            Cell("where", text("plot")),
            Cell(
                "condition",
                choice("condition", "standing_water", "clear", "playable"),
                needed=True,
            ),
            Cell("seen", moment("seen_ms", "seen"), needed=True),
            _NOTE,
        ),
    ),
    RowKind(
        "ring test",
        "infiltration_test",
        (
            _SURFACE,
            Cell("where", text("where")),
            Cell("when", choice("when", "before", "after"), needed=True),
            Cell("method", choice("method", "single_ring", "double_ring"), needed=True),
            Cell("ring", bare(measured("inner", "depth")), needed=True),
            Cell("driven", bare(measured("driven", "depth"))),
            Cell("readings", ring_readings("readings"), needed=True),
            _NOTE,
        ),
    ),
    RowKind(
        "top-up",
        "sand_top_up",
        (
            _SURFACE,
            Cell("lines", names("line_ids")),
            _MATERIAL,
            Cell("amount", amount("mass", "volume"), needed=True),
            Cell("settled", measured("settled", "depth")),
            _NOTE,
        ),
    ),
    RowKind(
        "repair",
        "repair",
        (
            _SURFACE_IF_ANY,
            _LINE_IF_ANY,
            _COLLECTOR_IF_ANY,
            Cell("station", bare(measured("station", "station"))),
            Cell(
                "step",
                choice("done", "flushed", "cleaned", "repaired", "replaced", "looked_at"),
                needed=True,
            ),
            Cell("what", text("why")),
            _NOTE,
        ),
    ),
    RowKind(
        "outlet seen",
        "outlet_seen",
        (
            Cell("collector", text("outlet_id"), needed=True),
            Cell("step", choice("flows", "free", "slow", "blocked", "dry"), needed=True),
            _NOTE,
        ),
    ),
    RowKind(
        "permanent point",
        "permanent_point",
        (
            _POINT,
            Cell("where", text("where"), needed=True),
            Cell("east", bare(measured("x", "level"))),
            Cell("north", bare(measured("y", "level"))),
        ),
    ),
    RowKind(
        "tie",
        "tie",
        (
            Cell(
                "tied",
                choice(
                    "tied", "line_start", "line_end", "collector_outlet", "collector_head", "other"
                ),
                needed=True,
            ),
            _SURFACE_IF_ANY,
            _LINE_IF_ANY,
            _COLLECTOR_IF_ANY,
            _WHAT_IF_ANY,
            _POINT,
            Cell("distance", measured("distance", "length"), needed=True),
        ),
    ),
    RowKind(
        "box weighing",
        "box_weighing",
        (
            _MATERIAL,
            Cell("volume", with_unit(measured("volume", "volume"), _A_BOX), needed=True),
            Cell("mass", with_unit(measured("mass", "mass"), _A_MASS), needed=True),
            Cell("moisture", choice("moisture", "dry", "damp", "wet")),
        ),
    ),
    RowKind(
        "bulking",
        "bulking_test",
        (
            _MATERIAL,
            Cell("moist", measured("moist", "depth"), needed=True),
            Cell("flooded", measured("flooded", "depth"), needed=True),
        ),
    ),
)
