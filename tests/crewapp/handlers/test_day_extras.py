"""Photos, answers by key, delays that end now, sheets: what they write and refuse."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from crewapp.commands.day import EndDelay
from crewapp.commands.flags import AnswerFlag
from crewapp.commands.passes import LogPass, LogProbe
from crewapp.commands.photos import KeepPhoto
from crewapp.handlers import photos
from crewapp.handlers.flags import FlagGoneError
from crewapp.handlers.photos import (
    PhotoRefusedError,
    PhotoUnreadableError,
    photo_folder,
)
from crewapp.handlers.sheets import SheetNotMadeError, make_sheet
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import SetClock
from models.entries.bodies.day import Delay, Disposition
from models.entries.kind_names import DISPOSITION, PHOTO
from tests.crewapp.conftest import DAY

FT = 304_800_000
JPEG, PNG = b"\xff\xd8\xff\xe0 a picture", b"\x89PNG\r\n\x1a\n a picture"


def put(folder: Path, data: bytes, name: str = "a.jpg") -> str:
    """Write a file and return its path."""
    path = folder / name
    path.write_bytes(data)
    return str(path)


@pytest.mark.parametrize(("data", "suffix"), [(JPEG, "jpg"), (PNG, "png")])
def test_photo_is_told_by_its_beginning(
    job: OpenJob, tmp_path: Path, data: bytes, suffix: str
) -> None:
    """The name may say anything; the same photo twice is one file."""
    for _ in range(2):
        entry = do(job, KeepPhoto(path=put(tmp_path, data), caption="outlet")).entries[0]

    kept = list(photo_folder(job.book.path).iterdir())
    assert [path.suffix for path in kept] == [f".{suffix}"]
    assert kept[0].stem == getattr(entry.body, "sha256", "")


@pytest.mark.parametrize("data", [b"", b"no picture", b"\xff\xd8\xff" + b"x" * 64])
def test_what_is_no_photo_or_too_large_is_refused(
    job: OpenJob, tmp_path: Path, data: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing is copied and nothing is logged."""
    monkeypatch.setattr(photos, "LARGEST_BYTES", 32)
    with pytest.raises(PhotoRefusedError):
        do(job, KeepPhoto(path=put(tmp_path, data)))

    assert not photo_folder(job.book.path).exists()
    assert job.state.current(PHOTO) == []


def test_photo_that_is_gone_is_told(job: OpenJob, tmp_path: Path) -> None:
    """A chooser may name a file that can't be read."""
    with pytest.raises(PhotoUnreadableError, match=r"gone\.jpg was not kept"):
        do(job, KeepPhoto(path=str(tmp_path / "gone.jpg")))


def test_pipe_is_no_photo(job: OpenJob, tmp_path: Path) -> None:
    """What a chooser hands over may be a pipe; nobody waits at its other end."""
    os.mkfifo(tmp_path / "pipe.jpg")

    with pytest.raises(PhotoUnreadableError, match=r"pipe\.jpg was not kept: it is a pipe"):
        do(job, KeepPhoto(path=str(tmp_path / "pipe.jpg")))


def test_delay_ends_now(job: OpenJob, clock: SetClock) -> None:
    """From 8:00 to 8:25: 25 minutes, and a minute begun counts whole."""
    since_ms = clock.now().at_ms
    clock.pass_seconds(24 * 60 + 1)
    delay = do(job, EndDelay(cause="rain", since_ms=since_ms)).entries[0].body

    assert isinstance(delay, Delay)
    assert (delay.lost_min, delay.start_min) == (25, 8 * 60)


def test_delay_that_began_at_a_time_ends_now(job: OpenJob, clock: SetClock) -> None:
    """The stated beginning counts, not the tap."""
    clock.pass_seconds(3600)
    since_ms = clock.now().at_ms
    body = do(job, EndDelay(cause="rain", since_ms=since_ms, start_min=500)).entries[0].body

    assert isinstance(body, Delay)
    assert (body.lost_min, body.start_min) == (40, 500)


def shallow_flag(job: OpenJob) -> tuple[str, str]:
    """Make a flag; return its key and the digest of its figures."""
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30"))
    do(
        job,
        LogProbe(
            pass_id="G7-01", line_id="S01", along_nm=FT, depth_nm=200_000_000, depth_typed="7.9"
        ),
    )
    flag = next(f for f in job.board.open_flags() if f.finding.check == "depth_shallow")
    return flag.finding.key, flag.finding.figures


def test_flag_is_answered_by_its_key(job: OpenJob) -> None:
    """The answer holds for the figures that were read."""
    key, figures = shallow_flag(job)
    body = do(job, AnswerFlag(key=key, figures=figures, answer="rework", why="now")).entries[0].body

    assert isinstance(body, Disposition)
    assert (body.flag, body.figures, body.answer) == (key, figures, "rework")


@pytest.mark.parametrize(("is_gone", "says"), [(True, "cleared"), (False, "figures have changed")])
def test_flag_of_other_figures_is_not_answered(job: OpenJob, is_gone: bool, says: str) -> None:
    """Between reading and tapping the flag has cleared or changed."""
    key, figures = shallow_flag(job)
    asked = ("no/such", figures) if is_gone else (key, "0" * 16)
    with pytest.raises(FlagGoneError, match=says):
        do(job, AnswerFlag(key=asked[0], figures=asked[1], answer="rework", why="now"))

    assert job.state.current(DISPOSITION, key) == []


def test_sheet_is_made_in_each_form(job: OpenJob, tmp_path: Path) -> None:
    """One file a call, in a folder made if need be."""
    for form, head in (("pdf", b"%PDF"), ("xlsx", b"PK"), ("csv", b"")):
        path = make_sheet(job, day=DAY, folder=str(tmp_path / "out"), format=form)
        assert path.suffix == f".{form}"
        assert path.read_bytes().startswith(head)


def test_sheet_without_a_folder_is_told(job: OpenJob, tmp_path: Path) -> None:
    """A file stands where the folder should be."""
    put(tmp_path, b"in the way", "out")
    with pytest.raises(SheetNotMadeError, match="was not written"):
        make_sheet(job, day=DAY, folder=str(tmp_path / "out"), format="pdf")
