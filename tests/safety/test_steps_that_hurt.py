"""Steps in an order that hurts nobody: drum and rod, nose and vessel, lamp and dust, windows and gas, drier, lorry."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

DOCS = Path(__file__).parents[2] / "docs"
WRITTEN = sorted(DOCS.rglob("*.md")) + sorted(DOCS.rglob("*.toml"))


def read(name: str) -> str:
    return (DOCS / name).read_text("utf-8")


def steps(page: str, heading: str) -> list[str]:
    """The steps under a heading of a procedure, each with its *Look for*."""
    section = read(page).split(f"### {heading}\n", 1)[1].split("\n### ", 1)[0].split("\n## ", 1)[0]
    return [" ".join(step.split()) for step in re.split(r"^\d+\. ", section, flags=re.MULTILINE)[1:]]


def test_at_a_drum_nothing_goes_through_a_port_before_it_is_locked_again():
    first = steps("procedures/casting.md", "In a drum: the first hours")
    unlocked, again = (n for n, step in enumerate(first) if "Take off the locks" in step)
    (level,) = (n for n, step in enumerate(first) if step.startswith("Level the bed"))
    (measure,) = (n for n, step in enumerate(first) if "depth" in step)
    air = next(n for n, step in enumerate(first) if step.startswith("Bring up the air"))
    assert "fan runs low from the first grain" in first[0] and "nobody stays at a hatch" in first[0]
    assert unlocked < air < level < measure < again, "air before levelling, levelling before the rod"
    assert "behind the fence" in first[unlocked] and "nobody at the drum" in first[level]
    assert first[measure].startswith("Stop the drum. Isolate, lock, block, try. Only then")


def test_a_drum_is_blocked_wherever_it_is_locked_for_a_sample():
    said = {path: path.read_text("utf-8") for path in WRITTEN}
    said |= {path: "\n".join(texts_of(path)) for path in sorted((DOCS.parent / "calculators").rglob("*.py"))}
    found = 0
    for path, text in said.items():
        for line in text.splitlines():
            for sentence in line.replace("**", "").split("."):
                at_drum = re.search(r"\b[Dd]rum\b", sentence) and "turner" not in sentence
                if at_drum and re.search(r"\bisolated?\b.*\b(?:lock(?:ed)?|try|tried)\b", sentence):
                    found += 1
                    assert re.search(r"\bblock(?:ed|s)?\b", sentence), f"{path.name}: {sentence}"
    assert found >= 8


def test_whoever_unblocks_releases_what_is_stored_before_the_try():
    found = 0
    for path in WRITTEN:
        for line in path.read_text("utf-8").splitlines():
            if path.parent.name == "training" and line.startswith("|"):
                continue  # a plan names the six steps by their three words
            told = line.replace("**", "")
            for order in re.findall(r"(?i)\bisolate,[^.|]*\block\b[^.|]*\btr(?:y|ied)\b", told):
                found += 1
                assert re.search(r"\brelease|\bblock\b|\bstored\b", order), f"{path.name}: {line}"
    assert found >= 6


@pytest.mark.parametrize("page", ["safety/engulfment.md", "reference/what-goes-wrong.md"])
def test_nobody_is_told_to_isolate_who_is_not_authorised(page):
    for line in read(page).splitlines():
        if "isolate, lock" in line.lower():
            assert "those authorised" in line, line


def texts_of(path: Path) -> list[str]:
    """The strings of a module, each in one line."""
    tree = ast.parse(path.read_text("utf-8"))
    return [
        " ".join(node.value.split())
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    ]


@pytest.mark.parametrize("page", sorted((DOCS / "procedures").glob("*.md")), ids=lambda page: page.stem)
def test_a_rod_or_a_hand_at_a_port_has_its_lock_in_the_same_step(page):
    for step in re.split(r"^\d+\. ", page.read_text("utf-8"), flags=re.MULTILINE):
        one = " ".join(step.split("{: .look-for }")[0].split())
        for sentence in re.split(r"[.;] ", one):
            reaches = re.search(r"\b(?:rod|hand|spoon)\b.*\b(?:through|at|in) (?:the|a) port\b", sentence)
            if reaches and not sentence.startswith(("No ", "Never ")):
                assert re.search(r"\block", one), one


def test_nobody_is_sent_to_smell_into_a_vessel():
    (look, *_) = steps_of_filling()
    assert "Nobody smells into a vessel" in look and "behind the rail" in look and "sour" not in look
    for path in WRITTEN:
        assert "no sour smell" not in path.read_text("utf-8"), path
    hourly = next(step for step in steps("procedures/steeping.md", "First immersion") if "every hour" in step)
    assert "Smell only what skimmer or probe brings up" in hourly


def steps_of_filling() -> list[str]:
    section = read("procedures/filling-the-steep.md").split("## Steps\n", 1)[1].split("\n## ", 1)[0]
    return [" ".join(step.split()) for step in re.split(r"^\d+\. ", section, flags=re.MULTILINE)[1:]]


@pytest.mark.parametrize("page", ["procedures/intake-and-storage.md", "procedures/filling-the-steep.md"])
def test_a_lamp_where_there_is_dust_says_of_which_kind(page):
    said = [line for line in read(page).splitlines() if re.search(r"\blamp\b", line, re.IGNORECASE)]
    assert said
    kinds = [line for line in said if re.search(r"\blamp made (?:and marked )?for dust zones", line, re.IGNORECASE)]
    assert kinds, "the kind stands where the lamp is first named"
    if "intake" in page:
        (bin_step,) = (step for step in steps(page, "Store dry and cool") if "inspection port" in step)
        assert "made and marked for dust zones" in bin_step
        assert "no telephone, mains lamp or common torch" in bin_step


def test_whoever_shuts_windows_reads_of_the_gas_beside_it():
    shut = re.compile(r"\b(?:close|shut)s?\b(?: the)? windows?|windows?,? shut", re.IGNORECASE)
    found = 0
    for path in WRITTEN:
        for line in path.read_text("utf-8").splitlines():
            if shut.search(line):
                found += 1
                assert re.search(r"\bgas\b|\balarm\b", line, re.IGNORECASE), f"{path.relative_to(DOCS)}: {line}"
    assert found >= 5


def test_the_drier_has_its_box_of_fire_burner_gas_and_hot_parts():
    box = read("_includes/hazards/drier.md").lower()
    for word in ("warning", "fire", "carbon monoxide", "burn you", "stays with it", "emergency stop", "permit matter"):
        assert word in box
    page = read("procedures/intake-and-storage.md")
    assert page.index('"hazards/drier.md"') < page.index("### Dry without killing")
    dry = steps("procedures/intake-and-storage.md", "Dry without killing")
    assert any("Before it is lit" in step and "emergency stop" in step for step in dry)


def test_the_engine_that_drives_the_ram_is_not_ordered_off():
    for path in WRITTEN:
        assert not re.search(r"engines? off while it tips", path.read_text("utf-8"), re.IGNORECASE), path
    page = read("safety/lorries-and-pits.md")
    tip = next(line for line in page.splitlines() if re.match(r"\d\. The driver tips", line))
    assert "stays at the controls until the body is down" in tip and "the engine drives the ram" in tip
    assert "behind or beside" in tip and "hse-tipping" in page
    assert page.index("Sample from a platform") < page.index("The driver tips"), "samples are taken before it tips"


def test_the_box_of_the_screws_stands_before_the_first_run_of_the_turner():
    page = read("procedures/box-germination.md")
    assert page.index("hazards/box-screws.md") < page.index("one run of the turner")
    look, *_, level, _moisture = steps("procedures/box-germination.md", "Load the box")
    assert "parked, isolated, locked and tried" in look
    assert "Take off the locks, each person their own." in level and "Count the people" in level


def test_the_suction_fan_is_locked_before_anybody_looks_into_its_duct():
    steep = steps("procedures/between-batches.md", "The steep")
    (locked,) = (
        n
        for n, step in enumerate(steep)
        if "stop the suction fan. Isolate and lock them all, release what is stored, and try" in step
    )
    (duct,) = (n for n, step in enumerate(steep) if "suction duct" in step)
    assert locked < duct


def test_people_and_tools_are_counted_and_the_hatch_shut_before_an_empty_drum_is_turned():
    drum = steps("procedures/between-batches.md", "The drum")
    (unlocked,) = (n for n, step in enumerate(drum) if "Take off the locks, each person their own." in step)
    (turned,) = (n for n, step in enumerate(drum) if step.startswith("Turn it once"))
    assert unlocked < turned
    before = drum[unlocked]
    assert before.index("tools away") < before.index("Shut hatch and ports") < before.index("Take off the locks")
    assert "all people counted" in before


AFTER_HANDS = [
    ("procedures/casting.md", "In a drum: the first hours", 2),
    ("procedures/casting.md", "Into a box: the first hours", 2),
    ("procedures/drum-germination.md", "Take a sample", 1),
    ("procedures/box-germination.md", "Load the box", 1),
    ("procedures/box-germination.md", "Take a sample", 1),
    ("procedures/between-batches.md", "The drum", 1),
]


@pytest.mark.parametrize(("page", "heading", "times"), AFTER_HANDS)
def test_a_machine_that_hands_were_at_goes_back_in_one_order(page, heading, times):
    back = [step for step in steps(page, heading) if re.search(r"Take off (?:the locks|your lock)", step)]
    assert len(back) == times
    at_a_drum = "drum" in heading or "drum" in page
    for step in back:
        order = [r"(?:out|away)\b[^.]*\.", *([r"(?i:shut)"] if at_a_drum else []), "Count the people"]
        order += [*(["Take out the block"] if at_a_drum else []), "Take off (?:the locks, each|your lock)", "Call out"]
        places = [re.search(one, step) for one in order]
        assert all(places), (order, step)
        starts = [place.start() for place in places if place]
        assert starts == sorted(starts), step


def test_the_page_of_machines_gives_the_order_back():
    (after,) = (
        line for line in read("safety/machinery.md").splitlines() if line.startswith("Afterwards, in this order")
    )
    words = ("tools out", "ports and guards shut", "people counted", "blocks out", "their own lock", "Call out")
    assert [after.index(word) for word in words] == sorted(after.index(word) for word in words)


def test_no_water_runs_into_a_steep_before_people_are_counted_and_the_last_locks_are_off():
    first = steps("procedures/filling-the-steep.md", "Look, and run water in")
    (counted,) = (n for n, step in enumerate(first) if step.startswith("Count the people"))
    (water,) = (n for n, step in enumerate(first) if step.startswith("Run in water"))
    assert counted < water
    assert "no permit for this vessel is open" in first[counted] and "stops the filling" in first[counted]


def test_the_windows_are_open_before_the_cleaner_is_put_on():
    (put_on,) = (
        step for step in steps("procedures/between-batches.md", "The floor") if "put on the one cleaner" in step
    )
    assert put_on.index("open the windows first") < put_on.index("put on the one cleaner")


def test_what_is_mouldy_is_damped_before_it_is_swept():
    (first,) = (step for step in steps("procedures/between-batches.md", "The floor") if "before you sweep" in step)
    assert 0 <= first.index("damped first") < first.index("Then sweep")


def test_nobody_is_sent_to_smell_at_a_port_of_a_bin_or_at_a_foreign_load():
    first = steps("procedures/store-through-the-year.md", "The weekly round")[0]
    assert "a step away" in first and "Nobody holds the nose to a port" in first
    entry = read("reference/what-goes-wrong.md").split("{#musty-load}", 1)[1].split("\n### ", 1)[0]
    assert "Smell a handful" not in entry and "stop, leave, upwind, call" in entry


def test_lumps_are_broken_before_the_conveyor():
    (lumps,) = (step for step in steps("procedures/kiln-hand-over.md", "Load") if step.startswith("Break the lumps"))
    assert "before the conveyor. Never on it or in the chute" in lumps


def test_people_go_before_the_grain_when_a_blower_stops():
    entry = read("reference/what-goes-wrong.md").split("{#blower-off}", 1)[1].split("\n### ", 1)[0]
    assert entry.index("everybody away") < entry.index("drain")


def test_no_session_has_a_sack_lifted_that_is_over_the_filter_for_everybody():
    assert "nobody lifts it" in read("training/session-13-lifting.md").split("## Show", 1)[1].split("\n## ", 1)[0]
    assert "nobody lifts them" in read("training/session-02-intake.md").split("## Prepare", 1)[1].split("\n## ", 1)[0]


@pytest.mark.parametrize(
    ("page", "heading"),
    [
        ("procedures/floor-germination.md", "Each round"),
        ("procedures/drum-germination.md", "Each round"),
        ("procedures/box-germination.md", "Each round"),
        ("procedures/between-batches.md", "The floor"),
    ],
)
def test_who_comes_to_the_germinating_room_stops_at_its_door_first(page, heading):
    text = read(page)
    assert steps(page, heading)[0].startswith("Stop at the door. Look at the room's gas alarm")
    assert "stay out and tell the shift lead" in steps(page, heading)[0]
    wear = next(line for line in text.splitlines() if line.startswith("**Wear.**"))
    assert re.search(r"gas alarm with a \**carbon dioxide\** cell", wear, re.IGNORECASE)
    assert '"hazards/floor-room.md"' in text
    named = next(line for line in text.splitlines() if line.startswith("**Other hazards of this job.**"))
    opened = text.split("**Other hazards", 1)[0]
    assert "carbon dioxide in the germinating room" in named or '"hazards/floor-room.md"' in opened
