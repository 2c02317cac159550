"""What is derived from the lexicon, kept on disk between runs so that a start need not derive it again.

A find is keyed by the content of the lexicon and of this package: after a change of either it is made anew,
and so is what cannot be read or was damaged. Pickles, because nothing simpler holds tables of tables without
code of its own for each. Reading one makes only this package's own types and numpy's arrays, calls nothing
else, and passes over files that another user could have written, so that a planted file runs no code.
``HIKITE_CACHE`` names another folder, or ``off`` for none.
"""

import gc
import hashlib
import io
import os
import pickle
import sys
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import TypeVar

from pydantic import VERSION

from hikite.terms.places import lexicon_root

Thing = TypeVar("Thing")
_OFF = "off"
_DIGEST = 20
# Finds of one kind that stay: those of other lexicons or versions still in use.
_KEPT = 4
_READ = (".py", ".toml", ".json", ".gz")
# Days, and what numpy's arrays are pickled with, by the module names of its versions 1 and 2.
_PLAIN = frozenset(
    {("datetime", "date"), ("numpy", "ndarray"), ("numpy", "dtype")}
    | {
        (f"numpy.{core}.multiarray", name)
        for core in ("core", "_core")
        for name in ("_reconstruct", "scalar")
    }
    | {(f"numpy.{core}.numeric", "_frombuffer") for core in ("core", "_core")}
)


def kept(
    what: str, of: str, expected: type[Thing], make: Callable[[], Thing], known: Mapping[str, object]
) -> Thing:
    """The thing called ``what`` made from the lexicon with the hash ``of``: as kept, or made now and kept.

    ``known`` are the objects inside it, by name, that are at hand: they are not kept but put in again.
    """
    folder = _folder()
    with undisturbed():
        if folder is None:
            return make()
        file = folder / f"{what}-{_key(of)}.kept"
        found = _read(file, known)
        if isinstance(found, expected):
            return found
        made = make()
        _write(file, made, known)
    _forget(folder, what)
    return made


@contextmanager
def undisturbed() -> Iterator[None]:
    """No search for dead objects meanwhile, nor ever among what is made: many objects that all stay."""
    on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        if on:
            gc.enable()


def _folder() -> Path | None:
    """Where finds are kept; None where they are not to be."""
    named = os.environ.get("HIKITE_CACHE")
    if named == _OFF:
        return None
    if named:
        return Path(named)
    from platformdirs import user_cache_path

    return user_cache_path("hikite", appauthor=False)


def _key(of: str) -> str:
    return hashlib.blake2b(f"{of} {_ground()}".encode(), digest_size=_DIGEST).hexdigest()


@cache
def _ground() -> str:
    """A hash of all that a find rests on: the lexicon's files, the code, the interpreter."""
    digest = hashlib.blake2b(f"{sys.version} {sys.byteorder} {VERSION}".encode(), digest_size=_DIGEST)
    for content in (*_contents(files("hikite")), *_contents(lexicon_root())):
        digest.update(hashlib.blake2b(content).digest())
    return digest.hexdigest()


def _contents(folder: Traversable) -> Iterator[bytes]:
    """The files that are read from a folder and those below it, each with its name in front."""
    for each in sorted(folder.iterdir(), key=lambda each: each.name):
        if each.name.endswith(_READ):
            yield each.name.encode() + b"\0" + each.read_bytes()
        elif "." not in each.name and each.is_dir():
            yield from _contents(each)


class _Writer(pickle.Pickler):
    def __init__(self, stream: io.BytesIO, known: Mapping[str, object]) -> None:
        super().__init__(stream, protocol=5)
        self._known = {id(thing): name for name, thing in known.items()}

    def persistent_id(self, thing: object) -> str | None:
        return self._known.get(id(thing))


class _Reader(pickle.Unpickler):
    def __init__(self, stream: io.BytesIO, known: Mapping[str, object]) -> None:
        super().__init__(stream)
        self._known = known

    def persistent_load(self, name: str) -> object:
        return self._known[name]

    def find_class(self, module: str, name: str) -> object:
        if (module, name) in _PLAIN:
            return super().find_class(module, name)
        # Only what is loaded already: to import a module is to run it.
        found = getattr(sys.modules.get(module), name, None) if module.startswith("hikite.") else None
        if isinstance(found, type) and found.__module__ == module:
            return found
        raise pickle.UnpicklingError(f"{module}.{name} is not kept")


def _read(file: Path, known: Mapping[str, object]) -> object:
    """What a file holds; None where there is none to be trusted."""
    try:
        with file.open("rb") as stream:
            if not _own(stream.fileno()):
                return None
            digest, content = stream.read(_DIGEST), stream.read()
        if hashlib.blake2b(content, digest_size=_DIGEST).digest() != digest:
            return None
        return _Reader(io.BytesIO(content), known).load()
    except Exception:
        # A pickle that is none can fail in any way; whichever it is, the thing is made anew.
        return None


def _own(descriptor: int) -> bool:
    """Whether nobody but this user can have written an open file."""
    if not hasattr(os, "geteuid"):
        return True
    status = os.fstat(descriptor)
    return status.st_uid == os.geteuid() and not status.st_mode & 0o022


def _write(file: Path, thing: object, known: Mapping[str, object]) -> None:
    """Keep a thing, whole or not at all; nothing happens where the folder cannot be written."""
    part = None
    try:
        stream = io.BytesIO()
        _Writer(stream, known).dump(thing)
        content = stream.getvalue()
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        descriptor, part = tempfile.mkstemp(dir=file.parent, prefix=file.stem)
        with os.fdopen(descriptor, "wb") as out:
            out.write(hashlib.blake2b(content, digest_size=_DIGEST).digest() + content)
        os.replace(part, file)
    except (OSError, pickle.PicklingError, TypeError, AttributeError):
        if part is not None:
            with suppress(OSError):
                os.unlink(part)


def _forget(folder: Path, what: str) -> None:
    """Delete the finds of one kind but the latest."""
    with suppress(OSError):
        finds = sorted(folder.glob(f"{what}-*.kept"), key=lambda file: file.stat().st_mtime)
        for file in finds[:-_KEPT]:
            file.unlink()
