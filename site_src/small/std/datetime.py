# Days and times without a zone, as far as sheets go: a day as its ordinal, a time as microseconds of the day.
from std.prelude import Elsewhere

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_DAY = 86400000000
_LAST = 3652059  # 9999-12-31


def _is_leap(year):
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)


def _before_year(year):
    year -= 1
    return year * 365 + year // 4 - year // 100 + year // 400


def _length(year, month):
    return 29 if month == 2 and _is_leap(year) else _LENGTHS[month - 1]


def _ordinal(year, month, day):
    if not 1 <= year <= 9999 or not 1 <= month <= 12 or not 1 <= day <= _length(year, month):
        raise ValueError("there is no such day")
    return _before_year(year) + sum([_length(year, one) for one in range(1, month)]) + day


def _day_of(ordinal):
    year = min(ordinal * 400 // 146097 + 2, 9999)
    while _before_year(year) >= ordinal:
        year -= 1
    rest = ordinal - _before_year(year)
    month = 1
    while rest > _length(year, month):
        rest -= _length(year, month)
        month += 1
    return year, month, rest


def _whole(x):
    # The whole microseconds of a float, and what is left, as CPython divides them.
    whole = int(x)
    return whole, x - whole


class timedelta:
    def __init__(self, days=0, seconds=0, microseconds=0, milliseconds=0, minutes=0, hours=0, weeks=0):
        whole, left = 0, 0.0
        given = (
            (microseconds, 1), (milliseconds, 1000), (seconds, 1000000), (minutes, 60000000), (hours, 3600000000),
            (days, _DAY), (weeks, 7 * _DAY),
        )
        for count, unit in given:
            if not isinstance(count, float):
                whole += count * unit
                continue
            if count - count != 0.0:
                raise (ValueError if count != count else OverflowError)("cannot convert float to integer")
            part, rest = _whole(count)
            whole += part * unit
            if rest:
                part, rest = _whole(float(unit) * rest)
                whole += part
                left += rest
        if left:
            more = int(abs(left) + 0.5) * (1 if left > 0 else -1)
            if abs(more - left) == 0.5:
                odd = whole & 1
                half = (left + odd) * 0.5
                more = 2 * int(abs(half) + 0.5) * (1 if half > 0 else -1) - odd
            whole += more
        self._us = whole
        if not -999999999 <= self.days <= 999999999:
            raise OverflowError("so many days cannot be")

    @property
    def days(self):
        return self._us // _DAY

    @property
    def seconds(self):
        return self._us % _DAY // 1000000

    @property
    def microseconds(self):
        return self._us % 1000000

    def total_seconds(self):
        return self._us / 1000000

    def __add__(self, other):
        if isinstance(other, datetime):
            return other + self
        return timedelta(microseconds=self._us + other._us)

    def __sub__(self, other):
        return timedelta(microseconds=self._us - other._us)

    def __neg__(self):
        return timedelta(microseconds=-self._us)

    def __mul__(self, count):
        if not isinstance(count, int):
            raise Elsewhere("a timedelta times a float")
        return timedelta(microseconds=self._us * count)

    def __truediv__(self, other):
        if not isinstance(other, timedelta):
            raise Elsewhere("a timedelta by a number")
        return self._us / other._us

    def __eq__(self, other):
        return isinstance(other, timedelta) and self._us == other._us

    def __lt__(self, other):
        return self._us < other._us

    def __le__(self, other):
        return self._us <= other._us

    def __gt__(self, other):
        return self._us > other._us

    def __ge__(self, other):
        return self._us >= other._us

    def __hash__(self):
        return hash(self._us)

    def __bool__(self):
        return self._us != 0


class datetime:
    def __init__(self, year, month, day, hour=0, minute=0, second=0, microsecond=0):
        self._days = _ordinal(year, month, day)
        if not (0 <= hour <= 23 and 0 <= minute <= 59 and 0 <= second <= 59 and 0 <= microsecond <= 999999):
            raise ValueError("there is no such time")
        self.year, self.month, self.day = year, month, day
        self.hour, self.minute, self.second, self.microsecond = hour, minute, second, microsecond
        self._us = ((hour * 60 + minute) * 60 + second) * 1000000 + microsecond

    @staticmethod
    def fromisoformat(text):
        day, time = text[:10], text[11:]
        parts = day.split("-")
        if len(day.encode()) != 10 or [len(part) for part in parts] != [4, 2, 2] or not _digits("".join(parts)):
            if not text or [len(part) for part in parts] == [4, 2, 2]:
                raise ValueError("Invalid isoformat string")
            raise Elsewhere("this form of a day")
        year, month, number = int(parts[0]), int(parts[1]), int(parts[2])
        if len(text) == 10:
            return datetime(year, month, number)
        clock = time.split(":")
        if text[10] not in "T " or [len(part) for part in clock] != [2, 2] or not _digits("".join(clock)):
            raise Elsewhere("this form of a time")
        return datetime(year, month, number, int(clock[0]), int(clock[1]))

    def replace(self, year=None, month=None, day=None, hour=None, minute=None, second=None, microsecond=None):
        return datetime(
            self.year if year is None else year, self.month if month is None else month,
            self.day if day is None else day,
            self.hour if hour is None else hour, self.minute if minute is None else minute,
            self.second if second is None else second, self.microsecond if microsecond is None else microsecond,
        )

    def toordinal(self):
        return self._days

    def weekday(self):
        return (self._days + 6) % 7

    def isoformat(self, sep="T", timespec="auto"):
        if timespec != "minutes":
            raise Elsewhere("this form of a time")
        return "%04d-%02d-%02d%s%02d:%02d" % (self.year, self.month, self.day, sep, self.hour, self.minute)

    def _formatted(self, form):
        said = {
            "H": "%02d" % self.hour, "M": "%02d" % self.minute, "Y": "%04d" % self.year if self.year > 999 else None,
            "a": _DAYS[self.weekday()], "b": _MONTHS[self.month - 1],
        }
        parts = form.split("%")
        found = [parts[0]]
        for part in parts[1:]:
            if said.get(part[:1]) is None:
                raise Elsewhere("the format " + form)
            found.append(said[part[:1]] + part[1:])
        return "".join(found)

    def _all(self):
        return self._days, self._us

    def __add__(self, more):
        whole = self._days * _DAY + self._us + more._us
        if not _DAY <= whole < (_LAST + 1) * _DAY:
            raise OverflowError("date value out of range")
        year, month, day = _day_of(whole // _DAY)
        us = whole % _DAY
        seconds = us // 1000000
        return datetime(year, month, day, seconds // 3600, seconds // 60 % 60, seconds % 60, us % 1000000)

    __radd__ = __add__

    def __sub__(self, other):
        if isinstance(other, timedelta):
            return self + -other
        return timedelta(microseconds=(self._days - other._days) * _DAY + self._us - other._us)

    def __eq__(self, other):
        return isinstance(other, datetime) and self._all() == other._all()

    def __lt__(self, other):
        return self._all() < other._all()

    def __le__(self, other):
        return self._all() <= other._all()

    def __gt__(self, other):
        return self._all() > other._all()

    def __ge__(self, other):
        return self._all() >= other._all()

    def __hash__(self):
        return hash(self._all())


def _digits(text):
    return text.isdigit() and len(text) == len(text.encode())
