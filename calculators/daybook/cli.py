"""The verb ``fit`` of the command line: the fits of a day-book's export."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence

from .. import __version__
from ..asking.figures import fixed
from ..models.steep.hydration import MODEL_VERSION
from ..rules.conventions import READY_AT_C
from . import load
from .lines.library import Book

ANSWERED, WRONG, REFUSED = 0, 2, 3


def _problem(text: str, as_data: bool) -> int:
    line = json.dumps({"question": "file", "text": text}, ensure_ascii=False) if as_data else text
    sys.stderr.write(line + "\n")
    return WRONG


def _said(book: Book) -> list[str]:
    known = book.fits
    lines = [f"Fits of {len(known.fits)} batches (steep model {MODEL_VERSION}, version {__version__})", ""]
    lines.append("batch\tlot\tharvest\trate factor\tlow\thigh\tat once, points\terror, points\treadings")
    for one in known.fits:
        figures = [fixed(v, 2) for v in (one.rate_factor, one.low, one.high)]
        figures += [fixed(one.offset, 1), fixed(one.error_points, 2), str(one.readings)]
        lines.append("\t".join([one.batch.id, one.batch.text("lot"), one.batch.text("season"), *figures]))
    lines += ["", "lot\tharvest\tbatches\trate factor\tlow\thigh\tnext low\tnext high\tto type in a sheet"]
    for lot in known.lots:
        figures = [fixed(v, 2) for v in (lot.rate_factor, lot.low, lot.high, lot.next_low, lot.next_high)]
        typed = f"rate_factor={fixed(lot.sheet_rate, 2)} moisture_offset={fixed(lot.sheet_offset, 1)}"
        lines.append("\t".join([lot.lot, lot.season, str(len(lot.fits)), *figures, typed]))
    for vessel, days in known.days:
        lines.append(
            f"\nDays to ready at {fixed(READY_AT_C, 0)} C, {vessel}: {fixed(days.days, 1)} "
            f"(± {fixed(2 * days.doubt, 1)}), {len(days.batches)} batches"
        )
    if known.heat:
        heat = known.heat
        lines.append(
            f"\nHeat of the floor against the typical: {fixed(heat.factor, 2)} ({fixed(heat.low, 2)} to "
            f"{fixed(heat.high, 2)}), {len(heat.batches)} batches"
        )
    return lines


def fit(arguments: Sequence[str]) -> int:
    """Fit every batch of an export, or of several, and print what they say together.

    Exit codes: 0 answered, 2 a file cannot be read, 3 there is nothing to fit. Rows that were refused are named on
    stderr, a line each, and do not stop the rest.
    """
    as_data = "--json" in arguments
    paths = [word for word in arguments if word != "--json"]
    if not paths or any(path.startswith("-") for path in paths):
        return _problem("Which file? Type: python -m calculators fit day-book.json [--json]", as_data)
    try:
        book = load(*paths)
    except (OSError, ValueError) as fault:
        return _problem(" ".join(str(fault).split()), as_data)
    for one in book.refused:
        _problem(f"row {one.row} ({one.what}): {one.why}".replace("\n", " "), as_data)
    known = book.fits
    if as_data:
        sys.stdout.write(json.dumps(known.data(), ensure_ascii=False, allow_nan=False) + "\n")
    elif known.fits or known.days:
        sys.stdout.write("\n".join(_said(book)) + "\n")
    if not (known.fits or known.days):
        _problem("No batch of this book was weighed: there is nothing to fit.", as_data)
        return REFUSED
    return ANSWERED
