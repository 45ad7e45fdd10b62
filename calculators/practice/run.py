"""A run as it goes on: the clock, what was done and read, the book, and what happens by itself."""

from copy import copy

from . import tempts
from .draws import uniform
from .faults import LATE_KILN_H, drawn_or_read
from .hidden import hidden, planned_water_c
from .kinds import Line, Read
from .looking import OVEN_TAKES_MIN
from .moves import Move
from .pieces import WHOLE_MIN, Piece
from .setting import Setting
from .warmth import Warmth, warmth_of
from .world import World

DAY_BEGINS, SHIFT_ENDS = 6 * 60, 22 * 60 + 30
"""Minutes of the day at which the learner's shift begins and ends."""
PLAN_H = (8.0, 8.0, 8.0, 12.0, 3.0)
"""Immersion and rest by turns, as the plan has them [h]."""
COUCH_H = 24.0
ROUNDS = (6, 10, 14, 18, 22)
"""Hours of the day at which the plan has a round of the floor."""
CASTS = ("cf", "cw", "cd")
USUAL = Setting()


def of_day(minute: int) -> int:
    """Give the minute of the day; the run begins at 06:00 on day 1."""
    return (minute + DAY_BEGINS) % 1440


def clock(minute: int) -> str:
    """Give the day and the time, such as ``Day 1, 14:00``."""
    day, left = divmod(minute + DAY_BEGINS, 1440)
    return f"Day {day + 1}, {left // 60:02d}:{left % 60:02d}"


class Run:
    """Everything of a run at one moment; ``apply`` of ``acts`` takes it on."""

    def __init__(self, number: int, level: int, piece: Piece | None, faults: str, setting: Setting = USUAL) -> None:
        self.number, self.level, self.piece, self.setting = number, level, piece, setting
        drawn = drawn_or_read(number, faults, level)
        self.faults = tuple(dict.fromkeys((*drawn, *(piece.faults if piece else ()))))
        self.planned_water_c = planned_water_c(setting.season, setting.water_c)
        self.world = World(number, hidden(number, self.faults, setting.season, setting.water_c))
        self.minute = 0
        self.begins = 0
        self.day_began = 0
        self.until = WHOLE_MIN
        self.book: list[Line] = []
        self.reads: list[Read] = []
        self.done: list[tuple[int, str, float | None, str]] = []
        """Minute, code, number and who did it."""
        self.said = ""
        self.unwritten: list[Line] = []
        self.event = ""
        self.happened: set[str] = set()
        self.tempts = tempts.drawn(number, self.faults, level)
        self.oven: list[tuple[int, float, float]] = []
        self.locks: list[str] = []
        self.first_drain_h = PLAN_H[0]
        self.tared = False
        self.kiln_ready: int | None = None
        self.people: list[str] = []
        self.gaps: list[str] = []
        self.brought: list[tuple[int, float]] = []
        """What a trainer brought in: minute and number."""
        self.ended = ""
        self.taken: list[Move] = []
        self.taken_at: list[int] = []
        self.left: list[str] = []
        self.thought = ""
        """What the good hand thinks, on level 0."""
        self.loaded: World | None = None
        """The batch as it went onto the kiln."""
        self.cast: World | None = None
        """The batch as it was cast."""
        self.sampled: list[tuple[int, float, float]] = []
        """Hour by hour: minute, moisture as if drained, and warmth, as they truly are."""
        self.warmths: list[Warmth] = []
        """Hour by hour: the bed’s warmth against its limits."""

    def copied(self) -> "Run":
        """Give a copy that goes its own way."""
        other = copy(self)
        other.world = self.world.copied()
        for name in (
            "book",
            "reads",
            "done",
            "unwritten",
            "oven",
            "locks",
            "people",
            "gaps",
            "brought",
            "sampled",
            "warmths",
            "taken",
            "taken_at",
            "left",
        ):
            setattr(other, name, list(getattr(self, name)))
        other.happened = set(self.happened)
        return other

    @property
    def shifts(self) -> bool:
        """Whether the learner goes home at the end of the day: in a whole batch, not in a piece."""
        return self.piece is None

    def last_done(self, *codes: str) -> int | None:
        """Give the minute at which one of some things was done last."""
        return next((minute for minute, code, _, _ in reversed(self.done) if code in codes), None)

    def write(self, words: str, by: str = "you", minute: int | None = None) -> None:
        """Put a line into the practice book."""
        self.book.append(Line(self.minute if minute is None else minute, words, by))

    def planned(self) -> tuple[int, str] | None:
        """Give what the plan has next: its minute, which may be past, and a code."""
        world = self.world
        if world.where == "dry":
            return None
        if world.where == "water":
            began = self.last_done("fi", "we") or 0
            hours = self.first_drain_h if world.immersions == 1 else PLAN_H[2] if world.immersions == 2 else PLAN_H[4]
            return began + round(60 * hours), "dr"
        if world.where == "rest":
            began = self.last_done("dr") or 0
            if world.immersions >= 3:
                return began + 30, "cd" if self.setting.vessel == "drum" else "cf"
            return began + round(60 * PLAN_H[1 if world.immersions == 1 else 3]), "we"
        if world.where == "couch":
            return (self.last_done(*CASTS) or 0) + round(60 * COUCH_H), "br"
        if world.where in ("floor", "drum"):
            return self.next_round(self.minute), "round"
        return None

    def next_round(self, minute: int) -> int:
        """Give the minute of the next round of the floor that the plan has."""
        hour = next((h for h in ROUNDS if h * 60 > of_day(minute)), ROUNDS[0] + 24)
        return minute + hour * 60 - of_day(minute)

    def happens(self, until: int) -> tuple[int, str] | None:
        """Give the first thing that happens by itself up to a minute, and when; it breaks any wait."""
        found: list[tuple[int, str]] = []
        if self.shifts:
            found.append((max(self.day_began + SHIFT_ENDS - DAY_BEGINS, self.minute), "shift"))
        found += [(max(due, self.minute), "oven") for due, _, _ in self.oven]
        if self.kiln_ready is not None and "kiln" not in self.happened:
            found.append((max(self.kiln_ready, self.minute), "kiln"))
        for name in self.tempts:
            at = self._tempted_at(name)
            if at is not None and name not in self.happened:
                found.append((max(at, self.minute), name))
        found.append((max(self.until, self.minute), "end"))
        return min((one for one in found if one[0] <= until), default=None)

    def _tempted_at(self, name: str) -> int | None:
        """Give when an event comes that tempts, where it can come in the state that the batch is in."""
        world = self.world
        tempt = tempts.BY_NAME[name]
        later = 20 + int(uniform(self.number, "when", name) * 100)
        if tempt.needs == "steep" and world.where == "water" and world.immersions == 1:
            return (self.last_done("fi") or 0) + 240 + later
        if tempt.needs == "rest" and world.where == "rest" and world.immersions == 2:
            return (self.last_done("dr") or 0) + 10 + later // 4
        if tempt.needs == "emptied" and world.where == "couch":
            return (self.last_done(*CASTS) or 0) + 10
        if tempt.needs == world.where and world.where in ("floor", "drum"):
            day = 2 + int(uniform(self.number, "which day", name) * 2)
            at = (self.last_done(*CASTS) or 0) + day * 1440
            return at if of_day(at) < SHIFT_ENDS - 60 and of_day(at) > DAY_BEGINS else at + 600
        if tempt.needs == "kiln" and world.where == "gone":
            return self.minute
        return None

    def go_on(self, minute: int) -> None:
        """Let time pass up to a minute, with what happens to the barley by itself."""
        step = self.minute // 60 * 60 + 60
        while step <= minute:
            self._suction_stops(step)
            self.world.go_to_quarter(step)
            self._sample(step)
            step += 60
        self.world.go_to_quarter(minute)
        self.minute = minute

    def _suction_stops(self, minute: int) -> None:
        if "suction-stops" in self.faults and "suction-stops" not in self.happened and self.world.suction:
            at = 20 * 60 if self.minute < 20 * 60 else None  # 02:00 of the first night
            if at is None or minute >= at:
                self.world.go_to_quarter(minute)
                self.world.suction_broken = True
                self.happened.add("suction-stops")

    def _sample(self, minute: int) -> None:
        world = self.world
        if world.where not in ("dry", "gone"):
            self.sampled.append((minute, world.as_drained(), world.mean(lambda zone: zone.temp_c)))
        if warmth := warmth_of(world, minute):
            self.warmths.append(warmth)

    def oven_started(self, value: float, truth: float) -> None:
        """Put a sample into the oven: its answer comes the next day."""
        self.oven.append((self.minute + OVEN_TAKES_MIN, value, truth))

    def oven_came(self) -> None:
        """Take in what came out of the oven while the learner was away."""
        for due, value, truth in [one for one in self.oven if one[0] <= self.minute]:
            self.oven.remove((due, value, truth))
            began = due - OVEN_TAKES_MIN
            words = f"The oven’s answer, of {clock(began)}: {value:.1f} %."
            self.said = words
            self.reads.append(Read(began, "ov", value, 0.5, words, truth=truth))
            self.unwritten.append(Line(self.minute, words))

    def kiln_calls(self) -> None:
        """Take the kiln's call: it is ready, or late."""
        if "late-kiln" in self.faults and "kiln-late" not in self.happened:
            self.happened.add("kiln-late")
            self.kiln_ready = self.minute + 60 * LATE_KILN_H
            self.said = f"The kiln calls: it is late, not before {clock(self.kiln_ready)}."
        else:
            self.happened.add("kiln")
            self.said = "The kiln calls: it is ready for you."
