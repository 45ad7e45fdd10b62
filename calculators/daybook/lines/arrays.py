"""A book as numpy arrays: one table for each kind of figure, each a dictionary of columns of one length.

``batches``
    One row a batch: ``batch``, ``lot``, ``season``, ``vessel`` (text), ``begun`` (datetime64, UTC), ``water_c`` [C],
    ``wet_h``, ``wet_h_at_14``, ``steep_h`` [h], ``cast_moisture`` [% of wet weight], ``days``, ``days_at_15`` [days],
    ``bed_c`` [C], ``loss`` [% of dry matter].
``steep``
    One row a moisture found in a steep: ``batch``, ``hours`` [h since the first water], ``moisture`` [% of wet weight],
    ``drained`` (bool: the film was weighed with it), ``kind`` (basket, moisture, cast).
``stages``
    One row an immersion or a rest: ``batch``, ``number`` from 1, ``wet`` (bool), ``begins``, ``ends`` [h since the
    first water; nan while it is open], ``temp_c`` [C, mean of what was read].
``bed``
    One row a round: ``batch``, ``days`` [days since the cast], ``bottom_c``, ``top_c``, ``room_c`` [C], ``depth_cm``.
``counts``
    One row a count of readiness: ``batch``, ``days`` [days since the cast], ``corns`` (int, shape (rows, 5), shortest
    class first).

A figure that is not known is nan, a moment NaT.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..batch.batch import Batch
from ..house.summary import FIGURES, summary_of

Columns = dict[str, NDArray[Any]]
Arrays = dict[str, Columns]


def _text(values: Sequence[str]) -> NDArray[Any]:
    return np.array(list(values), dtype=np.str_)


def _figures(values: Sequence[float | None]) -> NDArray[np.float64]:
    return np.array([np.nan if value is None else value for value in values], dtype=np.float64)


def _moments(values: Sequence[datetime | None]) -> NDArray[np.datetime64]:
    return np.array(
        [np.datetime64("NaT") if m is None else np.datetime64(m, "s") for m in values], dtype="datetime64[s]"
    )


def arrays_of(batches: Sequence[Batch]) -> Arrays:
    """The tables of this module's description, out of batches."""
    return {
        "batches": _batches(batches),
        "steep": _steep(batches),
        "stages": _stages(batches),
        "bed": _bed(batches),
        "counts": _counts(batches),
    }


def _batches(batches: Sequence[Batch]) -> Columns:
    rows = [summary_of(batch, None) for batch in batches]
    texts = {
        "batch": _text([batch.id for batch in batches]),
        "lot": _text([batch.text("lot") for batch in batches]),
        "season": _text([batch.text("season") for batch in batches]),
        "vessel": _text([batch.vessel for batch in batches]),
    }
    figures = {
        figure.id: _figures([getattr(row, figure.id) for row in rows])
        for figure in FIGURES
        if figure.id != "rate_factor"  # a fit, not a figure of the book: Book.fits has it with its doubt
    }
    return {**texts, "begun": _moments([batch.begun for batch in batches]), **figures}


def _steep(batches: Sequence[Batch]) -> Columns:
    rows = [(batch.id, reading) for batch in batches for reading in batch.readings]
    return {
        "batch": _text([name for name, _ in rows]),
        "hours": _figures([reading.hours for _, reading in rows]),
        "moisture": _figures([reading.moisture for _, reading in rows]),
        "drained": np.array([reading.drained for _, reading in rows], dtype=np.bool_),
        "kind": _text([reading.entry.kind for _, reading in rows]),
    }


def _stages(batches: Sequence[Batch]) -> Columns:
    rows = [(batch, number, spell) for batch in batches for number, spell in enumerate(batch.spells, 1)]
    return {
        "batch": _text([batch.id for batch, _, _ in rows]),
        "number": np.array([number for _, number, _ in rows], dtype=np.int64),
        "wet": np.array([spell.wet for _, _, spell in rows], dtype=np.bool_),
        "begins": _figures([batch.hours_at(spell.begun) for batch, _, spell in rows]),
        "ends": _figures([batch.hours_at(spell.ended) if spell.ended else None for batch, _, spell in rows]),
        "temp_c": _figures([sum(s.temps) / len(s.temps) if s.temps else None for _, _, s in rows]),
    }


def _since_cast(batch: Batch, moment: datetime) -> float | None:
    return (moment - batch.cast.utc).total_seconds() / 86_400 if batch.cast else None


def _bed(batches: Sequence[Batch]) -> Columns:
    rows = [(batch, entry) for batch in batches for entry in batch.of("bed")]
    names = ("bottom_c", "top_c", "room_c", "depth_cm")
    return {
        "batch": _text([batch.id for batch, _ in rows]),
        "days": _figures([_since_cast(batch, entry.utc) for batch, entry in rows]),
        **{name: _figures([batch.value(entry, name) for batch, entry in rows]) for name in names},
    }


def _counts(batches: Sequence[Batch]) -> Columns:
    rows = [(batch, entry) for batch in batches for entry in batch.of("readiness") if batch.value(entry, "counts")]
    corns = [[int(row[0]) for row in batch.value(entry, "counts")] for batch, entry in rows]
    return {
        "batch": _text([batch.id for batch, _ in rows]),
        "days": _figures([_since_cast(batch, entry.utc) for batch, entry in rows]),
        "corns": np.array(corns, dtype=np.int64).reshape(len(rows), 5),
    }
