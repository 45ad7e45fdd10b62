# CPython's mathematics where the small engine has another or none. The rest is its own: it comes from the same
# C library as the other engine's.
from math import (
    acos, asin, atan, atan2, ceil, cos, cosh, e, erfc, exp, floor, inf, isclose, isfinite, isinf, isnan, log, log10,
    log2, nan, pi, pow, sin, sinh, sqrt, tan, tanh,
)

_LANCZOS_G = 6.024680040776729583740234375
_ABOVE = (
    23531376880.410759688572007674451636754734846804940,
    42919803642.649098768957899047001988850926355848959,
    35711959237.355668049440185451547166705960488635843,
    17921034426.037209699919755754458931112671403265390,
    6039542586.3520280050642916443072979210699388420708,
    1439720407.3117216736632230727949123939715485786372,
    248874557.86205415651146038641322942321632125127801,
    31426415.585400194380614231628318205362874684987640,
    2876370.6289353724412254090516208496135991145378768,
    186056.26539522349504029498971604569928220784236328,
    8071.6720023658162106380029022722506138218516325024,
    210.82427775157934587250973392071336271166969580291,
    2.5066282746310002701649081771338373386264310793408,
)
_BELOW = (
    0.0, 39916800.0, 120543840.0, 150917976.0, 105258076.0, 45995730.0, 13339535.0, 2637558.0, 357423.0, 32670.0,
    1925.0, 66.0, 1.0,
)


def _lanczos(x):
    above = below = 0.0
    if x < 5.0:
        for n in range(12, -1, -1):
            above = above * x + _ABOVE[n]
            below = below * x + _BELOW[n]
    else:
        for n in range(13):
            above = above / x + _ABOVE[n]
            below = below / x + _BELOW[n]
    return above / below


def lgamma(x):
    x = float(x)
    if x - x != 0.0:
        return x if x != x else inf
    if x == floor(x) and x <= 2.0:
        if x <= 0.0:
            raise ValueError("math domain error")
        return 0.0
    size = abs(x)
    if size < 1e-20:
        return -log(size)
    found = log(_lanczos(size)) - _LANCZOS_G
    found += (size - 0.5) * (log(size + _LANCZOS_G - 0.5) - 1.0)
    if x < 0.0:
        raise ValueError("no sheet asks this")
    return found


# As the C library of the other engine has it (FreeBSD's s_log1p.c), with the same constants.
_LN2_HI, _LN2_LO = 6.93147180369123816490e-01, 1.90821492927058770002e-10
_LG = (
    6.666666666666735130e-01, 3.999999999940941908e-01, 2.857142874366239149e-01, 2.222219843214978396e-01,
    1.818357216161805012e-01, 1.531383769920937332e-01, 1.479819860511658591e-01,
)


def log1p(x):
    x = float(x)
    if x != x or x == inf:
        return x
    if x <= -1.0:
        raise ValueError("math domain error")
    if abs(x) < 1.1102230246251565e-16:
        return x
    k, c, f = 1, 0.0, 0.0
    if -0.2928932309150696 <= x < 0.41421365737915039:
        k, f = 0, x
    if k:
        u = 1.0 + x
        m, power_of_2 = _halved(u)
        k = power_of_2
        if k < 54:
            c = 1.0 - (u - x) if k >= 2 else x - (u - 1.0)
            c /= u
        f = m - 1.0
    hfsq = 0.5 * f * f
    s = f / (2.0 + f)
    z = s * s
    w = z * z
    t1 = w * (_LG[1] + w * (_LG[3] + w * _LG[5]))
    t2 = z * (_LG[0] + w * (_LG[2] + w * (_LG[4] + w * _LG[6])))
    r = t2 + t1
    dk = float(k)
    return s * (hfsq + r) + (dk * _LN2_LO + c) - hfsq + f + dk * _LN2_HI


def _halved(u):
    # u = m 2**k with m from sqrt(1/2) to sqrt(2)
    from math import frexp

    m, k = frexp(u)
    m, k = 2.0 * m, k - 1
    if m >= 1.4142131805419922:
        m, k = m / 2.0, k + 1
    return m, k


def _split(x):
    far = x * 134217729.0
    high = far - (far - x)
    return high, x - high


def _squared(x):
    high, low = _split(x)
    whole = x * x
    return whole, ((high * high - whole) + 2.0 * high * low) + low * low


def hypot(*sides):
    # Squares and their roots in twice the digits, so that the last bit is right.
    from math import frexp, ldexp

    sides = [abs(float(side)) for side in sides]
    most = max(sides) if sides else 0.0
    if most == inf or inf in sides:
        return inf
    if most != most or not most:
        return most
    _, scale = frexp(most)
    whole, lost = 0.0, 0.0
    for side in sorted(sides):
        square, rest = _squared(ldexp(side, -scale))
        now = whole + square
        lost += ((whole - now) + square if whole >= square else (square - now) + whole) + rest
        whole = now
    root = sqrt(whole + lost)
    square, rest = _squared(root)
    return ldexp(root + (((whole - square) + lost) - rest) / (2.0 * root), scale)
