"""Text of errors from an operating system or a network, in words for a sentence.

The words are our own: what a library says may hold an address, a name or worse.
"""

from __future__ import annotations

import errno
import socket
import ssl
from collections.abc import Iterator
from typing import Final

from sync.stores.errors import StoreError, StoreRefusedError, StoreUnreachableError

GONE: Final = {
    errno.ENOENT: "its folder is not there",
    errno.EIO: "reading from or writing to it fails",
    errno.ENODEV: "the device is not there any more",
    errno.ENXIO: "the device is not there any more",
    errno.ENOMEDIUM: "the device is not there any more",
    errno.ESTALE: "the share is not there any more",
    errno.ENOTCONN: "the share is not there any more",
    errno.EHOSTDOWN: "its host is down",
    errno.EHOSTUNREACH: "no way leads to its host",
    errno.ENETUNREACH: "there is no network",
    errno.ECONNREFUSED: "nothing answers there",
    errno.ECONNRESET: "the connection broke off",
    errno.EPIPE: "the connection broke off",
    errno.ETIMEDOUT: "no answer came in time",
}
BARRED: Final = {
    errno.EACCES: ("this user may not", "Ask its owner for the right to read and write there"),
    errno.EPERM: ("this user may not", "Ask its owner for the right to read and write there"),
    errno.EROFS: ("it can only be read", "Open its lock, or choose another store"),
    errno.ENOSPC: ("it is full", "Make room on it"),
    errno.EDQUOT: ("this user's share of it is full", "Make room on it"),
    errno.EFBIG: ("it takes no file of that size", "Choose another store"),
    errno.ENOTDIR: ("a file stands where a folder is wanted", "Move that file away by hand"),
    errno.EISDIR: ("what stands where a file is wanted is none", "Move it away by hand"),
    errno.ELOOP: ("a link stands where a file is wanted", "Take the link away by hand"),
}
ASK: Final = "Ask whoever keeps the store"


def system_store_error(where: str, act: str, error: OSError) -> StoreError:
    """Return what to say of a call to the operating system, or to a network, that failed."""
    lost = connection_error_text(error)
    if lost:
        return StoreUnreachableError(where=where, why=lost)
    why, remedy = BARRED.get(error.errno or 0, ("it says no more than that it failed", ASK))
    return StoreRefusedError(where=where, act=act, why=why, remedy=remedy)


def connection_error_text(error: BaseException) -> str:
    """Return why nothing came back, if that is what an error means; else nothing."""
    if isinstance(error, ssl.SSLCertVerificationError):
        return ""
    if isinstance(error, TimeoutError):
        return "no answer came in time"
    if isinstance(error, socket.gaierror):
        return "its host is not known by that name, or there is no network"
    if isinstance(error, ConnectionRefusedError):
        return "nothing answers there"
    if isinstance(error, (ConnectionError, EOFError, ssl.SSLError)):
        return "the connection broke off"
    return GONE.get(getattr(error, "errno", None) or 0, "")


def certificate_store_error(where: str, act: str, error: BaseException) -> StoreError | None:
    """Return what to say of a server that nobody we trust vouches for; None if it is not that."""
    if not any(isinstance(one, ssl.SSLCertVerificationError) for one in error_chain(error)):
        return None
    why = "its certificate is not one that this device trusts"
    remedy = f"{ASK}; SSL_CERT_FILE or AWS_CA_BUNDLE names a file of certificates to trust"
    return StoreRefusedError(where=where, act=act, why=why, remedy=remedy)


def error_chain(error: BaseException) -> Iterator[BaseException]:
    """Yield an error and those that it came of."""
    one: BaseException | None = error
    while one is not None:
        yield one
        one = one.__cause__ or one.__context__


def http_store_error(where: str, act: str, status: int) -> StoreError:
    """Return what to say of an answer of a web server that is no yes."""
    if status in (401, 403):
        why, remedy = "it does not let this user in, or not there", "See to the user and password"
    elif status in (413, 507):
        why, remedy = "it is full, or takes no file of that size", "Make room on it"
    elif status in (408, 425, 429, 500, 502, 503, 504):
        return StoreUnreachableError(where=where, why=f"it is busy or ill (its answer: {status})")
    else:
        why, remedy = f"its answer is {status}", ASK
    return StoreRefusedError(where=where, act=act, why=why, remedy=remedy)
