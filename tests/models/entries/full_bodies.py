"""A body of any kind with every field filled, made from the kind's own JSON Schema."""

from __future__ import annotations

import zlib
from typing import Any

from models.entries.kinds import KINDS

BY_PATTERN = {
    r"^\d{4}-\d{2}-\d{2}$": "2026-05-11",
    r"^[1-9][0-9]{0,11}:[0-9a-f]{64}$": f"7:{'ab' * 32}",
    r"^[0-9a-f]*$": "ab" * 32,
    r"^[0-9a-f]{64}$": "ab" * 32,
    r"^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){3}$": "7KQ2-01XM-9P3A-TTBA",
}
"""A text for every pattern that a field has."""
BY_HAND: dict[str, list[dict[str, Any]]] = {
    "sand_placed": [{"mass_ug": None}, {"volume_pl": None}],
    "sand_top_up": [{"mass_ug": None}, {"volume_pl": None}],
    "delivery": [
        {"volume_pl": None, "length_nm": None},
        {"mass_ug": None, "length_nm": None},
        {"mass_ug": None, "volume_pl": None},
    ],
    "pass": [
        {
            "line_ids": ["S01", "S04"],
            "pieces": [
                {"line_id": "S01", "leg": 1, "from_nm": -5, "to_nm": 7, "by": "drive", "typed": ""},
                {
                    "line_id": "S04",
                    "leg": 2,
                    "from_nm": 0,
                    "to_nm": 9_144_000_000,
                    "by": "measured",
                    "typed": "30",
                },
            ],
        }
    ],
    "rain": [{"began_ms": 1_778_500_000_000, "stopped_ms": 1_778_503_600_000}],
    "layout": [
        {
            "keep_outs": [
                {
                    **{"keep_out_id": "K1", "name": "valve \u00e90", "kind": "mind"},
                    **{"at": {"x_nm": 1, "y_nm": 2}, "radius_nm": 3, "clearance_nm": 4},
                    **{"depth_nm": 5, "source": "heads \u00e90.csv", "islands": []},
                },
                {
                    **{"keep_out_id": "K2", "name": "cable \u00e91", "kind": "no_wheels"},
                    **{"path": [{"x_nm": 1, "y_nm": 2}, {"x_nm": 3, "y_nm": 4}], "half_nm": 5},
                },
                {
                    "name": "pond \u00e92",
                    "ring": [{"x_nm": x, "y_nm": y} for x, y in ((0, 0), (9, 0), (0, 9))],
                    "islands": [[{"x_nm": x, "y_nm": y} for x, y in ((1, 1), (2, 1), (1, 2))]],
                },
            ]
        }
    ],
    "bulking_test": [{"moist_nm": 254_000_000, "flooded_nm": 203_200_000}],
}
"""Bodies whose fields hang on each other: one of several alone, one no larger than another."""


def full_bodies(kind: str) -> list[dict[str, Any]]:
    """Fields of bodies of a kind; in one of them, mostly the only one, each field is filled."""
    schema = KINDS[kind].model_json_schema()
    found: dict[str, Any] = _value(schema, schema.get("$defs", {}), kind, 0)
    return [{**found, **fields} for fields in BY_HAND.get(kind, [{}])]


def _value(schema: dict[str, Any], parts: dict[str, Any], place: str, number: int) -> Any:
    """A value that a schema takes; ``number`` tells members of a list from each other."""
    if "$ref" in schema:
        return _value(parts[schema["$ref"].rsplit("/", 1)[1]], parts, place, number)
    if "anyOf" in schema:  # a value, or none
        return _value({"default": None, **schema["anyOf"][0]}, parts, place, number)
    return _plain(schema, parts, place, number)


def _plain(schema: dict[str, Any], parts: dict[str, Any], place: str, number: int) -> Any:
    if "const" in schema:
        return schema["const"]
    if "enum" in schema:
        return next(one for one in reversed(schema["enum"]) if one != schema.get("default"))
    match schema["type"]:
        case "object":
            return {
                name: _value(inner, parts, f"{place}.{name}", number)
                for name, inner in schema["properties"].items()
            }
        case "array":
            members = schema.get("prefixItems") or [schema["items"]] * max(
                2, schema.get("minItems", 0)
            )
            return [
                _value(inner, parts, place, number * len(members) + one)
                for one, inner in enumerate(members)
            ]
        case "boolean":
            return not schema.get("default", False)
        case "integer":
            return _whole(schema, place, number)
    return _text(schema, place, number)


def _whole(schema: dict[str, Any], place: str, number: int) -> int:
    least = schema.get("minimum", schema.get("exclusiveMinimum", 0) + 1)
    most = schema.get("maximum", schema.get("exclusiveMaximum", 2**40) - 1)
    wanted = 1_000 + zlib.crc32(place.encode()) % 100_000 + number
    return int(wanted if least <= wanted <= most else max(least, 1) + number)


def _text(schema: dict[str, Any], place: str, number: int) -> str:
    if "pattern" in schema:
        return BY_PATTERN[schema["pattern"]]
    return f"{place.rsplit('.', 1)[-1]} \u00e9{number}"[: schema.get("maxLength", 40)]
