"""The way to a store in a bucket of an object store that speaks as S3 does."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

import botocore.exceptions
import fsspec.asyn
from s3fs import S3FileSystem

from sync.stores.address import StoreAddress
from sync.stores.contract import ListedFile
from sync.stores.errors import StoreError, StoreRefusedError, StoreUnreachableError
from sync.stores.fault_text import (
    ASK,
    certificate_store_error,
    connection_error_text,
    http_store_error,
    system_store_error,
)
from sync.stores.secrets import Secret

GONE_ASTRAY: Final = {"NoSuchBucket": "there is no bucket of that name"}
LATE: Final = (
    botocore.exceptions.ConnectTimeoutError,
    botocore.exceptions.ReadTimeoutError,
)
LOST: Final = (
    botocore.exceptions.HTTPClientError,
    botocore.exceptions.ConnectionError,
)


class ObjectStoreClient:
    """Uploads straight to the name: an object store shows a file whole or not at all.

    There is no renaming, and no condition is sent with an upload: some refuse it (501) and
    some ignore it. So two that write one name at one moment both succeed and the last stays;
    they write the same bytes, or the reader's hash finds it out.
    """

    def __init__(self, where: StoreAddress, secret: Secret | None, patience_s: float) -> None:
        self.where = str(where)
        self._bucket = where.host
        self._lead = f"{where.path}/" if where.path else ""
        self._settings: dict[str, Any] = {
            "key": secret.user if secret else None,
            "secret": secret.password if secret else None,
            "endpoint_url": where.endpoint or None,
            "client_kwargs": {"region_name": where.region or "us-east-1"},
            "config_kwargs": {
                "connect_timeout": patience_s,
                "read_timeout": patience_s,
                "retries": {"total_max_attempts": 1},
                # The server is given the SHA-256 of what it should receive, and checks it.
                "s3": {"addressing_style": "path", "payload_signing_enabled": True},
                "request_checksum_calculation": "when_required",
                "response_checksum_validation": "when_required",
            },
            "use_listings_cache": False,
        }
        self._files: S3FileSystem | None = None

    def walk(self, folder: str) -> Iterator[ListedFile]:
        """Yield the files below a folder, page by page."""
        lead = f"{self._lead}{folder}/" if folder else self._lead
        asked: dict[str, str] = {"Bucket": self._bucket, "Prefix": lead}
        while True:
            page = self._open().call_s3("list_objects_v2", **asked)
            for one in page.get("Contents", []):
                yield ListedFile(str(one["Key"])[len(self._lead) :], int(one["Size"]))
            if not page.get("IsTruncated"):
                return
            asked["ContinuationToken"] = page["NextContinuationToken"]

    def fetch(self, name: str, most: int) -> bytes | None:
        """Return the first bytes of a file; None if there is none."""
        files = self._open()
        try:
            return bytes(fsspec.asyn.sync(files.loop, _first_bytes, files, self._at(name), most))
        except FileNotFoundError as error:
            _check_bucket(error)
            return None

    def size(self, name: str) -> int | None:
        """Return how many bytes a file has; None if there is none."""
        try:
            return int(self._open().call_s3("head_object", **self._at(name))["ContentLength"])
        except FileNotFoundError as error:
            _check_bucket(error)
            return None

    def put(self, name: str, data: bytes, replaces: bool) -> None:
        """Upload a file; the server keeps it whole or not at all."""
        self._open().call_s3("put_object", **self._at(name), Body=data)

    def store_error(self, act: str, error: Exception) -> StoreError:
        """Return what to say of an error of the connection or of the server."""
        answer = _answer_to(error)
        if answer is not None:
            why = GONE_ASTRAY.get(answer["Error"].get("Code", ""))
            if why:
                return StoreRefusedError(where=self.where, act=act, why=why, remedy=ASK)
            return http_store_error(self.where, act, answer["ResponseMetadata"]["HTTPStatusCode"])
        if isinstance(error, botocore.exceptions.NoCredentialsError):
            why, remedy = "no key for it is known here", "Give the access key and its secret"
            return StoreRefusedError(where=self.where, act=act, why=why, remedy=remedy)
        untrusted = certificate_store_error(self.where, act, error)
        if untrusted is not None:
            return untrusted
        if lost := _why_lost(error):
            return StoreUnreachableError(where=self.where, why=lost)
        if isinstance(error, OSError):
            return system_store_error(self.where, act, error)
        why = "it answers what no object store would"
        return StoreRefusedError(where=self.where, act=act, why=why, remedy=ASK)

    def disconnect(self) -> None:
        """Let go of the connections."""
        if self._files is not None and self._files._s3 is not None:
            S3FileSystem.close_session(self._files.loop, self._files._s3)
        self._files = None

    def _open(self) -> S3FileSystem:
        """Return the file system, made at first need; never one that fsspec kept."""
        if self._files is None:
            self._files = S3FileSystem(**self._settings, skip_instance_cache=True)
            self._files.retries = 1  # the exchange tries again, and shows that it does
        return self._files

    def _at(self, name: str) -> dict[str, str]:
        """Return the bucket and key of a name."""
        return {"Bucket": self._bucket, "Key": f"{self._lead}{name}"}


async def _first_bytes(files: S3FileSystem, at: dict[str, str], most: int) -> bytes:
    """Return the first bytes of an object; no range is asked for, since an empty one has none."""
    body = (await files._call_s3("get_object", **at))["Body"]
    found = bytearray()
    try:
        while len(found) < most and (chunk := await body.read(min(65536, most - len(found)))):
            found += chunk
    finally:
        body.close()
    return bytes(found)


def _answer_to(error: Exception) -> dict[str, Any] | None:
    """Return the answer of the server that an error stands for, if it does for one."""
    for one in (error, error.__cause__):
        if isinstance(one, botocore.exceptions.ClientError):
            return dict(one.response)
    return None


def _why_lost(error: Exception) -> str:
    """Return why nothing came back, if that is what an error means; else nothing."""
    if isinstance(error, LATE):
        return "no answer came in time"
    if isinstance(error, LOST):
        return "nothing answers there, or the connection broke off"
    return connection_error_text(error)


def _check_bucket(error: FileNotFoundError) -> None:
    """Raise an error again that means that the whole bucket is not there."""
    answer = _answer_to(error)
    if answer is not None and answer["Error"].get("Code") in GONE_ASTRAY:
        raise error
