"""Errors of a store, each with its code and sentence; none holds a secret."""

from __future__ import annotations

from models.errors import CrewError


class StoreError(CrewError):
    """Root of everything that can go wrong with a store."""


class StoreUnreachableError(StoreError, ConnectionError):
    """The store does not answer, or stopped answering; the same again later may do."""

    code = "store.unreachable"
    sentence = (
        "Cannot reach the store {where}: {why}. Nothing is lost: what was not sent waits on "
        "this tablet. Try again when the store is there."
    )


class StoreRefusedError(StoreError, PermissionError):
    """The store answers and says no; somebody must do something first."""

    code = "store.refused"
    sentence = "The store {where} did not {act}: {why}. {remedy}."


class NotInStoreError(StoreError, FileNotFoundError):
    """The store shows no such file, or not yet."""

    code = "store.not_there"
    sentence = (
        "Cannot read {name} from the store {where}: it is not there, or does not show yet. "
        "It is asked for again at the next exchange."
    )


class TooLargeError(StoreError, ValueError):
    """A file in the store holds more than the reader would take."""

    code = "store.too_large"
    sentence = (
        "Cannot read {name} from the store {where}: it holds more than the {limit} bytes that "
        "such a file may have. It has been left alone."
    )


class StoreNameTakenError(StoreRefusedError):
    """Other bytes stand under the name, or under one that differs by case only."""

    code = "store.taken"
    sentence = (
        "Cannot write {name} into the store {where}: {taken} stands in its place and is not the "
        "same file. It has not been changed. Look at it, and move it away by hand if it is no "
        "whole file of a job."
    )


class NotStoredError(StoreRefusedError):
    """The store took a file and then shows something else in its place."""

    code = "store.not_kept"
    sentence = (
        "Cannot rely on the store {where}: {name} was handed over with {size} bytes, and it does "
        "not show them, or not yet. The file still waits on this tablet and is sent again at "
        "the next exchange."
    )


class HostUnknownError(StoreRefusedError):
    """A server shows a key that nobody has accepted on this device; ``line`` would accept it."""

    code = "store.host_unknown"
    sentence = (
        "Cannot be sure that it is {host} that answers: it shows the {kind} key {fingerprint}, "
        "which is not known on this tablet. Nothing was sent. Ask whoever keeps the server for "
        "its fingerprint; if it is the same, add this line to {path}: {line} ."
    )


class HostChangedError(StoreRefusedError):
    """A server shows another key than the one that was accepted."""

    code = "store.host_changed"
    sentence = (
        "Another machine may be answering as {host}: it shows the {kind} key {fingerprint}, and "
        "one with {known} was accepted before. Nothing was sent. Ask whoever keeps the server "
        "whether its key was changed; only then take the old line out of {path}."
    )


class BadNameError(StoreError, ValueError):
    """A name that not every store could hold."""

    code = "store.name"
    sentence = (
        "Cannot use {name} as a name in a store: {why}. Small letters, digits, dots, hyphens "
        "and underlines would do, in parts divided by /."
    )


class StoreAddressError(StoreError, ValueError):
    """A text that should say where a store is does not."""

    code = "store.where"
    sentence = (
        "Cannot tell where the store is from {text}: {why}. These would be read: a folder such "
        "as /media/stick/turf, sftp://user@host/path, davs://user@host/path, "
        "s3://bucket/folder?endpoint=https://host."
    )


class StoresAbsentError(StoreError, ImportError):
    """A server was named on a device without the libraries that speak to servers."""

    code = "store.absent"
    sentence = (
        "Cannot speak to {where} here: the library for it is not installed ({missing}). "
        "Folders and sticks go without it. To use servers from this device, install the wheel "
        "file you were given once more, with [sync] or [all] behind its name."
    )
