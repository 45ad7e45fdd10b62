"""What the page asks when lines go from one device to another by codes."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from ... import __version__
from ..batch.batch import Batch
from ..batch.running import running
from ..house.house import book_of, kept_batch
from ..lines.entry import SCHEMA
from ..lines.exchange import FILE_KIND
from ..next.step import Wall
from ..pages.today import standing_of
from ..pages.view import state_words
from .brief import brief_from, brief_words
from .frames import MOST_FRAMES, Broken, TooLong, frame_of, frames_of, text_of
from .short_code import NoCode, brief_of, code_of

Reply = dict[str, Any]

_MOST_SHORT = 12


def give(asked: Reply, wall: Wall) -> Reply:
    """What goes out: the lines of one batch, or of all that are at work, as frames and as the text of a file.

    Parameters
    ----------
    asked : dict
        ``entries``; ``batch``, a number, or nothing for all at work; ``demo``, whether they are invented; ``short``,
        whether short codes are wanted too.
    wall : Wall
        The clock.

    Returns
    -------
    dict
        ``frames``; ``batches``, each with its ``state`` and how many ``lines``; ``short``, by batch at work a ``code``
        with what it ``says``; ``text``, as a file holds it; ``fault`` where there is nothing to give, or too much.
    """
    demo, named = bool(asked.get("demo")), str(asked.get("batch") or "")
    book = book_of(asked["entries"])
    found = [kept_batch(name, lines) for name, lines in book.items() if named in ("", name)]
    now = wall.now or max((batch.entries[-1].utc for batch in found), default=None)
    working = running(found, now) if now else []
    given = found if named else working
    if not given:
        return {"fault": "No batch is at work in this book: there is nothing to give. Choose one by its number."}
    names = {batch.id for batch in given}
    rows = [_raw(row) for row in asked["entries"] if str(row.get("batch")) in names]
    cover = {"schema": SCHEMA, "kind": FILE_KIND, "version": __version__, "saved": str(asked.get("date") or "")}
    text = json.dumps({**cover, "invented": demo, "entries": rows}, ensure_ascii=False, separators=(",", ":"))
    try:
        frames = frames_of(text)
    except TooLong:
        frames = []
    return {
        "frames": frames,
        "long": not frames,
        "most": MOST_FRAMES,
        "batches": [{"id": batch.id, "state": state_words(batch), "lines": len(book[batch.id])} for batch in given],
        "lines": len(rows),
        "short": [_short(batch, wall) for batch in working[:_MOST_SHORT]] if asked.get("short") else [],
        "text": text,
    }


def _raw(row: Reply) -> Reply:
    return {name: value for name, value in row.items() if name != "seq"}


def _short(batch: Batch, wall: Wall) -> Reply:
    now = wall.now or batch.entries[-1].utc
    brief = brief_from(standing_of(batch, None, wall, now), wall)
    return {"batch": batch.id, "code": code_of(brief), "says": [*brief_words(brief, wall, now)]}


def seen(asked: Reply) -> Reply:
    """What one code is that a camera saw.

    Parameters
    ----------
    asked : dict
        ``text`` of the code; ``transfer``, the name of the one that is being read, or nothing.

    Returns
    -------
    dict
        ``is``: ``ours``, ``other`` for a frame of another transfer, or ``odd`` for any other code; for ours
        ``transfer``, ``number`` and ``total``.
    """
    frame = frame_of(str(asked.get("text") or ""))
    if frame is None:
        return {"is": "odd"}
    is_other = asked.get("transfer") not in (None, "", frame.transfer)
    return {"is": "other" if is_other else "ours", **frame._asdict(), "body": ""}


def whole(asked: Reply) -> Reply:
    """The text that frames carry, once all are there.

    Parameters
    ----------
    asked : dict
        ``frames``, the texts of the codes in any order, some of them perhaps twice; or ``text``, that of a file.

    Returns
    -------
    dict
        ``text``; ``ids`` and ``batches`` of its lines; ``invented``; or ``fault``, why there is nothing.
    """
    try:
        text = str(asked["text"]) if "text" in asked else _joined(asked["frames"])
        book = json.loads(text)
        rows = [row for row in book["entries"] if isinstance(row, dict)]
        if book["kind"] != FILE_KIND:
            raise Broken("it is no day-book")
    except Broken as fault:
        return {"fault": f"What was read does not fit together ({fault}). Nothing was taken; it is read anew."}
    except (ValueError, KeyError, TypeError, RecursionError):
        return {"fault": "It holds no lines of a day-book. Nothing was taken."}
    batches: dict[str, int] = {}
    for row in rows:
        name = " ".join(str(row.get("batch") or "").split())
        batches[name] = batches.get(name, 0) + 1
    return {
        "text": text,
        "ids": [str(row.get("id")) for row in rows],
        "batches": [{"id": name, "lines": lines} for name, lines in batches.items()],
        "lines": len(rows),
        "invented": book.get("invented") is True,
    }


def _joined(texts: Sequence[object]) -> str:
    frames = {frame.number: frame for text in texts if (frame := frame_of(str(text)))}
    return text_of(frames)


def typed(asked: Reply, wall: Wall) -> Reply:
    """What a typed code says.

    Parameters
    ----------
    asked : dict
        ``typed``, the code as it was; ``entries`` of the book.
    wall : Wall
        The clock.

    Returns
    -------
    dict
        ``fault`` with the ``group`` that does not fit, or none; else ``batch``, ``says`` as sentences, ``off``,
        whether it has left its plan, ``known``, whether the book has that batch, and ``remark``, the same as one line
        for the book.
    """
    try:
        brief = brief_of(str(asked.get("typed") or ""))
    except NoCode as fault:
        return {"fault": str(fault), "group": fault.group}
    now = wall.now
    known = any(str(row.get("batch")) == brief.batch for row in asked.get("entries") or ())
    kept = brief_words(brief, Wall(None, 0), None)
    return {
        "batch": brief.batch,
        "says": [*brief_words(brief, wall, now)],
        "off": bool(brief.outstanding),
        "known": known,
        "remark": f"Told by a short code. {' '.join(kept)}",
    }
