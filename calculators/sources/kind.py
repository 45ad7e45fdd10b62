"""What a source is, and how its standing is said."""

from typing import Literal, NamedTuple

Standing = Literal["read", "abstract", "in a copy", "second-hand", "not read"]


class Source(NamedTuple):
    """A published work; ``standing`` says whether it was read here, ``address`` where it was found."""

    cited: str
    standing: Standing
    note: str = ""
    address: str = ""


_WORDS: dict[Standing, str] = {
    "read": "read",
    "abstract": "abstract read",
    "in a copy": "read in a copy",
    "second-hand": "second-hand: read in a work that quotes it",
    "not read": "not read",
}


def standing_words(source: Source) -> str:
    """How the standing is said to a reader."""
    return _WORDS[source.standing] + (f"; {source.note}" if source.note else "")
