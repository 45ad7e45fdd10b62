"""One batch in a few figures, so that batches can be laid side by side."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import sqrt
from typing import Any, NamedTuple

from ...asking.figures import plain_number
from ...models.counts import acrospire
from ...models.steep.hydration import WATER_TEMP_C, uptake_rate
from ...models.weights.analysed import on_dry_matter
from ...rules.conventions import READY_AT_C, USUAL_WATER_C
from ..batch.batch import Batch, Told
from ..batch.checks import loss_of
from ..lines.kinds import MALT
from .days import days_of
from .fits import BatchFit

LAST = 10
"""So many batches before are what a batch is held against."""

FEWEST = 4
OFF_SD = 2.0
"""A figure further than this from the batches before is named [spreads between them]."""

AT_WATER, AT_READY = f"at {plain_number(USUAL_WATER_C)} °C", f"at {plain_number(READY_AT_C)} °C"


class Summary(NamedTuple):
    """The figures of one batch; None where its lines do not tell.

    Attributes
    ----------
    batch : Told
        The batch.
    water_c : float or None
        Mean water temperature of its immersions [C].
    wet_h : float or None
        Hours under water [h].
    wet_h_at_14 : float or None
        The same, each immersion brought to 14 C by the law of warmth of the steep model [h].
    steep_h : float or None
        From the first water to the last drain [h].
    cast_moisture : float or None
        The last moisture before the cast, drained, % of wet weight.
    rate_factor : float or None
        Of its own fit [-].
    days, bed_c, days_at_15 : float or None
        From the cast to ready [days], the mean of its bed [C], the days brought to 15 C [days].
    loss : float or None
        Dry matter lost up to the kiln door [%].
    ready_share : float or None
        Corns at three quarters or more at the last count before the kiln [%].
    friability, extract_dry, malt_moisture, nitrogen, colour, homogeneity : float or None
        Of the last analysis of its malt: [%], extract and nitrogen on dry matter [%], colour in EBC units.
    """

    batch: Told
    water_c: float | None
    wet_h: float | None
    wet_h_at_14: float | None
    steep_h: float | None
    cast_moisture: float | None
    rate_factor: float | None
    days: float | None
    bed_c: float | None
    days_at_15: float | None
    loss: float | None
    ready_share: float | None = None
    friability: float | None = None
    extract_dry: float | None = None
    malt_moisture: float | None = None
    nitrogen: float | None = None
    colour: float | None = None
    homogeneity: float | None = None


class Figure(NamedTuple):
    """One column of the table: its id in a summary, heading, unit and decimals, and the least spread that counts."""

    id: str
    label: str
    unit: str
    decimals: int
    least: float
    malt: bool = False


FIGURES = (
    Figure("water_c", "Water", "C", 1, 1e9),
    Figure("steep_h", "Steep", "h", 0, 1e9),
    Figure("wet_h", "Under water", "h", 1, 1e9),
    Figure("wet_h_at_14", f"Under water, {AT_WATER}", "h", 1, 1.0),
    Figure("cast_moisture", "At the cast", "%", 1, 0.4),
    Figure("rate_factor", "Rate factor", "", 2, 0.06),
    Figure("days", "Days to ready", "days", 1, 1e9),
    Figure("bed_c", "Bed", "C", 1, 1e9),
    Figure("days_at_15", f"Days, {AT_READY}", "days", 1, 0.25),
    Figure("loss", "Lost to the kiln door", "%", 1, 0.5),
    Figure("ready_share", "Ready at the last count", "%", 0, 1e9),
    Figure("friability", "Friability", "%", 1, 2.0, malt=True),
    Figure("extract_dry", "Extract, dry", "%", 1, 0.6, malt=True),
    Figure("malt_moisture", "Malt moisture", "%", 1, 0.4, malt=True),
    Figure("nitrogen", "Nitrogen of the malt", "%", 2, 0.06, malt=True),
    Figure("colour", "Colour", "EBC", 1, 0.5, malt=True),
    Figure("homogeneity", "Homogeneity", "%", 1, 2.0, malt=True),
)
"""Figures that go with the season stand in the table and are never called off: their least spread is out of reach.
Those of the malt have a table of their own. The least spread of its nitrogen is what one laboratory repeats by
combustion (r95 0.063, abstract read); the others are our judgement."""


def summary_of(batch: Batch, fit: BatchFit | None) -> Summary:
    """The figures of a batch.

    Parameters
    ----------
    batch : Batch
        The batch.
    fit : BatchFit or None
        Its own fit, where it has one.
    """
    wet = [s for s in batch.spells if s.wet and s.ended is not None]
    hours = [(s.ended - s.begun).total_seconds() / 3600 for s in wet if s.ended is not None]
    temps = [sum(s.temps) / len(s.temps) if s.temps else None for s in wet]
    known = [t for t in temps if t is not None]
    water = sum(known) / len(known) if known else None
    over = batch.cast is not None and bool(wet)
    at_14 = None
    if over and water is not None:
        each = [min(max(water if t is None else t, WATER_TEMP_C.low), WATER_TEMP_C.high) for t in temps]
        reference = uptake_rate(water_temp_c=USUAL_WATER_C)
        at_14 = sum(h * uptake_rate(water_temp_c=t) / reference for h, t in zip(hours, each, strict=True))
    last = wet[-1].ended if wet else None
    drained = [r.moisture for r in batch.readings if r.drained]
    grown = days_of(batch)
    return Summary(
        batch,
        water,
        sum(hours) if over else None,
        at_14,
        batch.hours_at(last) if over and last else None,
        drained[-1] if batch.cast and drained else None,
        fit.rate_factor if fit else None,
        grown.days if grown else None,
        grown.mean_c if grown else None,
        grown.at_reference if grown else None,
        loss_of(batch),
        _ready_share(batch),
        **malt_of(batch),
    )


def _ready_share(batch: Batch) -> float | None:
    """Corns at three quarters or more at the last count that was made before the kiln [%]."""
    for entry in reversed(batch.of("readiness")):
        counts = batch.value(entry, "counts")
        if counts and sum(row[0] for row in counts) and (batch.left is None or entry.utc <= batch.left.utc):
            corns = [row[0] for row in counts]
            return 100.0 * float(corns[acrospire.READY] + corns[acrospire.OVERSHOT]) / float(sum(corns))
    return None


def malt_of(batch: Batch) -> dict[str, float | None]:
    """What the last analysis of a batch's malt says, each figure by the last line that has it; extract on dry matter.

    An extract as is without the moisture beside it is left out: it stands on another basis than the others.
    """
    asked = {
        "friability": "friability_percent",
        "malt_moisture": "malt_moisture",
        "nitrogen": "nitrogen_percent",
        "colour": "colour_ebc",
        "homogeneity": "homogeneity_percent",
    }
    found: dict[str, float | None] = dict.fromkeys((*asked, "extract_dry"))
    for entry in batch.of(MALT):
        for name, question in asked.items():
            value = batch.value(entry, question)
            found[name] = found[name] if value is None else float(value)
        extract, water = batch.value(entry, "extract_percent"), batch.value(entry, "malt_moisture")
        if extract is not None and batch.value(entry, "extract_basis") != "as-is":
            found["extract_dry"] = float(extract)
        elif extract is not None and water is not None:
            found["extract_dry"] = on_dry_matter(as_is=float(extract), moisture=float(water))
    return found


class Against(NamedTuple):
    """One figure of a batch against those before it: how many, their mean and spread, and whether it is off."""

    figure: Figure
    value: float
    others: int
    mean: float
    spread: float
    off: bool


def against(one: Summary, before: Sequence[Summary]) -> list[Against]:
    """The figures of a batch against the last ten before it, those only that at least four of them have.

    The rate factor is held against batches of the same lot.
    """
    found = []
    for figure in FIGURES:
        value = getattr(one, figure.id)
        if value is None:
            continue
        lot = one.batch.text("lot") if figure.id == "rate_factor" else None
        values = _last(figure.id, before, lot)
        if len(values) < (FEWEST if lot is None else 3):
            continue
        mean = sum(values) / len(values)
        spread = sqrt(sum((v - mean) ** 2 for v in values) / (len(values) - 1))
        off = figure.least < 1e8 and abs(value - mean) > OFF_SD * max(spread, figure.least) * sqrt(1 + 1 / len(values))
        found.append(Against(figure, value, len(values), mean, spread, off))
    return found


def _last(figure: str, before: Sequence[Summary], lot: str | None) -> list[float]:
    """The figure of the last ten batches that have it, of one lot where that is named; the last one is the last."""
    values: list[float] = []
    for other in reversed(before):
        value = getattr(other, figure)
        if value is not None and (lot is None or other.batch.text("lot") == lot):
            values.append(value)
            if len(values) == LAST:
                break
    return values[::-1]


Fitted = Callable[[Told], BatchFit | None]
Summed = Callable[[Any, BatchFit | None], Summary]


def summaries(
    batches: Sequence[Told], fitted: Fitted, most_fitted: int = 40, summed: Summed = summary_of
) -> list[Summary]:
    """The summaries of batches in the order in which they were begun; the last ones with their fits.

    ``summed`` makes one of a batch and its fit.
    """
    wet = sorted((b for b in batches if b.begun is not None), key=lambda b: b.begun or b.last_utc)
    first = len(wet) - most_fitted
    return [summed(batch, fitted(batch) if n >= first else None) for n, batch in enumerate(wet)]
