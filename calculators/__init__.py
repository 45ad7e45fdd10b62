"""Sheets and models for people who turn barley into malt."""

__version__ = "0.1.0"
