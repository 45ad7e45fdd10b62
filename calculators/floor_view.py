"""The picture and the remarks that go with a round of the floor."""

from __future__ import annotations

from math import inf

from .cautions import FLOOR_ROOM
from .declare import Axis, Band, Chart, Dots, Line, Mark, Note
from .figures import fixed, plain_number
from .models import floor
from .models.floor import Guess, Round, band
from .models.floor_actions import Action

_CHART_H = 12.0
_TOO_HOT_C = 25.0


def chart_of(guesses: list[Guess], rounds: list[Round], limit: float) -> Chart:
    """The difference between bottom and top from now on, with the limit and what was read."""
    weights = [guess.weight for guess in guesses]
    count = sum(1 for t in floor.TIMES if t <= _CHART_H)
    bands = [band([g.differences[n] for g in guesses], weights) for n in range(count)]
    times = floor.TIMES[:count]
    present = floor.turnings(rounds)[-1]
    highest = max(limit, *(b.high for b in bands))
    return Chart(
        "ahead",
        "Bottom minus top, the next 12 hours",
        f"Bottom minus top goes from {fixed(bands[0].middle, 1)} K now to {fixed(bands[-1].middle, 1)} K in "
        f"12 hours, likely {fixed(bands[-1].low, 1)} to {fixed(bands[-1].high, 1)} K, if nobody turns. "
        f"The house’s limit is {fixed(limit, 1)} K.",
        Axis("hours from now", "h", low=-max(one.hours_ago for one in present), high=_CHART_H),
        Axis("bottom minus top", "K", low=0.0, high=1.1 * highest, decimals=1),
        lines=(Line("likely", times, tuple(b.middle for b in bands)),),
        bands=(Band("four in five", times, tuple(b.low for b in bands), tuple(b.high for b in bands)),),
        marks=(Mark(f"limit {fixed(limit, 1)} K", limit),),
        dots=(
            Dots(
                "read",
                tuple(-one.hours_ago for one in present),
                tuple(one.bottom_c - one.top_c for one in present),
            ),
        ),
    )


def reason_of(due: list[Action]) -> str:
    """Why the first thing is due, and what else is."""
    also = ", ".join(action.word for action in due[1:])
    return due[0].because + (f" Also due: {also}; why stands in the table." if also else "")


def notes_of(own: bool, until: floor.Band, bottom: float, due: list[Action]) -> tuple[Note, ...]:
    """What goes with what is due: gas, heat, and what the hours rest on."""
    words = [action.word for action in due]
    notes = []
    shut = " You are about to shut windows: it gathers faster." if "close" in words else ""
    notes.append(
        Note(
            "warning",
            FLOOR_ROOM.format(shut),
        )
    )
    if bottom >= _TOO_HOT_C:
        notes.append(
            Note(
                "notice",
                f"{plain_number(bottom)} °C at the bottom. An old rule never lets a heap pass 25 to 27.5 °C "
                "(Balling): roots run wild and mould follows. See "
                "[[page:procedures/floor-germination|floor germination]].",
            )
        )
    if not own:
        notes.append(
            Note(
                "remark",
                "The hours rest on typical heat more than on this floor. Read the same spot again before it is "
                "turned, and add this round to the earlier ones. A typical value is no reason to turn.",
            )
        )
    if until.middle == inf:
        early = "" if until.low == inf else f"; at the earliest in {fixed(until.low, 1)} h"
        notes.append(
            Note(
                "remark",
                f"The limit is not likely to be reached within 24 hours{early}. Look again all the same.",
            )
        )
    if "turn" in words and "sprinkle" in words:
        notes.append(
            Note(
                "remark",
                "Sprinkle first and turn the water in: [[sheet:sprinkling]].",
            )
        )
    elif "sprinkle" in words:
        notes.append(Note("remark", "How much water: [[sheet:sprinkling]]."))
    return tuple(notes)
