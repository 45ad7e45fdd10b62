def lru_cache(maxsize=128):
    def around(function):
        kept = {}
        order = []

        def asked(*args, **named):
            key = (args, tuple(sorted(named.items()))) if named else args
            if key in kept:
                return kept[key]
            found = function(*args, **named)
            if len(order) >= maxsize:
                kept.pop(order.pop(0), None)
            order.append(key)
            kept[key] = found
            return found

        return asked

    return around


def cached_property(function):
    name = "_kept_" + function.__name__

    def asked(self):
        if name not in self.__dict__:
            setattr(self, name, function(self))
        return getattr(self, name)

    return property(asked)
