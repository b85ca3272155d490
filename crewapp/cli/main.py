"""The command line: opens the app, or does one piece of work without a screen.

Exit 0: done, nothing that stops. Exit 1: done, and flags that stop the work
stand open (or a code is not proven). Exit 2: bad input, told in sentences;
nothing was written. Exit 3: something that nobody foresaw; a report of it lies
in the tablet's folder. Exit 130: stopped by Ctrl-C; what was inked stands, and
every file is whole, as it was, or not there.
"""

from __future__ import annotations

import argparse
import signal
import sys
import traceback
from collections.abc import Callable, Sequence
from importlib import import_module
from pathlib import Path

from crewapp.cli.exchange.arguments import add_exchange
from crewapp.cli.modules import module_of
from crewapp.cli.office.arguments import add_office
from crewapp.cli.parser import (
    OPEN,
    CommandLineError,
    CommandParser,
    insert_open_command,
    unknown_word,
)
from crewapp.cli.plan.arguments import add_plan, insert_import_command
from crewapp.cli.plan.takeoff_arguments import add_progress, add_sieve
from crewapp.cli.printing.console import (
    drop_broken_streams,
    finish_printing,
    log_no_interrupts,
    os_fault_text,
    print_on_any_console,
    printing_escaped,
)
from crewapp.cli.printing.faults import is_debug_wanted, report_fault
from crewapp.cli.printing.json_answer import (
    fault_facts,
    print_fault,
    printing_json_last,
    wants_json,
)
from crewapp.device.interrupts import remember_interrupts, was_interrupted
from crewapp.neighbours import ForeignPackageError, stop_if_not_ours

FINE, STOPS, BAD_INPUT, UNFORESEEN = 0, 1, 2, 3
STOPPED = 130  # 128 and the number of SIGINT, as shells count


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; with none, open the app."""
    words = list(sys.argv[1:] if argv is None else argv)
    is_json = wants_json(words)
    try:
        return _run(words)
    except (ForeignPackageError, CommandLineError) as fault:
        if is_json:
            code = "cli.words" if isinstance(fault, CommandLineError) else "cli.not_ours"
            print_fault(fault_facts(fault, code, fault.told, BAD_INPUT))
        raise
    except KeyboardInterrupt as fault:
        signal.signal(signal.SIGINT, signal.SIG_DFL)  # a second one ends it without a word
        drop_broken_streams()
        told = "Stopped. What was inked stands; no file was left half-written."
        return _told(fault, "cli.stopped", told, STOPPED, is_json=is_json)


def _told(fault: BaseException, code: str, told: str, exit_code: int, *, is_json: bool) -> int:
    """Say what stopped a command: to people, and to machines if asked; return its exit code."""
    print(f"crewapp: {told}", file=sys.stderr)
    if is_json:
        print_fault(fault_facts(fault, code, told, exit_code))
    return exit_code


def _run(words: Sequence[str]) -> int:
    print_on_any_console()
    log_no_interrupts()
    remember_interrupts()
    stop_if_not_ours()
    from models.errors import CrewError  # only now: it may not have been ours

    parser = make_parser()
    head = ["--debug"] if words[:1] == ["--debug"] else []
    words = insert_open_command(insert_import_command(words[len(head) :]), parser)
    unknown = unknown_word(words, parser)
    if unknown:
        fault = CommandLineError(unknown)
        return _told(fault, "cli.words", unknown, BAD_INPUT, is_json=wants_json(words))
    args = parser.parse_args([*head, *words])
    is_json = getattr(args, "json", False)
    print_on_any_console(is_json=is_json)
    name = args.module or args.command or OPEN
    if name == OPEN:  # the app prints nothing of a book
        return _run_told(args, name, CrewError)
    with printing_escaped(is_json=is_json):
        return _run_told(args, name, CrewError)


def _run_told(args: argparse.Namespace, name: str, told: type[Exception]) -> int:
    """Run one command, and turn every error into a sentence and an exit code."""
    is_json = getattr(args, "json", False)
    try:
        # Imported only now: no command pays for the libraries of another.
        run: Callable[[argparse.Namespace], int] = import_module(module_of(name)).run
        with printing_json_last(is_json=is_json):
            code = run(args)
        return finish_printing(code)
    except told as fault:
        named = str(getattr(fault, "code", ""))
        return _told(fault, named, str(fault), BAD_INPUT, is_json=is_json)
    except BrokenPipeError:
        drop_broken_streams()
        return FINE
    except OSError as fault:
        drop_broken_streams()
        return _told(fault, "cli.storage", os_fault_text(fault), BAD_INPUT, is_json=is_json)
    except Exception as fault:
        if was_interrupted():
            raise KeyboardInterrupt from fault
        drop_broken_streams()
        said = report_fault(fault, name.replace("_", " "))
        if args.debug or is_debug_wanted():
            traceback.print_exception(fault)
        return _told(fault, "cli.unforeseen", said, UNFORESEEN, is_json=is_json)


def make_parser() -> CommandParser:
    """Build the parser with every command and its help."""
    parser = CommandParser(
        prog="crewapp",
        description="The field book of a turf-drainage crew. Without a command the app opens. "
        "Exit 0: fine; 1: something stops; 2: bad input, nothing was written; 3: unforeseen; "
        "130: stopped by Ctrl-C. With --json a command prints one JSON value; one that fails "
        "prints an object of error (the sentence), code, exit, and problems, where a file may "
        "have several.",
    )
    parser.set_defaults(book=None, module=None)
    parser.add_argument(
        "--version",
        dest="module",
        action="store_const",
        const="version",
        help="print the versions of the program, of what it writes and of what it stands on",
    )
    parser.add_argument(
        "--debug",
        action="store_true",
        help="show in full what nobody foresaw (also CREWAPP_DEBUG=1)",
    )
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    _add_open(commands)
    _add_demo(commands)
    _add_levels(commands)
    add_plan(commands)
    add_sieve(commands)
    add_progress(commands)
    _add_book_commands(commands)
    add_exchange(commands)
    add_office(commands)
    _add_pictures(commands)
    return parser


def _add_open(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    opened = commands.add_parser(OPEN, help="open the app; crewapp BOOK does the same")
    opened.add_argument("book", type=Path, nargs="?", help="book to open; else the last one")


def _add_demo(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    demo = commands.add_parser(
        "demo", help="make the invented demo job, work it to its end, print its sheets"
    )
    demo.add_argument("--out", type=Path, default=Path("out/demo"), help="folder it is made in")
    demo.add_argument("--open", action="store_true", help="then open it in the app")
    demo.add_argument("--finished", action="store_true", help="then open it as it ended")
    demo.add_argument("--json", action="store_true", help="say what was made as JSON")


def _add_pictures(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    pictures = commands.add_parser("pictures", help="draw every screen of the app into a folder")
    pictures.add_argument("--book", type=Path, default=None, help="book to show; else a fresh demo")
    pictures.add_argument("--out", type=Path, default=Path("out/pictures"), help="folder for them")
    pictures.add_argument(
        "--readme", action="store_true", help="only README's, each with a list of what is on it"
    )
    pictures.add_argument(
        "--tablet", choices=["8in", "10in-coarse"], default=None, help="on this one alone"
    )
    pictures.add_argument("--language", choices=["en", "es"], default="en", help="words on them")
    pictures.add_argument("--json", action="store_true", help="print JSON")


def _add_levels(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    levels = commands.add_parser(
        "levels", help="reduce a page of level notes, or work out a peg test, and check it"
    )
    levels.add_argument(
        "notes",
        type=Path,
        help="CSV of a run: point, BS, IS, FS, remarks[, elevation, distance]; or of a peg test, "
        "a row a reading: setup (midway, end), peg (A, B), reading, distance (at the end), remarks",
    )
    levels.add_argument("--unit", choices=["ft", "m"], default="ft", help="unit of bare numbers")
    levels.add_argument(
        "--start", default=None, help="elevation of the first point, if the page does not give it"
    )
    levels.add_argument(
        "--allow",
        default=None,
        help="allowable misclosure: third, 0.05ft-mile, 0.02, 0.01/setup, 0.01/sqrt-setup",
    )
    levels.add_argument(
        "--adjust",
        choices=["setups", "distance", "least-squares", "no"],
        default="setups",
        help="how a misclosure is shared out",
    )
    levels.add_argument(
        "--peg-limit",
        type=int,
        default=None,
        metavar="MILLIONTHS",
        help="largest error of a peg test; 125 if left out, which is 5 mm in 40 m",
    )
    levels.add_argument("--json", action="store_true", help="print JSON")


def _add_book_commands(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    log = commands.add_parser("log", help="write field notes typed up from paper, all or nothing")
    log.add_argument("book", type=Path, help="book to write into")
    log.add_argument("entries", type=Path, help="CSV, one row an entry; see `crewapp columns`")
    log.add_argument("--author", default="office", help="whose name the entries carry")
    log.add_argument("--again", action="store_true", help="write a page that is written already")
    log.add_argument("--json", action="store_true", help="print JSON")
    columns = commands.add_parser("columns", help="print the rows and columns that log reads")
    columns.add_argument("--json", action="store_true", help="print JSON")
    _add_looking_commands(commands)


def _add_looking_commands(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    check = commands.add_parser("check", help="list what is out of tolerance or missing")
    check.add_argument("book", type=Path, help="book to look at; it is not changed")
    check.add_argument("--all", action="store_true", help="show answered flags too")
    check.add_argument("--json", action="store_true", help="print JSON")
    sheet = commands.add_parser("sheet", help="print a day's production sheet")
    sheet.add_argument("book", type=Path, help="book to look at; it is not changed")
    sheet.add_argument("--day", default=None, help="YYYY-MM-DD; the last day worked if left out")
    sheet.add_argument("--out", type=Path, default=Path("out"), help="folder for the files")
    sheet.add_argument("--json", action="store_true", help="print JSON")
    verify = commands.add_parser("verify", help="prove a book, and a sheet's check code against it")
    verify.add_argument("book", type=Path, help="book to look at; it is not changed")
    verify.add_argument("--code", default=None, help="check code as printed on a sheet")
    verify.add_argument("--day", default=None, help="YYYY-MM-DD of the sheet")
    verify.add_argument("--json", action="store_true", help="print JSON")
    _add_as_built(commands)
    schema = commands.add_parser("schema", help="print the JSON Schema of every kind of entry")
    schema.add_argument("--json", action="store_true", help="JSON is what it prints anyway")


def _add_as_built(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    made = commands.add_parser(
        "asbuilt", help="write the record of the job as built: PDF, XLSX, drawing and data files"
    )
    made.add_argument("book", type=Path, help="book to look at; it is not changed")
    made.add_argument("--out", type=Path, default=Path("out/asbuilt"), help="folder for the files")
    made.add_argument("--paper", default=None, help="letter, tabloid, a4 or a3")
    made.add_argument("--scale", default=None, help="such as 1:250 or 20 (1 in = 20 ft)")
    made.add_argument("--json", action="store_true", help="print JSON")
