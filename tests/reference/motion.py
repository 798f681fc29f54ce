"""One stretch in which nothing changes: a single ordinary differential equation y' = F(y).

Exponential Rosenbrock steps of order four with an embedded third (exprb43, Hochbruck and Ostermann,
Acta Numerica 19 (2010) 209, from memory): exact for a linear F however stiff, so a store at rest on
a steep diode costs one step. The equation has one dimension and knows no time, so its solution is
monotone, and a threshold is met when it is passed.
"""

from math import exp, expm1, log

TOLERANCE = 2e-8
"""Largest local error, relative to 1 V of a bank or to a full cell."""


def phis(z):
    """phi_1 to phi_4 of the exponential integrators."""
    if abs(z) < 0.7:
        term, p4 = 1.0 / 24.0, 1.0 / 24.0
        for k in range(5, 24):
            term *= z / k
            p4 += term
        p3 = z * p4 + 1.0 / 6.0
        p2 = z * p3 + 0.5
        return z * p2 + 1.0, p2, p3, p4
    p1 = expm1(z) / z
    p2 = (p1 - 1.0) / z
    p3 = (p2 - 0.5) / z
    return p1, p2, p3, (p3 - 1.0 / 6.0) / z


def step(rate, y, f, slope, h):
    """State after h, and the estimated error."""
    z = max(min(h * slope, 300.0), -1e12)
    half = expm1(0.5 * z) / (0.5 * z) if abs(z) > 1e-8 else 1.0 + 0.25 * z
    p1, _, p3, p4 = phis(z)
    y2 = y + 0.5 * h * half * f
    d2 = rate(y2) - f - slope * (y2 - y)
    y3 = y + h * p1 * (f + d2)
    d3 = rate(y3) - f - slope * (y3 - y)
    last = h * (-2.0 * p3 + 12.0 * p4) * d3
    first = h * (16.0 * p3 - 48.0 * p4) * d2
    rough = h * (16.0 * p3 * d2 - 2.0 * p3 * d3)
    return y + h * p1 * f + first + last, abs(first + last - rough)


def derivative(rate, y, f):
    small = 1e-6 * (abs(y) + 1e-3)
    return (rate(y + small) - f) / small


def pieces(rate, y, seconds, target, tolerance=TOLERANCE):
    """Steps of one stretch; it ends at a target if that is met.

    Each is (y before, y after, length, speed before, speed after).

    Parameters
    ----------
    rate : callable
        F(y).
    y, seconds : float
        Beginning and greatest length. [s]
    target : float or None
        A state at which the stretch ends early; it lies ahead in the direction of motion.
    tolerance : float
        Largest local error of a step.
    """
    left, f = seconds, rate(y)
    way = f
    far = 0.15 if target is None else max(abs(target - y), 1e-6)
    h = min(seconds, 2.0 * min(far, 0.15) / abs(f)) if f else seconds
    for _ in range(20_000):
        if left <= 0.0:
            return
        if f * way <= 0.0:
            yield y, y, left, 0.0, 0.0  # at rest: what is left of the speed is rounding
            return
        slope = derivative(rate, y, f)
        h = min(h, left)
        if slope > 0.0:
            h = min(h, 20.0 / slope)
        while True:
            after, error = step(rate, y, f, slope, h)
            if error <= tolerance:
                break
            h *= max(0.1, 0.8 * (tolerance / error) ** 0.25)
        if (after - y) * f < 0.0:
            after = y  # rounding at a resting point
        if target is not None and (after - target) * way >= 0.0:
            h = _time_to(rate, y, f, slope, h, after, target)
            yield y, target, h, f, rate(target)
            return
        ended = rate(after)
        yield y, after, h, f, ended
        left -= h
        if left < 1e-13 * seconds:
            return
        grown = 10.0 if error < tolerance * 5e-5 else 0.85 * (tolerance / error) ** 0.25
        y, h, f = after, h * grown, ended
    raise AssertionError("a stretch did not end")


def _time_to(rate, y, f, slope, h, after, target):
    """Length of the step that ends at the target: Newton's method within a bracket."""
    low, high, guess, miss = 0.0, h, h, after - target
    speed = rate(target)
    for _ in range(100):
        if speed * f > 0.0:
            guess -= miss / speed
        if not low < guess < high:
            guess = 0.5 * (low + high)
        miss = step(rate, y, f, slope, guess)[0] - target
        if abs(miss) < 1e-13 or high - low < 1e-12 * h:
            return guess
        if miss * f < 0.0:
            low = guess
        else:
            high = guess
    return guess


def mean_along(first, middle, last, begin_speed, end_speed):
    """Time mean of a quantity that is a parabola over y, on an exponential path.

    With x the share of the way, x = (e^(zs) - 1)/(e^z - 1) and z the logarithm of the ratio of the
    speeds at both ends; the means of x and x² over s are closed forms.
    """
    if first == middle == last:
        return first
    ratio = end_speed / begin_speed if begin_speed else 1.0
    z = log(max(ratio, 1e-300))
    if abs(z) < 1e-3:
        x, xx = 0.5 - z / 12.0, 1.0 / 3.0 - z / 12.0
    else:
        top = expm1(z)
        x = (top / z - 1.0) / top
        xx = ((exp(2.0 * z) - 1.0) / (2.0 * z) - 2.0 * top / z + 1.0) / (top * top)
    a = -3.0 * first + 4.0 * middle - last
    b = 2.0 * first - 4.0 * middle + 2.0 * last
    return first + a * x + b * xx
