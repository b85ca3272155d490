"""A watched program that changes its folder in every way that the recorder knows, and some not."""

from __future__ import annotations

import mmap
import os
import shutil
import sys
from collections.abc import Callable
from pathlib import Path

from tests.power.inside import Recorder


def write_in_every_way(folder: Path) -> None:
    """Append, overwrite, write apart, cut, draw out, and write anew."""
    (folder / "plain").write_bytes(b"x" * 3000)
    with (folder / "plain").open("ab") as file:
        file.write(b"appended")
    handle = os.open(folder / "plain", os.O_RDWR)
    os.pwrite(handle, b"inside", 700)
    os.writev(handle, [b"fi", b"rst"])
    os.pwritev(handle, [b"a", b"bc"], 5000)
    os.ftruncate(handle, 4500)
    os.ftruncate(handle, 4600)
    os.fsync(handle)
    os.fdatasync(handle)
    os.close(handle)
    (folder / "anew").write_bytes(b"long before")
    (folder / "anew").write_bytes(b"short")


def name_in_every_way(folder: Path) -> None:
    """Rename, replace, link, remove; in folders below, and by a folder's handle."""
    (folder / "deep" / "deeper").mkdir(parents=True)
    (folder / "gone").mkdir()
    (folder / "gone").rmdir()
    for name in ("a", "b", "c", "d"):
        (folder / name).write_text(name)
    os.rename(folder / "a", folder / "deep" / "a")
    os.replace(folder / "b", folder / "c")
    os.link(folder / "c", folder / "deep" / "deeper" / "link")
    (folder / "d").unlink()
    handle = os.open(folder / "deep", os.O_RDONLY | os.O_DIRECTORY)
    inner = os.open("inner", os.O_WRONLY | os.O_CREAT, dir_fd=handle)
    os.write(inner, b"by handle")
    os.close(inner)
    os.rename("inner", "renamed", src_dir_fd=handle, dst_dir_fd=handle)
    os.fsync(handle)
    os.close(handle)
    os.chdir(folder)
    Path("here").write_text("by the folder that the program stands in")


def map_a_file(folder: Path) -> None:
    """Write through memory."""
    (folder / "mapped").write_bytes(bytes(4096))
    with (folder / "mapped").open("r+b") as file, mmap.mmap(file.fileno(), 0) as shared:
        shared[0] = 1


def copy_a_file(folder: Path) -> None:
    """Let the system copy."""
    (folder / "one").write_bytes(b"x" * 100)
    shutil.copyfile(folder / "one", folder / "two")


def double_a_handle(folder: Path) -> None:
    """Write by another number of the same handle."""
    with (folder / "doubled").open("wb") as file:
        os.write(os.dup(file.fileno()), b"x")


def bring_a_file_in(folder: Path) -> None:
    """Rename a file from a folder that is not watched."""
    (folder.parent / "outside").write_bytes(b"x")
    os.rename(folder.parent / "outside", folder / "inside")


WAYS: dict[str, Callable[[Path], None]] = {
    way.__name__: way
    for way in (
        write_in_every_way,
        name_in_every_way,
        map_a_file,
        copy_a_file,
        double_a_handle,
        bring_a_file_in,
    )
}


def main(folder: Path, ways: list[str]) -> None:
    """Do what is named, one after the other, and acknowledge each."""
    recorder = Recorder()
    for way in ways:
        WAYS[way](folder)
        recorder.tell(way)


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2:])
