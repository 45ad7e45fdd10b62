"""How the command about a house talks: a question, a line typed, and the file written after each whole answer."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from site_src.house.check import NOTHING, Held, read_all, read_text
from site_src.house.entry import put


class Stop(Exception):
    """The reader has had enough for today."""


class Rest(Exception):
    """The reader leaves out the rest of a part."""


class Back(Exception):
    """The reader wants the question before once more."""


class Talk:
    """A talk about one file.

    Parameters
    ----------
    file : Path
        The file to write.
    lines : iterator of str or None
        What is typed; the keyboard if None.
    say : callable
        Called with each line to show.
    """

    def __init__(self, file: Path, lines: Iterator[str] | None, say: Callable[[str], None]) -> None:
        self.file, self.lines, self.say = file, lines, say
        self.held: Held = read_all(file) if file.exists() else NOTHING
        self.text = file.read_text("utf-8") if file.exists() else ""
        self.asked = self.answered = 0

    def keep(self, text: str) -> None:
        """Write the file, once it has been checked.

        Raises
        ------
        BuildError
            When it says what cannot be; nothing is written then.
        """
        self.held = read_text(self.file.name, text.encode())
        self.text = text
        put(self.file, text)

    def line(self, question: str) -> str:
        """What is typed behind a question; ``stop`` at the end of all input."""
        if self.lines is not None:
            answer = next(self.lines, "stop")
            self.say(f"{question}{answer}")
            return answer.strip()
        try:
            return input(question).strip()
        except (EOFError, KeyboardInterrupt):
            self.say("")
            return "stop"

    def answer(self, question: str, hint: str) -> str:
        """What is typed behind a question, empty where it is left out; ``?`` says the hint, and it is asked again.

        Raises
        ------
        Stop
            At ``stop``.
        Rest
            At a point.
        """
        self.asked += 1
        while (typed := self.line(f"  {question} ")) == "?":
            self.say(f"    {hint}")
        if typed == "stop":
            raise Stop
        if typed == ".":
            raise Rest
        self.answered += bool(typed)
        return typed
