# Elements with their children, and an element as HTML, as the library writes it.
from std.prelude import Elsewhere, Ordered

_EMPTY = {
    "area", "base", "basefont", "br", "col", "embed", "frame", "hr", "img", "input", "isindex", "link", "meta", "param",
    "source", "track", "wbr",
}


class Element:
    def __init__(self, tag, attrib=()):
        self.tag, self.text, self.tail = tag, None, None
        self.attrib = Ordered(attrib.items() if attrib else ())
        self._children = []

    def set(self, key, value):
        self.attrib[key] = value

    def get(self, key, default=None):
        return self.attrib.get(key, default)

    def append(self, child):
        self._children.append(child)

    def extend(self, children):
        self._children.extend(children)

    def insert(self, at, child):
        self._children.insert(at, child)

    def remove(self, child):
        for at, one in enumerate(self._children):
            if one is child:
                self._children.pop(at)
                return
        raise ValueError("no such child")

    def iter(self):
        yield self
        for child in self._children:
            yield from child.iter()

    def iterfind(self, tag):
        return iter([child for child in self._children if child.tag == tag])

    def __len__(self):
        return len(self._children)

    def __iter__(self):
        return iter(self._children)

    def __getitem__(self, at):
        return self._children[at]


def SubElement(parent, tag, attrib=()):
    child = Element(tag, attrib)
    parent._children.append(child)
    return child


def _in_text(s):
    if "&" in s:
        s = s.replace("&", "&amp;")
    if "<" in s:
        s = s.replace("<", "&lt;")
    if ">" in s:
        s = s.replace(">", "&gt;")
    return s


def _in_attribute(s):
    if "&" in s:
        s = s.replace("&", "&amp;")
    if ">" in s:
        s = s.replace(">", "&gt;")
    if '"' in s:
        s = s.replace('"', "&quot;")
    return s


def _write(parts, one):
    if one.tag in ("script", "style"):
        raise Elsewhere("this element")
    parts.append("<" + one.tag)
    for key, worth in one.attrib.items():
        parts.append(" " + key + '="' + _in_attribute(worth) + '"')
    parts.append(">")
    if one.text:
        parts.append(_in_text(one.text))
    for child in one._children:
        _write(parts, child)
    if one.tag not in _EMPTY:
        parts.append("</" + one.tag + ">")
    if one.tail:
        parts.append(_in_text(one.tail))


def tostring(one, encoding=None, method=None):
    if encoding != "unicode" or method != "html":
        raise Elsewhere("another way to write elements")
    parts = []
    _write(parts, one)
    return "".join(parts)
