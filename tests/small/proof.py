"""The proof: the same requests in CPython, in the browser's Python and on the small engine, alike to the letter."""

from __future__ import annotations

import json
import statistics
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

from calculators.page import respond
from calculators.sheets import find_sheet
from site_src.node_run import run_python
from site_src.runtime import read_pins, served_runtime
from site_src.settings import ROOT
from site_src.small.packs import SmallEngine, made
from site_src.small.record import GUARDED, LEAST, Proven, read_record, write_record
from site_src.small.run import Reply, asked
from tests.fuzz.cases import example, hostile_case, request, right_case, wrong_types
from tests.fuzz.near import misses

FAULT = "a fault"
_TRIES = 12  # for each answered input
_AT_ONCE = 400  # requests of one run of the browser's Python

_THERE = """
import json, sys
sys.path.insert(0, "/repository")
from calculators.page import respond

def main(requests):
    replies = []
    for request in requests:
        try:
            replies.append(respond(request))
        except Exception:
            replies.append("a fault")
    return replies
"""


class Drawn(NamedTuple):
    """Requests of one sheet: those that are answered or refused, and the others."""

    answered: list[str]
    hostile: list[str]


def here(text: str) -> str:
    """The reply of this Python."""
    try:
        return respond(text)
    except Exception:
        return FAULT


def there(requests: Sequence[str], needs: Sequence[str] = ()) -> list[str]:
    """The replies of the browser's Python."""
    replies: list[str] = []
    for at in range(0, len(requests), _AT_ONCE):
        ran = run_python(
            _THERE, list(requests[at : at + _AT_ONCE]), runtime=served_runtime(read_pins()),
            folders={"/repository": ROOT}, packages=needs,
        )  # fmt: skip
        assert isinstance(ran, list)
        replies += ran
    return replies


def _asked_in_ways(name: str, case: dict[str, Any], random: Random) -> str:
    """The request of a case, now and then with what a page sends beside it."""
    text = request(find_sheet(name), case)
    if random.random() < 0.6:
        return text
    whole = json.loads(text)
    ids = [question.id for question in find_sheet(name).questions]
    if random.random() < 0.5:
        whole["from_example"] = random.sample(ids, random.randint(0, len(ids)))
    if random.random() < 0.5:
        whole["unchanged"] = random.random() < 0.5
    if random.random() < 0.5:
        whole["lent"] = dict.fromkeys(random.sample(ids, random.randint(0, len(ids))), "the steep of <example-01>")
    whole["date"] = random.choice(("2026-01-12T06:00", "", "2026-02-30T06:00", "2026-01-12"))
    return json.dumps(whole)


def draw(name: str, answered: int, hostile: int, seed: str) -> Drawn:
    """Draw requests of one sheet; the same ones for the same seed."""
    sheet = find_sheet(name)
    random = Random(f"{name} small {seed}")
    found = Drawn([_asked_in_ways(name, example(sheet), random)], [])
    for _ in range(_TRIES * answered):
        if len(found.answered) >= answered:
            break
        text = _asked_in_ways(name, right_case(sheet, random), random)
        state = json.loads(here(text))["state"]
        if state in ("answered", "refused"):
            found.answered.append(text)
        elif len(found.hostile) < hostile // 4:  # beside a limit, or what does not go together
            found.hostile.append(text)
    slips = list(misses(sheet))
    random.shuffle(slips)
    while len(found.hostile) < hostile:
        pick = random.random()
        case = slips.pop() if slips and pick < 0.3 else (wrong_types if pick < 0.35 else hostile_case)(sheet, random)
        found.hostile.append(_asked_in_ways(name, case, random))
    return found


class Compared(NamedTuple):
    """What came of a sheet's requests."""

    proven: Proven
    unlike: list[str]  # what differs from the browser's Python, said
    between: int  # replies in which the two Pythons themselves differ
    faults: list[str]
    given_up: list[str]  # faults in what is answered


def compare(engine: SmallEngine, name: str, drawn: Drawn) -> Compared:
    """Ask all three of one sheet's requests, and see how long the worked case takes."""
    found = compare_all(engine, {name: drawn})[name]
    worked = request(find_sheet(name), example(find_sheet(name)))
    ms = statistics.median(one.ms for one in asked(engine, [(name, worked)] * 6)[1:])
    return found._replace(proven=found.proven._replace(worked_ms=round(ms, 1)))


def compare_all(engine: SmallEngine, draws: Mapping[str, Drawn]) -> dict[str, Compared]:
    """Ask all three of the requests of several sheets; each engine is started once."""
    asks = [(name, text) for name, drawn in draws.items() for text in (*drawn.answered, *drawn.hostile)]
    needs = sorted({need for name in draws for need in find_sheet(name).needs})
    replies = zip(asked(engine, asks), there([text for _, text in asks], needs), strict=True)
    return {name: _weighed(engine, name, drawn, replies) for name, drawn in draws.items()}


def _weighed(engine: SmallEngine, name: str, drawn: Drawn, replies: Iterator[tuple[Reply, str]]) -> Compared:
    requests = [*drawn.answered, *drawn.hostile]
    unlike, between, faults, given_up = [], 0, [], []
    for n, (text, (one, two)) in enumerate(zip(requests, replies, strict=False)):
        between += here(text) != two
        if one.fault:
            if two != FAULT:
                faults.append(f"{one.fault}\n  typed: {text}")
            if n < len(drawn.answered):
                given_up.append(faults[-1] if two != FAULT else one.fault)
        elif one.text != two:
            unlike.append(f"{_first_difference(one.text, two)}\n  typed: {text}")
    proven = Proven(engine.digests[name], len(drawn.answered), len(drawn.hostile), len(unlike), len(faults), 0.0)
    return Compared(proven, unlike, between, faults, given_up)


def _first_difference(one: str, two: str) -> str:
    at = next((n for n, (a, b) in enumerate(zip(one, two, strict=False)) if a != b), min(len(one), len(two)))
    return f"small …{one[max(0, at - 60) : at + 60]}… other …{two[max(0, at - 60) : at + 60]}…"


def _prove_one(job: tuple[SmallEngine, str, float, str]) -> tuple[str, Compared]:
    engine, name, share, seed = job
    count = round(share * LEAST * (GUARDED if find_sheet(name).guarded else 1))
    return name, compare(engine, name, draw(name, count, count, seed))


def prove(
    names: Sequence[str] = (), share: float = 1.0, seed: str = "1", workers: int = 2, record: Path | None = None
) -> int:
    """Compare every sheet, write the record, and say what differed; return how many sheets differ.

    Parameters
    ----------
    names : sequence of str
        Sheets; all that are not proven as they stand, when none is named.
    share : float
        Part of the inputs that a proof needs; a smaller part is told, and proves nothing.
    seed : str
        Another seed, other inputs.
    workers : int
        Processes at once.
    record : Path, optional
        Where the record is written instead.
    """
    engine = made()
    known = read_record() if record is None else read_record(record)
    wanted = names or [name for name in engine.sheets if name not in engine.starts_on]
    wrong = 0
    with ProcessPoolExecutor(workers) as pool:
        for name, found in pool.map(_prove_one, [(engine, name, share, seed) for name in wanted]):
            one = found.proven
            print(
                f"{name:20}{one.answered:>6} answered {one.hostile:>6} hostile: {one.differing} differ, "
                f"{one.handed_on} handed on, {found.between} differ between the two Pythons; "
                f"worked case {one.worked_ms:.0f} ms",
                flush=True,
            )
            for line in [*found.unlike[:3], *found.faults[:2]]:
                print(f"  {line}"[:700], flush=True)
            wrong += bool(one.differing or found.given_up)
            if share >= 1.0:
                known[name] = one
                write_record({n: p for n, p in known.items() if n in engine.sheets}, *([record] if record else []))
    return wrong
