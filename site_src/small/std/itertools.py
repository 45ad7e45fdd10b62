def pairwise(items):
    items = list(items)
    return zip(items, items[1:])


def accumulate(items):
    whole = None
    for item in items:
        whole = item if whole is None else whole + item
        yield whole


def chain(*parts):
    for part in parts:
        yield from part


def product(*parts):
    found = [()]
    for part in parts:
        part = list(part)
        found = [one + (item,) for one in found for item in part]
    return iter(found)


def combinations(items, count):
    items = list(items)
    if count == 0:
        yield ()
    elif len(items) >= count:
        for at, item in enumerate(items):
            for rest in combinations(items[at + 1 :], count - 1):
                yield (item,) + rest


def islice(items, count):
    if count:
        for at, item in enumerate(items, 1):
            yield item
            if at >= count:
                return
