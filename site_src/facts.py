"""Figures about gas in sentences: ``[[gas:danger-soonest]]`` in a page or a case becomes what the models compute.

So that a sentence cannot drift away from the sheet that teaches it.
"""

from __future__ import annotations

import re

from calculators.plates.gas import FACTS

_IN_TEXT = re.compile(r"\[\[gas:([a-z0-9-]+)\]\]")


def fill_facts(text: str) -> str:
    """Put the computed figures in the place of each that a text names.

    Parameters
    ----------
    text : str
        Markdown, or words of a question.

    Returns
    -------
    str
        The same with ``4 minutes`` for ``[[gas:danger-soonest]]``.

    Raises
    ------
    LookupError
        When there is no such figure; the message says what there is.
    """
    return _IN_TEXT.sub(lambda found: _figure(found[1]), text)


def _figure(name: str) -> str:
    if name not in FACTS:
        raise LookupError(f"No figure about gas “{name}”. There are: {', '.join(FACTS)}.")
    return FACTS[name]()
