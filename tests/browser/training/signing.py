"""What the tests of the sign-off record and of the trainer's table do by taps."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, expect

from site_src.competence import jobs

EIGHT = ("Ash", "Birch", "Cedar", "Elm", "Hazel", "Maple", "Oak", "Rowan")
STEEP, READY = jobs()["steep-by-the-basket"], jobs()["judge-readiness"]


def form(page: Page) -> Locator:
    return page.locator("[data-competence=write]")


def said(page: Page) -> Locator:
    return form(page).locator("[data-sign=said]")


def is_open(page: Page) -> None:
    expect(form(page).locator("form")).to_be_visible()


def add_people(page: Page, *names: str) -> None:
    for name in names:
        form(page).get_by_label("A name to add").fill(name)
        form(page).get_by_role("button", name="Add this person").tap()


def tick(page: Page, *names: str) -> None:
    """Tick these, and nobody else."""
    boxes = form(page).locator("[data-sign=people] label")
    now: list[tuple[str, bool]] = boxes.evaluate_all(
        "all => all.map((one) => [one.textContent.trim(), one.querySelector('input').checked])"
    )
    for at, (name, ticked) in enumerate(now):
        if ticked != (name in names):
            boxes.nth(at).tap()


def stage(page: Page, step: str, word: str) -> None:
    says = next(
        one.says for job in jobs().values() for one in job.steps if one.id == step and one in chosen(page).steps
    )
    group = form(page).get_by_role("group").filter(has=page.get_by_text(says, exact=False)).last
    group.get_by_text(word, exact=True).tap()


def chosen(page: Page) -> Any:
    return jobs()[form(page).get_by_label("Job", exact=True).input_value()]


def write(page: Page, **fields: str) -> None:
    labels = {
        "on": "Seen on", "batches": "On which batches", "by": "Assessed by", "why": "Not yet, because",
        "next": "Next try on", "due": "Due again on", "number": "House’s number", "assesses": "Office that may assess",
    }  # fmt: skip
    for name, text in fields.items():
        form(page).get_by_label(labels[name]).fill(text)
    form(page).get_by_role("button", name="Write these lines").tap()


def kept(page: Page, name: str = "sign-off") -> Any:
    text = page.evaluate(
        "name => Object.entries(localStorage).find(([key]) => key.endsWith(`/${name}`))?.[1] ?? 'null'", name
    )
    return json.loads(text)


def lines(page: Page, name: str) -> list[dict[str, str]]:
    found: list[dict[str, str]] = next(one["lines"] for one in kept(page)["people"] if one["name"] == name)
    return found


def choose_file(page: Page, button: Locator, *files: Path) -> None:
    with page.expect_file_chooser() as coming:
        button.tap()
    coming.value.set_files(files)


def given(folder: Path, name: str, text: str | bytes) -> Path:
    """A file on the disk: what is handed over in words alone goes three times through the processor."""
    file = folder / name
    file.write_bytes(text.encode() if isinstance(text, str) else text)
    return file
