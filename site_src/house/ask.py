"""``python -m site_src house``: asks what the house calls things, one question after another, and writes its file."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from pathlib import Path
from typing import Any

from calculators.asking.declare import Number
from calculators.asking.reading import read_cell
from calculators.house.declare import Field, Section
from calculators.house.schema import SECTIONS
from site_src.house.ask_edges import ask_limits, ask_malts
from site_src.house.entry import with_asked, with_entry
from site_src.house.example import limits_of
from site_src.house.talk import Back, Rest, Stop, Talk
from site_src.house.values import as_toml, checked
from site_src.settings import BuildError

_HOW = """\
This asks what your house calls things and writes {0}. Everything may be left out.
  Enter   goes on: nothing is written, or what stands in brackets is kept
  ?       says what may be written, and gives an example
  <       asks the question before once more
  .       leaves the rest of this part out
  stop    saves and ends; the same command goes on from there
It is no place for secrets: no password, no key, no name of a person. Whoever opens the book can read all of it."""


def ask_all(file: Path, lines: Iterator[str] | None = None, say: Callable[[str], None] = print) -> tuple[int, int]:
    """Ask what a house's file does not say yet, and write it down after each answer that is whole.

    Parameters
    ----------
    file : Path
        The file to write; what stands in it stays.
    lines : iterator of str, optional
        What is typed, a line for each question; the keyboard if not given.
    say : callable
        Called with each line to show.

    Returns
    -------
    tuple of int
        How many questions were asked, and how many were answered.

    Raises
    ------
    BuildError
        When the file that is there cannot be read; nothing is written then.
    """
    return _Talk(file, lines, say).all()


class _Talk(Talk):
    def all(self) -> tuple[int, int]:
        self.say(_HOW.format(self.file))
        parts: dict[str, Callable[[], None]] = {one.id: partial(self._section, one) for one in SECTIONS}
        parts |= {"limits": partial(ask_limits, self), "malts": partial(ask_malts, self)}
        try:
            for name, ask in parts.items():
                if name not in self.held.asked:
                    ask()
                    self.keep(with_asked(self.text, [*self.held.asked, name]))
            self.say(f"That was all. An answer was wrong? Change its line in {self.file}, then: make house DO=check")
            self.say("Look at the pages: make serve")
        except Stop:
            self.say("Saved. The same command goes on from here." if self.text else "Nothing was written.")
        return self.asked, self.answered

    def _section(self, section: Section) -> None:
        hurt = " People can be hurt by what is wrong here: competent people read it." if section.safety else ""
        self.say(f"\n{section.title}. {section.ask}{hurt}")
        stands = self.held.house.get(section.id, [])
        if section.many:
            names = [str(one.get(section.fields[0].id, "")) for one in stands]
            if names:
                self.say(f"There stand: {', '.join(names)}.")
            while self._entry(section, {}):
                self.say(f"One more of these? ({section.title})")
        else:
            self._entry(section, stands[0] if stands else {})

    def _entry(self, section: Section, stands: Mapping[str, Any]) -> bool:
        """One entry; whether there was one. What does not fit together is asked again, nothing typed is lost."""
        typed: dict[str, str] = {}
        while True:
            stopped: Exception | None = None
            try:
                fields, at = [field for field in section.fields if field.id not in stands], 0
                while at < len(fields):
                    field = fields[at]
                    try:
                        self._field(field, typed, first=section.many and field is section.fields[0])
                    except Back:
                        at = max(0, at - 1)
                        continue
                    if field.needed and field.id not in typed:
                        return False
                    at += 1
            except (Stop, Rest) as ending:
                stopped = ending
            if any(field.needed and field.id not in typed for field in section.fields) or not typed:
                if isinstance(stopped, Stop):
                    raise stopped
                return False
            values = {field.id: as_toml(field, typed[field.id]) for field in section.fields if field.id in typed}
            try:
                self.keep(with_entry(self.text, section, values))
            except BuildError as fault:
                self.say(f"{fault}\nOnce more. Enter keeps what is right.")
                if isinstance(stopped, Stop):  # kept as comments: nothing typed is lost
                    lines = with_entry("#", section, values).splitlines()[1:]
                    kept = [line if line.startswith("#") else f"# {line}" for line in lines if line]
                    self.keep("\n".join([self.text.rstrip(), "", "# Not taken up yet:", *kept, ""]))
                    raise stopped from fault
                continue
            if isinstance(stopped, Stop):
                raise stopped
            return True

    def _field(self, field: Field, typed: dict[str, str], *, first: bool) -> None:
        self.asked += 1
        while True:
            kept = f" [{typed[field.id]}]" if field.id in typed else " (Enter: no more)" if first else ""
            answer = self.line(f"  {field.ask}{kept} ")
            if answer == "stop":
                raise Stop
            if answer == ".":
                raise Rest
            if answer == "<":
                raise Back
            if answer == "?":
                bounds = limits_of(field)
                self.say(f"    {bounds + '. ' if bounds else ''}Such as: {field.example}")
                continue
            if not answer:
                return
            try:
                typed[field.id] = as_typed(field, answer)
            except ValueError as slip:
                self.say(f"    {slip}")
                continue
            self.answered += 1
            return


def as_typed(field: Field, answer: str) -> str:
    """An answer as :func:`as_toml` takes it, once it has been held against its field.

    Raises
    ------
    ValueError
        With what is wrong and what to type.
    """
    if field.kind == "number":
        number = Number(field.id, field.ask, field.unit, field.low, field.high, example=field.example)
        try:
            value = read_cell(number, answer)
        except Exception as slip:
            raise ValueError(str(slip)) from None
        return f"{value:.12g}"
    if field.kind == "choice":
        answer = _word_of(field, answer)
    if field.kind == "choices":
        answer = ", ".join(_word_of(field, one.strip()) for one in re.split(r"[,;]", answer) if one.strip())
        checked(field, [one for one in answer.split(", ") if one])
    elif field.kind == "months":
        checked(field, answer.replace(",", " ").split())
    else:
        checked(field, answer)
    return answer


def _word_of(field: Field, answer: str) -> str:
    """A word of a closed list, which may be typed in any case."""
    return next((one for one in field.options if one.casefold() == answer.casefold()), answer)
