"""The questions about a house's own limits and targets: short, with the book's beside each, all to be skipped."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import partial

from calculators.asking.figures import plain_number
from calculators.asking.units import shown
from calculators.rules.limit import Limit
from calculators.rules.malts import BOOK_MALTS, QUANTITIES, Quantity, Range
from site_src.house.example import HEAD
from site_src.house.limits import EDGES, OTHER, limits, line_of_text
from site_src.house.talk import Rest, Stop, Talk
from site_src.house.values import quoted
from site_src.limits_table import said
from site_src.settings import BuildError

SAID = dict(zip(EDGES, ("a stop under", "accepted from", "accepted up to", "a stop over"), strict=True))
_MOST = 9
_WHY = ("Why? It stands beside the figure.", "thin husks, drinks fast")
_WHO = ("Whose word is it, by office?", "head of malting")


def ask_limits(talk: Talk) -> None:
    """Ask which limits this house sets otherwise, an edge after the other.

    Raises
    ------
    Stop
        When the reader ends the talk.
    """
    talk.say("\nLimits of this house. The book’s stand where you say nothing.")
    talk.say("Where people can be hurt, an edge can only be made tighter.")
    if talk.held.edges:
        talk.say(f"There stand: {', '.join(talk.held.edges)}.")
    hint = f"Words of it, such as immersion or bottom. There are: {', '.join(limits())}"
    while typed := _typed(talk, "Which limit is another here? Words of it. (Enter: no more)", hint):
        found = list(_named(typed))
        if len(found) == 1:
            _one_limit(talk, found[0])
        elif found:
            talk.say("    More than one. Type the first word of a line:")
            for one in found[:_MOST]:
                talk.say(f"    {_line(one)}")
            if len(found) > _MOST:
                talk.say(f"    and {len(found) - _MOST} more; type more words")
        else:
            talk.say("    There is none of that name. Type ? for all of them.")


def _typed(talk: Talk, question: str, hint: str) -> str:
    try:
        return talk.answer(question, hint)
    except Rest:
        return ""


def _named(typed: str) -> Iterator[Limit]:
    """The limits whose id it is, or whose id, quantity or procedure has all the words."""
    rows = limits()
    if typed in rows:
        yield rows[typed]
        return
    words = re.findall(r"[\w]+", typed.casefold())
    for name, row in rows.items():
        if words and all(word in f"{name} {row.quantity} {row.page}".casefold() for word in words):
            yield row


def _line(row: Limit) -> str:
    accept, _, stop = said(row)
    parts = [f"accepted {accept}" if accept else "", f"stop {stop.strip('*')}" if stop else ""]
    return f"{row.id}: {row.quantity}, {'; '.join(filter(None, parts))}"


def _one_limit(talk: Talk, row: Limit) -> None:
    if row.id in talk.held.edges:
        talk.say(f"    [limits.{row.id}] stands in the file already. Change it there.")
        return
    talk.say(f"  {_line(row)}")
    edges = [(key, book) for key in EDGES if (book := getattr(row, key)) is not None]
    _table(talk, f"limits.{row.id}", (partial(_edge, talk, row, key, book) for key, book in edges))


def _bounds(row: Limit, key: str) -> str:
    unit = f" {shown(row.unit)}" if row.unit else ""
    if row.safety:
        return f"only {'higher' if key.endswith('low') else 'lower'}: it keeps people from harm"
    if row.lowest is None or row.highest is None:
        return "it cannot be moved"
    return f"from {plain_number(row.lowest)} to {plain_number(row.highest)}{unit}"


def _edge(talk: Talk, row: Limit, key: str, book: float) -> list[str]:
    unit = f" {shown(row.unit)}" if row.unit else ""
    bounds = _bounds(row, key)
    while True:
        ask = f"{SAID[key].capitalize()}? The book: {plain_number(book)}{unit}; {bounds}. (Enter keeps it)"
        typed = talk.answer(ask, f"A number{f' in{unit}' if unit else ''}, {bounds}.")
        if not typed:
            return []
        number = _number(typed.removesuffix(unit.strip()) if unit else typed)
        if number is not None:
            line = f"{key} = {plain_number(number)}"
            if not (wrong := _refused(row.id, line)):
                return [line]
            talk.say(f"    {wrong}")
        else:
            talk.say(f"    Type a number{f' in{unit}' if unit else ''}, such as {plain_number(book)}.")


def _refused(name: str, line: str) -> str:
    """What is wrong with one edge by itself; edges that cross are found once all are typed."""
    from site_src.house.check import read_text

    try:
        read_text("", f'[limits.{name}]\n{line}\nreason = "a"\noffice = "b"\n'.encode())
    except BuildError as fault:
        if "the edges cross" not in str(fault):
            return re.sub(r"^, line \d+: ", "", str(fault))
    return ""


def _number(typed: str) -> float | None:
    try:
        found = float(typed.strip().replace(",", "."))
    except ValueError:
        return None
    return found if abs(found) <= 1e9 else None


def ask_malts(talk: Talk) -> None:
    """Ask for which malts this house has targets of its own.

    Raises
    ------
    Stop
        When the reader ends the talk.
    """
    talk.say("\nTargets by malt. The book’s stand where you say nothing.")
    names = ", ".join(one.id for one in BOOK_MALTS)
    if talk.held.malts:
        talk.say(f"There stand: {', '.join(talk.held.malts)}.")
    while typed := _typed(talk, f"Which malt has targets of its own here? {names}. (Enter: no more)", names):
        malt = next((one for one in BOOK_MALTS if typed.casefold() in (one.id, one.name.casefold())), None)
        if malt is None:
            talk.say(f"    There is none of that name. There are: {names}.")
            continue
        if malt.id in talk.held.malts:
            talk.say(f"    [malts.{malt.id}] stands in the file already. Change it there.")
            continue
        asks = (partial(_target, talk, one, getattr(malt, one.id)) for one in QUANTITIES)
        _table(talk, f"malts.{malt.id}", asks)


def _target(talk: Talk, one: Quantity, book: Range) -> list[str]:
    low, high = book.low, book.high
    span = f"{plain_number(low)} to {plain_number(high)} {shown(one.unit) if one.unit == 'C' else one.unit}"
    bounds = f"Two figures from {plain_number(one.lowest)} to {plain_number(one.highest)}, the low one first."
    while True:
        typed = talk.answer(f"{one.label}? The book: {span}. (Enter keeps it)", bounds)
        if not typed:
            return []
        figures = [_number(part) for part in re.split(r"\s*(?:to|–|;|\s)\s*", typed)]
        if len(figures) == 2 and None not in figures:
            low_, high_ = (plain_number(figure) for figure in figures if figure is not None)
            if one.lowest <= float(low_) <= float(high_) <= one.highest:
                return [f"{one.id} = [{low_}, {high_}]"]
        talk.say(f"    {bounds} Such as: {plain_number(low)} {plain_number(high)}")


def _table(talk: Talk, heading: str, asks: Iterable[Callable[[], list[str]]]) -> None:
    """Ask for the lines of a table, why and by whose word, and write it down; what is typed is not lost."""
    lines: list[str] = []
    told: list[str] = []
    try:
        try:
            for ask in asks:
                lines += ask()
        except Rest:
            pass
        if not lines:
            return
        for key, what in zip(OTHER, (_WHY, _WHO), strict=True):
            told.append(f"{key} = {quoted(_text(talk, key, *what))}")
        talk.keep(f"{talk.text.rstrip()}\n\n" + "\n".join([f"[{heading}]", *lines, *told, ""]))
        return
    except BuildError as fault:
        talk.say(f"    {fault}")
    except Rest:
        pass
    except Stop:
        _leave(talk, heading, [*lines, *told])
        raise
    _leave(talk, heading, [*lines, *told])


def _leave(talk: Talk, heading: str, lines: list[str]) -> None:
    if lines:
        talk.say("    Left as the book has it. What was typed stands in the file behind #.")
        kept = "".join(f"# {line}\n" for line in [f"[{heading}]", *lines])
        talk.keep(f"{talk.text.rstrip() or HEAD}\n\n# Not taken up yet:\n{kept}")


def _text(talk: Talk, key: str, question: str, such: str) -> str:
    while True:
        typed = talk.answer(question, f"Such as: {such}")
        lacks = f"{key} is needed. Such as: {such}. A point leaves all of it out."
        if not (wrong := line_of_text(key, typed) if typed else lacks):
            return typed
        talk.say(f"    {wrong}")
