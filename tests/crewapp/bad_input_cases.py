"""Malformed input in every place where a person may hand some in, as tables."""

from __future__ import annotations

from typing import Any

PROBE = {"entry": "probe", "pass": "G7-01", "lines": "S01", "at": "2", "depth": "9"}
PASS = {"entry": "pass", "surface": "G7", "pass": "N", "lines": "S02", "length": "30"}
SAND = {"entry": "sand", "surface": "G7", "material": "sand", "amount": "1 ton"}
SHOT = {"entry": "shot", "setup": "L1", "collector": "C1", "station": "0+10", "on": "invert"}
SHOT |= {"reading": "9.00"}
SETUP = {"entry": "setup", "setup": "L9", "point": "BM1", "reading": "4", "grade": "1 %"}
SETUP |= {"collector": "C1"}
SPOIL = {"entry": "spoil", "amount": "2 yd3"}
CREW = {"entry": "crew", "who": "Ana", "run": "8:00"}
MACHINE = {"entry": "machine", "who": "twin", "run": "8:00", "idle": "5 h"}
DELAY = {"entry": "delay", "what": "rain", "start": "7:00", "lost": "1 h"}
TICKET = {"entry": "locate ticket", "ticket": "T", "valid from": "2026-05-01"}
TICKET |= {"expires on": "2026-05-30"}
LAYER = {"entry": "layer", "collector": "C1", "from": "0+00", "to": "0+10", "layer": "bedding"}
RAIN = {"entry": "rain", "depth": "1.1", "began": "2:05", "stopped": "5:35"}
SEEN = {"entry": "surface seen", "surface": "G7", "condition": "clear", "seen": "7:25"}
RING = {"entry": "ring test", "surface": "G7", "when": "after", "method": "single ring"}
RING |= {"ring": "12", "driven": "4", "readings": "0 4; 10 3"}
TOP_UP = {"entry": "top-up", "surface": "G7", "material": "sand", "amount": "1 yd3"}
REPAIR = {"entry": "repair", "collector": "C1", "step": "flushed"}
POINT = {"entry": "permanent point", "point": "PP2", "where": "hydrant"}
TIE = {"entry": "tie", "tied": "collector head", "collector": "C1", "point": "PP1"}
TIE |= {"distance": "41.6"}
BOX = {"entry": "box weighing", "material": "sand", "volume": "1 ft3", "mass": "100 lb"}
JAR = {"entry": "bulking", "material": "sand", "moist": "6-1/8", "flooded": "6"}

DEPTHS = (
    ["nine", "9-", "9--1/2", "-9", "9 9/8", "1/0", "9..5", "9,5,5", "9 kg", "9 in 3", "0x9", "9e3"]
    + ["\u221e", "NaN", "9'12\"x", "9 1/7/8", "\u00bd\u00bd", "''", '"', "9 ft 13 in 2", "1" * 30]
    + ["9 in.in", "(9)", "=9", "@9", "9 \u20ac", "++9"]
)
"""Texts that are no depth."""

CELLS: tuple[tuple[dict[str, str], str, str], ...] = (
    *((PROBE, "depth", text) for text in DEPTHS),
    (PROBE, "depth", "90"),
    (PROBE, "depth", "0"),
    (PROBE, "width", "5 ft 1 in"),
    (PROBE, "at", "two"),
    (PROBE, "at", "-2"),
    (PROBE, "at", "30.2"),
    (PROBE, "at", "300"),
    (PROBE, "at", ""),
    (PROBE, "pass", ""),
    (PROBE, "pass", "G7-99"),
    (PROBE, "lines", "S02"),
    (PROBE, "lines", "../../S01"),
    (PROBE, "day", "2026-02-29"),
    (PROBE, "day", "11/5/26"),
    (PROBE, "day", "0001-01-01"),
    (PROBE, "day", "1999-12-31"),
    (PROBE, "day", "2101-01-01"),
    (PROBE, "day", "2026-W20-1"),
    (PROBE, "day", ""),
    (PROBE, "entry", "probes"),
    (PROBE, "entry", ""),
    (PROBE, "sky", "clear"),
    (PASS, "length", "30 acres"),
    (PASS, "length", "1+00+00"),
    (PASS, "pass", "G7-01"),
    (PASS, "pass", "N" * 81),
    (PASS, "lines", "S02 S02"),
    (PASS, "lines", ";"),
    (PASS, "surface", "G8"),
    (PASS, "shift", "a hand"),
    (SAND, "amount", "3"),
    (SAND, "amount", "3 loads"),
    (SAND, "amount", "-3 ton"),
    (SAND, "amount", "3 ft"),
    (SAND, "amount", "9" * 40 + " ton"),
    (SAND, "material", "gold"),
    (SAND, "moisture", "soggy"),
    (SHOT, "station", "1+2+3"),
    (SHOT, "station", "ten"),
    (SHOT, "station", "0+60.2"),
    (SHOT, "station", "6+00"),
    (SHOT, "station", "-0+01"),
    (SHOT, "reading", "9.0.0"),
    (SHOT, "reading", "9 ft in"),
    (SHOT, "on", "roof"),
    (SHOT, "setup", "L7"),
    (SHOT, "collector", "C7"),
    (SETUP, "grade", "1:0"),
    (SETUP, "grade", "2:100"),
    (SETUP, "grade", "150 %"),
    (SETUP, "grade", "steep"),
    (SETUP, "point", "BM7"),
    (SPOIL, "amount", "2 ft"),
    (SPOIL, "amount", "two"),
    (CREW, "run", "25:99"),
    (CREW, "run", "all day"),
    (CREW, "run", "-1 h"),
    (CREW, "run", "9999 h"),
    (CREW, "run", "99 h"),
    (CREW, "run", "24:01"),
    (MACHINE, "run", "20 h"),
    (CREW, "who", ""),
    (DELAY, "start", "25:00"),
    (DELAY, "start", "noonish"),
    (DELAY, "lost", ""),
    (DELAY, "lost", "25 h"),
    (TICKET, "expires on", "2026-04-01"),
    (TICKET, "expires on", "2101-01-01"),
    (TICKET, "valid from", "1999-12-31"),
    (TICKET, "valid from", "May"),
    (LAYER, "layer", "concrete"),
    (LAYER, "from", "x+00"),
    (LAYER, "to", "0+90"),
    (LAYER, "continuous", "maybe"),
    (RAIN, "depth", "an inch"),
    (RAIN, "depth", ""),
    (RAIN, "stopped", "25:10"),
    (RAIN, "stopped", "dawn"),
    (RAIN, "stopped", "2026-02-30 5:35"),
    (RAIN, "stopped", "1970-01-01 5:35"),
    (RAIN, "began", "6:00"),
    (RAIN, "began", "2026-03-08 2:30"),
    (SEEN, "condition", "damp"),
    (SEEN, "seen", ""),
    (SEEN, "surface", "G9"),
    (RING, "readings", "0 4"),
    (RING, "readings", "0 4; 0 3"),
    (RING, "readings", "10 4; 5 3"),
    (RING, "readings", "0 four; 10 3"),
    (RING, "readings", "0 4; 10 3 up to brim"),
    (RING, "readings", "4, 3, 2"),
    (RING, "method", "triple ring"),
    (RING, "when", "during"),
    (RING, "ring", "0"),
    (RING, "driven", "deep"),
    (TOP_UP, "amount", "two barrows"),
    (TOP_UP, "amount", "1"),
    (TOP_UP, "material", "gold"),
    (TOP_UP, "lines", "S99"),
    (REPAIR, "step", "danced"),
    (REPAIR, "collector", "C9"),
    (REPAIR, "station", "ten"),
    (POINT, "point", "PP1"),
    (POINT, "where", ""),
    (POINT, "east", "there"),
    (TIE, "tied", "middle"),
    (TIE, "tied", "line end"),
    (TIE, "point", "PP9"),
    (TIE, "distance", "-3"),
    (TIE, "distance", "far"),
    (BOX, "volume", "1"),
    (BOX, "mass", "100"),
    (BOX, "mass", "0 lb"),
    (BOX, "moisture", "soggy"),
    (JAR, "flooded", "7"),
    (JAR, "moist", "full"),
)
"""A good row, the column that is spoilt in it, and by what."""

NOTES: dict[str, bytes] = {
    "empty": b"",
    "blank": b"\n\n \n",
    "header alone": b"day,entry,note\n",
    "no day column": b"entry,note\nnote,x\n",
    "strange column": b"day,entry,colour\n2026-05-11,note,red\n",
    "column twice": b"day,entry,note,note\n2026-05-11,note,a,b\n",
    "open quote": b'day,entry,note\n2026-05-11,note,"x\n',
    "too many cells": b"day,entry,note\n2026-05-11,note,x,y\n",
    "not text": b"day,entry,note\n2026-05-11,note,\xff\xfe\n",
    "utf-16": "day,entry,note\n2026-05-11,note,x\n".encode("utf-16"),
    "nul": b"day,entry,note\n2026-05-11,note,a\0b\n",
    "huge cell": b"day,entry,note\n2026-05-11,note," + b"x" * 200_000 + b"\n",
    "one good, one bad": b"day,entry,note\n2026-05-11,note,good\n2026-05-11,note,\n",
}

_PEGS = b"setup,peg,reading,distance\nmidway,A,5,\nmidway,B,4,\n"
LEVELS: dict[str, bytes] = {
    "pegs without a second setup": _PEGS,
    "pegs without distances": _PEGS + b"end,A,5,\nend,B,4,\n",
    "pegs as far from each other": _PEGS + b"end,A,5,90\nend,B,4,90\n",
    "a peg read twice": _PEGS + b"midway,A,5,\n",
    "a third peg": _PEGS + b"end,C,5,90\n",
    "a setup nobody knows": _PEGS + b"roof,A,5,90\n",
    "words on a peg": _PEGS + b"end,A,five,90\n",
    "pegs without a reading": _PEGS + b"end,A,,90\n",
    "empty": b"",
    "header alone": b"point,BS,IS,FS,elevation\n",
    "no FS column": b"point,BS,IS\nA,1,\n",
    "strange column": b"point,BS,FS,height\nA,1,,2\n",
    "column twice": b"point,BS,BS,FS\nA,1,1,\n",
    "starts with a foresight": b"point,BS,FS,elevation\nA,,1,100\n",
    "unknown start": b"point,BS,FS\nA,4.00,\nB,,5.00\n",
    "nothing read": b"point,BS,IS,FS,elevation\nA,4,,,100\nB,,,,\n",
    "IS beside FS": b"point,BS,IS,FS,elevation\nA,4,,,100\nB,,3,3,\n",
    "no point": b"point,BS,FS,elevation\n,4,,100\nB,,3,\n",
    "words for a reading": b"point,BS,FS,elevation\nA,four,,100\nB,,3,\n",
    "negative reading": b"point,BS,FS,elevation\nA,-4,,100\nB,,3,\n",
    "two dots": b"point,BS,FS,elevation\nA,4.0.0,,100\nB,,3,\n",
    "two elevations": b"point,BS,FS,elevation\nA,4,,100\nB,,3,\nA,2,,101\nC,,1,\n",
    "mass as distance": b"point,BS,FS,elevation,distance\nA,4,,100,\nB,,3,,9 kg\n",
    "open quote": b'point,BS,FS,elevation\nA,"4,,100\n',
    "too many cells": b"point,BS,FS,elevation\nA,4,,100,,,7\nB,,3,\n",
    "not text": b"point,BS,FS\nA,\xff,\n",
    "utf-16": "point,BS,FS\nA,4,\n".encode("utf-16"),
    "nul": b"point,BS,FS\nA\0,4,\n",
    "a workbook": b"PK\x03\x04\x14\x00\x06\x00",
    "too large": b"point,BS,FS\n" + b"A,1,1\n" * 200_000,
}

PLANS: dict[str, Any] = {
    "empty": "",
    "not JSON": "{job: 1}",
    "cut short": '{"job": {"job_id": "small"',
    "a list": [],
    "a number": 7,
    "nothing planned": {},
    "deep": "[" * 50_000,
    "huge number": "9" * 5_000,
    "not a number": '{"job": {"job_id": "small", "name": NaN}}',
    "name twice": '{"job": {"job_id": "small", "job_id": "small", "name": "x"}}',
    "half a character": '{"job": {"job_id": "small", "name": "\\udc00"}}',
    "unknown kind": {"towels": []},
    "job is a text": {"job": "small"},
    "job without a name": {"job": {"job_id": "small"}},
    "another job": {"job": {"job_id": "other", "name": "Other"}},
    "two jobs": {"job": [{"job_id": "small", "name": "A"}, {"job_id": "small", "name": "B"}]},
    "unknown zone": {"job": {"job_id": "small", "name": "A", "zone": "../../etc/passwd"}},
    "unknown unit system": {"job": {"job_id": "small", "name": "A", "unit_system": "cubits"}},
    "name too long": {"job": {"job_id": "small", "name": "A" * 81}},
    "elevation without a unit": {"benchmark": {"benchmark_id": "B", "elevation": "100.00"}},
    "elevation as a number": {"benchmark": {"benchmark_id": "B", "elevation": 100}},
    "elevation unreadable": {"benchmark": {"benchmark_id": "B", "elevation": "high ft"}},
    "elevation beyond all": {"benchmark": {"benchmark_id": "B", "elevation": "9" * 30 + " ft"}},
    "no elevation": {"benchmark": {"benchmark_id": "B"}},
    "density below nothing": {
        "material": {"material_id": "m", "use": "sand", "bulk_density_g_per_m3": -1}
    },
    "density as a float": {
        "material": {"material_id": "m", "use": "sand", "bulk_density_g_per_m3": 1.5}
    },
    "no such use": {"material": {"material_id": "m", "use": "lava"}},
    "no such day": {
        "locate_ticket": {"ticket": "T", "valid_from": "2026-02-30", "expires_on": "2026-05-01"}
    },
    "day long ago": {
        "locate_ticket": {"ticket": "T", "valid_from": "1926-05-01", "expires_on": "2026-05-01"}
    },
    "day far off": {"job": {"job_id": "small", "name": "A", "planned_finish": "2126-05-01"}},
    "fall of a pipe without a unit": {
        "drainage_terms": {
            "surface_id": "G7",
            "sand": "20 in/h",
            "roughness": "0.011",
            "rain": "1 in",
            "lasts": "1 h",
            "pipe_fall": "1",
        }
    },
    "legs below nothing": {"machine": {"machine_id": "m", "legs": -2}},
    "unknown field": {"person": {"person_id": "A", "name": "A", "shoe": 44}},
    "rectangle of nothing": {
        "surface": {"surface_id": "X", "name": "X", "use": "field", "rectangle": {}}
    },
    "rectangle is a list": {
        "surface": {"surface_id": "X", "name": "X", "use": "field", "rectangle": [1, 2]}
    },
    "lines are words": {
        "surface": {"surface_id": "X", "name": "X", "use": "field", "lines": ["S01"]}
    },
    "design is a text": {"collector": {"collector_id": "C", "name": "C", "design": "steep"}},
    "grade without a unit": {
        "collector": {"collector_id": "C", "name": "C", "design": {"grade": "1"}}
    },
}
"""Text as it stands, or a value that is written as JSON."""
