"""Files under any address: a local folder, or whatever fsspec reaches (object stores, HDFS, SSH …)."""

import os
import posixpath
import uuid
from typing import TYPE_CHECKING

from hikite.shards.errors import ShardError

if TYPE_CHECKING:
    from fsspec import AbstractFileSystem


class Place:
    """One folder at an address."""

    def __init__(self, address: str) -> None:
        self.address = address
        self._fs, self._root = _reached(address)

    def names(self) -> tuple[str, ...]:
        """What stands in the folder, sorted; nothing where there is none."""
        if not self._fs.isdir(self._root):
            return ()
        self._fs.invalidate_cache()
        found = self._fs.ls(self._root, detail=False)
        return tuple(sorted(posixpath.basename(name.rstrip("/")) for name in found))

    def read(self, name: str) -> bytes:
        """A file's bytes; ShardError where it cannot be read."""
        try:
            body = self._fs.cat_file(self._path(name))
        except OSError as error:
            raise ShardError(f"cannot be read: {error}", file=f"{self.address}/{name}") from None
        return bytes(body)

    def read_if_there(self, name: str) -> bytes | None:
        """A file's bytes, nothing where there is no such file."""
        return self.read(name) if self._fs.exists(self._path(name)) else None

    def write(self, name: str, body: bytes) -> None:
        """Put a file there whole: written beside under a name nobody reads, then renamed; or ShardError."""
        path = self._path(name)
        above, own = posixpath.split(path)
        part = posixpath.join(above, f".{own}.{uuid.uuid4().hex[:12]}.part")
        try:
            self._fs.makedirs(above, exist_ok=True)
            self._fs.pipe_file(part, body)
            self._fs.mv(part, path)
        except OSError as error:
            raise ShardError(f"cannot be written: {error}", file=f"{self.address}/{name}") from None

    def _path(self, name: str) -> str:
        return posixpath.join(self._root, name)


def _reached(address: str) -> "tuple[AbstractFileSystem, str]":
    try:
        from fsspec.core import url_to_fs
    except ImportError:
        raise ShardError("shards need more packages: pip install 'hikite[many]'") from None
    try:
        fs, root = url_to_fs(address if "://" in address else os.path.abspath(address))
    except (ImportError, ValueError) as error:
        raise ShardError(f"no such kind of address: {error}", file=address) from None
    return fs, str(root)
