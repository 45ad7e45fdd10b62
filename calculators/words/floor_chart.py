"""The picture and the remarks that go with a round of the floor."""

from __future__ import annotations

from ..asking.declare import Axis, Band, Chart, Dots, Line, Mark, Note
from ..asking.figures import fixed, plain_number
from ..models.bed import floor
from ..models.bed.floor import Guess, Round, band
from ..rules.floor import Sight, Until, Verdict, cooler_below
from ..rules.limits import floor_germination as edges
from .cautions import FLOOR_ROOM

_CHART_H = 12.0


def chart_of(guesses: list[Guess], rounds: list[Round], limit: float) -> Chart:
    """The difference between bottom and top from now on, with the limit and what was read."""
    weights = [guess.weight for guess in guesses]
    count = sum(1 for t in floor.TIMES if t <= _CHART_H)
    bands = [band([g.differences[n] for g in guesses], weights) for n in range(count)]
    times = floor.TIMES[:count]
    present = floor.turnings(rounds)[-1]
    read = [one.bottom_c - one.top_c for one in present]
    highest = max(limit, *(b.high for b in bands))
    lowest = min(0.0, *(b.low for b in bands), *read)
    return Chart(
        "ahead",
        "Bottom minus top, the next 12 hours",
        f"Bottom minus top goes from {fixed(bands[0].middle, 1)} K now to {fixed(bands[-1].middle, 1)} K in "
        f"12 hours, likely {fixed(bands[-1].low, 1)} to {fixed(bands[-1].high, 1)} K, if nobody turns. "
        f"The house’s limit is {fixed(limit, 1)} K.",
        Axis("hours from now", "h", low=-max(one.hours_ago for one in present), high=_CHART_H),
        Axis("bottom minus top", "K", low=1.1 * lowest, high=1.1 * highest, decimals=1),
        lines=(Line("likely", times, tuple(b.middle for b in bands)),),
        bands=(Band("four in five", times, tuple(b.low for b in bands), tuple(b.high for b in bands)),),
        marks=(Mark(f"limit {fixed(limit, 1)} K", limit),),
        dots=(
            Dots(
                "read",
                tuple(-one.hours_ago for one in present),
                tuple(read),
            ),
        ),
    )


def notes_of(sight: Sight, found: Verdict, until: Until | None) -> tuple[Note, ...]:
    """What goes with what is due: gas, heat, and what the hours rest on; ``until`` is None at a stop."""
    notes = []
    shut = " You are about to shut windows: it gathers faster." if "close" in found.words else ""
    notes.append(Note("warning", FLOOR_ROOM.format(shut)))
    warmest = max(sight.bottom_c, sight.top_c)
    if warmest >= edges.NEVER_C:
        notes.append(
            Note(
                "notice",
                f"{plain_number(warmest)} °C. An old rule never lets a heap pass {plain_number(edges.NEVER_C)} to "
                f"{plain_number(edges.NEVER_HIGH_C)} °C (Balling): roots run wild and mould follows. See "
                "[[page:procedures/floor-germination|floor germination]].",
            )
        )
    if cooler_below(sight.bottom_c, sight.top_c):
        notes.append(
            Note(
                "remark",
                "The bottom is cooler than the top. A warm room or a cold floor does that, and so do two thermometers "
                "that are swapped. The hours take the floor to keep all its heat: read again sooner than they say.",
            )
        )
    if until and not sight.own_readings:
        again = "Add this round to the earlier ones when you read the spot again."
        if "turn" not in found.words:
            again = (
                "Read the same spot again before it is turned, and add this round to the earlier ones. A usual value "
                "is no reason to turn."
            )
        rests = "The hours rest on the usual heat of its day more than on this floor."
        notes.append(Note("remark", f"{rests} {again}"))
    if found.word == "turn" and "sprinkle" in found.words:
        notes.append(Note("remark", "Sprinkle first and turn the water in: [[sheet:sprinkling]]."))
    return tuple(notes)
