"""What goes wrong with shards."""

from hikite.errors import HikiteError


class ShardError(HikiteError):
    """A shard that cannot be read, or that was read by another program than the one that asks."""
