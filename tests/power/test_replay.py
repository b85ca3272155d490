"""The rules of the disk that loses its power, one by one, on logs written by hand."""

from __future__ import annotations

import random
from collections.abc import Sequence

import pytest

from tests.power.replay import SECTOR_BYTES, Disk, NoRuleError, cut
from tests.power.wire import CREATING, EMPTYING, Deed

TRIES = 200
FOLDER = [Deed("D", 9, 0, b""), Deed("S", 9), Deed("C", 9)]


def made(name: bytes, fd: int = 3) -> list[Deed]:
    """Make a file whose name is certain."""
    return [Deed("O", fd, CREATING, name), *FOLDER]


def outcomes(deeds: Sequence[Deed]) -> list[dict[str, bytes | None]]:
    """Return every different folder that many cuts after these deeds leave."""
    disk, dice = Disk(), random.Random(1)
    for deed in deeds:
        disk.do(deed)
    found = [disk.after_a_cut(dice) for _ in range(TRIES)]
    return [folder for n, folder in enumerate(found) if folder not in found[:n]]


def test_synced_bytes_are_there() -> None:
    """What was synced under a name that was synced is in every image."""
    deeds = [*made(b"a"), Deed("W", 3, 0, b"probe"), Deed("S", 3)]

    assert outcomes(deeds) == [{"a": b"probe"}]


def test_writes_not_synced_are_there_or_not_each_by_itself() -> None:
    """Of two small writes any may be missing; a hole is filled with zeros."""
    deeds = [*made(b"a"), Deed("W", 3, 0, b"ab"), Deed("W", 3, 2, b"cd")]

    found = {folder["a"] for folder in outcomes(deeds)}

    assert found == {b"", b"ab", b"\0\0cd", b"abcd"}


def test_long_write_is_torn_between_sectors() -> None:
    """Of a write over three sectors any may be missing, but never part of one."""
    data = b"".join(bytes([65 + n]) * SECTOR_BYTES for n in range(3))
    old = [*made(b"a"), Deed("W", 3, 0, b"." * len(data)), Deed("S", 3)]

    found = [folder["a"] or b"" for folder in outcomes([*old, Deed("W", 3, 0, data)])]

    parts = {tuple(bytes(file[n : n + 512]) for n in (0, 512, 1024)) for file in found}
    assert all(len(set(part)) == 1 for file in parts for part in file)
    assert len(parts) == 8


def test_sectors_are_those_of_the_file() -> None:
    """A write that begins in mid-sector is torn at the sector's end, not 512 bytes on."""
    deeds = [*made(b"a"), Deed("W", 3, 500, b"x" * 20)]

    sizes = {len(folder["a"] or b"") for folder in outcomes(deeds)}

    assert sizes == {0, 512, 520}


def test_change_of_size_waits_for_a_sync_too() -> None:
    """A file that is opened to be written anew may still be the old one."""
    deeds = [*made(b"a"), Deed("W", 3, 0, b"old"), Deed("S", 3)]

    found = {folder["a"] for folder in outcomes([*deeds, Deed("O", 4, EMPTYING, b"a")])}

    assert found == {b"old", b""}


def test_names_wait_for_their_folder_and_keep_their_order() -> None:
    """Of three new files the first may be there alone, the second not without it."""
    deeds = [Deed("O", n, CREATING, name) for n, name in enumerate((b"a", b"b", b"c"), 3)]

    found = {"".join(sorted(folder)) for folder in outcomes(deeds)}

    assert found == {"", "a", "ab", "abc"}


def test_contents_do_not_vouch_for_the_name() -> None:
    """A synced file whose folder was not synced may be missing, as POSIX has it."""
    deeds = [Deed("O", 3, CREATING, b"a"), Deed("W", 3, 0, b"x"), Deed("S", 3)]

    assert {folder.get("a") for folder in outcomes(deeds)} == {None, b"x"}


def test_rename_is_done_or_not_done() -> None:
    """A synced file put in the place of another: the old bytes or the new, never neither."""
    old = [*made(b"a"), Deed("W", 3, 0, b"old"), Deed("S", 3)]
    new = [*made(b"b", 4), Deed("W", 4, 0, b"new"), Deed("S", 4), Deed("R", -1, 0, b"b", b"a")]

    found = outcomes([*old, *new])

    assert {folder["a"] for folder in found} == {b"old", b"new"}
    assert outcomes([*old, *new, *FOLDER]) == [{"a": b"new"}]


def test_rename_does_not_vouch_for_the_contents() -> None:
    """A file renamed before it was synced may be empty under its new name."""
    deeds = [*made(b"b"), Deed("W", 3, 0, b"new"), Deed("R", -1, 0, b"b", b"a"), *FOLDER]

    assert {folder["a"] for folder in outcomes(deeds)} == {b"", b"new"}


def test_removed_name_may_come_back() -> None:
    """A file removed without a sync of its folder may be there again, with its bytes."""
    deeds = [*made(b"a"), Deed("W", 3, 0, b"x"), Deed("S", 3), Deed("U", -1, 0, b"a")]

    assert {folder.get("a") for folder in outcomes(deeds)} == {None, b"x"}


def test_folder_syncs_only_what_came_before_its_own_names() -> None:
    """A name made in another folder, later than the last of the synced one, stays open."""
    deeds = [
        Deed("M", -1, 0, b"inner"),
        Deed("O", 3, CREATING, b"a"),
        Deed("O", 4, CREATING, b"inner/b"),
        *FOLDER,
    ]

    assert {"inner/b" in folder for folder in outcomes(deeds)} == {True, False}
    assert all({"inner", "a"} <= folder.keys() for folder in outcomes(deeds))


def test_a_sync_that_failed_is_not_made_good_by_the_next() -> None:
    """Bytes whose sync failed stay uncertain; bytes written after it are saved by the next."""
    deeds = [*made(b"a"), Deed("W", 3, 0, b"ab"), Deed("E", 3), Deed("W", 3, 2, b"cd")]

    found = {folder["a"] for folder in outcomes([*deeds, Deed("S", 3)])}

    assert found == {b"abcd", b"\0\0cd"}


def test_two_names_show_one_file() -> None:
    """A linked file has the same bytes under both names, whatever was lost of it."""
    deeds = [*made(b"a"), Deed("W", 3, 0, b"x" * 2000), Deed("L", -1, 0, b"a", b"b"), *FOLDER]

    assert all(folder["a"] == folder["b"] for folder in outcomes(deeds))


@pytest.mark.parametrize(
    "deed",
    [Deed("X", -1, 0, b"mmap"), Deed("O", 3, 0, b"unknown"), Deed("R", -1, 0, b"inner", b"outer")],
    ids=["no rule", "there before", "folder renamed"],
)
def test_what_no_rule_covers_is_refused(deed: Deed) -> None:
    """A log with a gap is not replayed, so that nothing is proved by what was not seen."""
    disk = Disk()
    disk.do(Deed("M", -1, 0, b"inner"))

    with pytest.raises(NoRuleError):
        disk.do(deed)


def test_half_of_the_cuts_come_right_after_an_acknowledgement() -> None:
    """That is where a promise that is not kept shows; the others may come anywhere."""
    deeds = [*made(b"a"), *[Deed("W", 3, 0, b"x")] * 50, Deed("A", -1, 0, b"first")]
    deeds += [Deed("W", 3, 0, b"y")] * 50

    places = [image.place for image in cut(deeds, 20, seed=3)]

    assert places.count(deeds.index(Deed("A", -1, 0, b"first")) + 1) >= 10
    assert len(set(places)) > 5
    assert places == [image.place for image in cut(deeds, 20, seed=3)]
