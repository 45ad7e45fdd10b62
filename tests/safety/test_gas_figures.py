"""Every figure about gas comes from one function, the soonest first, and nobody is given minutes beside a fan."""

from __future__ import annotations

import re
from pathlib import Path

import markdown
import pytest
from pymdownx.superfences import SuperFencesException

from calculators.models.gas import shut_vessel
from calculators.plates import gas
from calculators.rules import gases
from calculators.sources import SOURCES
from calculators.words.gas import STAGES, minutes_words
from site_src.facts import fill_facts
from site_src.gas_pages import gas_lines
from site_src.limits_table import limit_lines
from tests.safety.phrases import waiting
from tests.sheets.ask import ask

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
READ = [*sorted(DOCS.rglob("*.md")), *sorted(DOCS.rglob("*.toml")), *sorted((ROOT / "calculators").rglob("*.py"))]


@pytest.mark.parametrize(
    "text",
    [
        "| Fan stopped with grain in | — | up to 10 min | longer; and **nobody at a hatch** |",
        "| Grain in the drum without air after filling | — | up to 10 min | over 10 min |",
        "- Fan stopped with grain in: 10 minutes to watch, and nobody at a hatch.",
        "### The fan has stopped\n\n- **Do now** Tell the shift lead. Over 10 minutes: stop and ask.",
        "When the suction stops, wait ten minutes.",
    ],
)
def test_it_catches_minutes_beside_a_fan_that_stands(text):
    assert waiting(text)


@pytest.mark.parametrize(
    "text",
    [
        "| Fan stopped with grain in | — | — | **at once: everybody away from the hatches** |",
        "| Drain | 30–60 min | 60–90 min | over 90 min |",
        "The fan runs for 20 minutes before the first test.",
        "Rinse for 15 minutes. Stop the conveyor.",
    ],
)
def test_it_lets_other_minutes_stand(text):
    assert waiting(text) == []


@pytest.mark.parametrize("path", READ, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_page_case_or_sheet_gives_minutes_to_watch_or_wait_beside_a_fan(path):
    assert waiting(path.read_text("utf-8")) == []


AT_ONCE = re.compile(r"at once[:,*]*\s+\**everybody away from (?:the )?hatches, ducts(?: and|,) (?:the )?drains", re.I)


@pytest.mark.parametrize(
    "page",
    [
        *("procedures/drum-germination", "procedures/casting", "training/session-09-drum", "reference/what-goes-wrong"),
        *("safety/emergency", "safety/carbon-dioxide", "calculators/gas-build-up"),
    ],
)
def test_where_a_fan_stops_the_page_says_what_is_done_at_once(page):
    text = (DOCS / f"{page}.md").read_text("utf-8")
    if "```limits" in text:
        table = "\n".join(limit_lines(page.rsplit("/", 1)[-1]))
        assert AT_ONCE.search(table) and waiting(table) == []
        text += table
    assert AT_ONCE.search(text)


def test_pages_and_sheet_say_the_same_minutes():
    told = ask("gas-build-up")
    minutes = told["answers"]["minutes_to_idlh"]["value"]
    assert fill_facts("[[gas:danger-soonest]]") == minutes_words(minutes) == f"{int(minutes)} minutes"
    shown = [(float(row[2]), float(row[3])) for row in told["tables"]["limits"]["rows"]]
    drawn = [(float(row[0]), float(row[1])) for row in gas.shut_drum_times().rows]
    assert drawn == [(round(soonest, 1), round(when, 1)) for soonest, when in shown]
    assert [row[3] for row in gas.shut_drum_times().rows] == [row[0] for row in told["tables"]["limits"]["rows"]]


def test_the_picture_leads_with_the_soonest_case():
    chart = gas.shut_drum()
    assert chart.lines[0].label == "soonest case"
    assert chart.summary.startswith(fill_facts("[[gas:danger-soonest]]").capitalize())
    crossing = next(x for x, y in zip(chart.lines[0].xs, chart.lines[0].ys, strict=True) if y >= 4)
    assert crossing == pytest.approx(ask("gas-build-up")["answers"]["minutes_to_idlh"]["value"], abs=0.51)


def test_minutes_are_never_said_later_than_they_are():
    assert [minutes_words(value) for value in (0.99, 1.0, 1.99, 4.99)] == [
        "less than a minute",
        "1 minute",
        "1 minute",
        "4 minutes",
    ]


# Minutes that are published, and stand beside their source; and those of a sum, the mean over a shift.
_PUBLISHED = re.compile(
    r"÷ 480 minutes|210 minutes|30 minutes|5 minutes|15 minutes|15-minute|a few minutes|within minutes|five minutes",
    re.I,
)


@pytest.mark.parametrize("page", ["safety/carbon-dioxide", "safety/confined-vessels", "calculators/gas-build-up"])
def test_no_minutes_of_the_shut_drum_are_typed_by_hand(page):
    text = _PUBLISHED.sub("", (DOCS / f"{page}.md").read_text("utf-8"))
    assert re.findall(r"\b(?:\d+|four|nine|eleven|twelve)\s*(?:min|minutes)\b", text, re.IGNORECASE) == []
    assert re.search(r"\[\[gas:danger-soonest\]\]|```figure\nshut-drum", text)


def test_what_an_oxygen_meter_shows_is_computed():
    (used, danger, pushed) = gas.oxygen_meter().rows
    assert used == ("1.4 %", "19.5 %: the alarm sounds", "20.6 %: silent")
    assert danger[2] == "20.1 %: silent"
    assert pushed[0].startswith("6.7 %") and pushed[2] == "19.5 %: the alarm sounds"


def test_an_unknown_figure_stops_the_build():
    with pytest.raises(LookupError, match="No figure about gas “danger-latest”"):
        fill_facts("After [[gas:danger-latest]].")
    with pytest.raises(SuperFencesException, match="danger-latest"):
        markdown.markdown("After [[gas:danger-latest]].", extensions=["site_src.embed"])


NAMING = [path for path in READ if "[[gas:" in path.read_text("utf-8")]


@pytest.mark.parametrize("path", NAMING, ids=lambda path: path.stem)
def test_every_figure_named_in_a_text_is_known(path):
    assert "[[gas:" not in fill_facts(path.read_text("utf-8"))


def test_the_drawing_of_effects_has_the_values_of_the_one_table():
    text = re.sub(r"<[^>]+>", "\n", (DOCS / "_includes" / "drawings" / "co2-effects.svg").read_text("utf-8"))
    lines = [line.strip() for line in text.splitlines() if line.strip()]

    def beside(percent: str) -> str:
        return lines[len(lines) - lines[::-1].index(percent)]  # the scale itself stands first

    values = {stage.id: f"{stage.ppm / 1e4:g} %" for stage in STAGES}
    assert beside(values["day"]) == "limit for the mean of a day"
    assert beside(values["ceiling"]) == "strictest ceiling: leave"
    assert beside(values["uk-short"]) == "UK limit, 15 minutes"
    assert beside(values["us-short"]) == "US short-term limit"
    assert beside(values["danger"]) == "dangerous to life at once"


def test_the_page_of_gases_draws_every_value_and_names_its_sources():
    text = "\n".join(gas_lines())
    for limit in gases.LIMITS:
        assert f"| {limit.ppm:,.10g} |" in text and f"reference/sources#{limit.source}" in text
        assert f"| {limit.how_read} |" in text
    page = (DOCS / "safety" / "gases.md").read_text("utf-8")
    listed = page.split("```sources\n")[1].split("```")[0].split()
    assert {limit.source for limit in gases.LIMITS} <= set(listed) <= set(SOURCES)


@pytest.mark.parametrize("page", ["calculators/steep-oxygen", "calculators/gas-build-up", "safety/carbon-dioxide"])
def test_gas_and_oxygen_of_a_steep_are_said_to_follow_from_one_law(page):
    text = fill_facts((DOCS / f"{page}.md").read_text("utf-8"))
    assert "reference/living-batch.md#breathing-one-rate" in text
    assert "times the breathing" not in text and "do not agree" not in text


def test_both_pages_name_the_oxygen_that_the_sheet_reckons_with():
    law = ask("steep-oxygen", water_temp_c="14", immersion="third")["answers"]["uptake_used_mg_kg_h"]
    for page in ("calculators/steep-oxygen", "calculators/gas-build-up"):
        text = fill_facts((DOCS / f"{page}.md").read_text("utf-8"))
        assert f"{law['value']:.0f} mg" in text and f"{law['high']:.0f} mg" in text


@pytest.mark.site
def test_the_built_pages_show_the_minutes_of_the_sheet(built_site):
    soonest = shut_vessel.shut(**gas.DRUM).minutes_until(40_000)[0] or 0
    for page in ("safety/carbon-dioxide", "safety/confined-vessels", "procedures/drum-germination"):
        text = (built_site / page / "index.html").read_text("utf-8")
        assert "[[gas" not in text
        assert "soonest case" in text and f"{int(soonest)} minutes" in text
