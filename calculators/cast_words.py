"""How the verdict on a steep is said: what argued for it, its doubt, and what else the findings call for."""

from __future__ import annotations

from .counted import LOOK_AGAIN_REMARK
from .declare import Found, Note
from .figures import fixed, plain_number
from .models.counts import wilson
from .rules.cast import MUSTY, SOUR, Line, Seen, Verdict, limit_of
from .rules.counting import CHITS
from .rules.limit import Limit, broken_by
from .rules.limits import casting, steeping
from .units import shown

HOT_C = float(steeping.REST_TEMP.stop_high or 0.0)
"""Grain in a rest is not let above this [C]."""
TO = {"couch": "to a couch", "drum": "to a drum or a box"}


def reasons(verdict: Verdict, seen: Seen) -> str:
    """What argued for the word, with the numbers."""
    return "; ".join(_said(line, seen) for line in verdict.lines)


def _said(line: Line, seen: Seen) -> str:
    if line.what == "musty":
        return "it smells musty, and mould is not steeped or grown away"
    if line.what == "sour":
        return "it smells sour or fruity: it has had no air"
    if line.what == "warm":
        return f"the grain is at {plain_number(line.value)} °C and gets warmer where it lies"
    if line.what == "rested":
        return f"it has rested {plain_number(line.value)} h"
    if line.what == "moisture":
        gap = line.edge - line.value
        told = f"moisture {fixed(line.value, 1)} % against {plain_number(line.edge)} %: "
        return told + (f"{fixed(gap, 1)} points short" if line.mark != "accept" else "on target or past it")
    wanted = f"{plain_number(line.edge)} % wanted " + ("before a last dip" if line.what == "chit-dip" else TO[seen.to])
    if line.mark == "accept":
        return f"chitted {fixed(line.value, 1)} %, at or above the {wanted}"
    told = f"chitted {fixed(line.value, 1)} %, under the {wanted}"
    if line.mark == "stop":
        given = steeping.CHIT_LAST_DIP if line.what == "chit-dip" else limit_of(seen.to)
        told += f" and under the stop at {plain_number(min(given.stop_low or 0.0, line.edge))} %"
    return told


def found_of(verdict: Verdict, seen: Seen) -> list[Found]:
    """The verdict, the share with its interval, the doubt that is left and the corns that would settle it."""
    low, high = (100.0 * end for end in wilson(seen.chitted, seen.counted))
    share = (
        f"{seen.chitted} of {seen.counted} = {fixed(verdict.share, 1)} %; 95 % interval (Wilson) "
        f"{fixed(low, 1)} to {fixed(high, 1)} %"
    )
    edge = plain_number(verdict.edge)
    found = [
        Found("verdict", verdict.word, reasons(verdict, seen)),
        Found("chit_share", verdict.share, share, low, high),
    ]
    if not verdict.settled:
        found.append(
            Found(
                "chit_doubt",
                100.0 * verdict.under,
                f"of all shares that {seen.chitted} of {seen.counted} leave open, the part under {edge} %",
            )
        )
    if verdict.more:
        found.append(
            Found(
                "count_more",
                float(verdict.more),
                f"if the share stays at {fixed(verdict.share, 1)} %, the exact interval leaves {edge} % at about "
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
    if seen.moisture > float(casting.MOISTURE.stop_high or 0.0):
        notes.append(
            Note(
                "notice",
                f"Above {plain_number(casting.MOISTURE.stop_high or 0.0)} %, look whether corns are milky when "
                "pressed: then they are over-steeped. Cast dry, spread thin, turn often.",
            )
        )
    elif seen.moisture - seen.target > float(casting.OFF_TARGET.accept_high or 0.0):
        notes.append(Note("notice", "It is past its target. No more water; cast as soon as the chits are there."))
    if seen.hours_since_drain < 0.5:
        notes.append(
            Note("remark", "It has hardly drained. A dripping basket reads too wet: weigh again in half an hour.")
        )
    if verdict.word == "hold" and seen.smell not in (SOUR, MUSTY):
        notes.append(_while_held(verdict, seen))
    return notes


def _open(verdict: Verdict, seen: Seen) -> Note:
    edge = plain_number(verdict.edge)
    told = (
        f"The count leaves both sides of {edge} % open: the true share is under it with a chance of "
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


def _stops(verdict: Verdict, seen: Seen) -> list[Note]:
    notes = []
    if seen.grain_temp_c > HOT_C:
        then = "Cast promptly, thin, onto the coolest floor." if verdict.word == "cast" else "Give full suction now."
        notes.append(
            Note("notice", f"The grain is above {plain_number(HOT_C)} °C. {then} Stop and ask if it rises on.")
        )
    if verdict.word == "cast":
        if seen.grain_temp_c <= HOT_C:
            notes += stop_note(casting.GRAIN_TEMP, seen.grain_temp_c)
        if seen.moisture < float(casting.MOISTURE.stop_low or 0.0):
            notes += stop_note(casting.MOISTURE, seen.moisture)
    late = verdict.word == "hold" and not _early(seen)
    for line in verdict.lines:
        if late and line.what in ("chit-cast", "chit-dip") and line.mark == "stop":
            given = steeping.CHIT_LAST_DIP if line.what == "chit-dip" else limit_of(seen.to)
            notes += stop_note(given, round(line.value, 1))
    return notes


def _early(seen: Seen) -> bool:
    """Whether it is drier than any steep before its last dip: then the plan decides."""
    return seen.moisture < float(steeping.SECOND_DRAIN.stop_low or 0.0)


def stop_note(given: Limit, value: float) -> list[Note]:
    """What a value past the stop of a limit calls for; nothing where it is not past it."""
    broken = broken_by(given, value)
    if broken is None or broken.mark != "stop":
        return []
    unit, side = shown(given.unit), "under" if broken.side == "low" else "over"
    return [
        Note(
            "notice",
            f"{given.quantity}: {plain_number(value)} {unit} is {side} {plain_number(broken.edge)} {unit}. Stop and "
            f"ask. {given.act}",
        )
    ]


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


def _while_held(verdict: Verdict, seen: Seen) -> Note:
    if seen.hours_since_drain >= float(steeping.REST.accept_high or 0.0):
        couch = "" if seen.to == "couch" or verdict.share < float(casting.CHIT_COUCH.stop_low or 0.0) else (
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
    return Note("remark", "Wait dry with suction, and count afresh in 3 hours.")
