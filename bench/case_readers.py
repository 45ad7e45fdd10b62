"""What the bank of cases tells apart: readers that are programs, from guessers by look to one with the page open.

``python -m bench.case_readers`` prints the share of questions that each gets right. None understands a word. One
that guesses sees the choices alone; one that reads takes the choice whose words stand on the page that teaches it:
in the phrase, in its section, or anywhere on the page. What they score above chance is what likeness of words
gives away; a person who reads and thinks is not measured here.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable

from site_src.questions import Case, asked, cases, chapters, page_words, section_words

Reader = Callable[[Case], list[float]]
ASKED = [one for chapter in chapters() for case in cases(chapter) for one in asked(case)]
_WORD = re.compile(r"[a-z]+|\d+(?:\.\d+)?")
_PLAIN = frozenset(_WORD.findall(
    "a an and are as at be before but by for from has have i if in is it its my no not of on or so that the then there "
    "they this to up was we what when which who with you"
))  # fmt: skip
PAGES = sorted({one.page for one in ASKED})


def stems(text: str) -> set[str]:
    """The words of a text that say something, without their endings."""
    words = _WORD.findall(text.lower())
    return {re.sub(r"(?<=[a-z]{3})(?:ing|ed|es|s)$", "", word) for word in words if word not in _PLAIN}


_ON_PAGES = Counter(word for page in PAGES for word in stems(page_words(page)))


def rare(word: str) -> float:
    """How much a word tells: one that stands on every page tells nothing."""
    return math.log((1 + len(PAGES)) / (1 + _ON_PAGES[word]))


def likeness(choice: str, text: set[str]) -> float:
    """The share of what a choice says that stands in a text, by how much each word tells."""
    words = stems(choice)
    whole = sum(rare(word) for word in words)
    return sum(rare(word) for word in words & text) / whole if whole else 0.0


def reading(place: Callable[[Case], str]) -> Reader:
    """A reader that looks in one place of the book."""
    return lambda case: [likeness(choice.says, stems(place(case))) for choice in case.choices]


READERS: dict[str, Reader] = {
    "takes the longest": lambda case: [len(choice.says) for choice in case.choices],
    "takes the first as written": lambda case: [-at for at in range(len(case.choices))],
    "most like the case itself": reading(lambda case: case.case),
    "a wrong page open": reading(lambda case: page_words(PAGES[PAGES.index(case.page) - 1])),
    "page open, whole page": reading(lambda case: page_words(case.page)),
    "page open at the section": reading(section_words),
    "finger on the very phrase": reading(lambda case: case.phrase),
}


def scored(reader: Reader) -> float:
    """The share of questions that a reader gets right; of equals it draws one."""
    total = 0.0
    for case in ASKED:
        liked = reader(case)
        best = [at for at, value in enumerate(liked) if value >= max(liked) - 1e-9]
        right = next(at for at, choice in enumerate(case.choices) if choice.right)
        total += right in best and 1 / len(best)
    return total / len(ASKED)


def main() -> None:
    """Print the table."""
    chance = sum(1 / len(case.choices) for case in ASKED) / len(ASKED)
    spread = math.sqrt(chance * (1 - chance) / len(ASKED))
    print(f"{len(ASKED)} questions, steps of chains among them. Chance {chance:.1%}, give or take {2 * spread:.1%}.")
    for name, reader in READERS.items():
        print(f"{name:28s} {scored(reader):6.1%}")


if __name__ == "__main__":
    main()
