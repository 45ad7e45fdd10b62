"""How the verdict on a steep is said: what argued for it, its doubt, and what else the findings call for."""

from __future__ import annotations

from ..asking.declare import Found, Note
from ..asking.figures import fixed, plain_number
from ..models.counts.intervals import wilson
from ..rules.cast import CHITS_OF, MUSTY, SOUR, Seen, Verdict, limit_of
from ..rules.counting import CHITS
from ..rules.limit import SHIFT_LEAD, Limit, edge
from ..rules.limits import casting, steeping
from ..rules.lines import Line, passed
from .counted import LOOK_AGAIN_REMARK
from .limits import at_edge, beside, limit_notes, reading, said, taken, told
from .limits import edge as edge_said

HOT_C = edge(steeping.REST_TEMP.stop_high)
"""Grain in a rest is not let above this [C]."""
TO = {"couch": "to a couch", "drum": "to a drum or a box"}


def cast_stop(line: Line) -> str:
    """The moisture that a batch was cast with, past its stop: “Cast at 28 %: the stop is under 41 %.”, say."""
    return f"Cast at {reading(line)}: the stop is {edge_said(line)}."


def reasons(verdict: Verdict, seen: Seen) -> str:
    """What argued for the word, with the numbers."""
    return "; ".join(_said(line, seen) for line in verdict.lines)


def _said(line: Line, seen: Seen) -> str:
    if line.rule == MUSTY:
        return "it smells musty, and mould is not steeped or grown away"
    if line.rule == SOUR:
        return "it smells sour or fruity: it has had no air"
    value, wanted = line.value, line.edge
    assert isinstance(value, (int, float)) and isinstance(wanted, (int, float))
    if line.rule == steeping.REST_TEMP.id:
        return f"the grain is at {plain_number(value)} °C and gets warmer where it lies"
    if line.rule == steeping.REST.id:
        return f"it has rested {plain_number(value)} h"
    if line.rule == casting.OFF_TARGET.id:
        shown = gap_decimals(value - wanted)
        told = f"moisture {fixed(value, shown)} % against {plain_number(wanted)} %: "
        near = edge(casting.OFF_TARGET.accept_high)
        if value - wanted > near:
            return told + f"{fixed(value - wanted, shown)} points over its target"
        return told + (f"{fixed(wanted - value, shown)} points short" if line.mark != "accept" else "on target")
    where = "before a last dip" if line.rule == steeping.CHIT_LAST_DIP.id else TO[seen.to]
    against = f"{plain_number(wanted)} %{beside(line)} wanted {where}"
    if line.mark == "accept":
        return f"chitted {fixed(value, 1)} %, at or above the {against}"
    told = f"chitted {fixed(value, 1)} %, under the {against}"
    if line.mark == "stop":
        assert isinstance(line.limit, Limit)
        told += f" and under the stop at {at_edge(line.limit, 'stop_low')}"
    return told


def gap_decimals(gap: float) -> int:
    """As many decimals of the points off the target as part them from what is still on it.

    >>> gap_decimals(3.0), gap_decimals(-1.0), gap_decimals(45 - 43.96), gap_decimals(45 - 43.996)
    (1, 1, 2, 3)
    """
    near = edge(casting.OFF_TARGET.accept_high)
    off = abs(gap)
    for decimals in (1, 2, 3):
        if abs(off - near) < 1e-9 or float(fixed(off, decimals)) != near:
            return decimals
    return 6


def found_of(verdict: Verdict, seen: Seen) -> list[Found]:
    """The verdict, the share with its interval, the doubt that is left and the corns that would settle it."""
    low, high = (100.0 * end for end in wilson(seen.chitted, seen.counted))
    share = (
        f"100 × {seen.chitted} / {seen.counted} = {fixed(verdict.share, 1)} %, with a 95 % interval (Wilson) of "
        f"{fixed(low, 1)} to {fixed(high, 1)} %"
    )
    against = taken(verdict.edge, limit_of(seen.to), "accept_low")
    found = [
        Found("verdict", verdict.word, reasons(verdict, seen)),
        Found("chit_share", verdict.share, share, low, high),
    ]
    if not verdict.settled:
        found.append(
            Found(
                "chit_doubt",
                100.0 * verdict.under,
                f"of all shares that {seen.chitted} of {seen.counted} leave open, the part under {against}",
            )
        )
    if verdict.more:
        found.append(
            Found(
                "count_more",
                float(verdict.more),
                f"if the share stays at {fixed(verdict.share, 1)} %, the exact interval leaves {against} at about "
                f"{seen.counted + verdict.more} corns in all",
            )
        )
    return found


def notes_of(verdict: Verdict, seen: Seen) -> list[Note]:
    """What argued for it, how sure it is, and what else the findings call for; limits that are passed come first."""
    notes = [*_stops(verdict, seen), Note("remark", f"What argued for it: {reasons(verdict, seen)}.")]
    if not verdict.settled and seen.smell not in (SOUR, MUSTY):
        notes.append(_open(verdict, seen))
    notes += _of_smell(seen)
    over = seen.moisture - seen.target
    if edge(casting.OFF_TARGET.accept_high) < over and seen.moisture <= edge(casting.MOISTURE.stop_high):
        then = "No more water; cast as soon as the chits are there."
        notes.append(Note("notice", f"It is {fixed(over, gap_decimals(over))} points over its target. {then}"))
    if seen.hours_since_drain < 0.5:
        notes.append(
            Note("remark", "It has hardly drained. A dripping basket reads too wet: weigh again in half an hour.")
        )
    if verdict.word == "hold" and seen.smell not in (SOUR, MUSTY):
        waits = _while_held(verdict, seen)
        notes += [waits] if waits else []
    return notes


def _open(verdict: Verdict, seen: Seen) -> Note:
    against = taken(verdict.edge, limit_of(seen.to), "accept_low")
    told = (
        f"The count leaves both sides of {against} open: the true share is under it with a chance of "
        f"{fixed(100.0 * verdict.under, 0)} in 100. The verdict takes the share as it was counted, as the page does."
    )
    if verdict.more:
        return Note("remark", f"{told} {verdict.more} corns more would settle it, and nothing waits for them. "
                    f"{LOOK_AGAIN_REMARK}")  # fmt: skip
    return Note(
        "remark",
        f"{told} It lies too near for a count: not even the {CHITS.in_half_an_hour} corns of half an hour would "
        "settle it.",
    )


_WARM = {
    "couch": "Cast promptly, thin, onto the coolest floor.",
    "drum": "Cast promptly, with the air of drum or box on at once and cool, full as soon as the bed lies.",
}
_WET = {
    "couch": "Cast it dry, spread it thin, turn it often.",
    "drum": "Cast it dry. Air of drum or box on at once and cool, full as soon as the bed lies, and no sprinkling.",
}
"""What to do with grain too warm or too wet, by where it is cast to."""


def _stops(verdict: Verdict, seen: Seen) -> list[Note]:
    """The stops that are passed, first of all notes."""
    notes: list[Note] = []
    hot = seen.grain_temp_c > HOT_C
    hot_against = hot and verdict.word == "hold" and not (_clean(seen) and _early(seen))
    if hot and not hot_against:
        notes.append(
            Note(
                "notice",
                f"Past a stop. The grain is at {plain_number(seen.grain_temp_c)} °C, above "
                f"{at_edge(steeping.REST_TEMP, 'stop_high')}. "
                f"{_WARM[seen.to] if verdict.word == 'cast' else 'Give full suction now.'} "
                "Stop and ask if it rises on.",
            )
        )
    wet = passed(casting.MOISTURE, seen.moisture)
    if wet and seen.moisture > edge(casting.MOISTURE.stop_high):
        over = seen.moisture - seen.target
        by = f" It is {fixed(over, 1)} points over its target." if over > 0.0 else ""
        then = _WET[seen.to] if verdict.word == "cast" else "No more water: full suction."
        notes.append(
            Note(
                "notice",
                f"Past a stop. {said(wet)}{by} {then} Corns that are milky when pressed are over-steeped.{told(wet)}",
            )
        )
    lines: list[Line | None] = []
    if verdict.word == "cast":
        if not hot:
            lines.append(passed(casting.GRAIN_TEMP, seen.grain_temp_c))
        if seen.moisture < edge(casting.MOISTURE.stop_low):
            lines.append(passed(casting.MOISTURE, seen.moisture))
        lines.append(passed(limit_of(seen.to), verdict.share))  # where the reader wants fewer than the table's stop
    if verdict.word == "wet-again":
        lines.append(passed(steeping.CHIT_LAST_DIP, verdict.share))
    chits: list[Line | None] = []
    if verdict.word == "hold" and not _early(seen):
        chits = [
            passed(line.limit, verdict.share)
            for line in verdict.lines
            if line.rule in CHITS_OF and isinstance(line.limit, Limit)
        ]
    rested = passed(steeping.REST, seen.hours_since_drain, high_only=True)
    too_long = rested if rested and rested.mark == "stop" else None
    few = [line for line in chits if line]
    if hot_against:
        return [_hot_against(too_long, few, seen), *notes, *limit_notes(_only_stops(lines))]
    if verdict.word == "hold" and too_long:
        return [*notes, _against(too_long, few, seen), *limit_notes(_only_stops(lines))]
    return [*notes, *limit_notes(_only_stops([*lines, rested, *chits]))]


def _only_stops(lines: list[Line | None]) -> list[Line]:
    return [line for line in lines if line and line.mark == "stop"]


def _clean(seen: Seen) -> bool:
    return seen.smell not in (SOUR, MUSTY)


def _against(rested: Line, chits: list[Line], seen: Seen) -> Note:
    """One order where a rest past its stop wants the grain wetted or cast, and its chits or its smell want it left."""
    if _clean(seen) and _early(seen):
        return Note(
            "notice",
            f"Past a stop. {said(rested)} It wants the grain wetted, and this sheet holds it only because it decides "
            f"about the last dip: so early the plan of the steep decides, not this verdict.{told(rested)} If the plan "
            "has its next water now, wet it.",
        )
    which, first = _goes_first(seen)
    facts = " ".join(said(line) for line in (rested, *chits))
    return Note(
        "notice",
        f"Past a stop. {facts} These speak against each other: the long rest wants the grain wetted or cast, and "
        f"{which} would have it left. {first} So neither now: hold it, with suction.{told(rested)} Who leads the shift "
        "decides, and soon: left lying, the chits dry and the roots tangle.",
    )


def _short(seen: Seen) -> bool:
    """Whether its moisture is short of its target."""
    return seen.target - seen.moisture > edge(casting.OFF_TARGET.accept_high)


def _goes_first(seen: Seen) -> tuple[str, str]:
    """What of the grain goes before heat and a long rest, and why."""
    if not _clean(seen):
        return "its smell", "Smell goes first: water and a floor mend neither sour nor musty grain."
    if _short(seen):
        return "its chits", "The chits go first: corns that have not chitted drown in the next water."
    return "its chits", "The chits go first: what is cast unchitted grows late or not at all."


def _hot_against(rested: Line | None, chits: list[Line], seen: Seen) -> Note:
    """One order where heat wants the grain cast or wetted at once, and its chits or its smell want it left."""
    heat = f"The grain is at {plain_number(seen.grain_temp_c)} °C, above {at_edge(steeping.REST_TEMP, 'stop_high')}."
    facts = " ".join([heat, *(said(line) for line in (rested, *chits) if line)])
    short, (which, first) = _short(seen), _goes_first(seen)
    wants = "the heat and the long rest want" if rested else "the heat wants"
    couch = ""
    share = 100.0 * seen.chitted / seen.counted
    if _clean(seen) and not short and seen.to == "drum" and share >= edge(casting.CHIT_COUCH.stop_low):
        couch = " Or cast it to a couch at once, thin, onto the coolest floor: there it may finish."
    again = ", and count afresh in an hour" if _clean(seen) else ""
    return Note(
        "notice",
        f"Past a stop. {facts} These speak against each other: {wants} the grain {'wetted' if short else 'cast'} at "
        f"once, and {which} would have it left. {first} So hold it, with full suction of air cooler than the "
        f"grain.{couch}"
        f" Read the probes every half hour{again}. Tell {SHIFT_LEAD} now: who leads the shift "
        "decides, and at once if it rises on.",
    )


def _early(seen: Seen) -> bool:
    """Whether it is drier than any steep before its last dip: then the plan decides."""
    return seen.moisture < edge(steeping.SECOND_DRAIN.stop_low)


def _of_smell(seen: Seen) -> list[Note]:
    if seen.smell == SOUR:
        return [Note("notice", "Full suction at once, and a longer rest. No water again before it smells fresh.")]
    if seen.smell == MUSTY:
        return [
            Note(
                "warning",
                "Mould dust can make lungs ill. Do not stir it dry and do not put your face to it: "
                "[[page:safety/dust-and-moulds|dust and moulds]]. Ask the laboratory before this batch goes on.",
            )
        ]
    if seen.smell == "flat":
        return [Note("remark", "A flat smell wants watching: more air while wet, more suction while dry.")]
    return []


def _while_held(verdict: Verdict, seen: Seen) -> Note | None:
    if seen.hours_since_drain >= edge(steeping.REST.accept_high):
        couch = "" if seen.to == "couch" or verdict.share < edge(casting.CHIT_COUCH.stop_low) else (
            " On a couch it could finish: see what the sheet says of one."
        )  # fmt: skip
        return Note(
            "remark",
            f"It has rested {plain_number(seen.hours_since_drain)} h and has too few chits still: cold, dormant or "
            f"drowned grain? Look at the grain tests and ask.{couch}",
        )
    if _early(seen):
        return Note(
            "remark",
            f"At {fixed(seen.moisture, 1)} % this is early for a last dip, and this sheet decides about the last one "
            "only. Before it, the plan of the steep and its hours decide: [[page:procedures/steeping|steeping]].",
        )
    if seen.grain_temp_c > HOT_C:
        return None  # the notice of its heat says when to look again
    return Note("remark", "Wait dry with suction, and count afresh in 3 hours.")
