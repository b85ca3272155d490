"""Arguments of ``crewapp plan``: import, layout, compare, show and their options."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from difflib import get_close_matches
from os.path import exists  # a name too long for any disk is one that is not there
from pathlib import Path
from typing import Literal

from crewapp.cli.plan.takeoff_arguments import add_takeoff

Commands = argparse._SubParsersAction  # the type that argparse gives to what takes subcommands

USES: dict[str, Literal["sand_slit", "piped_slit"]] = {"sand": "sand_slit", "piped": "piped_slit"}
"""Words of options to the use of line they mean."""

WORKS = ("import", "layout", "compare", "show", "audit", "takeoff", "gates", "stakeout")
"""What ``plan`` can do."""

UNITS = ("in", "ft", "us-ft", "yd", "mm", "cm", "dm", "m", "km")


def add_plan(commands: Commands[argparse.ArgumentParser]) -> None:
    """Add ``plan`` with what it can do."""
    plan = commands.add_parser("plan", help="bring in, lay out and look at a book's plan")
    works = plan.add_subparsers(dest="work", metavar="WORK", required=True)
    _add_import(works)
    _add_layout(works)
    _add_compare(works)
    _add_show(works)
    _add_audit(works)
    add_takeoff(works)
    _add_stakeout(works)


def insert_import_command(argv: Sequence[str]) -> list[str]:
    """Read ``plan BOOK FILE`` as ``plan import BOOK FILE``: a plan file needs no more words."""
    words = list(argv)
    if words[:1] != ["plan"] or len(words) < 3 or words[1] in (*WORKS, "-h", "--help"):
        return words
    is_slip = "." not in words[1] and not exists(words[1])
    if not (is_slip and get_close_matches(words[1], WORKS, cutoff=0.6)):
        words.insert(1, "import")
    return words


def _add_import(works: Commands[argparse.ArgumentParser]) -> None:
    bring = works.add_parser(
        "import",
        help="bring in a plan file (JSON), or an outline, keep-outs or a course with --surface",
    )
    bring.set_defaults(module="plan_import")
    bring.add_argument("book", type=Path, help="book to write; made if a plan file brings a job")
    bring.add_argument("file", type=Path, help="plan file, or GeoJSON, DXF or CSV of a drawing")
    bring.add_argument("--surface", default="", help="surface whose outline or keep-outs these are")
    bring.add_argument(
        "--as",
        dest="brought_as",
        choices=["outline", "keep-outs", "collector"],
        default="outline",
        help="what the drawing shows",
    )
    _add_surface(bring)
    bring.add_argument("--collector", default="", help="collector whose course it is")
    bring.add_argument("--form", choices=["geojson", "dxf", "points", "offsets"], default=None)
    bring.add_argument("--unit", choices=UNITS, default=None, help="unit of bare numbers")
    bring.add_argument("--layer", default=None, help="layer of a DXF drawing")
    bring.add_argument("--pick", default=None, help="name of the shape, where there are several")
    bring.add_argument("--origin", default=None, help="where a baseline begins, such as '0, 30 ft'")
    bring.add_argument("--bearing", default="0", help="where a baseline runs")
    bring.add_argument("--plane", default=None, help="latitude, longitude of the plan's origin")
    bring.add_argument("--clearance", default="0", help="kept round each keep-out")
    bring.add_argument("--radius", default=None, help="radius of keep-outs drawn as points")
    bring.add_argument(
        "--leave-out",
        action="append",
        default=[],
        metavar="NAME",
        help="something the file draws that is no keep-out; may be given again",
    )
    bring.add_argument("--instead", action="store_true", help="drop the keep-outs there were")
    bring.add_argument("--setback", default=None, help="kept off the edge")
    bring.add_argument("--mended", action="store_true", help="take the mended outline as offered")
    bring.add_argument("--out", type=Path, default=Path("out"), help="folder for what is offered")
    _add_writing(bring)


def _add_surface(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--name", default=None, help="name of the surface")
    parser.add_argument("--use", choices=["green", "field", "fairway"], default=None)
    parser.add_argument("--drains-to", default=None, help="collector it drains to")


def _add_writing(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--author", default="office", help="whose name the entries carry")
    parser.add_argument("--json", action="store_true", help="print JSON")


def _add_layout(works: Commands[argparse.ArgumentParser]) -> None:
    layout = works.add_parser("layout", help="lay the lines of a surface, with drives and joints")
    layout.set_defaults(module="plan_layout")
    layout.add_argument("book", type=Path, help="book to write into")
    layout.add_argument("--surface", required=True, help="surface to lay lines over")
    _add_surface(layout)
    _add_shape(layout)
    _add_terms(layout)
    layout.add_argument("--dry-run", action="store_true", help="show it and write nothing")
    _add_writing(layout)


def _add_compare(works: Commands[argparse.ArgumentParser]) -> None:
    compare = works.add_parser("compare", help="what each bearing would cost, in one table")
    compare.set_defaults(module="plan_compare")
    compare.add_argument("book", type=Path, help="book to look at; it is not changed")
    compare.add_argument("--surface", required=True, help="surface to compare on")
    compare.add_argument("--lines", choices=list(USES), default="sand", help="which lines")
    compare.add_argument("--bearings", default=None, help="such as 0,15,30,N 45 E; else every 15")
    _add_surface(compare)
    _add_shape(compare)
    _add_terms(compare)
    compare.add_argument("--json", action="store_true", help="print JSON")


def _add_shape(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--rectangle", default=None, help="across x along, such as '60 ft x 100 ft'"
    )
    parser.add_argument("--circle", default=None, help="radius of a round surface")
    parser.add_argument("--at", default=None, help="corner or middle: east, north, as '10 ft, 0'")
    parser.add_argument("--towards", default="0", help="bearing of the rectangle's long way")


def _add_terms(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--setback", default=None, help="kept off the edge")
    parser.add_argument("--reach", default=None, help="an end this near joins the collector")
    for word in USES:
        lines = f"{word} slits"
        parser.add_argument(f"--{word}-slits", default=None, help=f"spacing of the {lines}")
        parser.add_argument(f"--{word}-bearing", default=None, help=f"bearing of the {lines}")
        parser.add_argument(f"--{word}-first", default=None, help="first line in from the left")
        parser.add_argument(f"--{word}-least", default=None, help="shorter pieces are left out")
        parser.add_argument(f"--{word}-machine", default=None, help="machine of the plan")
        parser.add_argument(f"--{word}-legs", default=None, help="such as '2 x 4 ft'")
        parser.add_argument(f"--{word}-turning", default=None, help="least turning radius")
        parser.add_argument(
            f"--{word}-pattern", default=None, help="'width=1 in, depth=9 in, ...' if it has none"
        )
        parser.add_argument(f"--no-{word}-slits", action="store_true", help=f"without {lines}")


def _add_show(works: Commands[argparse.ArgumentParser]) -> None:
    show = works.add_parser("show", help="print what the plan holds")
    show.set_defaults(module="plan_show")
    show.add_argument("book", type=Path, help="book to look at; it is not changed")
    show.add_argument("--json", action="store_true", help="print JSON")


def _add_audit(works: Commands[argparse.ArgumentParser]) -> None:
    found = works.add_parser("audit", help="print what the plan says against itself")
    found.set_defaults(module="plan_audit")
    found.add_argument("book", type=Path, help="book to look at; it is not changed")
    found.add_argument("--json", action="store_true", help="print JSON")


def _add_stakeout(works: Commands[argparse.ArgumentParser]) -> None:
    stake = works.add_parser("stakeout", help="the morning's sheet: passes, offsets, cuts, rods")
    stake.set_defaults(module="stakeout")
    stake.add_argument("book", type=Path, help="book to look at; it is not changed")
    stake.add_argument("--surface", default="", help="one surface; else all of them")
    stake.add_argument("--all", action="store_true", help="passes that are driven, too")
    stake.add_argument("--every", default="", help="stations of the cut sheet, such as '5 ft'")
    stake.add_argument("--setup", default="", help="laser setup that rod readings are for")
    stake.add_argument("--out", type=Path, default=Path("out"), help="folder for the files")
    stake.add_argument("--json", action="store_true", help="print JSON")
