# In the place of psychrolib's switch of units: SI always. Its formulas come from psychrolib itself.
SI = "SI"
PSYCHROLIB_TOLERANCE = 0.001


def SetUnitSystem(units):
    if units != SI:
        raise ValueError("SI only")


def isIP():
    return False
