"""Random play: short runs of what is offered, with nonsense and hostile text between."""

from __future__ import annotations

import json
from random import Random

from calculators.page import respond
from calculators.practice.kinds import Played
from calculators.practice.moves import CODES
from calculators.practice.play import play
from tests.safety.phrases import faults, shown

LEVELS = ["0", "3", "4", "5", "0c", *(f"{rank}{letter}" for rank in (1, 2) for letter in "abcdefg")]
SETTINGS = ["", "", "drum", "winter", "august_drum_t44_d3_w16", "t99_<b>_x", "drum_floor_drum"]
NONSENSE = ["", "zz", "wa", "wa999999", "xx", "xo", "ho_zz", "ho_tua", "ho_tuo99.9_dra0", "BD", "bd~", "bd~999", "cf0"]
NONSENSE += [
    "ut9999",
    "us",
    "<b>",
    "é",
    "bd~33_0",
    "sp1000",
    "tu0.01",
    "9" * 50,
    "..",
    "ld",
    "cd",
    "\x00",
    "wa5~3",
    "bi",
    "bi3",
    "bi12",
    "bi99",
]


def move(random: Random, played: Played) -> str:
    """One move: mostly something offered, sometimes any code, sometimes nonsense."""
    if random.random() < 0.08:
        return random.choice(NONSENSE)
    if random.random() < 0.1 or not played.scene.offers:
        return random.choice(sorted(CODES)) + random.choice(["", "5", "30", "600", "22"])
    offer = random.choice(played.scene.offers)
    if offer.code == "ho":
        return random.choice(["ho", "ho_tua4_tuo19", "ho_dra6", "ho_sfo17_wea2"])
    text = offer.code
    if offer.number and (offer.code in ("wa", "ut", "pm") or random.random() < 0.5):
        text += f"{random.uniform(offer.number.low, offer.number.high):.0f}"
    if offer.ask and random.random() < 0.5:
        text += f"~{random.uniform(offer.ask.low, offer.ask.high):.1f}"
    return text


def short_run(seed: int, most: int = 14, whole_page: bool = False) -> Played:
    """One short run from a seed, looked at after each move; every text it shows is read."""
    random = Random(seed)
    number, level = random.randrange(1, 10_000), random.choice(LEVELS)
    wrong = random.choice(["", "none", "tare,ring", "headache,alarm,fallen", "late-kiln", "x;y"])
    moves, setting = "", random.choice(SETTINGS)
    played = play(number, level, wrong, moves, setting=setting, debrief=False)
    for _ in range(random.randrange(1, most)):
        moves = f"{moves}-{move(random, played)}" if moves else move(random, played)
        played = play(number, level, wrong, moves, setting=setting, debrief=False)
        looked_at(played)
        moves = played.moves if random.random() < 0.8 else moves
    if whole_page:
        asked = {"number": number, "level": level, "faults": wrong, "moves": moves, "setting": setting, "debrief": True}
        reply = json.loads(respond(json.dumps({"practice": asked, "root": "../"})))
        said = "\n\n".join([*map(shown, reply["places"].values()), reply["say"]])
        assert faults(said) == [], (number, level, wrong, moves)
        assert "<b>" not in "".join(reply["places"].values())
    return played


def looked_at(played: Played) -> None:
    """What holds for every scene."""
    scene = played.scene
    assert scene.clock and scene.place and scene.see
    assert len(scene.see.split()) < 60, scene.see
    assert bool(scene.offers) != bool(scene.ended), scene
    assert faults(" ".join([scene.see, scene.prompt, *(offer.words for offer in scene.offers)])) == [], scene.see
    if not scene.ended and len(scene.offers) > 1:
        assert sum(offer.big for offer in scene.offers) in (1, 2), scene.offers
