"""How long a reader waits for the first answer, beside the runtime as published, and how much is carried."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from statistics import median

from playwright.sync_api import sync_playwright

from bench.browser import CASES, CountingServer, See, Visit, bare_site, running, see_bare, see_sheet, visits
from bench.in_page import in_page
from site_src.build import build
from site_src.runtime import read_pins, served_runtime


def report(rounds: int) -> Iterator[str]:
    """Measure; yield the lines of the tables."""
    with tempfile.TemporaryDirectory() as scratch, sync_playwright() as playwright:
        bare_server = CountingServer(bare_site(Path(scratch) / "bare"))
        carried_server = CountingServer(bare_site(Path(scratch) / "carried", runtime=served_runtime(read_pins())))
        our_server = CountingServer(Path(scratch) / "site")
        build(our_server.site, site_url=our_server.address)
        sights: dict[str, tuple[CountingServer, See]] = {
            "bare": (bare_server, see_bare),
            "carried": (carried_server, see_bare),
        }
        for sheet, case in CASES.items():
            sights[sheet] = (our_server, see_sheet(sheet, case))
        with running(bare_server), running(carried_server), running(our_server):
            made: dict[str, list[tuple[Visit, Visit]]] = {name: [] for name in sights}
            for _ in range(rounds):  # in turns, so that a slow spell of the machine falls on all
                for name, (server, see) in sights.items():
                    made[name].append(visits(playwright, server, see))
            yield from _table(made)
            yield from in_page(playwright, our_server, rounds)


def _table(made: Mapping[str, Sequence[tuple[Visit, Visit]]]) -> Iterator[str]:
    yield f"{'ms from opening the page, medians':52}{'cold':>8}{'warm':>8}{'MB cold':>9}{'kB warm':>9}"
    rows = [
        ("bare", "core", "runtime as published, core ready"),
        ("bare", "numpy", "runtime as published, numpy ready"),
        ("carried", "core", "runtime as carried here, core ready"),
        ("carried", "numpy", "runtime as carried here, numpy ready"),
        *((name, "sheet-answered", f"{name}, first answer to own numbers") for name in CASES),
    ]
    times = {
        (name, mark): [median(pair[which].marks[mark] for pair in made[name]) for which in (0, 1)]
        for name, mark, _ in rows
    }
    base = times["bare", "numpy"]
    for name, mark, label in rows:
        took = times[name, mark]
        line = f"{label:52}{took[0]:>8.0f}{took[1]:>8.0f}"
        if mark != "core":
            carried = [median(pair[which].carried for pair in made[name]) for which in (0, 1)]
            line += f"{carried[0] / 1e6:>9.2f}{carried[1] / 1e3:>9.1f}"
        if (name, mark) != ("bare", "numpy"):
            line += "  of it as published with numpy: " + ", ".join(f"{took[i] / base[i]:.2f}" for i in (0, 1))
        yield line
