class _Held:
    def __init__(self, steps):
        self._steps = steps

    def __enter__(self):
        return next(self._steps)

    def __exit__(self, kind, fault, trace):
        if kind is None:
            next(self._steps, None)
            return False
        try:
            self._steps.throw(fault)
        except BaseException as raised:
            if raised is fault:
                return False
            raise
        return True


def contextmanager(function):
    return lambda *args: _Held(function(*args))
