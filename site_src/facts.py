"""Figures in sentences: ``{{gas:danger-soonest}}`` in a page or a case becomes what the models compute at build.

So that a sentence cannot drift away from the sheet that teaches it.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from calculators.plates import gas

FACTS: dict[str, dict[str, Callable[[], str]]] = {"gas": gas.FACTS}
"""Each subject with its figures."""

_TOKEN = re.compile(r"\{\{\s*([a-z-]+):([a-z0-9-]+)\s*\}\}")


def fill_facts(text: str) -> str:
    """Put the computed figures into a text.

    Raises
    ------
    ValueError
        When a text asks for a figure that there is not.
    """
    return _TOKEN.sub(lambda found: _figure(found[1], found[2]), text)


def _figure(subject: str, name: str) -> str:
    try:
        return FACTS[subject][name]()
    except KeyError:
        known = ", ".join(FACTS.get(subject, FACTS))
        raise ValueError(f"there is no figure {subject}:{name}. There are: {known}.") from None
