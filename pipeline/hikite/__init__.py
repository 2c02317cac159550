"""Spoken bout commentary in, a bout record out."""

__version__ = "0.1.0"
