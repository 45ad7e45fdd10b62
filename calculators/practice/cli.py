"""``python -m calculators practice``: play a list of moves, print scene, book and debrief as text or as data."""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping, Sequence
from typing import Any

from .kinds import MODEL, Debrief, Played
from .play import NUMBERS, play
from .run import clock

ANSWERED, WRONG = 0, 2


def practice(number: str | None, options: Mapping[str, str], *, as_data: bool, debrief: bool) -> int:
    """Play and print; give the exit code.

    Parameters
    ----------
    number : str or None
        As typed.
    options : mapping of str to str
        ``level``, ``faults``, ``moves`` and ``setting`` as typed.
    as_data : bool
        Whether to print JSON.
    debrief : bool
        Whether the debrief is wanted before the end.
    """
    typed = number if number and number.isascii() and number.isdecimal() and len(number) < 9 else "0"
    if int(typed) not in NUMBERS:
        text = f"Which batch? Type a whole number from {NUMBERS[0]} to {NUMBERS[-1]}, such as 7."
        sys.stderr.write((json.dumps({"question": "number", "text": text}) if as_data else text) + "\n")
        return WRONG
    played = play(
        int(typed), options["level"], options["faults"], options["moves"],
        setting=options["setting"], debrief=debrief or None,
    )  # fmt: skip
    if as_data:
        said = {
            "schema": 1,
            "number": int(typed),
            "level": options["level"],
            "setting": options["setting"],
            **as_json(played),
        }
        sys.stdout.write(json.dumps(said, ensure_ascii=False, allow_nan=False) + "\n")
    else:
        sys.stdout.write("\n".join(lines_of(played)) + "\n")
    return ANSWERED


def as_json(played: Played) -> dict[str, Any]:
    """Give a run as plain data: dictionaries, lists, numbers and texts."""
    found = _plain(played)
    assert isinstance(found, dict)
    return found


def _plain(value: object) -> object:
    if isinstance(value, tuple) and hasattr(value, "_asdict"):
        return {name: _plain(one) for name, one in value._asdict().items()}
    if isinstance(value, (tuple, list)):
        return [_plain(one) for one in value]
    return round(value, 4) if isinstance(value, float) else value


def lines_of(played: Played) -> Sequence[str]:
    """Give a run as lines of text."""
    scene = played.scene
    said = [MODEL, "", f"{scene.clock}. {scene.place}.", scene.see]
    if scene.prompt:
        said.append(f"> {scene.prompt}")
    said += [f"  {one.code}  {one.words}{f', {one.minutes} min' if one.minutes else ''}" for one in scene.offers]
    if scene.page:
        said.append(f"The page: {scene.page}")
    if played.left_out:
        said.append(f"Left out: {', '.join(played.left_out)}")
    said += ["", "Practice book"]
    said += [f"  {clock(line.minute)}  {line.words} ({line.by})" for line in played.book] or [
        "  Nothing is written yet."
    ]
    return [*said, *_debriefed(played.debrief)] if played.debrief else said


def _debriefed(found: Debrief) -> list[str]:
    said = ["", "Debrief"]
    said += [f"  {name.capitalize()}: {getattr(found, name)}" for name in ("people", "grain", "book", "guessing")]
    for point in found.points:
        said += [
            "",
            f"  {clock(point.minute)}",
            f"    Known then: {point.known}",
            f"    You: {point.you}",
            f"    The good hand: {point.good}",
            f"    What it did: {point.did} ({point.page})",
        ]
    said += ["", "  Wrong in this number:"]
    said += [f"    {words}" for words in found.faults] or ["    Nothing."]
    said += ["", "  Go back to:"]
    said += [f"    {when}: {moves or 'the beginning'}" for when, _, moves in found.back]
    return said
