"""The things of ``things.py`` on the small engine, in the browser's Python and here."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from site_src.node_run import run_python
from site_src.runtime import read_pins, served_runtime
from site_src.settings import CACHE
from site_src.small.compiler import compiled, compiler
from site_src.small.engine import LOADER, WASM, engine_files, read_engine_pins, served
from site_src.small.packs import SMALL, SmallEngine, packed, stand_ins
from site_src.small.reach import Module, Sources
from site_src.small.rewrite import defined, rewritten
from site_src.small.run import asked
from tests.small import things

_THINGS = Path(__file__).parent / "things.py"
_AT_ONCE = 2000


def written(text: str, path: Path = _THINGS) -> str:
    """A source as the build writes it for the small engine."""
    module = Module("calculators.page", path, text, False)
    return rewritten(Sources(), module, *defined([module]))


def engine_of(text: str, std: dict[str, bytes] | None = None) -> SmallEngine:
    """The small engine with a source in the place of the page's."""
    pins = read_engine_pins()
    files = served(pins, engine_files(pins))
    modules = {**(std or stand_ins()), "calculators/__init__.py": b"", "calculators/page.py": written(text).encode()}
    program = compiler(pins.version)
    assert program is not None
    return SmallEngine(packed(compiled(modules, program, CACHE)), {}, files[LOADER], files[WASM], frozenset(), {})


Asked = Mapping[str, Sequence[Any]]
"""Values, by the thing that they are given to."""


def _requests(every: Asked) -> list[tuple[str, str]]:
    return [
        (what, json.dumps({"what": what, "values": list(values[at : at + _AT_ONCE])}))
        for what, values in every.items()
        for at in range(0, len(values), _AT_ONCE)
    ]


def _joined(every: Asked, replies: Sequence[str]) -> dict[str, list[Any]]:
    found: dict[str, list[Any]] = {what: [] for what in every}
    for (what, _), reply in zip(_requests(every), replies, strict=True):
        found[what] += json.loads(reply)
    return found


def each_on_small(every: Asked, small: Path = SMALL, std: dict[str, bytes] | None = None) -> dict[str, list[Any]]:
    """What the small engine gives, started once."""
    replies = asked(engine_of(_THINGS.read_text("utf-8"), std), [("", one) for _, one in _requests(every)], small)
    faults = [one.fault for one in replies if one.fault]
    assert not faults, faults[0]
    return _joined(every, [one.text for one in replies])


def each_in_browser(every: Asked) -> dict[str, list[Any]]:
    """What the browser's Python gives, started once."""
    code = _THINGS.read_text("utf-8") + "\n\ndef main(requests):\n    return [respond(one) for one in requests]\n"
    replies = run_python(code, [one for _, one in _requests(every)], runtime=served_runtime(read_pins()))
    assert isinstance(replies, list)
    return _joined(every, replies)


def on_small(what: str, values: Sequence[Any], small: Path = SMALL, std: dict[str, bytes] | None = None) -> list[Any]:
    """What the small engine gives."""
    return each_on_small({what: values}, small, std)[what]


def in_browser(what: str, values: Sequence[Any]) -> list[Any]:
    """What the browser's Python gives."""
    return each_in_browser({what: values})[what]


def here(what: str, values: Sequence[Any]) -> list[Any]:
    """What this Python gives."""
    every = {what: values}
    return _joined(every, [things.respond(one) for _, one in _requests(every)])[what]


def unlike(values: Sequence[Any], one: Sequence[Any], two: Sequence[Any]) -> list[str]:
    """The values whose results differ, with both."""
    return [
        f"{value!r}: {a} and {b}"
        for value, first, second in zip(values, one, two, strict=True)
        for a, b in zip(first, second, strict=True)
        if a != b
    ]
