"""Where a store is, as it is typed: a kind, a few fields, and the text they make."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import assert_never

from crewapp.words.translate import say, translate_later
from sync.stores.address import Scheme, StoreAddress, parse_store_address
from sync.stores.errors import StoreAddressError

KINDS = {
    "folder": translate_later("Folder, stick or share"),
    "sftp": translate_later("SFTP server"),
    "dav": translate_later("WebDAV server"),
    "s3": translate_later("Object store (S3)"),
}
SECRET = "password"


@dataclass(frozen=True, slots=True)
class StoreField:
    """Field of a store; without it the store can't be named, unless ``is_spare``."""

    field: str
    name: str
    example: str
    is_spare: bool = False


FIELDS: dict[str, tuple[StoreField, ...]] = {
    "folder": (StoreField("path", translate_later("Folder"), "/media/stick"),),
    "sftp": (
        StoreField("host", translate_later("Server"), "office.example"),
        StoreField("user", translate_later("Login name"), "crew"),
        StoreField("path", translate_later("Folder there"), "/srv/turf", is_spare=True),
        StoreField(SECRET, translate_later("Password"), "", is_spare=True),
    ),
    "dav": (
        StoreField("host", translate_later("Server"), "files.example"),
        StoreField("path", translate_later("Folder there"), "/dav/turf"),
        StoreField("user", translate_later("Login name"), "crew", is_spare=True),
        StoreField(SECRET, translate_later("Password"), "", is_spare=True),
    ),
    "s3": (
        StoreField("bucket", translate_later("Bucket"), "turf"),
        StoreField("endpoint", translate_later("Server"), "https://s3.example"),
        StoreField("path", translate_later("Folder there"), "jobs", is_spare=True),
        StoreField("region", translate_later("Region"), "", is_spare=True),
        StoreField("user", translate_later("Key name"), "", is_spare=True),
        StoreField(SECRET, translate_later("Secret key"), "", is_spare=True),
    ),
}
LONGEST = 200


def field_of(kind: str, name: str) -> StoreField | None:
    """Return a field of a kind of store."""
    return next((one for one in FIELDS.get(kind, ()) if one.field == name), None)


def missing_fields(kind: str, typed: Mapping[str, str]) -> list[str]:
    """Return the names of the fields that are still to be typed."""
    fields = FIELDS.get(kind, ())
    return [say(f.name) for f in fields if not f.is_spare and not typed.get(f.field, "").strip()]


def address_of(kind: str, typed: Mapping[str, str]) -> StoreAddress:
    """Read where the store is from what was typed.

    Raises
    ------
    StoreAddressError
        If that names no store.
    """
    told = {name: text.strip() for name, text in typed.items()}
    if kind == "folder":
        return parse_store_address(told.get("path", ""))
    path = told.get("path", "").strip("/")
    if kind == "s3":
        bucket, region = told.get("bucket", ""), told.get("region", "")
        return parse_store_address(
            str(StoreAddress("s3", path, bucket, endpoint=_endpoint(told), region=region))
        )
    scheme: Scheme = "sftp" if kind == "sftp" else "davs"
    host, _, port = told.get("host", "").rpartition("://")[2].partition(":")
    if port and not port.isdecimal():
        raise StoreAddressError(
            text=told.get("host", ""), why="what stands behind the : is no number"
        )
    lead = "/" if scheme == "davs" or told.get("path", "").startswith("/") else ""
    user = told.get("user", "") if scheme == "sftp" else ""
    return parse_store_address(str(StoreAddress(scheme, lead + path, host, int(port or 0), user)))


def _endpoint(told: Mapping[str, str]) -> str:
    endpoint = told.get("endpoint", "")
    return f"https://{endpoint}" if endpoint and "://" not in endpoint else endpoint


def typed_of(text: str) -> tuple[str, dict[str, str]]:
    """Return the kind and the fields of a store that was typed before; ("", {}) without one."""
    try:
        where = parse_store_address(text)
    except StoreAddressError:
        return "", {}
    host = f"{where.host}:{where.port}" if where.port else where.host
    server = {"host": host, "user": where.user, "path": where.path}
    match where.scheme:
        case "file":
            return "folder", {"path": where.path}
        case "s3":
            bucket = {"bucket": where.host, "endpoint": where.endpoint, "region": where.region}
            return "s3", {**bucket, "path": where.path}
        case "sftp":
            return "sftp", server
        case "dav" | "davs":
            return "dav", server
        case _:
            assert_never(where.scheme)


def store_text(text: str) -> str:
    """Return a store in the words of a person: its kind is left to the place itself."""
    kind, typed = typed_of(text)
    if kind == "folder":
        return typed["path"]
    if kind == "s3":
        return f"{typed['bucket']}/{typed['path']}".rstrip("/")
    return f"{typed.get('host', '')} {typed.get('path', '')}".strip() if kind else ""
