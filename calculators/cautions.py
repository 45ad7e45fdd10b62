"""Sentences that stand beside every sum about gas, vessels or lifting, written once."""

from __future__ import annotations

from .declare import Note

NO_ENTRY = Note(
    "danger",
    "This sum allows no entry and gives no time inside. It says nothing of the air in front of you. Nobody puts "
    "any part of the body into a vessel, pit or duct because of it. Only a competent person decides, with a "
    "permit, by local law: [[page:safety/confined-vessels|vessels, pits and gas]].",
)

PROCESS_AIR = Note(
    "warning",
    "The fan of a steep or drum moves process air for the grain. It is never ventilation for people. "
    "Where its outlet blows, the gas could strike someone down: keep away from it.",
)

OXYGEN_METER = Note(
    "warning",
    "An oxygen meter alone could let you die: carbon dioxide poisons by itself. The usual four-gas meter "
    "does not read it. A carbon dioxide meter is needed as well: "
    "[[page:safety/carbon-dioxide|carbon dioxide]].",
)
