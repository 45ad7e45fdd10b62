"""Sentences that stand beside every sum about gas, vessels or lifting, written once."""

from __future__ import annotations

from ..asking.declare import Note
from ..rules.fan_stopped import AWAY

NO_ENTRY = Note(
    "danger",
    "This sum allows no entry and gives no time inside. It says nothing of the air in front of you. Nobody puts "
    "any part of the body into a vessel, pit or duct because of it. Only a competent person decides, with a "
    "permit, by local law: [[page:safety/confined-vessels|vessels, pits and gas]].",
)

FAN_STOPPED = Note(
    "danger",
    f"Fan stopped with grain inside: at once, {AWAY}. Tell the shift lead. Open nothing, and wait beside nothing. "
    "Who starts the fan again, and from where, stands in the site’s own plan.",
)
"""What is done at once. No page, card or sheet gives minutes that someone may stay beside a fan that stands."""

PROCESS_AIR = Note(
    "warning",
    "The fan of a steep, drum or box moves process air for the grain. It is never ventilation for people. "
    "Where its outlet blows, the gas could strike someone down: keep away from it.",
)

OXYGEN_METER = Note(
    "warning",
    "An oxygen meter alone could let you die: carbon dioxide poisons by itself. The usual four-gas meter "
    "does not read it. A carbon dioxide meter is needed as well: "
    "[[page:safety/carbon-dioxide|carbon dioxide]].",
)

FLOOR_ROOM = (
    "Growing grain fills a shut or low room with carbon dioxide.{} It lies at the floor, in drains "
    "and pits, and could kill. Carry a carbon dioxide alarm where the site asks for one; when it sounds, "
    "leave: [[page:safety/carbon-dioxide|where the gas lies]]."
)
"""With a blank for what makes it gather faster just now."""

DRUM = Note(
    "danger",
    "A drum starts without warning: a timer or a colleague far away turns it, and it crushes. Its air kills within "
    "a breath or two once the fan stands. Keep head, arms and feet out. Samples by the port, with the drum stopped, "
    "isolated, locked, blocked and tried: [[page:safety/machinery|machines]], "
    "[[page:safety/confined-vessels|vessels and gas]].",
)

BOX = Note(
    "danger",
    "The turner’s screws start without warning, creep along the bed, and draw in a foot or a sleeve. The air over and "
    "under the bed kills within a breath or two once the fan stands. Nobody steps on the bed. Samples from the "
    "walkway, "
    "with the turner stopped, isolated and locked: [[page:safety/machinery|machines]], "
    "[[page:safety/confined-vessels|vessels and gas]].",
)

KILN_DOOR = Note(
    "warning",
    "Kiln air and plates could burn you at a touch, and its gas could fell you. Open no door that the kiln’s rules do "
    "not name: [[page:procedures/kiln-hand-over|handing over to the kiln]].",
)
