"""Links and what the device kept are data: whatever they hold, no script runs, no page breaks, no record is lost."""

from __future__ import annotations

import json
import os
from random import Random
from typing import Any
from urllib.parse import quote

import pytest
from playwright.sync_api import expect

from calculators.asking.declare import Sheet
from calculators.sheets import find_sheet
from tests.browser.conftest import Open
from tests.browser.sheets import SHEETS, answer_from_example, example, expect_standing, path_of, section
from tests.drawn import drawn
from tests.fuzz.cases import hostile, hostile_case

pytestmark = [pytest.mark.browser, pytest.mark.further]
LINKS = int(os.environ.get("LINKS", drawn(60, part=0.4)))  # LINKS=400 for the long run
SHEET = find_sheet("moisture-target")

# Follows each link as a reader does, waits for what the page has to say, and gives back what is wrong.
FOLLOW = """async (links) => {
    const strange = "main :is(iframe, img, style, object, embed, base, meta, link, textarea), section.sheet script";
    const faults = [];
    const wait = async (done, ms) => {
        const until = performance.now() + ms;
        while (!done() && performance.now() < until) await new Promise((go) => setTimeout(go, 10));
        return done();
    };
    for (const [address, id] of links) {
        helpers.follow(address);
        const there = () => !document.querySelector("main[data-left]") && document.querySelector(`section.sheet#${id}`);
        if (!(await wait(there, 15000))) { faults.push(`the page did not come: ${address}`); continue; }
        const state = () => document.querySelector(`#${id} [data-state]`).textContent;
        await wait(() => state() && !state().includes("…"), 15000);
        if (!state()) faults.push(`nothing was said: ${address}`);
        if (window.hit) faults.push(`a script ran: ${address}`);
        if (document.querySelector(strange)) faults.push(`a strange element: ${address}`);
        const parts = [`#${id} .sheet-form`, `#${id} [data-place=answers]`, ".md-footer"];
        if (!parts.every((part) => document.querySelector(part))) faults.push(`broken: ${address}`);
        delete window.hit;
    }
    return faults;
}"""


def hostile_link(address: str, sheet: Sheet, random: Random) -> str:
    parts = [f"sheet={sheet.id}"]
    for name, value in hostile_case(sheet, random).items():
        text = ";".join(" ".join(row) for row in value) if isinstance(value, list) else value
        parts.append(f"{quote(name, errors='replace')}={quote(text[:1500], errors='replace')}")
    if random.random() < 0.3:
        parts.append(quote(hostile(random), errors="replace"))
    return f"{address}{path_of(sheet)}?{'&'.join(parts)}#{quote(hostile(random)[:50], errors='replace')}"


@pytest.mark.drawn
def test_hostile_links(visit: Open, address: str) -> None:
    random = Random("links")
    sheets = random.sample(SHEETS, len(SHEETS))
    page = visit(path_of(SHEET))
    answer_from_example(page, SHEET)
    links = []
    for number in range(LINKS):
        sheet = sheets[number % len(sheets)]
        links.append([hostile_link(address, sheet, random), sheet.id])
    for start in range(0, LINKS, 20):
        assert page.evaluate(FOLLOW, links[start : start + 20]) == []


KEPT: list[Any] = [
    None, [], 5, "x", {}, {"values": None, "example": []}, {"values": [], "example": []}, {"values": {}, "example": {}},
    {"values": {"barley_kg": None, "stages": 5}, "example": [5], "at": "no date"},
    {"values": {"barley_kg": {"a": [[[["<img src=x onerror=window.hit=1>"]]]]}}, "example": ["barley_kg"], "at": 1e99},
    {"values": {"barley_kg": "<img src=x onerror=window.hit=1>" * 100, "__proto__": {"x": 1}}, "example": [], "at": 0},
    {"values": {"barley_kg": ["5", ["6"]], "constructor": "x"}, "example": [], "at": 1},
]  # fmt: skip


def test_hostile_memory(visit: Open, address: str) -> None:
    page = visit(path_of(SHEET))
    key = f"/sheet:{SHEET.id}"
    record = json.dumps({"schema": 1, "results": {}})
    texts = [*(json.dumps(kept) for kept in KEPT), "{", "\0", "[" * 20000]
    for text in texts:
        page.evaluate("([key, text, record]) => { localStorage.setItem(key, text); localStorage.training = record; }",
                      [key, text, record])  # fmt: skip
        for target in (address, address + path_of(SHEET)):
            page.evaluate("target => helpers.follow(target)", target)
            expect(page.locator("main[data-left]")).to_have_count(0)
        place = section(page, SHEET)
        place.locator("[data-action=clear]").click()  # the sheet's script is alive
        place.evaluate("(section, questions) => helpers.ask(section, questions)", example(SHEET))
        expect_standing(place, "answered")
        assert page.evaluate("() => window.hit") is None
        assert page.evaluate("() => localStorage.training") == record
