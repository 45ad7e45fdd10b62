"""How a forecast of a batch is said: the stops that it passes, what it does not know, the readings that would help."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from ..asking.declare import Note, Option, Rows, Value
from ..asking.figures import fixed
from ..models.living.readings import AcrospireCount, Basket, BottomTop, Chits, Oven, Probe, Reading
from ..rules.forecast import FLOOR, Foreseen
from ..rules.limits import floor_germination
from ..rules.steep_order import Passed
from .cautions import DRUM, FLOOR_ROOM
from .limits import act_of, edge, reading, told
from .order import stop_notes
from .steep import GAS, clock_after

if TYPE_CHECKING:
    from ..models.living.ensemble import Taken
    from ..models.living.outlook import Step

FIGURES = {"moisture": "moisture", "warmth": "warmth", "chitted": "chits", "ready": "readiness"}
"""What a batch is forecast in, as said in a line."""

_WORD: dict[type[Reading], str] = {
    Basket: "basket",
    Oven: "oven",
    Probe: "thermometer",
    Chits: "chits",
    BottomTop: "bottom-top",
    AcrospireCount: "acrospires",
}
_SAID = {
    "basket": "Weigh a basket, drained",
    "oven": "Read the moisture of a sample: the quick way for today, its other half in the oven for tomorrow",
    "thermometer": "Read the grain with a thermometer, in several places",
    "chits": "Count the chits of 100 corns",
    "bottom-top": "Read bottom and top, just before it is turned",
    "acrospires": "Split 100 corns and count their acrospires",
}
NEXT_WORDS = (
    *(Option(word, f"{said}.") for word, said in _SAID.items()),
    Option("none", "None: no reading still to come would narrow these bands by as much as a fiftieth."),
)
SAYS_WORDS = (
    Option("all", "It says something of moisture, warmth, chits and readiness."),
    Option("some", "It says something of some figures, and nothing yet of the others."),
    Option("nothing", "It knows nothing of this batch: the possible batches disagree beyond use."),
)


def word_of(reading: Reading) -> str:
    """The word of a kind of reading."""
    return _WORD[type(reading)]


def _hour(hours: float) -> str:
    return f"{fixed(hours, 0)} h"


def stops_first(of_plan: Sequence[Passed], foreseen: Sequence[Foreseen]) -> list[Note]:
    """What passes a stop: by the plan itself, by the middle of the forecast, and by the far end of a band only.

    Parameters
    ----------
    of_plan : sequence of Passed
        Stops that hours and waters of the plan pass.
    foreseen : sequence of Foreseen
        Stops that figures of the forecast pass.
    """
    notes = stop_notes(of_plan, "the plan of this batch")
    for one in (one for one in foreseen if not one.far):
        notes.append(
            Note(
                "notice",
                f"Past a stop, by the middle of the forecast. {_named(one)} {reading(one.line)} at "
                f"{_hour(one.hour)}: the stop is {edge(one.line)}. {act_of(one.line)}{told(one.line)}",
            )
        )
    ends: dict[tuple[str, float], list[Foreseen]] = {}
    for one in foreseen:
        if one.far:
            ends.setdefault((one.line.rule, one.hour), []).append(one)
    if ends:
        said = "; ".join(_far_end(both) for both in ends.values())
        notes.append(
            Note(
                "notice",
                f"Past a stop at the far end of a band: {said}. It need not come to that. Read it before it can.",
            )
        )
    return notes


def _named(one: Foreseen) -> str:
    """What a stop is of; moisture is of the steep and of the bed."""
    assert one.line.limit is not None
    return f"{one.line.limit.quantity}{' in the bed' if one.line.rule == floor_germination.MOISTURE.id else ''}"


def _far_end(both: Sequence[Foreseen]) -> str:
    """One figure whose band reaches past its stop, on one side or on both."""
    values = " or ".join(reading(one.line) for one in both)
    stops = " and ".join(edge(one.line) for one in both)
    return f"{_named(both[0])} {values} at {_hour(both[0].hour)} (the stop is {stops})"


def unknown_note(unknown: Sequence[str], read: bool) -> list[Note]:
    """What the forecast says nothing of."""
    if not unknown:
        return []
    names = [FIGURES[name] for name in unknown]
    listed = " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
    more = "The readings named below tell most." if read else "Nothing was read so far; the readings below tell most."
    return [Note("notice", f"Of {listed} it says nothing yet: all that could be lies within its band. {more}")]


def misfit_note(taken: Taken, most: float) -> list[Note]:
    """That readings contradict the model or each other, and that bands were widened for it."""
    if not taken.widened:
        return []
    part = "" if taken.share >= 1.0 else f" Only {fixed(100 * taken.share, 0)} % of what they say could be let in."
    return [
        Note(
            "notice",
            "The bands are widened: the readings contradict the model or each other. They lie "
            f"{fixed(taken.misfit**0.5, 1)} times their own scatter away; up to {fixed(most**0.5, 1)} counts as chance."
            f"{part} Look for a slip: an hour, a basket, the barley’s moisture, a thermometer.",
        )
    ]


def members_note(members: int, taken: Taken) -> Note:
    """How many members stand behind the bands."""
    if not taken.draws:
        return Note("remark", f"{members} possible batches stand behind each band. No reading has been taken in.")
    return Note(
        "remark",
        f"{members} possible batches stand behind each band. They were drawn anew and moved {taken.draws} times to "
        f"take the readings in; at the narrowest moment {fixed(taken.effective, 0)} of them counted.",
    )


def place_notes(vessel: str, steeping: bool, grows: bool) -> list[Note]:
    """The cautions of the places where this batch is read."""
    notes = [GAS] if steeping else []
    if grows:
        notes.append(Note("warning", FLOOR_ROOM.format("")) if vessel == FLOOR else DRUM)
    return notes


def reading_rows(steps: Sequence[Step], start: datetime | None) -> Rows:
    """The readings to take as rows: what, when, and the part of each band that is left after it."""
    rows: list[tuple[Value | None, ...]] = []
    for one, left in steps:
        rows.append(
            (
                _SAID[word_of(one)],
                one.hour,
                clock_after(start, one.hour) if start else None,
                *(100.0 * left[name] if name in left else None for name in FIGURES),
            )
        )
    return Rows("to_take", rows)
