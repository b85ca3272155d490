"""A text that says where a store is: a folder of this device, or a server. Never a secret."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Literal, get_args
from urllib.parse import SplitResult, parse_qsl, quote, unquote, urlsplit

from sync.stores.errors import StoreAddressError

Scheme = Literal["file", "sftp", "dav", "davs", "s3"]
"""Kinds of store; what names one by one is told by the type checker when another comes."""
SCHEMES: Final[tuple[Scheme, ...]] = get_args(Scheme)
LOOPBACK: Final = ("127.0.0.1", "::1", "localhost")

_LEADS_NOWHERE = re.compile(r"[\x00-\x1f\x7f]")
_HOST = re.compile(r"[A-Za-z0-9]([A-Za-z0-9.-]*[A-Za-z0-9])?|[0-9a-fA-F:]+")
_USER = re.compile(r"[A-Za-z0-9_][A-Za-z0-9_.@+-]*")
_REGION = re.compile(r"[a-z0-9-]{0,40}")
_ENDPOINT = re.compile(r"(?P<scheme>https?)://(?P<host>[A-Za-z0-9.-]+)(:[0-9]{1,5})?/?")
_BUCKET = re.compile(r"[a-z0-9][a-z0-9.-]{1,61}[a-z0-9]")


@dataclass(frozen=True, slots=True)
class StoreAddress:
    """Where a store is; ``str`` of it is the text it was read from, in one form.

    ``path`` starts with a slash. On SFTP it may do without and then starts at the login's own
    folder (``/~/`` in the text); with object stores it is what each name begins with.
    """

    scheme: Scheme
    path: str
    host: str = ""
    port: int = 0
    user: str = ""
    endpoint: str = ""
    region: str = ""

    def __str__(self) -> str:
        """Return the text that reads as this place."""
        if self.scheme == "file":
            return self.path
        at = f"[{self.host}]" if ":" in self.host else self.host
        at = f"{quote(self.user, safe='')}@{at}" if self.user else at
        at = f"{at}:{self.port}" if self.port else at
        told = [f"{k}={v}" for k, v in (("endpoint", self.endpoint), ("region", self.region)) if v]
        query = f"?{'&'.join(told)}" if told else ""
        lead = {"s3": "/", "sftp": "/~/"}.get(self.scheme, "")
        lead = "" if self.path.startswith("/") or not self.path else lead
        return f"{self.scheme}://{at}{quote(lead + self.path, safe='/~')}{query}"


def parse_store_address(text: str) -> StoreAddress:
    """Read where a store is.

    Raises
    ------
    StoreAddressError
        If the text names no such place, or holds a password, which has no place in it.
    """
    text = text.strip()
    if _LEADS_NOWHERE.search(text) or not text:
        raise StoreAddressError(text=repr(text), why="it is empty or holds what can't be printed")
    if "://" not in text:
        return _folder(text)
    try:
        parts = urlsplit(text)
        port = parts.port or 0
    except ValueError:
        raise StoreAddressError(text="that address", why="its host or port can't be read") from None
    scheme = next((one for one in SCHEMES if one == parts.scheme), None)
    if scheme is None:
        raise _unread(parts, f"{parts.scheme}:// is none of the kinds that are known")
    if parts.password is not None:
        raise _unread(parts, "it holds a password, and such a text is shown and printed")
    if parts.fragment or (parts.query and parts.scheme != "s3"):
        raise _unread(parts, "nothing may stand behind its path")
    if scheme == "file":
        return _folder(unquote(parts.path))
    return _bucket(parts, port) if scheme == "s3" else _server(parts, port, scheme)


def _folder(text: str) -> StoreAddress:
    """Return the place that a path of this device names."""
    path = Path(text).expanduser()
    if not path.is_absolute():
        raise StoreAddressError(
            text=repr(text), why="a folder is named from the root of its drive on"
        )
    return StoreAddress("file", os.path.normpath(path))


def _server(parts: SplitResult, port: int, scheme: Scheme) -> StoreAddress:
    """Return the place that an address of an SFTP or WebDAV server names."""
    host, user = parts.hostname or "", unquote(parts.username or "")
    if not _HOST.fullmatch(host):
        raise _unread(parts, "it names no host")
    if (user and not _USER.fullmatch(user)) or (parts.scheme == "sftp" and not user):
        raise _unread(parts, "it names no user before an @")
    if parts.scheme == "dav" and host not in LOOPBACK:
        raise _unread(parts, "dav:// would send the password for all to read; davs:// would not")
    path = _tidied(parts, unquote(parts.path))
    if parts.scheme == "sftp":
        return StoreAddress("sftp", path[3:] if path.startswith("/~") else path, host, port, user)
    return StoreAddress(scheme, path or "/", host, port, user)


def _bucket(parts: SplitResult, port: int) -> StoreAddress:
    """Return the place that a bucket, a prefix in it and an endpoint name."""
    told = dict(parse_qsl(parts.query))
    if set(told) - {"endpoint", "region"}:
        raise _unread(parts, "only endpoint and region may stand behind its path")
    if parts.username is not None or port or not _BUCKET.fullmatch(parts.netloc):
        raise _unread(parts, "its bucket is no name of 3 to 63 small letters, digits, - and .")
    endpoint, region = told.get("endpoint", ""), told.get("region", "")
    if endpoint and not _is_endpoint(endpoint):
        raise _unread(parts, "its endpoint is no https:// with a host and nothing more")
    if not _REGION.fullmatch(region):
        raise _unread(parts, "its region is not of small letters, digits and hyphens")
    prefix = _tidied(parts, unquote(parts.path)).strip("/")
    return StoreAddress("s3", prefix, parts.netloc, endpoint=endpoint.rstrip("/"), region=region)


def _is_endpoint(text: str) -> bool:
    """Tell whether an address is a bare host behind TLS, or a plain one on this device."""
    found = _ENDPOINT.fullmatch(text)
    return found is not None and (found["scheme"] == "https" or found["host"] in LOOPBACK)


def _tidied(parts: SplitResult, path: str) -> str:
    """Return a path without the slash at its end; steps up and odd signs are refused."""
    if ".." in path.split("/") or "//" in path or _LEADS_NOWHERE.search(path) or "\\" in path:
        raise _unread(parts, "its path holds .., // or signs that can't be printed")
    return path.rstrip("/")


def _unread(parts: SplitResult, why: str) -> StoreAddressError:
    """Return the refusal of an address, told without anything that might be a secret."""
    return StoreAddressError(text=f"{parts.scheme}://{parts.netloc.rpartition('@')[2]}", why=why)
