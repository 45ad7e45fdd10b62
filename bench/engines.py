"""What the small engine changes for a reader: the wait, what is carried, memory, processor, and each sheet's recompute.

``python -m bench.engines --before SITE`` measures a site that was built from an earlier version in the same run, in
turns. Both are copied and served on this machine. The bare runtime is what every ratio is taken against.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack
from pathlib import Path
from statistics import median
from typing import Any
from urllib.parse import quote, urlsplit

from playwright.sync_api import Page, Playwright, Route, sync_playwright

from bench.browser import CASES, CountingServer, bare_site, browser, running, see_bare, see_sheet, visits
from calculators.asking.answer import example_of
from calculators.asking.declare import is_private
from calculators.sheets import find_sheet
from site_src.build import build
from site_src.compress import compress_file
from site_src.edition import kept_files
from tests.browser.slow_line import slow_line

SHEETS = {
    "moisture-target": CASES["moisture-target"],
    "sample-basket": "gross_now_g=226&basket_g=84&sample_g=100&barley_moisture=12.5&target_moisture=45&drained=drained",
    "steep-timing": CASES["steep-timing"],
}
BAD_LINE = {"bytes_a_second": 50_000, "delay_s": 0.3}
_WATCH = Path(__file__).with_name("watch_worker.js")
_TICKS = os.sysconf("SC_CLK_TCK")
_KEPT_OUT = 'postMessage(JSON.stringify({ kind: "failed", text: "kept out" }));'
_AGAIN = """async ([sheet, count]) => {
    const section = document.getElementById(sheet);
    const times = { worker: [], screen: [] };
    for (let i = 0; i < count; i += 1) {
        const answered = new Promise((done) => {
            const watch = new MutationObserver(() => {
                if (section.querySelector("[data-results]").hasAttribute("data-waiting")) return;
                watch.disconnect();
                section.getBoundingClientRect();
                done(performance.now());
            });
            watch.observe(section, { subtree: true, attributes: true });
        });
        section.querySelector(".sheet-form input").dispatchEvent(new Event("input", { bubbles: true }));
        times.screen.push((await answered) - asked.at(-1));
        times.worker.push(replies.at(-1));
    }
    return times;
}"""


def with_address(built: Path, folder: Path, server: CountingServer) -> None:
    """Copy a built site and have its pages speak of the address at which it is served here."""
    shutil.copytree(built, folder)
    found = re.search(r"<loc>(.*?)</loc>", (folder / "sitemap.xml").read_text("utf-8"))
    assert found
    for path in folder.rglob("*.html"):
        path.write_text(path.read_text("utf-8").replace(found[1], server.address), "utf-8")
        for suffix in (".br", ".gz"):
            path.with_name(path.name + suffix).unlink(missing_ok=True)
    for sheet in SHEETS:
        compress_file(folder / "calculators" / sheet / "index.html")


class Spent:
    """Processor seconds and memory of a browser: of all its processes, and of the page's own."""

    def __init__(self, profile: str) -> None:
        self.profile = profile

    def processes(self) -> Iterator[tuple[int, str]]:
        """The browser that has this profile, and all that it started."""
        parents: dict[int, int] = {}
        lines: dict[int, str] = {}
        for place in Path("/proc").glob("[0-9]*"):
            try:
                lines[int(place.name)] = (place / "cmdline").read_text("utf-8", "replace")
                parents[int(place.name)] = int((place / "stat").read_text().rsplit(")", 1)[1].split()[1])
            except OSError:
                continue  # it has ended
        own = {pid for pid, line in lines.items() if self.profile in line}
        while more := {pid for pid, parent in parents.items() if parent in own and pid not in own}:
            own |= more
        return ((pid, lines[pid]) for pid in own)

    def seconds(self) -> float:
        """Processor time until now."""
        ticks = 0
        for pid, _ in self.processes():
            try:
                fields = Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()
            except OSError:
                continue
            ticks += int(fields[11]) + int(fields[12])
        return ticks / _TICKS

    def megabytes(self) -> float:
        """Memory of the largest page process, each shared part counted by its share."""
        sizes = [0.0]
        for pid, line in self.processes():
            if "--type=renderer" not in line:
                continue
            try:
                found = re.search(r"^Pss:\s+(\d+)", Path(f"/proc/{pid}/smaps_rollup").read_text(), re.MULTILINE)
            except OSError:
                continue
            sizes.append(int(found[1]) / 1e3 if found else 0.0)
        return max(sizes)


def start_spent(playwright: Playwright, server: CountingServer, see: Callable[..., Any]) -> dict[str, float]:
    """A first visit ever: processor seconds until two seconds after its answer, and the memory then."""
    with tempfile.TemporaryDirectory() as profile:
        context = browser(playwright, profile)
        page = context.new_page()
        spent = Spent(profile)
        before = spent.seconds()
        see(page, server.address)
        at_once = spent.seconds() - before
        page.wait_for_timeout(2000)
        found = {"cpu_answer": at_once, "cpu_2s": spent.seconds() - before, "megabytes": spent.megabytes()}
        context.close()
    return found


def on_bad_line(playwright: Playwright, server: CountingServer, see: Callable[..., Any]) -> tuple[float, float]:
    """Seconds to the answer from an empty cache, and bytes carried until then."""
    port = urlsplit(server.address).port
    assert port
    with tempfile.TemporaryDirectory() as profile, slow_line(port, **BAD_LINE) as slow:
        context = browser(playwright, profile)
        page = context.new_page()
        page.set_default_timeout(240_000)
        server.carried.clear()
        marks = see(page, server.address.replace(f":{port}", f":{slow}"), 240_000)
        carried = sum(server.carried.values())
        context.close()
    return marks["sheet-answered"] / 1000, carried


def recomputes(
    playwright: Playwright, server: CountingServer, site: Path, *, python: bool, count: int
) -> Iterator[str]:
    """Each sheet that the small engine answers, its worked case again and again; yield lines."""
    (parts,) = (site / name for name in kept_files(site) if re.fullmatch(r"assets/browser/parts\.\w+\.mjs", name))
    listed = re.search(r'"startsOnSmall": \[(.*?)\]', parts.read_text("utf-8"))
    assert listed

    def kept_out(route: Route) -> None:
        route.fulfill(content_type="text/javascript", body=_KEPT_OUT)

    for sheet_id in re.findall(r'"([\w-]+)"', listed[1]):
        sheet = find_sheet(sheet_id)
        if any(map(is_private, sheet.questions)):
            continue  # no link carries what is about a person
        case = "&".join(f"{name}={quote(text)}" for name, text in example_of(sheet).items())
        with tempfile.TemporaryDirectory() as profile:
            context = browser(playwright, profile)
            page = context.new_page()
            page.add_init_script(path=_WATCH)
            if python:
                page.route("**/small-worker.*", kept_out)
            mark = "&example=yes" if sheet.guarded else ""
            see_sheet(sheet_id, case + mark)(page, server.address)
            times: dict[str, list[float]] = page.evaluate(_AGAIN, [sheet_id, count])
            context.close()
        worker, screen = times["worker"], times["screen"]
        yield (
            f"  {sheet_id:22} worker median {median(worker):6.1f}, worst {max(worker):6.1f}; "
            f"to the screen median {median(screen):6.1f}"
        )


def report(rounds: int, before: Path | None, built: Path | None, *, count: int) -> Iterator[str]:
    """Measure; yield the lines."""
    with tempfile.TemporaryDirectory() as scratch, sync_playwright() as playwright, ExitStack() as stack:
        folder = Path(scratch)
        bare = stack.enter_context(running(CountingServer(bare_site(folder / "bare"))))
        servers: dict[str, CountingServer] = {}
        for name, site in {"before": before, "now": built}.items():
            if name == "before" and site is None:
                continue
            server = stack.enter_context(running(CountingServer(folder / name)))
            if site is None:
                build(server.site, site_url=server.address)
            else:
                with_address(site, server.site, server)
            servers[name] = server
        yield from _waits(playwright, bare, servers, rounds)
        yield from _costs(playwright, servers, rounds)
        for python in (False, True):
            yield f"recompute of each sheet's worked case, {'Python' if python else 'small engine'}, of {count}, in ms"
            yield from recomputes(playwright, servers["now"], servers["now"].site, python=python, count=count)


def _waits(
    playwright: Playwright, bare: CountingServer, servers: Mapping[str, CountingServer], rounds: int
) -> Iterator[str]:
    sights: dict[str, tuple[CountingServer, Callable[[Page, str], dict[str, float]]]] = {"bare": (bare, see_bare)}
    for sheet, case in SHEETS.items():
        for name, server in servers.items():
            sights[f"{sheet}, {name}"] = (server, see_sheet(sheet, case))
    made: dict[str, list[Any]] = {name: [] for name in sights}
    for _ in range(rounds):  # in turns, so that a slow spell of the machine falls on all
        for name, (server, see) in sights.items():
            made[name].append(visits(playwright, server, see))
    yield f"{'ms from opening the page to the answer, medians':50}{'cold':>7}{'warm':>7}   ratio to the bare runtime"
    base = [median(pair[which].marks["numpy"] for pair in made["bare"]) for which in (0, 1)]
    for name, pairs in made.items():
        mark = "numpy" if name == "bare" else "sheet-answered"
        took = [median(pair[which].marks[mark] for pair in pairs) for which in (0, 1)]
        ratio = ", ".join(f"{one / of:.2f}" for one, of in zip(took, base, strict=True))
        carried = [median(pair[which].carried for pair in pairs) / 1e3 for which in (0, 1)]
        yield f"{name:50}{took[0]:>7.0f}{took[1]:>7.0f}   {ratio}   kB {carried[0]:.0f}, {carried[1]:.0f}"


def _costs(playwright: Playwright, servers: Mapping[str, CountingServer], rounds: int) -> Iterator[str]:
    for sheet, case in SHEETS.items():
        see = see_sheet(sheet, case)
        spent: dict[str, list[dict[str, float]]] = {name: [] for name in servers}
        for _ in range(rounds):
            for name, server in servers.items():
                spent[name].append(start_spent(playwright, server, see))
        for name, found in spent.items():
            one = {key: median(each[key] for each in found) for key in found[0]}
            yield (
                f"{sheet}, {name}: processor {one['cpu_answer']:.2f} s to the answer, {one['cpu_2s']:.2f} s two "
                f"seconds later; memory of the page {one['megabytes']:.0f} MB"
            )
    for sheet in ("sample-basket",):
        slow: dict[str, list[tuple[float, float]]] = {name: [] for name in servers}
        for turn in range(rounds):
            for name, server in servers.items():
                if name == "before" and turn:  # a minute and a half each: once is enough
                    continue
                slow[name].append(on_bad_line(playwright, server, see_sheet(sheet, SHEETS[sheet])))
        for name, each in slow.items():
            seconds, carried = (median(one[at] for one in each) for at in (0, 1))
            yield f"{sheet}, {name}, 400 kbit/s and 300 ms: {seconds:.1f} s, {carried / 1e3:.0f} kB (of {len(each)})"


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m bench.engines")
    parser.add_argument("--before", type=Path, help="a site built from the version before")
    parser.add_argument("--built", type=Path, help="a site built from this version; it is built here if not named")
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--count", type=int, default=15, help="recomputes of each sheet")
    told = parser.parse_args()
    for text in report(told.rounds, told.before, told.built, count=told.count):
        print(text, flush=True)
