"""A house's file held against the declaration of all that it may hold, and every slip named with its line."""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any, NamedTuple

from calculators.house.declare import Section
from calculators.house.safety import OXYGEN
from calculators.house.schema import BY_ID, FORMAT, MOST, SECTIONS
from calculators.models.nature import FRESH_OXYGEN_PERCENT
from calculators.rules.gases import OXYGEN_ALARM_PERCENT, strictest
from site_src.house.limits import Fault, edges_of, reasons_of
from site_src.house.lines import Lines
from site_src.house.malts import Malts, malt_row
from site_src.house.values import as_toml, checked
from site_src.settings import BuildError

Edges = dict[str, dict[str, float]]
ASKED = "asked"
"""The key that names the sections which the command has asked."""
_TABLES = ("limits", "malts")
_TOP = ("format", ASKED)
_MOST_FAULTS = 12
_LARGEST = 400_000


class Held(NamedTuple):
    """What a checked file holds: the moved edges, the targets by malt, why and by whom, and everything else."""

    edges: Edges
    malts: Malts
    reasons: Mapping[str, Mapping[str, str]]
    house: Mapping[str, list[dict[str, Any]]]
    asked: tuple[str, ...]


NOTHING = Held({}, {}, {}, {}, ())
"""A house without a file."""


def read_all(file: Path) -> Held:
    """Read a house's file and check all of it.

    Parameters
    ----------
    file : Path
        The file, in TOML.

    Raises
    ------
    BuildError
        When it cannot be read, or something in it is not known or cannot be. A line for each slip says where it
        stands, what was wrong and what to write.
    """
    return read_text(file.name, file.read_bytes())


def read_text(name: str, data: bytes) -> Held:
    """Check the contents of a house's file; as :func:`read_all`."""
    if len(data) > _LARGEST:
        raise BuildError(f"{name} has {len(data)} bytes; a house’s file has {_LARGEST} at most.")
    try:
        text = data.decode("utf-8-sig").replace("\r\n", "\n")
        held = tomllib.loads(text)
    except UnicodeDecodeError:
        raise BuildError(f"{name} is not written in UTF-8. Save it as UTF-8 text.") from None
    except (tomllib.TOMLDecodeError, ValueError, RecursionError) as fault:
        said = re.sub(r"\s*\(at line (\d+), column (\d+)\)", r" in line \1, letter \2", str(fault)[:200])
        end = "It ends in the middle: is it whole? " if "end of document" in said else ""
        if "'\\n'" in said:
            said, end = said.replace("Illegal character '\\n'", "a text has no end"), "Is a “ missing at its end? "
        raise BuildError(f"{name}: {said}. {end}It is written in TOML: a word, =, a number or “text”.") from None
    return _Checker(Lines(name, text)).held(held)


class _Checker:
    def __init__(self, lines: Lines) -> None:
        self.lines = lines
        self.faults: list[str] = []
        self.slipped: set[tuple[str, int]] = set()

    def held(self, held: dict[str, Any]) -> Held:
        made = held.get("format", FORMAT)
        if made != FORMAT or isinstance(made, bool):
            text = f"format is {FORMAT} for this book, not {made!r:.40}. "
            raise self.lines.fault(text + "The page “This house’s own handbook” says what changed.", "", "format")
        for key in held:
            if key not in BY_ID and key not in (*_TABLES, *_TOP):
                self._unknown(key)
        edges = {name: got for name, table in self._tables(held, "limits") if (got := self._try(edges_of, name, table))}
        malts: Malts = {}
        for name, table in self._tables(held, "malts"):
            if got := self._try(malt_row, name, table, edges):
                malts[name] = got
        own = {one.id: found for one in SECTIONS if (found := self._section(one, held.get(one.id)))}
        self._together(own)
        asked = held.get(ASKED, [])
        if not isinstance(asked, list) or any(one not in BY_ID and one not in _TABLES for one in asked):
            self._say(f"{ASKED} lists sections that were asked, such as {ASKED} = [\"house\", \"steep\"].", "", ASKED)
        if self.faults:
            self.faults.sort(key=_line_of)
            more = len(self.faults) - _MOST_FAULTS
            end = [f"and {more} more"] if more > 0 else []
            raise BuildError("\n  ".join([*self.faults[:_MOST_FAULTS], *end]))
        whys = {**reasons_of({name: held["limits"][name] for name in edges})}
        return Held(edges, malts, whys, own, tuple(asked))

    def _say(self, text: str, heading: str, key: str = "", nth: int = 0) -> None:
        self.faults.append(str(self.lines.fault(text, heading, key, nth)))

    def _unknown(self, key: str) -> None:
        known = [*_TOP, *BY_ID, *_TABLES]
        near = difflib.get_close_matches(key, known, 2)
        hint = f" Did you mean: {', '.join(near)}?" if near else ""
        line = self.lines.line("", key) or self.lines.line(key)
        where = f"{self.lines.name}, line {line}" if line else self.lines.name
        self.faults.append(f"{where}: “{key:.40}” is not known.{hint} Known are: {', '.join(known)}.")

    def _tables(self, held: dict[str, Any], name: str) -> list[tuple[str, object]]:
        tables = held.get(name, {})
        if isinstance(tables, dict):
            return list(tables.items())
        example = "[limits.immersion-hours] above its edges" if name == "limits" else "[malts.dark] above its targets"
        self._say(f"{name} is a table: write {example}.", "", name)
        return []

    def _try(self, check: Any, name: str, table: object, *more: object) -> Any:
        fault: Fault = self.lines.fault
        try:
            return check(name, table, *more, fault)
        except BuildError as slip:
            self.faults.append(str(slip))
            return None

    def _section(self, section: Section, value: object) -> list[dict[str, Any]]:
        if value is None:
            return []
        wanted = list if section.many else dict
        if not isinstance(value, wanted) or not all(isinstance(one, dict) for one in value if section.many):
            self._say(f"{section.id} is written with {section.heading} above its lines.", "", section.id)
            return []
        tables: list[dict[str, Any]] = value if isinstance(value, list) else [value]
        if len(tables) > MOST:
            self._say(f"there are {len(tables)} of {section.heading}; the book shows {MOST} at most.", section.id)
            return []
        found = [self._entry(section, table, nth) for nth, table in enumerate(tables)]
        self._twice(section, found)
        return [one for one in found if one]

    def _twice(self, section: Section, found: list[dict[str, Any]]) -> None:
        named = next((one.id for one in section.fields if one.needed and one.id in ("name", "page")), "")
        seen: set[str] = set()
        for nth, one in enumerate(found):
            name = str(one.get(named, "")).casefold()
            if name and name in seen:
                self._say(f"“{one[named]}” stands twice. Give each its own {named}.", section.id, named, nth)
            seen.add(name)

    def _entry(self, section: Section, table: dict[str, Any], nth: int) -> dict[str, Any]:
        good: dict[str, Any] = {}
        for key, value in table.items():
            field = section.field(key)
            if field is None:
                known = [one.id for one in section.fields]
                near = difflib.get_close_matches(key, known, 1)
                hint = f" Did you mean: {near[0]}?" if near else ""
                text = f"“{key:.40}” is not known under {section.heading}.{hint} Known are: {', '.join(known)}."
                self._say(text, section.id, key, nth)
                continue
            try:
                good[key] = checked(field, value)
            except ValueError as slip:
                self.slipped.add((section.id, nth))
                self._say(f"{key}: {slip}", section.id, key, nth)
        for field in section.fields:
            if field.needed and field.id not in table:
                text = f"write {field.id} = {as_toml(field, field.example)} too: {field.ask}"
                self._say(text, section.id, "", nth)
        return good

    def _together(self, own: Mapping[str, list[dict[str, Any]]]) -> None:
        """What only two lines together can get wrong."""
        for nth, one in enumerate(own.get("alarm", [])):
            if ("alarm", nth) not in self.slipped and (wrong := alarm_too_late(one)):
                self._say(wrong, "alarm", "at", nth)
        for section, first, then in (("place", "drill_done", "drill_due"), ("meter", "calibrated", "due"),
                                     ("paper", "date", "review")):  # fmt: skip
            for nth, one in enumerate(own.get(section, [])):
                if first in one and then in one and one[then] <= one[first]:
                    self._say(f"{then} {one[then]} lies no later than {first} {one[first]}.", section, then, nth)
        for key, named in (("meter", "meter"), ("permit", "permit")):
            known = [one["name"] for one in own.get(named, []) if "name" in one]
            for nth, one in enumerate(own.get("place", [])):
                if key in one and one[key] not in known:
                    there = f"There are: {', '.join(known)}." if known else f"Write [[{named}]] with that name."
                    self._say(f"{key}: there is no {named} “{one[key]}”. {there}", "place", key, nth)


def _line_of(fault: str) -> int:
    found = re.search(r", line (\d+)", fault)
    return int(found[1]) if found else 0


def alarm_too_late(one: Mapping[str, Any]) -> str:
    """What is wrong with an alarm step that sounds later than the published values allow, or nothing."""
    if "gas" not in one or "at" not in one:
        return ""
    gas, at, unit = str(one["gas"]), float(one["at"]), one.get("unit")
    if unit is None:
        return f'write unit = "ppm" or unit = "%" too: {at:g} of {gas} can be read in two ways.'
    if gas == OXYGEN:
        if unit != "%":
            return 'oxygen is measured in %: write unit = "%".'
        if OXYGEN_ALARM_PERCENT <= at <= FRESH_OXYGEN_PERCENT:
            return ""
        span = f"from {OXYGEN_ALARM_PERCENT} to {FRESH_OXYGEN_PERCENT} %"
        return f"an alarm for oxygen sounds {span}, not at {at:g}. It can only be made tighter."
    ppm = at * 10_000 if unit == "%" else at
    value = min((strictest(gas, "ceiling", "short"), strictest(gas, "danger")), key=lambda limit: limit.ppm)
    if 0 < ppm <= value.ppm:
        return ""
    return (
        f"an alarm for {gas} sounds at {value.ppm:g} ppm at the latest, the strictest published value for a short "
        f"time, not at {at:g} {unit}. It can only be made tighter."
    )
