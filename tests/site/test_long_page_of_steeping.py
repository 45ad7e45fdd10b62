"""The long page of steeping opens on the work, counts its steps through, and each box stands where its step is."""

from __future__ import annotations

import re
from pathlib import Path

LONG = Path("docs/procedures/steeping.md").read_text("utf-8")
STYLE = Path("site_src/theme/assets/browser/styles/handbook.css").read_text("utf-8")


def parts() -> dict[str, tuple[int, int]]:
    """Each part of the work, with the numbers of its first and its last step through the page."""
    found: dict[str, tuple[int, int]] = {}
    number, head, first = 0, "", 0
    steps = LONG.split("## Steps\n")[1].split("\n## Limits")[0]
    for line in steps.splitlines():
        if line.startswith("### "):
            head, first = line[4:], number + 1
        elif re.match(r"\d+\. ", line):
            number += 1
            found[head] = (first, number)
    return found


def test_numbers_go_on_through_the_page():
    assert ".md-typeset { counter-reset: step; }" in STYLE
    assert not re.search(r"\.steps > ol[^{]*\{[^}]*counter-reset", STYLE)


def test_the_long_page_opens_on_the_work_and_leads_to_its_sheet_for_the_wall():
    top = LONG.split("## Purpose")[0]
    for head in parts():
        anchor = head.lower().replace(" ", "-")
        assert f"(#{anchor})" in top or head == "Steep effluent"
    assert "(#wall-sheet)" in top


def test_the_box_that_kills_leads_and_each_other_is_named_with_a_link_to_where_it_stands():
    for page in sorted(Path("docs/procedures").glob("*.md")):
        text = page.read_text("utf-8")
        before = text.split("## Before you start")[1].split("## Steps")[0]
        if "**Other hazards of this job.**" not in before:
            continue
        (line,) = [one for one in before.splitlines() if one.startswith("**Other hazards of this job.**")]
        heads = {re.sub(r"[^a-z0-9 ]", "", head.lower()).replace(" ", "-"): head
                 for head in re.findall(r"^### (.+?)(?: \{.*)?$", text, re.MULTILINE)}  # fmt: skip
        for name, anchor in re.findall(r"\[([^\]]+)\]\(#([a-z0-9-]+)\)", line):
            part = text.split(f"### {heads[anchor]}\n")[1].split("\n### ")[0]
            boxes = re.findall(r'^--8<-- "hazards/([a-z-]+)\.md"$', part, re.MULTILINE)
            texts = [Path(f"docs/_includes/hazards/{box}.md").read_text("utf-8").lower() for box in boxes]
            assert any(f"**{name.lower()}" in one for one in texts), (page.stem, name)
        steps = text.split("## Steps\n")[1].split("\n## Limits")[0]
        for box in re.findall(r'^--8<-- "hazards/([a-z-]+)\.md"$', steps, re.MULTILINE):
            here = Path(f"docs/_includes/hazards/{box}.md").read_text("utf-8").lower()
            named = re.findall(r"\[([^\]]+)\]\(#", line)
            assert any(f"**{name.lower()}" in here for name in named) or f"hazards/{box}.md" in before, (page.stem, box)
        first = re.search(r'--8<-- "hazards/([a-z-]+)\.md"', before)
        assert first is not None
        lead = Path(f"docs/_includes/hazards/{first[1]}.md").read_text("utf-8")
        # a floor turned by hand has no box of DANGER; the gas in the room could kill
        assert ("hazard-danger" in lead) or (page.stem == "floor-germination" and first[1] == "floor-room"), page.stem
