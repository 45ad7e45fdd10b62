def mul(a, b):
    return a * b


def add(a, b):
    return a + b


def itemgetter(at):
    return lambda items: items[at]


def attrgetter(name):
    return lambda one: getattr(one, name)
