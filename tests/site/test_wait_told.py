"""What a slow line is told of the wait, reckoned in the browser's own scripts without a browser."""

from __future__ import annotations

import json
import re
import subprocess
from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest

from site_src.node_run import node
from site_src.settings import SOURCE

ENGINE = SOURCE / "theme" / "assets" / "browser" / "engine"
ALL = 5_300_000  # bytes
NAMED = re.compile(r"^(\d+\.\d) of 5\.3 MB(?:, (?:about (\d+) (s|min)|a few seconds) left)?$")


def run(code: str, argument: object = None) -> Any:
    imports = "".join(
        f"import {{ {name} }} from {json.dumps((ENGINE / file).as_uri())};"
        for name, file in (("Wait", "wait.mjs"), ("Coming", "coming.mjs"))
    )
    answer = f"await (async () => {{{code}}})()"
    whole = f"{imports}const given = {json.dumps(argument)};console.log(JSON.stringify({answer}));"
    done = subprocess.run(
        [node(), "--input-type=module", "-"], input=whole, capture_output=True, text=True, check=True, timeout=60
    )
    return json.loads(done.stdout)


def told(had: Callable[[float], float], seconds: float) -> list[tuple[float, str]]:
    """What stands there each half second, by how much has come until then."""
    steps = [[at / 2, min(ALL, had(at / 2))] for at in range(1, int(seconds * 2))]
    words = run(
        f"const wait = new Wait(0); return given.map(([at, had]) => wait.told(had, {ALL}, at));",
        steps,
    )
    return [(at, text) for (at, _), text in zip(steps, words, strict=True)]


def named(lines: list[tuple[float, str]]) -> list[tuple[float, float]]:
    """When a time was named, and how many seconds."""
    found = []
    for at, text in lines:
        match = NAMED.match(text)
        assert match or not text, text
        if match and match[2]:
            found.append((at, float(match[2]) * (60 if match[3] == "min" else 1)))
    return found


@pytest.mark.parametrize("bytes_a_second", [1_250_000, 5_000_000])
def test_a_quick_line_is_told_nothing(bytes_a_second: int):
    assert {text for _, text in told(lambda at: at * bytes_a_second, 10)} == {""}


@pytest.mark.parametrize("kbit", [150, 400, 2000])
def test_a_steady_line_is_told_what_is_true_and_the_time_only_runs_down(kbit: int):
    pace = kbit * 125
    whole = ALL / pace
    times = named(told(lambda at: at * pace, whole))
    assert len(times) > 3
    for at, left in times:
        assert left == pytest.approx(whole - at, abs=31 if left >= 120 else 6)
    assert all(one >= other for (_, one), (_, other) in pairwise(times))


def test_at_first_the_page_itself_comes_too_and_the_time_hardly_jumps():
    # 400 kbit/s, of which the page takes three quarters for the first fifteen seconds
    def had(at: float) -> float:
        return at * 12_500 if at < 15 else 187_500 + (at - 15) * 50_000

    times = named(told(had, 117))
    rises = [other - one for (_, one), (_, other) in pairwise(times) if other > one]
    assert rises == []
    drops = [one - other for (_, one), (_, other) in pairwise(times) if one - other > 20 and one <= 120]
    assert len(drops) <= 1
    assert times[-1][0] > 100


def test_a_line_that_wavers_does_not_make_the_time_waver():
    def had(at: float) -> float:  # by turns a third more and a third less, four seconds each
        return 40_000 * at + 13_000 * (at % 8 if at % 8 < 4 else 8 - at % 8)

    times = named(told(had, 130))
    assert all(one >= other for (_, one), (_, other) in pairwise(times))


def test_a_line_that_stands_still_says_so_and_goes_on():
    def had(at: float) -> float:
        return 50_000 * (at if at < 30 else 30 if at < 60 else at - 30)

    lines = told(had, 130)
    still = [at for at, text in lines if "nothing has come for" in text]
    assert still[0] == pytest.approx(38, abs=1) and still[-1] == pytest.approx(60, abs=1)
    assert "for 20 s" in dict(lines)[51.0]
    assert "left" not in dict(lines)[51.0] and "left" in dict(lines)[80.0]


def test_bytes_are_those_that_the_line_carries():
    # 1000 bytes are carried as 300, of which 400 of the 1000 have come: 120; the other, not begun, as the first is.
    said = run("""
        const coming = new Coming({ "a": [1000, 300, 350], "b": [500, 100, 120], "c": [2000, 2000, 2000] });
        coming.expect("a", "b");
        const before = coming.sum();
        let line;
        const more = (bytes) => line.enqueue(new Uint8Array(bytes));
        const body = new ReadableStream({ start: (one) => { line = one; } });
        const response = coming.counted("a", new Response(body, { headers: { "Content-Encoding": "br" } }));
        more(400);
        const reader = response.body.getReader();
        await reader.read();
        await new Promise((done) => setTimeout(done, 20));
        const during = coming.sum();
        more(600);
        line.close();
        const rest = (await reader.read()).value.length;
        await new Promise((done) => setTimeout(done, 20));
        const after = coming.sum();
        coming.arrived("b");
        return { before, during, after, rest, all: coming.sum() };
    """)
    assert said["before"] == {"had": 0, "of": 400}
    assert said["during"] == {"had": 120, "of": 400}
    assert said["after"] == {"had": 300, "of": 400}
    assert said["rest"] == 600  # who reads the file gets it whole
    assert said["all"] == {"had": 400, "of": 400}
