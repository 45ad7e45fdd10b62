"""The checks of barley at the gate: how each is asked, and how the verdict and its lines are said."""

from __future__ import annotations

from typing import NamedTuple

from ..asking.declare import AskAgain, Note
from ..asking.figures import plain_number
from ..asking.units import shown
from ..rules.intake import (
    CERTIFICATE,
    FIGURES,
    FOREIGN,
    NO_CERTIFICATE,
    NOBODY_KNOWS,
    Germination,
    Line,
    Signs,
    Verdict,
    first_stops,
)
from ..rules.limit import edge
from ..rules.limits.germination_test import CAPACITY, ENERGY
from ..rules.limits.intake_and_storage import ERGOT, GATE_MOISTURE, GATE_TEMP, STORE_MOISTURE
from ..rules.lines import passed
from .limits import book_of, limit_notes


class Check(NamedTuple):
    """How a figure is asked that is held against one upper limit of the house."""

    id: str
    label: str
    unit: str
    low: float
    high: float
    hint: str
    example: str
    source: str

    @property
    def limit(self) -> str:
        """The stop of the table of limits, as it is typed; the house's own replaces it."""
        return plain_number(edge(FIGURES[self.id].stop_high))


CHECKS = (
    Check(
        "screenings_percent", "Screenings", "%", 0, 100, "Thin corns through the screen.", "3.5",
        "7 CFR 810.205: thin barley, 5 % in grade 1, 7 % in grade 2 (in a copy)",
    ),
    Check(
        "nitrogen_percent", "Nitrogen in dry matter", "%", 0.5, 4, "Protein divided by 6.25.", "1.62",
        "MAGB, barley for brewing 1.55 to 1.75 (read, said of trials)",
    ),
    Check(
        "pre_germinated_percent", "Pre-germinated", "%", 0, 100, "Rootlet or acrospire already begun.", "0",
        "MEBAK: visible pre-germination is grounds to reject (read)",
    ),
    Check(
        "split_skinned_percent", "Split and skinned", "%", 0, 100, "Broken corns too.", "1.5",
        "7 CFR 810.205: skinned and broken, 4 % in grade 1, 6 % in grade 2 (in a copy)",
    ),
    Check(
        "ergot_g_kg", "Ergot", "g/kg", 0, 100, "Dark bodies picked from a weighed sample.", "0",
        "Regulation (EU) 2023/915 (second-hand); many contracts allow none",
    ),
    Check(
        "admixture_percent", "Admixture", "%", 0, 100, "Other grain, seeds, stones, straw.", "0.6",
        "7 CFR 810.205: other grains, grade 1 (in a copy)",
    ),
    Check(
        "temperature_c", "Grain temperature", "C", -20, 80, "With a probe, deep in the load.", "19",
        "Oxford Companion: barley is rested at 25 to 30 °C (read); hotter is heating until shown otherwise",
    ),
)  # fmt: skip

_LABELS = {check.id: (check.label, shown(check.unit), check.source) for check in CHECKS} | {
    "moisture": ("Moisture", "%", "MAGB (read)"),
    "energy_percent": ("Energy", "%", "Montana (read)"),
    "capacity_percent": ("Capacity", "%", "MAGB, Montana (read)"),
    "smell": ("Smell", "", "7 CFR 810.206: musty, sour or foreign odour (in a copy)"),
    "insects": ("Insects or mites", "", "7 CFR 810.205: not infested (in a copy)"),
    "fumigated": ("Fumigant", "", "common practice; a paper or a meter, never the nose"),
}
_TABLE = {
    **FIGURES,
    "moisture": GATE_MOISTURE,
    "energy_percent": ENERGY,
    "capacity_percent": CAPACITY,
}
_AT_LEAST = ("energy_percent", "capacity_percent")


def check_germination(seen: Germination) -> None:
    """Ask again where the figures of germination do not do.

    Raises
    ------
    AskAgain
        When the edges are out of order, no figure is given, or a low energy stands without the capacity that tells
        sleeping from dead.
    """
    wanted, never = plain_number(seen.capacity_wanted), plain_number(seen.capacity_never_under)
    if seen.capacity_never_under > seen.capacity_wanted:
        raise AskAgain(
            "capacity_reject_percent",
            f"{never} % is above the capacity wanted, {wanted} %. Type a number up to {wanted}.",
        )
    if seen.energy is None and seen.capacity is None:
        raise AskAgain(
            "capacity_percent",
            "no germination figure is given. Give the capacity, or the energy, or both, in per cent.",
        )
    if seen.energy is not None and seen.energy < seen.energy_least and seen.capacity is None:
        raise AskAgain(
            "capacity_percent",
            f"an energy of {plain_number(seen.energy)} % is under {plain_number(seen.energy_least)} %. Give the "
            "capacity too: it tells sleeping barley, which is rested, from dead barley, which is not taken.",
        )


def row(line: Line) -> tuple[str, str, str, str, str]:
    """A line of the table: the check, what was found, its limit, what it says and where the default is from."""
    label, _, source = _LABELS[line.id]
    says = {"take": "keeps it", "not-tested": "not tested"}.get(line.says, line.says)
    return label, _found(line), _limit(line), says + _grey(line), source


def reason(lines: tuple[Line, ...]) -> str:
    """The lines that decided, in words."""
    return "; ".join(f"{_LABELS[one.id][0].lower()} {_found(one)} against {_limit(one)}{_grey(one)}" for one in lines)


def _grey(line: Line) -> str:
    return " (grey band: repeat on a fresh sample)" if line.grey else ""


def _found(line: Line) -> str:
    if line.found is None:
        return "–"
    if isinstance(line.found, str):
        return line.found.replace("-", " ")
    return f"{plain_number(line.found)} {_LABELS[line.id][1]}"


def _limit(line: Line) -> str:
    if line.edge is None or isinstance(line.edge, str):
        return str(line.edge or "").replace("-", " ")
    limit = FIGURES.get(line.id)
    book = book_of(limit, "stop_high") if limit and line.edge == limit.stop_high else ""
    return f"{plain_number(line.edge)} {_LABELS[line.id][1]} {'at least' if line.id in _AT_LEAST else 'at most'}{book}"


_DANGER = {
    FOREIGN: "A foreign smell may be a fumigant. Phosphine kills, and your nose is no guard against it. Stop the "
    "tipping, keep people away from the load and upwind of it, and call the competent person: "
    "[[page:safety/fumigants-and-chemicals|fumigants]].",
    NOBODY_KNOWS: "Nobody knows whether this grain was fumigated, and “nobody knows” is not “no”. Phosphine kills, "
    "and smelling nothing proves nothing. Do not tip. Park the lorry in the open, away from people, and ask for the "
    "paper. A competent person meters it: [[page:safety/fumigants-and-chemicals|fumigants]].",
    NO_CERTIFICATE: "Fumigated grain without its certificate may still give off phosphine, and it kills. Do not tip. "
    "Park the lorry in the open, away from people, and ask for the paper: what, when, aired how long, tested by whom. "
    "A competent person meters it: [[page:safety/fumigants-and-chemicals|fumigants]].",
    "found": "Living insects have outlived a fumigant, or call for one. Grain that was fumigated, on the way too, "
    "gives off phosphine for days, and it kills. Do not tip, and let nobody onto or into the load. Ask what was done "
    "to it. Only licensed people fumigate: [[page:safety/fumigants-and-chemicals|fumigants]].",
}


def dangers(signs: Signs) -> list[Note]:
    """What can hurt people in this load, first of all notes."""
    return [Note("danger", _DANGER[str(line.found)]) for line in first_stops(signs)]


def loosened(verdict: Verdict, dry_to: float) -> list[Note]:
    """The stops of the table that the reader's own limits let pass, and that of a store too damp to dry to."""
    lines = []
    for one in verdict.lines:
        if one.says in ("take", "watch") and isinstance(one.found, float) and one.id in _TABLE:
            lines.append(passed(_TABLE[one.id], one.found))
    if verdict.word in ("dry", "dry-rest"):
        lines.append(passed(STORE_MOISTURE, dry_to))
    return list(limit_notes(line for line in lines if line and line.mark == "stop"))


def remarks(signs: Signs, verdict: Verdict | None) -> list[Note]:
    """What the papers and the watched lines call for, and what was left out."""
    notes = []
    if signs.fumigated == CERTIFICATE and not first_stops(signs):
        notes.append(
            Note(
                "remark",
                "The certificate speaks of the hour in which it was written. Grey powder, tablets, sleeves or a smell "
                "of garlic or fish stop the load all the same.",
            )
        )
    lines = verdict.lines if verdict else ()
    word = verdict.word if verdict else "stop"
    watched = [f"{_LABELS[one.id][0].lower()} {_found(one)}{_watch(one, word)}" for one in lines if one.says == "watch"]
    if watched:
        notes.append(Note("remark", f"To watch: {'; '.join(watched)}."))
    missing = [_LABELS[one.id][0].lower() for one in lines if one.says == "not-tested"]
    if missing:
        notes.append(Note("remark", f"Not tested, so nothing is said about: {'; '.join(missing)}."))
    notes.append(
        Note(
            "remark",
            "The sheet knows what was typed, not the load. The passport, the previous load and the fumigation papers "
            "come first: [[page:procedures/intake-and-storage|intake and storage]]. Moulds’ poisons need a laboratory.",
        )
    )
    return notes


def _watch(line: Line, word: str) -> str:
    """What a watched line calls for, unless the verdict on the load says otherwise of it."""
    if line.id == "temperature_c" and word in ("rest", "dry-rest"):
        return " (it is rested warm; a rise by itself is heating: cool it at once)"
    if line.id == "temperature_c" and word == "reject":
        return ""
    return _WATCH.get(line.id, "")


_WATCH = {
    "ergot_g_kg": f" ({ERGOT.watch})",
    "temperature_c": f" ({GATE_TEMP.watch})",
    "smell": " (mask on, and look for mould)",
    "capacity_percent": f" ({CAPACITY.watch}: repeat it on a fresh sample)",
}
