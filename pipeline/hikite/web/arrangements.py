"""How a reading room is set up."""

from pathlib import Path

from pydantic import BaseModel

from hikite.archive.keeping import aliases_of

LOOPBACK = frozenset({"127.0.0.1", "localhost", "::1"})


class Arrangement(BaseModel, frozen=True, extra="forbid"):
    """The archive that is read and where what is written beside it goes.

    ``address`` is what the room is bound to and ``names`` the host names it answers to besides; ``token``
    must be given by whoever enters. ``media`` are folders in which media files may lie apart from those of
    the recordings. A ``read_only`` room takes no decisions.
    """

    archive: Path
    address: str = "127.0.0.1"
    port: int = 8173
    names: tuple[str, ...] = ()
    token: str | None = None
    media: tuple[Path, ...] = ()
    read_only: bool = False
    aliases: Path | None = None

    @property
    def alias_file(self) -> Path:
        """Where "these words meant that concept" is kept."""
        return self.aliases or aliases_of(self.archive)

    @property
    def search_file(self) -> Path:
        """Where saved searches are kept."""
        return self.archive.with_name(f"{self.archive.name}.searches.jsonl")

    @property
    def local(self) -> bool:
        """Whether only this machine can come in."""
        return self.address in LOOPBACK
