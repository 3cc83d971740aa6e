"""Boltside: from pattern outlines to a published shop with every number computed."""

__version__ = "0.1.0"
