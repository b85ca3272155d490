"""Follows a recipe of DEVELOPERS.md in a copy of the program.

A recipe is a folder in fixtures/recipes: ``files`` holds what is written anew, edits.patch
what is changed, recipe.json the paragraph that tells of it, the commands that are run then
and the tests that show that it works.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Collection, Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.house.test_arrows import unnamed, without_row, wrong_imports
from tests.house.tree import PACKAGES, ROOT, imports_of, modules

RECIPES = ROOT / "fixtures" / "recipes"
COPIED = (*PACKAGES, "tests", "fixtures", "pyproject.toml", "README.md", ".gitignore")


@dataclass(frozen=True)
class Recipe:
    """A recipe: how its paragraph begins, and what is done and run after its files are there."""

    name: str
    heading: str
    commands: tuple[str, ...]
    tests: tuple[str, ...]

    @property
    def folder(self) -> Path:
        """Folder that holds the recipe."""
        return RECIPES / self.name

    def new_files(self) -> tuple[str, ...]:
        """Files that the recipe tells one to write."""
        files = self.folder / "files"
        return tuple(
            sorted(
                path.relative_to(files).as_posix()
                for path in files.rglob("*")
                if path.is_file() and "__pycache__" not in path.parts
            )
        )

    def patch(self) -> str:
        """Changes to files that are there already."""
        path = self.folder / "edits.patch"
        return path.read_text("utf-8") if path.exists() else ""

    def edited_files(self) -> tuple[str, ...]:
        """Files that the recipe tells one to change."""
        lines = self.patch().splitlines()
        return tuple(sorted(line[len("+++ b/") :] for line in lines if line.startswith("+++ b/")))

    def files(self) -> tuple[str, ...]:
        """Return every file that is written or changed by hand."""
        return (*self.new_files(), *self.edited_files())


@cache
def recipes() -> tuple[Recipe, ...]:
    """Return every recipe, by name."""
    return tuple(
        Recipe(path.parent.name, told["heading"], tuple(told["commands"]), tuple(told["tests"]))
        for path in sorted(RECIPES.glob("*/recipe.json"))
        for told in [json.loads(path.read_text("utf-8"))]
    )


def linked(folder: Path) -> Path:
    """Return the program in a folder of its own: what is Python linked, which takes no time.

    Data is copied, since commands write it anew in its place.
    """
    for part in COPIED:
        if (ROOT / part).is_dir():
            shutil.copytree(ROOT / part, folder / part, copy_function=link)
        else:
            link(str(ROOT / part), str(folder / part))
    return folder


def link(source: str, target: str) -> None:
    """Link a Python file; copy any other, and where the disk is another one."""
    if source.endswith((".py", ".pyc")):
        with suppress(OSError):
            os.link(source, target)
            return
    shutil.copy2(source, target)


def part_from_original(path: Path) -> None:
    """Put a copy in the place of a link, so that a change stays in the copy."""
    data = path.read_bytes()
    path.unlink()
    path.write_bytes(data)


def follow(recipe: Recipe, program: Path, left_out: str = "") -> None:
    """Write and change what a recipe says, but for one file, and run its commands."""
    for name in recipe.new_files():
        if name != left_out:
            (program / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(recipe.folder / "files" / name, program / name)
    edited = [name for name in recipe.edited_files() if name != left_out]
    for name in edited:
        part_from_original(program / name)
    if edited:
        only = [f"--include={name}" for name in edited]
        done = run(program, "git", "apply", *only, "-", given=recipe.patch())
        assert done.returncode == 0, done.stderr
    for command in recipe.commands:
        words, _, target = command.partition(" > ")
        done = run(program, sys.executable, *words.split())
        if target and done.returncode == 0:
            (program / target).unlink(missing_ok=True)
            (program / target).write_text(done.stdout, encoding="utf-8")


def try_out(recipe: Recipe, program: Path) -> str:
    """Return what stands against a recipe that was followed: a rule or a test; empty if nothing.

    Only what the recipe writes is held to the rules, since reading all of the program takes
    longer than all else here; plugins of pytest that nobody needs here stay out.
    """
    rules = ("-m", "tests.house.recipes", *recipe.files())
    pytest = ("-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", *recipe.tests)
    for words in (rules, pytest):
        done = run(program, sys.executable, *words)
        if done.returncode:
            return f"{done.stdout[-4000:]}{done.stderr[-1000:]}"
    return ""


def broken_rules(files: Collection[str]) -> list[str]:
    """Return what files break of the rules of who imports whom, of folders and of names."""
    here = {
        name: path for name, path in modules().items() if path.relative_to(ROOT).as_posix() in files
    }
    wrong = [one for name, path in here.items() for one in wrong_imports(name, imports_of(path))]
    rowless = [f"{folder} has no row in arrows.tsv" for folder in without_row(here)]
    return [*wrong, *rowless, *(f"{name} says not what it is" for name in here if unnamed(name))]


def run(program: Path, *command: str, given: str = "") -> subprocess.CompletedProcess[str]:
    """Run a command in a copy of the program."""
    alone = {"PYTHONPATH": str(program), "GIT_CEILING_DIRECTORIES": str(program.parent)}
    alone |= {"PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
    return subprocess.run(
        command,
        env={**os.environ, **alone},
        cwd=program,
        input=given,
        text=True,
        capture_output=True,
        check=False,
    )


def left_out_of(recipe: Recipe, in_full: bool) -> Iterator[str]:
    """Yield files to leave out, each to be missed: every one in full, else the last."""
    yield from recipe.files() if in_full else recipe.files()[-1:]


if __name__ == "__main__":
    sys.exit("\n".join(broken_rules(sys.argv[1:])) or 0)
