# Patterns as the build writes them for the browser, found by it.
from bridge import found as _found
from bridge import pattern as _pattern

DOTALL = IGNORECASE = 0  # written into the pattern by the build


class Match:
    def __init__(self, text, names):
        # the browser gives start, end and, for each group, its length and its text
        self._names = names
        parts = text.split(";", 2)
        self._start, self._end = int(parts[0]), int(parts[1])
        self._groups, rest = [], parts[2]
        while rest:
            length, _, rest = rest.partition(":")
            if length == "-":
                self._groups.append(None)
            else:
                self._groups.append(rest[: int(length)])
                rest = rest[int(length):]

    def __getitem__(self, key):
        return self._groups[self._names.index(key) + 1 if isinstance(key, str) else key]

    def group(self, key=0):
        return self[key]

    def groups(self):
        return tuple(self._groups[1:])

    def start(self):
        return self._start

    def end(self):
        return self._end

    def span(self):
        return self._start, self._end


class Pattern:
    def __init__(self, written, names):
        self._id = _pattern(written)
        self._names = names

    def _run(self, how, text, at=0):
        found = _found(self._id, how, text, at)
        return Match(found, self._names) if found else None

    def fullmatch(self, text):
        return self._run(0, text)

    def match(self, text):
        return self._run(1, text)

    def search(self, text):
        return self._run(2, text)

    def finditer(self, text):
        at = 0
        while at <= len(text):
            match = self._run(2, text, at)
            if match is None:
                return
            yield match
            at = match.end() + (match.end() == match.start())

    def sub(self, to, text):
        parts, at = [], 0
        for match in self.finditer(text):
            parts.append(text[at : match.start()])
            parts.append(to if isinstance(to, str) else to(match))
            at = match.end()
        parts.append(text[at:])
        return "".join(parts)

    def split(self, text):
        parts, at = [], 0
        for match in self.finditer(text):
            parts.append(text[at : match.start()])
            parts.extend(match.groups())
            at = match.end()
        parts.append(text[at:])
        return parts


_made = {}


def compile(written, names):
    if written not in _made:
        _made[written] = Pattern(written, names)
    return _made[written]
