"""What the page of gases says about each: where it comes from here, what it does, what a meter needs, what to do.

The figures in it come from ``rules.gases``; what else has a number says where it was read.
"""

from __future__ import annotations

from typing import NamedTuple

from ..asking.figures import plain_number
from ..rules.fan_stopped import AWAY
from ..rules.gases import CL2, CO, CO2, H2S, NH3, PH3, SO2, UNCONSCIOUS_PPM


class GasWords(NamedTuple):
    """One gas in words; ``sources`` are ids behind what is said of its effects."""

    name: str
    formula: str
    comes: tuple[str, ...]
    does: str
    sign: str
    meter: str
    do: tuple[str, ...]
    sources: tuple[str, ...]


WORDS: dict[str, GasWords] = {
    CO2: GasWords(
        "Carbon dioxide",
        "CO₂",
        (
            "growing and steeping grain, day and night; a drum, a steep, a box, the space under its floor",
            "damp or spoiled grain in a bin; roots and slurry in pits and drains",
            "the outlet of a suction fan; kiln gas",
        ),
        f"It poisons by itself and takes the place of air. At {plain_number(UNCONSCIOUS_PPM / 1e4)} to 10 % people are "
        "unconscious within a few minutes, and at 9 % five minutes have killed (NIOSH, read). "
        "It is half as heavy again as air and lies low.",
        "Nothing: no colour, no smell.",
        "A carbon dioxide cell **as well as** an oxygen cell. The usual four-gas meter has none for it.",
        (
            "Alarm, headache or short breath: out, by the way up, others with you.",
            f"Fan stopped with grain inside: at once, {AWAY}.",
            "Someone down: stay out, shout, call.",
        ),
        ("niosh-co2",),
    ),
    CO: GasWords(
        "Carbon monoxide",
        "CO",
        (
            "a kiln or a grain drier whose burner lacks air or whose heat exchanger leaks",
            "engines in a shed or a pit: lorries, loaders, pumps, generators",
            "grain, dust or culms that smoulder in a bin, a filter or a kiln",
        ),
        "It takes the place of oxygen in the blood. Headache, dizziness, sickness, then unconscious and dead. People "
        "think of a cold, or of a short night (from memory). It is about as heavy as air and goes everywhere.",
        "Nothing: no colour, no smell.",
        "A carbon monoxide cell, worn, and a fixed alarm where a burner or an engine runs.",
        (
            "Alarm, or two people with a headache: everybody out, count heads, call.",
            "Burners and engines off only by their switches outside, on the way. Nobody goes back to look.",
            "Whoever felt it sees a doctor the same day and says the word.",
        ),
        ("niosh-co",),
    ),
    H2S: GasWords(
        "Hydrogen sulphide",
        "H₂S",
        (
            "steep and wash water that stands: drains, sumps, channels, balance tanks, the pit of the pump",
            "sludge, wet culms and grain that rot. Stirring, pumping or hosing sets it free at once (from memory)",
        ),
        "It stops the breath. From 400 to 700 ppm people fell unconscious and died within half an hour to an hour "
        "(NIOSH, read); more does it in a few breaths (from memory). It is heavier than air and burns.",
        "Rotten eggs, at first. Then it paralyses the sense of smell (OSHA, read): a smell that goes away is no sign "
        "that the gas has gone.",
        "A hydrogen sulphide cell: the usual four-gas meter has one. At a drain below grain a carbon dioxide cell as "
        "well.",
        (
            "Smell of eggs at a drain, a pit or a tank: away, upwind, others with you. Tell the shift lead.",
            "Lift no cover, climb into no pit. Each of them is a confined space: "
            "[permit](../safety/confined-vessels.md).",
            "Nobody stands at a cover while sludge is pumped or stirred.",
        ),
        ("niosh-h2s", "osha-h2s", "scoel-h2s"),
    ),
    SO2: GasWords(
        "Sulphur dioxide",
        "SO₂",
        (
            "a kiln where sulphur is burnt under the malt",
            "fuel with sulphur in it, where its gas goes through the malt",
        ),
        "It stings and closes the throat. Who has asthma is hurt first and by the least (from memory). 400 to 500 "
        "ppm is dangerous even for a short time (NIOSH, read). Lungs can fill hours later (from memory). It is "
        "heavier than air.",
        "A sharp, choking smell, long before it is deadly. Noses get used to it.",
        "A sulphur dioxide cell of its own. The usual four-gas meter has none.",
        (
            "Sulphur is lit from outside, by those whom the site names, with the doors shut and nobody on, under or "
            "beside the kiln.",
            "Stinging eyes or throat: out, upwind. Look for others.",
            "Who coughs or wheezes sees a doctor the same day.",
        ),
        ("niosh-so2", "eu-2017-164"),
    ),
    PH3: GasWords(
        "Phosphine",
        "PH₃",
        (
            "grain that was fumigated, for days afterwards: lorry, pit, bin, steep",
            "tablets or powder of phosphide that were not spent, when water meets them",
        ),
        "Sickness, a tight chest, cough, headache and dizziness in people exposed now and then to up to 35 ppm (NIOSH, "
        "read). It kills, sometimes days later. It can catch fire by itself.",
        "Garlic or fish, in some of it. The pure gas has no smell (NIOSH, read). Smelling nothing proves nothing.",
        "A phosphine cell or tube. Your four-gas meter may not read it.",
        (
            "Ask what was done to the grain. Nobody knows: it stays on the lorry.",
            "Powder, tablets, sleeves, garlic or fish: stop, away, upwind, call. No water on it.",
            "Go to hospital and say the word: [treated grain](../safety/fumigants-and-chemicals.md#treated-grain).",
        ),
        ("niosh-ph3", "ser-limits", "phosphine-fr", "grdc-phosphine"),
    ),
    CL2: GasWords(
        "Chlorine",
        "Cl₂",
        (
            "hypochlorite that meets any acid: two cleaners, a drain, a rinsed can",
            "water treatment, where the site has it",
        ),
        "It burns eyes, throat and lungs. 30 ppm brings fits of coughing, 34 to 51 ppm have killed in an hour or "
        "more (NIOSH, read). Lungs can fill hours later (from memory). It is heavier than air and lies in pits and "
        "vessels.",
        "Greenish yellow when thick. The smell of a swimming bath, and far sharper.",
        "A chlorine cell of its own. The usual four-gas meter has none.",
        (
            "Out, upwind, uphill. Call. Nobody goes back for the can.",
            "Never mix cleaners, never pour one after the other without a rinse.",
            "Cough or burning throat: a doctor the same day, also when it has passed.",
        ),
        ("niosh-cl2",),
    ),
    NH3: GasWords(
        "Ammonia",
        "NH₃",
        (
            "the cooling plant, where ammonia is its refrigerant: plant room, coolers of the germinating air, pipes "
            "on roofs",
            "hypochlorite that meets ammonia or urine gives other choking gases",
        ),
        "It burns eyes, throat, lungs and wet skin; the liquid freezes what it touches. 2,500 to 6,000 ppm for half "
        "an hour is dangerous to life (NIOSH, in a copy). It burns and explodes from about 15 % (NIOSH, in a copy). "
        "It is lighter than air, but the cold cloud of a leak runs along the ground (from memory).",
        "Pungent, at a few parts in a million. Nobody stays in it by choice; who cannot leave dies in it.",
        "An ammonia cell, and a fixed alarm in the plant room. The usual four-gas meter has none.",
        (
            "Out, across the wind, then away from it. Call, and say ammonia.",
            "Nobody enters the plant room but those whom the law lets work on such plant.",
            "Eyes: rinse for a quarter of an hour and go on rinsing on the way to the doctor.",
        ),
        ("niosh-nh3", "eu-2000-39"),
    ),
}
