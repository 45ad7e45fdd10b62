# What is called in the place of what is built in, wherever the small engine does otherwise.
from collections import OrderedDict as Ordered

from bridge import (
    alnum,
    alpha,
    capital,
    digit,
    fixed,
    general,
    joined_split,
    lowered,
    number_text,
    printable,
    shortest,
    stripped,
    tens,
    uppered,
    whole_text,
)


class Elsewhere(Exception):
    """Only the other engine goes on from here."""

    def __init__(self, name):
        super().__init__("Only the other engine has " + name)


class ModuleNotFoundError(ImportError):
    def __init__(self, text, name=None):
        super().__init__(text)
        self.name = name


# -- dicts keep their order


def merged(*parts):
    whole = Ordered()
    for part in parts:
        whole.update(part)
    return whole


def either(a, b):
    return merged(a, b) if isinstance(a, dict) else a | b


def from_keys(keys, value=None):
    return Ordered([(key, value) for key in keys])


def plain(named):
    return dict(named) if type(named) is Ordered else named


def pairs(*parts):
    return tuple(merged(*parts).items())


# -- named tuples


class Named:
    _fields = ()

    def __iter__(self):
        return iter(self._all())

    def __len__(self):
        return len(self._fields)

    def __getitem__(self, at):
        return self._all()[at]

    def __contains__(self, one):
        return one in self._all()

    def __hash__(self):
        return hash(self._all())

    def __eq__(self, other):
        if self is other:
            return True
        if isinstance(other, Named):
            other = other._all()
        return isinstance(other, tuple) and self._all() == other

    def __lt__(self, other):
        return self._all() < tuple(other)

    def __le__(self, other):
        return self._all() <= tuple(other)

    def __gt__(self, other):
        return self._all() > tuple(other)

    def __ge__(self, other):
        return self._all() >= tuple(other)

    def __add__(self, other):
        return self._all() + tuple(other)

    def __radd__(self, other):
        return other + self._all()

    def _replace(self, **more):
        values = [more.pop(name) if name in more else getattr(self, name) for name in self._fields]
        if more:
            raise ValueError("no such field")
        return type(self)(*values)

    def _asdict(self):
        return Ordered([(name, getattr(self, name)) for name in self._fields])


# -- sequences


def stepped(items, start, stop, step):
    cut = list(items)[start:stop:step]
    if isinstance(items, str):
        return "".join(cut)
    return cut if isinstance(items, list) else tuple(cut)


def backwards(items):
    return reversed(items if isinstance(items, (list, tuple, str, range)) else list(items))


def getter(items):
    return lambda at: items[at]


def zip_strict(*parts):
    parts = [part if isinstance(part, (list, tuple)) else list(part) for part in parts]
    for part in parts:
        if len(part) != len(parts[0]):
            raise ValueError("zip() arguments are not of one length")
    return zip(*parts)


def in_order(items, key=None, reverse=False):
    items = list(items)
    sign = -1 if reverse else 1
    keys = [(item if key is None else key(item), sign * at) for at, item in enumerate(items)]
    keys.sort(reverse=reverse)
    return [items[sign * at] for _, at in keys]


def m_sort(items, key=None, reverse=False):
    items[:] = in_order(items, key, reverse)


def total(items, start=0):
    # Floats as CPython adds them up: what each sum loses is kept beside it and put back at the end; since 3.14 for a
    # whole number among them too.
    items = iter(items)
    for one in items:
        if isinstance(one, float) and isinstance(start, (float, int)):
            break
        start = start + one
    else:
        return start
    whole, lost = start + one, 0.0
    if isinstance(start, float):
        lost = (start - whole) + one if abs(start) >= abs(one) else (one - whole) + start
    is_kind, real = isinstance, float  # a name that is built in is looked up at each use
    for one in items:
        if not is_kind(one, real):
            if not is_kind(one, (int, bool)):
                raise TypeError("a sum of floats and other things")
            one = real(one)
        now = whole + one
        if whole >= one >= -whole or whole <= one <= -whole:  # the larger first, without a call of abs for each
            lost += (whole - now) + one
        else:
            lost += (one - now) + whole
        whole = now
    if lost and lost - lost == 0.0:
        return whole + lost
    return whole


# -- numbers


def power(a, b):
    found = a**b
    if isinstance(found, float):
        if found - found != 0.0 and a - a == 0.0 and b - b == 0.0:
            raise OverflowError("Result too large")
    elif not isinstance(found, int):
        raise Elsewhere("complex numbers")
    return found


def to_int(x=0, base=10):
    if isinstance(x, str):
        text = whole_text(x)
        if base != 10 or not text:
            raise ValueError("invalid literal for int()")
        return int(text)
    return int(x)


def to_float(x=0.0):
    if isinstance(x, str):
        text = number_text(x)
        if not text:
            raise ValueError("could not convert string to float")
        return float(text)
    found = float(x)
    if found - found != 0.0 and isinstance(x, int):
        raise OverflowError("int too large to convert to float")
    return found


def rounded(x, digits=None):
    if digits is None:
        return round(x)
    if isinstance(x, (int, bool)):
        if digits >= 0:
            return int(x)
        unit = 10**-digits
        down, rest = divmod(x, unit)
        up = rest * 2 > unit or (rest * 2 == unit and down % 2 == 1)
        return (down + up) * unit
    if x - x != 0.0 or digits > 100:
        return x
    return float(fixed(x, digits) if digits >= 0 else tens(x, -digits))


# -- text of things


def said(x=""):
    if isinstance(x, str):
        return x
    if isinstance(x, float):
        return shortest(x)
    if x is None or isinstance(x, (int, bool, Exception)):
        return str(x)
    raise Elsewhere("the text of a " + type(x).__name__)


def shown(x):
    if isinstance(x, float):
        return shortest(x)
    if x is None or isinstance(x, (int, bool)):
        return str(x)
    raise Elsewhere("the repr of a " + type(x).__name__)


def formatted(x, form):
    if not isinstance(x, (float, int)):  # a number is asked for most
        if hasattr(x, "_formatted"):
            return x._formatted(form)
        raise Elsewhere("the format " + form)
    if form[0] == ",":
        return _grouped(formatted(x, form[1:]))
    x = to_float(x)
    if form == "g":
        return general(x, 6)
    digits = int(form[1:-1])
    return fixed(x, digits) if form[-1] == "f" else general(x, digits)


def _grouped(text):
    front, dot, behind = text.partition(".")
    sign = ""
    if front[:1] == "-":
        sign, front = "-", front[1:]
    if not front.isdigit():  # with an exponent, or none at all
        return text
    groups = []
    while len(front) > 3:
        groups.insert(0, front[-3:])
        front = front[:-3]
    return sign + ",".join([front] + groups) + dot + behind


# -- texts: only ASCII is known to the small engine itself


def _ascii(s):
    return len(s) == len(s.encode())


def m_isascii(s):
    return _ascii(s.replace("\U0010ffff", ""))  # what stands for NUL


def m_lower(s):
    return s.lower() if _ascii(s) else lowered(s)


def m_upper(s):
    return s.upper() if _ascii(s) else uppered(s)


def m_capitalize(s):
    return s[:1].upper() + s[1:].lower() if _ascii(s) else capital(s)


def m_isdigit(s):
    return s.isdigit() if _ascii(s) else digit(s)


def m_isalpha(s):
    return s.isalpha() if _ascii(s) else alpha(s)


def m_isalnum(s):
    return alnum(s)


def m_isprintable(s):
    return printable(s)


def m_strip(s, letters=None):
    return stripped(s, 3) if letters is None else s.strip(letters)


def m_lstrip(s, letters=None):
    return stripped(s, 1) if letters is None else s.lstrip(letters)


def m_rstrip(s, letters=None):
    return stripped(s, 2) if letters is None else s.rstrip(letters)


def m_split(s, by=None, most=-1):
    if not isinstance(s, str):  # a pattern
        return s.split(by)
    if by is not None:
        return s.split(by, most)
    if most != -1:
        raise Elsewhere("split() of so many")
    text = joined_split(s)
    return text.split("\n") if text else []


def m_rsplit(s, by, most=-1):
    return s.rsplit(by, most)


def m_removeprefix(s, prefix):
    return s[len(prefix):] if prefix and s.startswith(prefix) else s


def m_removesuffix(s, suffix):
    return s[: -len(suffix)] if suffix and s.endswith(suffix) else s


def m_format(s, *args, **named):
    return s.format(*[said(one) for one in args], **{name: said(one) for name, one in named.items()})
