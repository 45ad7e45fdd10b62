def bisect_left(items, x, lo=0, hi=None, *, key=None):
    hi = len(items) if hi is None else hi
    while lo < hi:
        middle = (lo + hi) // 2
        if (items[middle] if key is None else key(items[middle])) < x:
            lo = middle + 1
        else:
            hi = middle
    return lo


def bisect_right(items, x, lo=0, hi=None, *, key=None):
    hi = len(items) if hi is None else hi
    while lo < hi:
        middle = (lo + hi) // 2
        if x < (items[middle] if key is None else key(items[middle])):
            hi = middle
        else:
            lo = middle + 1
    return lo


bisect = bisect_right
