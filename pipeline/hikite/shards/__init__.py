"""A corpus past one machine: dealt into shards, read by a cluster, gathered into an archive."""

from hikite.shards.dealing import deal
from hikite.shards.gathering import gather
from hikite.shards.spreading import spread

__all__ = ["deal", "gather", "spread"]
