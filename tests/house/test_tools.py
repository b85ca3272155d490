"""Formatter, linter and type checker as tests, so that the check is pytest and nothing else."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.house.tree import ROOT


@pytest.mark.parametrize(
    "command",
    [
        ["ruff", "format", "--check", "."],
        ["ruff", "check", "."],
        ["mypy", "models", "sync", "crewapp", "tests"],
    ],
    ids=["format", "lint", "types"],
)
def test_tool_has_nothing_to_say(command: list[str]) -> None:
    """The tool exits 0; its own output is the message when it does not."""
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False
    )

    assert done.returncode == 0, done.stdout + done.stderr
