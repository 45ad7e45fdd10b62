"""What a quick reading of moisture is told with: its notes, and the picture of its pairs."""

from __future__ import annotations

from ..asking.declare import Axis, Chart, Dots, Line, Note
from ..asking.figures import fixed
from ..models.weights.quick import LINE_FROM, Bias, Corrected, odd_pair
from ..models.weights.quick import Line as Fitted
from ..rules.limit import edge
from ..rules.limits import quick_moisture as edges
from ..rules.quick import QuickVerdict
from .limits import book_of, limit_notes

FEWEST = int(edge(edges.PAIRS.stop_low))
"""Pairs below which no corrected figure is given."""


def notes_of(
    verdict: QuickVerdict,
    pairs: tuple[tuple[float, float], ...],
    new: Corrected,
    fitted: Fitted | None,
    oven_now: float | None,
) -> list[Note]:
    """The gap to the oven first, then the limits passed, then what the pairs can and cannot tell."""
    notes = list(limit_notes(verdict.lines))
    if verdict.word == "apart" and oven_now is not None:
        notes.insert(
            0,
            Note(
                "notice",
                f"The oven says {fixed(oven_now, 1)} %, the corrected reading {fixed(new.moisture, 1)} % ± "
                f"{fixed(new.half, 1)}. The oven stands. Write both down. Was it the same sample, and the same film? "
                "Do both again before the next decision that hangs on it, and tell the shift lead.",
            ),
        )
    elif verdict.word == "oven":
        notes.append(
            Note("remark", "The oven has answered: its figure counts. Add this pair to the table for next time.")
        )
    if len(pairs) < FEWEST:
        notes.append(
            Note(
                "remark",
                f"{len(pairs)} {'pair says' if len(pairs) == 1 else 'pairs say'} too little to correct by: no "
                "corrected "
                f"figure is given under {FEWEST}{book_of(edges.PAIRS, 'stop_low')}. The reading stands "
                "as it is read, and nobody knows how far off it is.",
            )
        )
    place = odd_pair(pairs=pairs)
    if place is not None:
        notes.append(
            Note(
                "notice",
                f"Pair {place + 1} lies too far from the others to be chance. Was it of one sample, written the "
                "right way "
                "round? It counts until you take it out: take it out only for a reason that you can write down.",
            )
        )
    if fitted is not None and not fitted.bends:
        notes.append(
            Note(
                "remark",
                f"A slope from {fixed(fitted.low, 2)} to {fixed(fitted.high, 2)} is open, 1 among them: one correction "
                "for all readings is taken.",
            )
        )
    elif fitted is not None:
        notes.append(
            Note(
                "remark",
                "The quick way is farther off at one end than at the other, and the pairs prove it: the line is taken.",
            )
        )
    elif len(pairs) >= FEWEST:
        notes.append(
            Note("remark", f"Whether it lies farther off in wet grain is only looked for from {LINE_FROM} pairs.")
        )
    return notes


def picture_of(pairs: tuple[tuple[float, float], ...], fitted: Fitted | None, one: Bias) -> Chart:
    """The pairs as dots, where both would agree, and what is taken here."""
    quick = [x for x, _ in pairs]
    low, high = min(quick), max(quick)
    ends = [low - 1.0, high + 1.0]
    if fitted is not None and fitted.bends:
        drawn = [fitted.at_oven + fitted.slope * (x - fitted.at_quick) for x in ends]
    else:
        drawn = [x + one.mean for x in ends]
    return Chart(
        "pairs",
        "The pairs, and what is made of them",
        f"{len(pairs)} pairs. The lower line is where quick and oven agree; the other is what is taken here.",
        Axis("Quick", "%", decimals=1),
        Axis("Oven", "%", decimals=1),
        lines=(Line("agree", ends, ends), Line("taken", ends, drawn)),
        dots=(Dots("pairs", quick, [y for _, y in pairs]),),
    )
