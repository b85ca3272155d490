"""The parser of the command line: whole words, a sentence for unknown ones, examples at the end."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from typing import Any, NoReturn

from crewapp.cli.modules import module_of

OPEN = "open"
"""The command that a line without one means."""

LONGEST_WORD = 60
"""Letters of an unknown word that are said again."""


class CommandLineError(SystemExit):
    """Words of a command line that can't be read end the program with code 2, saying why."""

    def __init__(self, told: str) -> None:
        self.told = told
        super().__init__(2)


class CommandParser(argparse.ArgumentParser):
    """A parser that guesses no option from its beginning: ``--bearing`` is not ``--bearings``."""

    works: Mapping[str, argparse.ArgumentParser] = {}
    """Commands, or what a command can do, by the word for it."""

    def __init__(self, **settings: Any) -> None:
        super().__init__(**{"allow_abbrev": False, **settings})

    def add_subparsers(self, **settings: Any) -> Any:
        """Take words for what can be done, and remember them."""
        found = super().add_subparsers(**settings)
        self.works = found.choices
        return found

    def error(self, message: str) -> NoReturn:
        """Say what can't be read, on the error stream, and end.

        Raises
        ------
        CommandLineError
            Always.
        """
        self.print_usage(sys.stderr)
        print(f"{self.prog}: error: {message}", file=sys.stderr)
        raise CommandLineError(message)

    def format_help(self) -> str:
        """Return the help with the examples of the command as its last part."""
        name = self.get_default("module") or "_".join(self.prog.split()[1:]) or OPEN
        return super().format_help() + _examples(name)


def _examples(name: str) -> str:
    """Return the examples of a command's module, nothing for a word that only groups others."""
    module = module_of(name)
    if find_spec(module) is None:
        return ""
    from crewapp.cli.example import examples_text

    held = getattr(import_module(module), "EXAMPLES", ())  # a folder of commands has none
    return f"\n{examples_text(held)}\n" if held else ""


def insert_open_command(words: Sequence[str], parser: CommandParser) -> list[str]:
    """Read ``crewapp BOOK`` as ``crewapp open BOOK``: a first word that is a file, no command."""
    is_book = bool(words) and words[0] not in parser.works and _is_file(words[0])
    return [OPEN, *words] if is_book else list(words)


def _is_file(word: str) -> bool:
    """Whether a word names a file; one too long to be a name does not."""
    try:
        return Path(word).is_file()
    except OSError:
        return False


def unknown_word(words: Sequence[str], parser: CommandParser) -> str:
    """Return a sentence about a word that is no command, with the nearest; "" if all are known."""
    said = parser.prog
    for word in words:
        if not parser.works or word.startswith("-"):
            return ""
        if word not in parser.works:
            return _sentence(said, word, parser)
        inner = parser.works[word]
        if not isinstance(inner, CommandParser):
            return ""
        parser, said = inner, inner.prog
    return ""


def _sentence(said: str, word: str, parser: CommandParser) -> str:
    """Return what was met and what would be accepted."""
    near = get_close_matches(word.lower(), parser.works, n=1, cutoff=0.5)
    nearest = f" The nearest is {said} {near[0]}." if near else ""
    file = "" if said != "crewapp" else " and no file"
    met = f"{word[:LONGEST_WORD]!r} is no command{file} here."
    return f"{met}{nearest} {said} --help lists what there is."
