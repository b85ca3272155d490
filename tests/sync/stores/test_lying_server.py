"""Servers that lie, forget or answer late: stand-ins, since no honest one can be had to do it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import pytest

from sync.stores.contract import ListedFile
from sync.stores.errors import (
    NotInStoreError,
    NotStoredError,
    StoreError,
    StoreNameTakenError,
    StoreRefusedError,
    StoreUnreachableError,
)
from sync.stores.fault_text import system_store_error
from sync.stores.partial_files import SMALL
from sync.stores.server_store import ServerStore

SAND = b"sand and gravel"


@dataclass
class HonestClient:
    """A server in memory that does as it is told; what is below lies in one thing each."""

    where: str = "stand-in"
    files: dict[str, bytes] = field(default_factory=dict)
    drops: int = 0

    def walk(self, folder: str) -> Iterator[ListedFile]:
        """Yield all files, whatever was asked for."""
        yield from (ListedFile(name, len(data)) for name, data in self.files.items())

    def fetch(self, name: str, most: int) -> bytes | None:
        """Return the first bytes of a file."""
        data = self.files.get(name)
        return None if data is None else data[:most]

    def size(self, name: str) -> int | None:
        """Return how many bytes a file has."""
        data = self.files.get(name)
        return None if data is None else len(data)

    def put(self, name: str, data: bytes, replaces: bool) -> None:
        """Keep a file."""
        self.files[name] = data

    def store_error(self, act: str, error: Exception) -> StoreError:
        """Return what to say of an error."""
        return system_store_error(
            self.where, act, error if isinstance(error, OSError) else OSError()
        )

    def disconnect(self) -> None:
        """Count how often the connection was let go."""
        self.drops += 1


class LateClient(HonestClient):
    """Shows a file only the third time it is asked after."""

    asked = 0

    def fetch(self, name: str, most: int) -> bytes | None:
        """Return nothing twice."""
        self.asked += 1
        return super().fetch(name, most) if self.asked > 2 else None


class HalvingClient(HonestClient):
    """Keeps half of each upload under the name it should have whole, and breaks off."""

    def put(self, name: str, data: bytes, replaces: bool) -> None:
        """Keep half of a file."""
        self.files[name] = data[: len(data) // 2]
        raise ConnectionResetError


class QuietlyHalvingClient(HonestClient):
    """Keeps half of each upload and says that all went well."""

    def put(self, name: str, data: bytes, replaces: bool) -> None:
        """Keep half of a file."""
        self.files[name] = data[: len(data) // 2]


class ForgettingClient(HonestClient):
    """Says that all went well and keeps nothing."""

    def put(self, name: str, data: bytes, replaces: bool) -> None:
        """Keep nothing."""


class MixingClient(HonestClient):
    """Keeps other bytes, as many as were sent."""

    def put(self, name: str, data: bytes, replaces: bool) -> None:
        """Keep other bytes."""
        self.files[name] = data[::-1]


class NonsenseClient(HonestClient):
    """Answers so that the library trips over it, and gives a password away in doing so."""

    def fetch(self, name: str, most: int) -> bytes | None:
        """Trip."""
        raise KeyError("password=sharp-shovel-7")


def test_file_shown_late_is_sent_again() -> None:
    """A store that does not show a file yet is not believed; the same again finds it there."""
    way = LateClient()
    store = ServerStore(way)
    with pytest.raises(NotStoredError, match="or not yet"):
        store.write("j/a", SAND)
    store.write("j/a", SAND)

    assert way.files == {"j/a": SAND}
    assert store.read("j/a", 99) == SAND


def test_half_an_upload_under_its_name_is_made_whole() -> None:
    """What a cut upload left under the name itself does not bar the way for good."""
    way = HalvingClient()
    store = ServerStore(way)
    with pytest.raises(StoreUnreachableError, match="broke off"):
        store.write("j/a", SAND)
    assert way.files == {"j/a": SAND[:7]}
    assert way.drops == 1, "the next call would use the broken connection"

    honest = ServerStore(HonestClient(files=way.files))
    honest.write("j/a", SAND)
    assert honest.read("j/a", 99) == SAND


@pytest.mark.parametrize("way", [QuietlyHalvingClient, ForgettingClient, MixingClient])
def test_word_of_the_server_is_not_taken(way: type[HonestClient]) -> None:
    """Half a file, none, or other bytes are noticed although the upload is said to have worked."""
    with pytest.raises(NotStoredError, match="still waits on this tablet"):
        ServerStore(way()).write("j/a", SAND)


def test_large_file_is_checked_by_its_size() -> None:
    """Of a large file half is noticed; other bytes are left to the hash that its reader checks."""
    large = bytes(range(256)) * (SMALL // 256 + 1)
    with pytest.raises(NotStoredError):
        ServerStore(QuietlyHalvingClient()).write("j/a", large)

    ServerStore(MixingClient()).write("j/a", large)


def test_other_tablets_bytes_are_found_before_an_upload() -> None:
    """A server that overwrites whatever it is told to is not told to."""
    way = HonestClient(files={"j/a": b"gravel"})
    with pytest.raises(StoreNameTakenError):
        ServerStore(way).write("j/a", SAND)

    assert way.files == {"j/a": b"gravel"}


def test_list_is_kept_to_what_was_asked_for() -> None:
    """Names that lead elsewhere, twice the same, or from another folder are not passed on."""
    names = ["j/b", "j/a", "../../etc/passwd", "j/../k", "k/a", "/j/c", "j//d", "J/e", "j2/f", ""]
    way = HonestClient(files=dict.fromkeys(names, b"x"))
    listed = ServerStore(way).list("j")

    assert [one.name for one in listed] == ["j/a", "j/b"]
    twice = HonestClient()
    twice.walk = lambda folder: iter([ListedFile("j/a", 1), ListedFile("j/a", 2)])  # type: ignore[method-assign]
    assert len(ServerStore(twice).list("j")) == 1


def test_file_that_vanishes_between_list_and_read_is_told() -> None:
    """A file that was listed and is there no more has the sentence of one that is not there."""
    way = HonestClient(files={"j/a": b"x"})
    store = ServerStore(way)
    (listed,) = store.list("j")
    way.files.clear()

    with pytest.raises(NotInStoreError):
        store.read(listed.name, 9)


def test_nonsense_from_a_server_is_a_sentence_without_secrets() -> None:
    """Whatever a library raises over an answer becomes a sentence that repeats none of it."""
    way = NonsenseClient()
    with pytest.raises(StoreRefusedError) as met:
        ServerStore(way).read("j/a", 9)

    assert "shovel" not in str(met.value) + repr(met.value.context)
    assert met.value.__suppress_context__
    assert way.drops == 1
