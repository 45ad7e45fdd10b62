"""Addresses that open a sheet with a batch's numbers in place: the same form as a link to these numbers."""

from __future__ import annotations

from collections.abc import Mapping

_KEPT = set("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._*~")
_READABLE = _KEPT | set(";,:")


def percent(text: str, kept: set[str] = _KEPT) -> str:
    """The text as it stands in an address."""
    return "".join(c if c in kept else "".join(f"%{byte:02X}" for byte in c.encode()) for c in text)


def query(pairs: Mapping[str, str]) -> str:
    """The part behind the question mark, kept readable where the standard allows it."""
    return "&".join(
        f"{percent(name)}={percent(value, _READABLE | {' '}).replace(' ', '+')}" for name, value in pairs.items()
    )


def sheet_address(sheet_id: str, values: Mapping[str, str], root: str, batch: str, demo: bool = False) -> str:
    """Where a sheet stands with these values in it, and with the batch that it was opened from.

    Parameters
    ----------
    sheet_id : str
        Which sheet.
    values : mapping of str to str
        As typed, by question; a table as on the command line.
    root : str
        Relative address of the site's root.
    batch : str
        Number of the batch.
    demo : bool
        Whether it is one of the invented book.
    """
    pairs = {"sheet": sheet_id, **values, "batch": batch, **({"book": "demo"} if demo else {})}
    return f"{root}calculators/{sheet_id}/?{query(pairs)}#{sheet_id}"
