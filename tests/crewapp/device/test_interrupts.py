"""A Ctrl-C that a library turns into an error of its own is told as a Ctrl-C all the same."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from crewapp.cli import columns
from crewapp.cli.main import main
from crewapp.device.interrupts import remember_interrupts, was_interrupted


@pytest.fixture(autouse=True)
def _handlers() -> Iterator[None]:
    """Whatever a test leaves, Ctrl-C stops the run as before."""
    before = signal.getsignal(signal.SIGINT)
    signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    remember_interrupts()  # forgets what came
    signal.signal(signal.SIGINT, before)


def swallowing(*_: object) -> int:
    """A command whose library catches Ctrl-C and raises what names no cause."""
    with suppress(KeyboardInterrupt):
        signal.raise_signal(signal.SIGINT)
    raise ArithmeticError("no schema")


def failing(*_: object) -> int:
    """A command that fails with nobody pressing anything."""
    raise ArithmeticError("no schema")


@pytest.mark.parametrize(("run", "code"), [(swallowing, 130), (failing, 3)])
def test_swallowed_interrupt_is_told_as_one(
    run: object,
    code: int,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Exit 130 and its sentence, and no report; the same error without Ctrl-C stays exit 3."""
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path))
    monkeypatch.setattr(columns, "run", run)

    assert main(["columns"]) == code
    assert ("Stopped. What was inked stands" in capsys.readouterr().err) == (code == 130)
    assert list(tmp_path.rglob("*.txt")) == [] or code == 3


def test_each_start_forgets_what_came_before() -> None:
    """One program in which commands run one after the other: the next is not told stopped."""
    remember_interrupts()
    with suppress(KeyboardInterrupt):
        signal.raise_signal(signal.SIGINT)
    assert was_interrupted()

    remember_interrupts()
    assert not was_interrupted()


def test_who_ignores_interrupts_goes_on_ignoring_them() -> None:
    """A program started with Ctrl-C ignored, as shells start what runs behind, stays so."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    remember_interrupts()

    assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN
