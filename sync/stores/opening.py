"""Opening of a store from the text that says where it is."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from pathlib import Path
from typing import Final, Literal, assert_never

from sync.stores.address import StoreAddress, parse_store_address
from sync.stores.contract import Store
from sync.stores.errors import StoresAbsentError
from sync.stores.folder import FolderStore
from sync.stores.secrets import find_secret
from sync.stores.server_store import ServerClient, ServerStore

PATIENCE_S: Final = 20.0  # a phone's signal at the edge of a field; longer and it is gone


@contextlib.contextmanager
def open_store(text: str, home: Path, patience_s: float = PATIENCE_S) -> Iterator[Store]:
    """Give the store that a text names, for as long as it is wanted.

    ``home`` is the tablet's own folder, with its key, passwords and known hosts. A server is
    first spoken to by the first verb; then and later it may take ``patience_s`` over an answer.

    Raises
    ------
    StoreAddressError
        If the text names no store.
    StoresAbsentError
        If it names a server, and the library for it is not installed.
    StoreRefusedError
        If the file of passwords is open to others or can't be read.
    """
    where = parse_store_address(text)
    store: FolderStore | ServerStore
    if where.scheme == "file":
        store = FolderStore(Path(where.path))
    else:
        store = ServerStore(_client_of(where, where.scheme, home, patience_s))
    with contextlib.closing(store):
        yield store


def _client_of(
    where: StoreAddress,
    scheme: Literal["sftp", "dav", "davs", "s3"],
    home: Path,
    patience_s: float,
) -> ServerClient:
    """Return the client of a server; its library is imported only now."""
    secret = find_secret(where, home)
    try:
        match scheme:
            case "sftp":
                from sync.stores.sftp import SftpClient

                return SftpClient(where, home, secret, patience_s)
            case "s3":
                from sync.stores.object_store import ObjectStoreClient

                return ObjectStoreClient(where, secret, patience_s)
            case "dav" | "davs":
                from sync.stores.webdav import WebdavClient

                return WebdavClient(where, secret, patience_s)
            case _:
                assert_never(scheme)
    except ImportError as error:
        raise StoresAbsentError(where=where, missing=error.name or "a part of it") from None
