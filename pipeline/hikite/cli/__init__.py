"""The command ``hikite``."""

from hikite.cli.commands import run

__all__ = ["run"]
