"""What the load of the drains is told with: the consent first, then what was passed, then what is left open."""

from __future__ import annotations

from ..asking.declare import Note
from ..rules.effluent import ConsentVerdict
from ..rules.limit import Limit
from .limits import limit_notes

CONSENT_DECIDES = Note(
    "notice",
    "Steep water is trade effluent. Where it may go, how much, when and how fast stands in the site’s consent, and "
    "local law and whoever holds the consent come first. No figure here lets water go.",
)


def notes_of(verdict: ConsentVerdict | None, *, analysed: bool, washed: bool) -> tuple[Note, ...]:
    """The notes of one case.

    Parameters
    ----------
    verdict : ConsentVerdict or None
        What the shares of the consent said; None where nothing of it was typed.
    analysed : bool
        Whether the load is of the house's own analyses.
    washed : bool
        Whether wash water is counted in volume and has no analysis.
    """
    line = verdict.line if verdict else None
    if line is not None and analysed and isinstance(line.limit, Limit):
        # its name in the table speaks of an estimate, and here there is none
        line = line._replace(limit=line.limit._replace(quantity=line.limit.quantity.split(",")[0]))
    notes = [CONSENT_DECIDES, *limit_notes([line])]
    if verdict is None:
        notes.append(Note("remark", "Type what the consent says of water, COD or strength, to see how near you come."))
    if not analysed:
        notes.append(
            Note(
                "remark",
                "This is an estimate from the barley. It decides one thing: whether an analysis of your own drain is "
                "due before you change batches or water.",
            )
        )
    if washed:
        notes.append(
            Note(
                "remark",
                "Wash water counts by its cubic metres only: nothing is known of its load without analysis. The "
                "strength is that of the steep water alone.",
            )
        )
    return tuple(notes)
