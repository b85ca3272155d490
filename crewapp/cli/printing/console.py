"""Printing on any console: what its letters can't show is written with those it has."""

from __future__ import annotations

import codecs
import contextlib
import io
import logging
import os
import re
import sys
import unicodedata
from collections.abc import Iterator
from typing import Any, TextIO

_PLAIN = {
    "\N{FRACTION SLASH}": "/",
    "\N{DIVISION SLASH}": "/",
    "\N{EN DASH}": "-",
    "\N{EM DASH}": "-",
    "\N{MINUS SIGN}": "-",
    "\N{MULTIPLICATION SIGN}": "x",
    "\N{LEFT SINGLE QUOTATION MARK}": "'",
    "\N{RIGHT SINGLE QUOTATION MARK}": "'",
    "\N{LEFT DOUBLE QUOTATION MARK}": '"',
    "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
    "\N{BULLET}": "*",
    "\N{DEGREE SIGN}": " deg",
    "\N{MICRO SIGN}": "u",
    "\N{GREEK SMALL LETTER MU}": "u",
    "\N{LATIN SMALL LETTER SHARP S}": "ss",
    "\N{LESS-THAN OR EQUAL TO}": "<=",
    "\N{GREATER-THAN OR EQUAL TO}": ">=",
    "\N{RIGHTWARDS ARROW}": "->",
}
_SHOWN_PLAIN, _SHOWN_AS_JSON = "crewapp-plain", "crewapp-json"


def log_no_interrupts() -> None:
    """Keep libraries from printing a Ctrl-C that they pass on: one sentence tells of it.

    The database library logs whatever comes while it closes a file, and then raises it again.
    """
    if logging.lastResort is not None:
        logging.lastResort.addFilter(_is_no_interrupt)


def _is_no_interrupt(record: logging.LogRecord) -> bool:
    return not (record.exc_info and isinstance(record.exc_info[1], KeyboardInterrupt))


def plain_letters(text: str) -> str:
    """Write text with ASCII letters alone: yd3 for cubic yards, ? for what has no such letters."""
    return "".join(_plain(letter) for letter in text)


def _plain(letter: str) -> str:
    if letter in _PLAIN:
        return _PLAIN[letter]
    parts = unicodedata.normalize("NFKD", letter)
    apart = " " if "\N{FRACTION SLASH}" in parts else ""  # nine and a half is not 91/2
    return apart + "".join(
        part if part.isascii() else _PLAIN.get(part, "" if unicodedata.combining(part) else "?")
        for part in parts
    )


def _show_plain(fault: UnicodeError) -> tuple[str, int]:
    if not isinstance(fault, UnicodeEncodeError):
        raise fault
    return plain_letters(fault.object[fault.start : fault.end]), fault.end


def _show_as_json(fault: UnicodeError) -> tuple[str, int]:
    """Write letters as JSON's escapes, which any reader of it turns into the same letters."""
    if not isinstance(fault, UnicodeEncodeError):
        raise fault
    halves = fault.object[fault.start : fault.end].encode("utf-16-be", "surrogatepass")
    pairs = (halves[at : at + 2].hex() for at in range(0, len(halves), 2))
    return "".join(f"\\u{pair}" for pair in pairs), fault.end


codecs.register_error(_SHOWN_PLAIN, _show_plain)
codecs.register_error(_SHOWN_AS_JSON, _show_as_json)


def print_on_any_console(*, is_json: bool = False) -> None:
    """Let printing go on where the console's letters are few, as on LANG=C or code page 437."""
    for stream, form in (
        (sys.stdout, _SHOWN_AS_JSON if is_json else _SHOWN_PLAIN),
        (sys.stderr, _SHOWN_PLAIN),
    ):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors=form)


_OBEYED = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]"
)


def escape_control_letters(text: str) -> str:
    """Name the letters that a terminal would obey: ``[U+001B]`` begins no command of one.

    Examples
    --------
    >>> escape_control_letters("green" + chr(27) + "[2J")
    'green[U+001B][2J'
    """
    if text.isascii() and text.isprintable():
        return text
    return _OBEYED.sub(lambda found: f"[U+{ord(found[0]):04X}]", text)


class _Shown:
    """A stream on which nothing that is printed steers the terminal."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        return self._stream.write(escape_control_letters(text))

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)


@contextlib.contextmanager
def printing_escaped(*, is_json: bool = False) -> Iterator[None]:
    """Print names and words of others as letters, whatever they hold; JSON is for machines."""
    with contextlib.ExitStack() as stack:
        if not is_json:
            stack.enter_context(contextlib.redirect_stdout(_Shown(sys.stdout)))
        stack.enter_context(contextlib.redirect_stderr(_Shown(sys.stderr)))
        yield


def finish_printing(code: int) -> int:
    """Flush what is still to be printed, and return the exit code.

    Raises
    ------
    OSError
        If it can't be handed on, as into a pipe that nobody reads or onto a full disk.
    """
    sys.stdout.flush()
    return code


def drop_broken_streams() -> None:
    """Flush what is printed; where the stream is broken, drop the rest."""
    try:
        sys.stdout.flush()
    except OSError:
        with contextlib.suppress(OSError, ValueError):
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, sys.stdout.fileno())
            os.close(nowhere)


def os_fault_text(fault: OSError) -> str:
    """Say what the system refused, where no part of the program had a sentence for it."""
    what = f" {fault.filename}" if fault.filename else ""
    why = fault.strerror or str(fault)
    where = f"Cannot use{what}" if what else "Not all could be read or written"
    return (
        f"{where}: {why}. A file or folder that is there, may be used and has room would be "
        "accepted."
    )
