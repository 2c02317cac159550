"""Shards spread over the workers of a Dask cluster, this machine's or another's."""

import logging
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from pydantic import BaseModel

from hikite.archive.kept import Refusal
from hikite.archive.stamps import load_stamps
from hikite.shards.errors import ShardError
from hikite.shards.lines import ENDINGS, name_of
from hikite.shards.places import Place
from hikite.shards.working import Worked, work
from hikite.terms import load_terms

if TYPE_CHECKING:
    from distributed import Client

_TRIES = 2
"""A shard whose worker died is tried again so often: on another worker it may have the memory."""

Watch = Callable[[str, int, int], None]
"""Told what goes on, how many shards are done, of how many."""


class Spread(BaseModel, frozen=True, extra="forbid"):
    """What a run did; ``failed`` are shards that could not be read or written, with the reason."""

    worked: tuple[Worked, ...]
    failed: tuple[Refusal, ...]


def spread(
    shards: str, to: str, *, workers: int = 1, scheduler: str | None = None, aliases: tuple[Path, ...] = (),
    watch: Watch | None = None,
) -> Spread:  # fmt: skip
    """Read all shards at an address and write their tables to another, on a cluster.

    Without ``scheduler`` (an address such as ``tcp://host:8786``) so many ``workers`` are started here. Both
    addresses must mean the same to every worker. What is finished is not done again. ``aliases`` are files of
    corrected names on this machine: what stands in them is sent to the workers. ShardError where there are no
    shards, or no cluster.
    """
    files = [name for name in Place(shards).names() if name_of(name)]
    if not files:
        raise ShardError(f"no shards here ({', '.join(ENDINGS)})", file=shards)
    name, many = Counter(map(name_of, files)).most_common(1)[0]
    if many > 1:
        raise ShardError(f"several shards are called {name}", file=shards)
    load_terms(aliases=aliases)  # a broken file is told here, once
    stamps, worked, failed = load_stamps(aliases=aliases), list[Worked](), list[Refusal]()
    names = tuple(file.read_bytes() for file in aliases)
    with _cluster(workers, scheduler) as client:
        from distributed import as_completed

        futures = {
            client.submit(work, shards, file, to, stamps, names, pure=False, retries=_TRIES): file
            for file in files
        }
        for number, future in enumerate(as_completed(futures), 1):  # type: ignore[no-untyped-call]
            if future.status == "finished":
                worked.append(future.result())
            else:
                failed.append(Refusal(path=futures[future], reason=_reason(future.exception())))
            if watch:
                watch("shards", number, len(files))
    return Spread(
        worked=tuple(sorted(worked, key=lambda one: one.shard)),
        failed=tuple(sorted(failed, key=lambda one: one.path)),
    )


def _reason(error: BaseException) -> str:
    return str(error) if isinstance(error, ShardError) else f"{type(error).__name__}: {error}"


@contextmanager
def _cluster(workers: int, scheduler: str | None) -> "Iterator[Client]":
    try:
        from distributed import Client, LocalCluster
    except ImportError:
        raise ShardError("a cluster needs more packages: pip install 'hikite[many]'") from None
    if scheduler is not None:
        try:
            client = Client(scheduler, timeout="30s")  # type: ignore[no-untyped-call]
        except (OSError, ValueError) as error:
            raise ShardError(f"no scheduler answers: {error}", file=scheduler) from None
        with client:
            yield client
        return
    # The stages hold the interpreter: a process a worker, a shard at a time. Nothing listens to others.
    with (
        LocalCluster(  # type: ignore[no-untyped-call]
            n_workers=workers,
            threads_per_worker=1,
            host="127.0.0.1",
            dashboard_address="127.0.0.1:0",
            silence_logs=logging.ERROR,
        ) as cluster,
        Client(cluster) as client,  # type: ignore[no-untyped-call]
    ):
        yield client
