"""What the pages of the practice batch are built with: the learner's frame, the trainer's, and runs written out."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from xml.etree.ElementTree import Element

from ..drawing.elements import add, html
from ..house import here
from .brought import listed
from .faults import BELOW, FAULTS, LETTERS
from .good_hand import next_step
from .hidden import SEASON_C
from .kinds import MODEL
from .moves import MOST_CHARACTERS, as_text, read_moves
from .page import draw_scene
from .pieces import LEVELS, PIECES
from .play import play, run_of
from .players import run_on
from .run import clock
from .setting import DIFFERENCES, MAY_STAND, SEASONS, SPANS, TARGETS, WARMEST, WATERS, WORDS, read_setting

NEEDS = ("psychrolib",)
"""What the hidden world works with in the browser, beside its Python."""
FIRST_NUMBER, FIRST_LEVEL = 7, "1a"
BLANK_LINES = 24


def embed(body: str) -> str:
    """Give the HTML of a block: ``learner``, ``trainer``, ``blank-book`` or ``run`` with its values.

    Parameters
    ----------
    body : str
        One of the words; after ``run`` stand ``number=``, ``level=``, ``faults=``, ``ends=`` and ``moves=`` (a run as
        :func:`.play.play` has it, or ``good`` for the good hand's own).

    Raises
    ------
    ValueError
        When it is none of these, or a run that is written out does not end as it says.
    """
    words = body.split()
    frames = {"learner": _learner, "trainer": _trainer, "blank-book": _blank_book}
    if len(words) == 1 and words[0] in frames:
        return html(frames[words[0]]())
    if words[:1] != ["run"]:
        raise ValueError(f"{body.strip()!r} is none of {', '.join(frames)} and run")
    given = dict(word.partition("=")[::2] for word in words[1:])
    return html(_written(given))


def _field(parent: Element, name: str, label: str, hint: str = "", **more: str) -> Element:
    field = add(parent, "div", "field")
    add(field, "label", text=label, for_=f"practice-{name}")
    if hint:
        add(field, "p", "hint", text=hint, id=f"practice-{name}-hint")
        more["aria_describedby"] = f"practice-{name}-hint"
    box = add(field, "div", "box")
    add(box, "input", id=f"practice-{name}", name=name, type="text", autocomplete="off", **more)
    return field


def _choose(parent: Element, name: str, label: str, options: Sequence[tuple[str, str]]) -> None:
    field = add(parent, "div", "field")
    add(field, "label", text=label, for_=f"practice-{name}")
    choices = add(add(field, "div", "box"), "select", id=f"practice-{name}", name=name)
    for value, words in options:
        add(choices, "option", value=value, text=words)


def _levels(parent: Element) -> None:
    field = add(parent, "div", "field")
    add(field, "label", text="What is run", for_="practice-level")
    choices = add(add(field, "div", "box"), "select", id="practice-level", name="level")
    for level in ("1", "2", "0"):
        group = add(choices, "optgroup", label=LEVELS[int(level)])
        for piece in PIECES:
            add(group, "option", value=f"{level}{piece.letter}", text=piece.title)
    group = add(choices, "optgroup", label="A whole batch")
    for level in ("0", "3", "4", "5"):
        add(group, "option", value=level, text=LEVELS[int(level)])


def _waters(form: Element) -> None:
    """The waters of this house by name, behind the seasons; one that no run can be played in is shown and not taken."""
    choices = next(one for one in form.iter("select") if one.get("name") == "season")
    low, high = WATERS
    for one in here.entries("water"):
        if "temp_c" in one:
            at = round(float(one["temp_c"]), 1)
            words = f"This house, {one['name']}: water at {at:g} °C"
            if low <= at <= high:
                add(choices, "option", value=f"c{at:g}", text=words)
            else:
                beyond = f"{words}. It is played from {low:g} to {high:g} °C"
                add(choices, "option", value="", disabled="", text=beyond)


def _learner() -> Element:
    section = Element("section", {
        "class": "practice", "data-practice": "learner", "data-needs": " ".join(NEEDS), "data-model": MODEL,
        "data-most-moves": str(MOST_CHARACTERS),
        "data-first-number": str(FIRST_NUMBER), "data-first-level": FIRST_LEVEL,
        "aria-label": "Practice batch", "data-search-exclude": "",
    })  # fmt: skip
    add(
        add(section, "noscript"), "p",
        text="Without scripts no run goes on: the scene below stands still. The written-out runs can be read.",
    )  # fmt: skip
    add(section, "div", "practice-returned", data_place="returned", hidden="")
    stage = add(section, "div", "practice-stage", data_place="stage")
    add(stage, "p", "practice-team", data_place="team", hidden="")
    scene = add(stage, "div", data_place="scene", tabindex="-1", role="group", aria_label="The scene")
    scene.append(draw_scene(play(FIRST_NUMBER, FIRST_LEVEL, "", "").scene, "../../"))
    for button in scene.iter("button"):  # no tap is heard before the script has come, and it lifts this
        button.set("disabled", "")
    add(stage, "p", "practice-note", data_place="note", role="status", text="One moment: the page is loading.")
    votes = add(stage, "form", "practice-votes", data_place="votes", hidden="", novalidate="", autocomplete="off")
    _field(votes, "votes", "Votes", "As A4 B2 C1: letter and hands.")
    add(votes, "button", text="Do what most want", type="submit")
    tools = add(stage, "div", "practice-tools sheet-buttons", data_place="tools", hidden="")
    for action, words in (
        ("projector", "On the projector"), ("teams", "Two teams"), ("pause", "Pause"),
        ("bring", "Something happens now"), ("reveal", "Reveal"), ("code", "Code for the next learner"),
    ):  # fmt: skip
        hidden = {"hidden": ""} if action in ("bring", "reveal", "code") else {}
        add(tools, "button", type="button", data_action=action, text=words, **hidden)
    which = add(stage, "div", "practice-which", data_place="which", hidden="")
    _field(which, "which", "What happens, by its number on the key", "Blank has one drawn.", inputmode="numeric")
    add(stage, "div", "practice-handed", data_place="handed", role="status")
    ended = add(stage, "div", "practice-after sheet-buttons", data_place="after", hidden="")
    add(ended, "button", type="button", data_action="debrief", text="Where it parted, and where to go back to")
    add(ended, "button", type="button", data_action="again", text="Begin it again")
    add(section, "p", "sheet-voice", data_place="say", role="status", aria_live="polite", aria_atomic="true")
    add(
        section, "div", "practice-debrief-place", data_place="debrief", tabindex="-1", role="group",
        aria_label="Debrief",
    )  # fmt: skip
    sentence = add(section, "form", "practice-sentence", data_place="sentence", hidden="", novalidate="")
    field = _field(sentence, "sentence", "One sentence: what I will do next time", maxlength="200")
    add(field, "p", "hint", text="It stays on this device and comes back here in a week.")
    add(sentence, "button", text="Keep it", type="submit")
    book = add(section, "details", "practice-shut")
    add(book, "summary", text="The practice book")
    add(book, "div", data_place="book")
    keep = add(book, "div", "sheet-buttons")
    for action, words in (
        ("print", "Print this run"), ("link", "Link to this run"), ("file", "Save this run as a file"),
    ):  # fmt: skip
        add(keep, "button", type="button", data_action=action, text=words)
    add(book, "p", "practice-note", data_place="kept", role="status")
    begin = add(section, "details", "practice-shut", data_place="other-runs")
    add(begin, "summary", text="Begin a run, or go on with another")
    form = add(begin, "form", "practice-begin sheet-form", data_place="begin", novalidate="", autocomplete="off")
    _levels(form)
    _field(form, "number", "Number of the barley", "1 to 999999. Blank draws one.", inputmode="numeric")
    hint = "Such as k7d, or k7d.august_drum. Blank if you have none."
    known = {"letters": LETTERS, "below": BELOW, "words": WORDS, "spans": SPANS, "may": MAY_STAND}
    _field(form, "faults", "Code from the trainer", hint, maxlength="84", data_known=json.dumps(known))
    add(form, "button", "main-button", text="Begin", type="submit")
    add(begin, "p", "practice-note", data_place="wrong", role="status")
    add(begin, "div", data_place="runs")
    return section


def _trainer() -> Element:
    section = Element("section", {
        "class": "practice", "data-practice": "trainer", "data-needs": " ".join(NEEDS),
        "data-most-moves": str(MOST_CHARACTERS),
        "aria-label": "For the trainer", "data-search-exclude": "",
    })  # fmt: skip
    add(add(section, "noscript"), "p", text="Without scripts no link can be made here.")
    add(section, "p", "practice-model", MODEL)
    form = add(section, "form", "practice-set sheet-form", data_place="set", novalidate="", autocomplete="off")
    _levels(form)
    _field(form, "number", "Number of the barley", "1 to 999999. Blank draws one.", inputmode="numeric")
    seasons = [
        (name, f"{words[0].upper()}{words[1:]}, water at {SEASON_C[name][0]:g} °C") for name, words in SEASONS.items()
    ]
    _choose(form, "season", "Season", seasons)
    _waters(form)
    _choose(form, "vessel", "Where it germinates", [("", "On the floor"), ("drum", "In the drum")])
    house = add(form, "fieldset", "field")
    add(house, "legend", text="Your house’s limits: blank leaves those of this handbook")
    for name, label, (low, high), unit in (
        ("t", "Moisture wanted at the cast", TARGETS, "%"),
        ("d", "Most between bottom and top", DIFFERENCES, "K"),
        ("w", "Warmest piece on the whole", WARMEST, "°C"),
    ):
        _field(
            house, f"limit-{name}", f"{label}, {unit}", f"{low:g} to {high:g} {unit}.", inputmode="decimal",
            data_low=f"{low:g}", data_high=f"{high:g}",
        )  # fmt: skip
    _choose(
        form, "wrong", "What is wrong in it",
        [("none", "Nothing"), ("drawn", "The number draws it"), ("chosen", "I choose below")],
    )  # fmt: skip
    chosen = add(form, "fieldset", "field", data_place="chosen")
    add(chosen, "legend", text="Faults")
    for fault in FAULTS:
        line = add(chosen, "label", "choice")
        add(line, "input", type="checkbox", name="fault", value=fault.name)
        add(line, "span", text=fault.chosen or fault.words)
    add(form, "button", "main-button", text="Make link and code", type="submit")
    add(section, "p", "practice-note", data_place="note", role="status")
    made = add(section, "div", "practice-made", data_place="made", hidden="")
    add(made, "p", data_place="set-words")
    add(made, "p", "code-link", data_place="link")
    add(made, "div", data_place="code")
    buttons = add(made, "div", "sheet-buttons")
    for action, words in (
        ("open", "Open it here"), ("papers", "Print the blank book and the questions"), ("print-key", "Print the key"),
    ):  # fmt: skip
        add(buttons, "button", type="button", data_action=action, text=words)
    key = add(made, "details", "practice-shut practice-key")
    add(key, "summary", text="The key of this run: learners have not seen it")
    add(key, "div", data_place="key")
    add(key, "p", text="To bring something in while it is played: type its number on the projector.")
    numbers = add(key, "ol")
    for words in listed():
        add(numbers, "li", text=words)
    files = add(section, "form", "practice-files", data_place="files", novalidate="")
    add(files, "h2", text="Learners’ files side by side")
    field = add(files, "div", "field")
    add(field, "label", text="Files of runs", for_="practice-read")
    hint = "practice-read-hint"
    add(field, "p", "hint", text="Two to twelve, of one number. They are read here and not kept.", id=hint)
    add(field, "input", id="practice-read", type="file", accept=".json", multiple="", aria_describedby=hint)
    add(section, "p", "practice-note", data_place="files-note", role="status")
    add(section, "div", data_place="side")
    return section


def _blank_book() -> Element:
    box = Element("div", {"class": "practice-blank"})
    add(box, "p", text="Practice book. Invented: not for the day-book, not for a sign-off.")
    add(box, "p", text="Number __________  What is run ________________  Name __________________  Date ____________")
    table = add(box, "table")
    row = add(add(table, "thead"), "tr")
    for heading in ("Day, time", "I expect", "I read", "I do, and why"):
        add(row, "th", text=heading, scope="col")
    body = add(table, "tbody")
    for _ in range(BLANK_LINES):
        row = add(body, "tr")
        for _ in range(4):
            add(row, "td", text="\u00a0")
    return box


def _written(given: Mapping[str, str]) -> Element:
    number, level, faults = int(given["number"]), given["level"], given.get("faults", "none")
    moves, setting = given["moves"], given.get("setting", "")
    if moves == "good":
        begun, _, _ = run_of(number, level, faults, [], read_setting(setting))
        moves = "-".join(step.move for step in run_on(begun, next_step)[1])
    played = play(number, level, faults, moves, setting=setting, debrief=True)
    if played.scene.ended != given["ends"]:
        raise ValueError(f"the run of number {number} ends {played.scene.ended!r}, not {given['ends']!r}")
    box = Element("section", {"class": "practice-written", "data-search-exclude": ""})
    add(box, "p", "practice-model", MODEL)
    table = add(box, "table")
    row = add(add(table, "thead"), "tr")
    for heading in ("When", "What was seen", "What was done then"):
        add(row, "th", text=heading, scope="col")
    body = add(table, "tbody")
    taken = read_moves(played.moves)[0]
    for count, move in enumerate(taken):
        scene = play(number, level, faults, as_text(taken[:count]), setting=setting).scene
        offer = next((one for one in scene.offers if one.code == move.code), None)
        words = offer.words if offer else move.text
        if move.expected is not None and offer and offer.ask:
            words += f", expecting {move.expected:g} {offer.ask.unit}"
        elif move.number is not None and offer and offer.number:
            words += f": {move.number:g} {offer.number.unit}".rstrip()
        _row(body, scene.minute, scene.see, words)
    _row(body, played.scene.minute, played.scene.see, "The end.")
    if played.debrief:
        for said in (played.debrief.people, played.debrief.grain, played.debrief.book, played.debrief.guessing):
            add(box, "p", text=said)
    set_to = f"&setting={setting}" if setting else ""
    link = f"number={number}&level={level}&faults={faults}{set_to}&moves={played.moves}"
    if len(link) < 3000:
        add(add(box, "p"), "a", text="Open this run where it ended", href=f"../practice-batch/?{link}")
    return box


def _row(body: Element, minute: int, seen: str, done: str) -> None:
    row = add(body, "tr")
    for cell in (clock(minute), seen, done):
        add(row, "td", text=cell)
