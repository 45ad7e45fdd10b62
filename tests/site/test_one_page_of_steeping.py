"""The page to hang up says what the long page says: every part of the work, with the numbers that it has there."""

from __future__ import annotations

import re
from pathlib import Path

LONG = Path("docs/procedures/steeping.md").read_text("utf-8")
SHORT = Path("docs/reference/steeping-on-one-page.md").read_text("utf-8")
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


def test_the_rows_follow_the_parts_and_their_numbers():
    lines = [line.replace("&#8288;", "") for line in SHORT.splitlines() if re.match(r"\| \d", line)]
    rows = [line.split("|")[1].strip() for line in lines]
    wanted = [f"{low}–{high}" if low != high else str(low) for low, high in parts().values()]
    assert rows == wanted


def test_numbers_go_on_through_the_page():
    assert ".md-typeset { counter-reset: step; }" in STYLE
    assert not re.search(r"\.steps > ol[^{]*\{[^}]*counter-reset", STYLE)


def test_what_kills_and_the_limits_are_not_typed_again():
    assert '--8<-- "hazards/vessel.md"' in SHORT and "do not follow" in SHORT
    for limit in ("rest-temp", "first-drain-moisture", "second-drain-moisture", "chit-last-dip", "immersion-hours"):
        assert f"[[limit:{limit} " in SHORT


def test_the_long_page_opens_on_the_work_and_leads_to_the_short_one():
    top = LONG.split("## Purpose")[0]
    for head in parts():
        anchor = head.lower().replace(" ", "-")
        assert f"(#{anchor})" in top or head == "Steep effluent"
    assert "(../reference/steeping-on-one-page.md)" in top


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
        first = re.search(r'--8<-- "hazards/([a-z-]+)\.md"', before)
        assert first is not None
        lead = Path(f"docs/_includes/hazards/{first[1]}.md").read_text("utf-8")
        # a floor turned by hand has no box of DANGER; the gas in the room could kill
        assert ("hazard-danger" in lead) or (page.stem == "floor-germination" and first[1] == "floor-room"), page.stem
