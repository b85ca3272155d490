"""What every store must do. A test class of a store inherits this and gives a ``place``."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import AbstractContextManager
from typing import Protocol

import pytest

from sync.stores.contract import DEEPEST, ListedFile, Store
from sync.stores.errors import BadNameError, NotInStoreError, StoreNameTakenError, TooLargeError

HOSTILE = [
    *("", ".", "..", "../a", "a/../b", "/a", "a/", "a//b", "./a", "a/.", "a/..", "/", "//"),
    *("a\\b", "..\\a", "c:\\a", "c:a", "a:b", "a\0b", "a\nb", "a\rb", "a\tb", "a\x1bb", "a\x7f"),
    *("con", "nul", "aux.seg", "com1", "a/lpt9.seg", "prn", "a.", "a/b.", ".a", "a/.tmp-1"),
    *(
        "A",
        "a/B",
        "é",
        "a\u202eb",
        "a\u2028b",
        "a\u0301",
        "-a",
        "_a",
        " a",
        "a ",
        "a b",
        "~",
        "~root",
    ),
    *("a?b", "a*b", "a|b", "a<b", 'a"b', "$a", "`a`", "%2e%2e", "a%2fb", "a;b", "a&b", "#a", "a@b"),
    *("a" * 144, "/".join("b" * 100 for _ in range(2)), "/".join("c" * (DEEPEST + 1))),
]
LONGEST = f"{'j' * 56}/{'s' * 143}"
LARGE = bytes(range(256)) * 4096  # more than is read back whole


class Place(Protocol):
    """A fresh store under test, and a hand in it that goes past the store."""

    def opened(self) -> AbstractContextManager[Store]:
        """Open the store once more, as another tablet would."""

    def plant(self, name: str, data: bytes) -> None:
        """Put a file there as anybody could."""

    def names(self) -> set[str]:
        """Return the names of all files that are there, hidden ones too."""


def write_in_step(store: Store, step: threading.Barrier, faults: list[Exception]) -> None:
    """Write five files, each begun when the other writer begins it; keep what was raised."""
    try:
        for number in range(5):
            step.wait(30)
            store.write(f"j/{number}/a", LARGE[: 30_000 * number])
    except Exception as error:
        faults.append(error)
        step.abort()


class StoreContract:
    """Holds for folders, SFTP, WebDAV and object stores alike."""

    @pytest.fixture
    def store(self, place: Place) -> Iterator[Store]:
        """The store, open."""
        with place.opened() as store:
            yield store

    def test_new_store_is_empty(self, store: Store) -> None:
        """Nothing is in a store before something is put there, nor in a folder that is not."""
        assert store.list("") == store.list("job/seg") == []

    def test_what_was_written_is_read(self, store: Store) -> None:
        """Bytes come back as they went, whatever they are and however many."""
        for number, data in enumerate((b"", b"x", b"\0\r\n\x1a\xff" * 99, LARGE)):
            name = f"job/seg/{number}.seg"
            store.write(name, data)

            assert store.read(name, len(data)) == data
            assert store.list("job")[-1] == ListedFile(name, len(data))

    def test_other_tablet_reads_it(self, place: Place, store: Store) -> None:
        """What one tablet wrote another one lists and reads."""
        store.write("job/seg/a.seg", b"sand")
        with place.opened() as other:
            assert other.list("") == [ListedFile("job/seg/a.seg", 4)]
            assert other.read("job/seg/a.seg", 4) == b"sand"

    def test_list_is_of_one_folder_by_name(self, store: Store) -> None:
        """A list holds what lies below a folder, however deep, and nothing beside it."""
        names = ["j/seg/b", "j/seg/a", "j/seg2/c", "j/blob/ab/d", "j2/seg/e", "j/seg/f/g/h/i"]
        for name in names:
            store.write(name, name.encode())

        assert [one.name for one in store.list("j/seg")] == ["j/seg/a", "j/seg/b", "j/seg/f/g/h/i"]
        assert [one.name for one in store.list("j/blob")] == ["j/blob/ab/d"]
        assert [one.name for one in store.list("")] == sorted(names)

    def test_list_turns_its_pages(self, place: Place, store: Store) -> None:
        """A list is whole however many files there are."""
        names = [f"j/seg/{number:03}" for number in range(16)]
        for name in names:
            place.plant(name, b"x")

        assert [one.name for one in store.list("j")] == names

    def test_list_leaves_out_what_is_no_name(self, place: Place, store: Store) -> None:
        """Neither what is still being written nor strangers' files are listed."""
        for name in ("j/.tmp-0", "j/B", "j/a b", "j/.hidden/c", "thumbs.DB", "j/é", "j/ok"):
            place.plant(name, b"half")

        assert store.list("") == [ListedFile("j/ok", 4)]

    def test_missing_file_is_told(self, store: Store) -> None:
        """A file that is not there, in a folder that is or is not, has its own sentence."""
        store.write("j/seg/a", b"x")
        for name in ("j/seg/b", "k/a", "j/seg"):
            with pytest.raises(NotInStoreError, match="does not show yet"):
                store.read(name, 10)

    def test_limit_is_inclusive(self, store: Store) -> None:
        """As many bytes as the limit are read, one more is refused."""
        store.write("j/a", b"12345")

        assert store.read("j/a", 5) == b"12345"
        with pytest.raises(TooLargeError) as met:
            store.read("j/a", 4)
        assert met.value.context["limit"] == 4

    def test_large_file_is_not_taken_in(self, place: Place, store: Store) -> None:
        """A file far beyond the limit is refused, and the next read works."""
        place.plant("j/big", LARGE)
        place.plant("j/a", b"x")
        with pytest.raises(TooLargeError):
            store.read("j/big", 10)

        assert store.read("j/a", 1) == b"x"

    def test_same_again_changes_nothing(self, place: Place, store: Store) -> None:
        """A write that is done over leaves one file and no temporary."""
        for name, data in {"j/a": b"same", "j/b": LARGE}.items():
            store.write(name, data)
            store.write(name, data)

            assert store.read(name, len(data)) == data
        assert {name for name in place.names() if name.startswith("j/")} == {"j/a", "j/b"}

    def test_other_bytes_are_never_overwritten(self, place: Place, store: Store) -> None:
        """A file with other bytes stays as it is, and the sentence says so."""
        for met in (b"Sand and more", b"sane", b"\0\0\0\0x", b"sand and gravel\0", LARGE):
            name = f"j/{len(met)}"
            place.plant(name, met)
            with pytest.raises(StoreNameTakenError, match="has not been changed"):
                store.write(name, b"sand and gravel")

            assert store.read(name, len(met)) == met

    def test_piece_gives_way_to_the_whole(self, place: Place, store: Store) -> None:
        """A copy that was cut off, empty or with zeros at its end, is made whole."""
        for number, met in enumerate((b"", b"sand", b"sand\0\0\0", b"\0" * 15)):
            place.plant(f"j/{number}", met)
            store.write(f"j/{number}", b"sand and gravel")

            assert store.read(f"j/{number}", 15) == b"sand and gravel"
        names = {name for name in place.names() if name.startswith("j/")}
        assert names == {f"j/{number}" for number in range(4)}

    def test_hostile_names_are_refused(self, place: Place, store: Store) -> None:
        """No verb takes a name that leads elsewhere or that some system can't hold."""
        assert len(HOSTILE) >= 50
        for name in HOSTILE:
            for verb in (
                lambda name=name: store.write(name, b"x"),
                lambda name=name: store.read(name, 9),
                lambda name=name: store.list(name or "."),
            ):
                with pytest.raises(BadNameError):
                    verb()
        assert store.list("") == []

    def test_longest_name_is_taken(self, store: Store) -> None:
        """A name as long and a part as long as may be goes in and comes out."""
        assert len(LONGEST) == 200
        store.write(LONGEST, b"x")

        assert store.list("") == [ListedFile(LONGEST, 1)]
        assert store.read(LONGEST, 1) == b"x"

    def test_two_write_one_name_at_once(self, place: Place) -> None:
        """Two tablets that pass on the same file at the same moment both succeed."""
        faults: list[Exception] = []
        step = threading.Barrier(2)
        with place.opened() as one, place.opened() as two:
            threads = [
                threading.Thread(target=write_in_step, args=(store, step, faults))
                for store in (one, two)
            ]
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join(60)

            assert faults == []
            assert [f.size for f in one.list("j")] == [30_000 * n for n in range(5)]
        assert not [name for name in place.names() if ".tmp" in name]
