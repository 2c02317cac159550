"""Folders that are there whole or not at all."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from hikite.datasets.errors import DatasetError


@contextmanager
def whole_folder(path: Path) -> Iterator[Path]:
    """A folder beside ``path`` that takes its name at the end; after an error nothing of it is left.

    DatasetError where something stands there already: nothing is written over.
    """
    path = Path(os.path.abspath(path))
    if path.exists() and not (path.is_dir() and not any(path.iterdir())):
        raise DatasetError("stands there already; name a new folder", file=str(path))
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        part = Path(tempfile.mkdtemp(dir=path.parent, prefix=f".{path.name[:100]}.", suffix=".part"))
    except OSError as error:
        raise DatasetError(f"cannot be written: {error.strerror}", file=str(path)) from None
    try:
        yield part
        mask = os.umask(0)
        os.umask(mask)
        part.chmod(0o777 & ~mask)
        part.rename(path)
    except BaseException as error:
        shutil.rmtree(part, ignore_errors=True)
        if isinstance(error, OSError):
            raise DatasetError(f"cannot be written: {error.strerror}", file=str(path)) from None
        raise
