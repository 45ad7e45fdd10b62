"""The three runs: random inputs, hostile ones, and the same inputs in the browser's Python."""

from __future__ import annotations

import json
import math
import time
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, islice
from random import Random
from typing import Any, cast

from calculators.asking.answer import Answered, answer
from calculators.asking.declare import Refusal, Sheet
from calculators.exercises import CHAPTERS
from calculators.page import respond
from calculators.sheets import find_sheet
from site_src.node_run import run_python
from site_src.runtime import read_pins, served_runtime
from site_src.settings import ROOT
from tests.fuzz.cases import Case, example, hostile, hostile_case, request, right_case, wrong_types
from tests.fuzz.checks import check_message, check_ranges, check_reply, check_words
from tests.fuzz.near import misses, two_misses
from tests.fuzz.runs_there import answers

_EVERY = 10  # of the answers, one in so many is drawn as a page as well


class Broken(AssertionError):
    """What was typed, so that it can be typed again."""

    def __init__(self, sheet: str, case: Case, fault: BaseException) -> None:
        super().__init__(f"{sheet}: {type(fault).__name__}: {fault}\n  typed: {json.dumps(case)[:3000]}")


def random_inputs(
    name: str, least: int, most: int, seconds: float, seed: str = "1", broken: list[Broken] | None = None
) -> Counter[str]:
    """Ask one sheet random things; return how often each end was met.

    Parameters
    ----------
    name : str
        The sheet.
    least, most : int
        How many at least, whatever it takes, and at most.
    seconds : float
        Processor time after which the least is enough.
    seed : str
        Another seed, other inputs.
    broken : list, optional
        Where faults are gathered; without it the first one ends the run.
    """
    sheet = find_sheet(name)
    random = Random(f"{name} {seed}")
    ends: Counter[str] = Counter()
    until = time.process_time() + seconds
    for number in range(most):
        if number >= least and time.process_time() > until:
            break
        ends[asked(sheet, right_case(sheet, random), drawn=number % _EVERY == 0, broken=broken)] += 1
    return ends


def near_misses(
    name: str, least: int, two: int, seconds: float, seed: str = "1", broken: list[Broken] | None = None
) -> Counter[str]:
    """Ask one sheet its worked case with each single slip in it, then with two; return how often each end was met.

    Parameters
    ----------
    name : str
        The sheet.
    least : int
        How many slips at least, drawn from all.
    two : int
        How many draws of two slips at once, when all single ones are done.
    seconds : float
        Processor time after which the least is enough.
    seed : str
        Another seed, other slips.
    broken : list, optional
        Where faults are gathered; without it the first one ends the run.
    """
    sheet = find_sheet(name)
    random = Random(f"{name} near {seed}")
    ends: Counter[str] = Counter()
    until = time.process_time() + seconds
    single = list(misses(sheet))
    random.shuffle(single)
    for number, case in enumerate(chain(single, islice(two_misses(sheet, random), two))):
        if number >= least and time.process_time() > until:
            break
        ends[asked(sheet, case, drawn=number % _EVERY == 0, broken=broken)] += 1
    return ends


def asked(sheet: Sheet, case: Case, *, drawn: bool, broken: list[Broken] | None = None) -> str:
    """Ask one thing, check all that a reader may see of the answer, and say how it ended."""
    try:
        result = answer(sheet, case)
        if drawn:
            check_reply(respond(request(sheet, case)))
        if isinstance(result, Answered):
            check_ranges(result)
            if isinstance(result.outcome, Refusal):
                check_words(result.outcome.text, sheet, case)
            return type(result.outcome).__name__.lower()
        assert result.problems
        for problem in result.problems:
            check_message(sheet, problem, case)
        return "asked again"
    except Exception as fault:
        if broken is None:
            raise Broken(sheet.id, case, fault) from fault
        broken.append(Broken(sheet.id, case, fault))
        return "broken"


def hostile_inputs(names: Sequence[str], count: int, seed: str = "1") -> Counter[str]:
    """Ask the sheets hostile things by turns, and the exercises once in a while; return the states."""
    random = Random(f"hostile {seed}")
    states: Counter[str] = Counter()
    for number in range(count):
        sheet = find_sheet(names[number % len(names)])
        case = (wrong_types if random.random() < 0.2 else hostile_case)(sheet, random)
        try:
            states[check_reply(respond(request(sheet, case)))["state"]] += 1
            if number % 20 == 0:
                _hostile_paper(random)
        except Exception as fault:
            raise Broken(sheet.id, case, fault) from fault
    return states


def _hostile_paper(random: Random) -> None:
    """A paper's number comes out of a link too; the browser lets no half characters through there."""
    seed = hostile(random).encode("utf-8", "replace").decode()
    asked: dict[str, Any] = {"chapter": random.choice(sorted(CHAPTERS)), "seed": seed, "root": "../../"}
    for kind in ("next", "paper"):
        asked |= {"exercise": kind, "number": random.randrange(-5, 2000), "count": 3, "again": [hostile(random)]}
        json.loads(respond(json.dumps(asked)))


# What runs in the browser's Python, and here: the answers of a list of cases as data, and as the page shows them.
_THERE = """
import json, sys
sys.path.insert(0, "/repository")
from tests.fuzz.runs_there import answers

def main(cases):
    return answers(cases)
"""


def drawn_cases(names: Iterable[str], count: int, seed: str = "1") -> list[tuple[str, Case]]:
    """The same random cases each time."""
    cases = []
    for name in names:
        random = Random(f"{name} agree {seed}")
        cases += [(name, right_case(find_sheet(name), random)) for _ in range(count)]
    return cases


def _needed(names: Iterable[str]) -> list[str]:
    return sorted({package for name in names for package in find_sheet(name).needs})


def _near(name: str) -> float:
    return 1e-8 if "numpy" in find_sheet(name).needs else 1e-12


def disagreements(cases: Sequence[tuple[str, Case]]) -> Iterator[str]:
    """Yield what differs between this Python and the browser's own, under Node.

    Every word and digit shown must be the same. Values may differ by a relative 1e-12, or by 1e-9 of their unit:
    what a search finds is settled to about that, and the two Pythons' mathematics differ in the last bit. Where
    hundreds of members are weighed against readings, the last bits grow: there a relative 1e-8.
    """
    there = run_python(
        _THERE, [list(case) for case in cases], runtime=served_runtime(read_pins()),
        folders={"/repository": ROOT}, packages=_needed(name for name, _ in cases),
    )  # fmt: skip
    assert isinstance(there, list)
    for (name, case), ours, theirs in zip(cases, answers(cases), there, strict=True):
        if difference := _difference(ours, json.loads(json.dumps(theirs)), "", _near(name)):
            yield f"{name}: {difference}\n  typed: {json.dumps(case)}"


_HELD = _THERE.replace("import answers", "import held").replace("return answers(cases)", "return held(cases)")


def held_after(name: str, count: int) -> tuple[list[int], list[int]]:
    """Ask the browser's Python the worked case of a sheet and two wrong ones, over and over.

    Returns
    -------
    tuple of list of int
        Objects that Python counts and bytes of memory taken, before and after.
    """
    sheet = find_sheet(name)
    cases = [example(sheet), {}, {**example(sheet), sheet.questions[0].id: "x"}]
    requests = [json.loads(request(sheet, case)) for case in cases]
    before, after = cast(
        "list[list[int]]",
        run_python(
            _HELD,
            {"requests": requests, "first": 20, "count": count},
            runtime=served_runtime(read_pins()),
            folders={"/repository": ROOT},
            packages=_needed([name]),
        ),
    )
    return before, after


def _difference(one: Any, other: Any, where: str, near: float) -> str:
    if isinstance(one, float) and isinstance(other, float):
        return "" if math.isclose(one, other, rel_tol=near, abs_tol=1e-9) else f"{where}: {one!r} and {other!r}"
    if isinstance(one, dict) and isinstance(other, dict) and one.keys() == other.keys():
        return next((d for key in one if (d := _difference(one[key], other[key], f"{where}.{key}", near))), "")
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return next((d for i, x in enumerate(one) if (d := _difference(x, other[i], f"{where}[{i}]", near))), "")
    return "" if one == other else f"{where}: {str(one)[:300]} and {str(other)[:300]}"
