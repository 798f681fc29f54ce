"""The node at the store's terminals, where charger, store and load meet.

    v_t = v + (i_charge(v_t) - i_drawn(v_t)) R

is solved for the terminal voltage by Newton's method inside a bracket, one number at a time. Both
sides agree exactly: nothing is iterated between charger and load.
"""

from math import exp, inf, log, sqrt

import numpy as np
from scipy.interpolate import PchipInterpolator


class ConverterSource:
    """What a converter gives at one light level, cold or warm."""

    def __init__(self, device, light_a):
        c, panel = device.charger, device.panel
        open_v = panel.diode_v(light_a, 0.0) if light_a > 0.0 else 0.0
        volts = amps = 0.0
        if light_a > 0.0 and c.tracking == "fraction":
            volts = c.voc_fraction * open_v
            low, high = 0.0, open_v
            for _ in range(100):
                u = 0.5 * (low + high)
                if u - panel.current(light_a, u) * panel.series_ohm < volts:
                    low = u
                else:
                    high = u
            amps = max(panel.current(light_a, high), 0.0)
        elif light_a > 0.0:
            volts, amps = _greatest_power(panel, light_a, open_v)
        watt = max(volts * amps, 0.0)
        self.panel_w = watt
        runs = volts >= c.minimum_panel_V and watt >= c.minimum_panel_W
        warm_w = max(c.efficiency * watt - c.fixed_loss_W, 0.0) if runs else 0.0
        self.by_volts = _outputs(c, watt) if runs and c.efficiency_table else None
        starts = open_v >= c.cold_start_panel_V and watt >= c.cold_start_panel_W
        cold_w = c.cold_start_efficiency * watt if starts else 0.0
        self.given = {False: warm_w, True: cold_w}
        self.limit = {False: c.output_limit_A, True: min(amps, c.output_limit_A)}
        self.ohm = 0.0 if c.efficiency_table else c.loss_resistance_ohm
        if c.efficiency_table:
            self.given[False] = max(self.by_volts[1]) if runs else 0.0

    def _watt(self, v, cold):
        """Power for the store; a table of efficiencies may ask for its voltage."""
        if cold or self.by_volts is None:
            return self.given[cold]
        return float(np.interp(v, *self.by_volts))

    def terminals(self, v, draw, ohm, ceiling, cold):
        """Terminal voltage, charging and drawn current; the voltage is None where there is none."""
        watt, limit = self._watt(v, cold), min(self.limit[cold], ceiling)
        if watt <= 0.0 or limit <= 0.0:
            return alone(v, draw, ohm)
        r = self.ohm
        if ohm == 0.0:
            return v, _driven(max(v, 0.0), watt, r, limit)[0], _drawn(v, draw)
        least = _least(draw, ohm)

        def miss(vt):
            amps, fall = _driven(max(vt, 0.0), watt, r, limit)
            taken, rise = _drawn_and_slope(vt, draw, least)
            return vt - v - ohm * (amps - taken), 1.0 - ohm * (fall - rise)

        vt = _root(miss, min(v - ohm * 1e3, -1.0), v + ohm * limit + 1e-9, v)
        if vt <= least or vt <= 0.0:
            return None, _driven(0.0, watt, r, limit)[0], draw[0]
        return vt, _driven(vt, watt, r, limit)[0], _drawn(vt, draw)


    def current(self, vt, ceiling, cold, v=None):
        """Charging current into a terminal voltage, with the store at v, or there too. [A]"""
        watt, limit = self._watt(vt if v is None else v, cold), min(self.limit[cold], ceiling)
        if watt <= 0.0 or limit <= 0.0:
            return 0.0
        return _driven(max(vt, 0.0), watt, self.ohm, limit)[0]


def _outputs(charger, watt):
    """Store voltages of the efficiency table, and the power that arrives at each."""
    rows = sorted(charger.efficiency_table, key=lambda row: row.input_W)
    volts = sorted({row.store_V or 0.0 for row in rows})
    out = []
    for v in volts:
        own = [(log(row.input_W), row.efficiency) for row in rows if (row.store_V or 0.0) == v]
        x, y = zip(*own, strict=True)
        at = log(max(watt, 1e-300))
        if at < x[0]:
            share = max(1.0 - (1.0 - y[0]) * exp(x[0]) / watt, 0.0)
        else:
            share = float(PchipInterpolator(x, y)(min(at, x[-1]))) if len(x) > 1 else y[0]
        out.append(min(charger.table_scale * share, 1.0) * watt)
    return volts, out


def _greatest_power(panel, light_a, open_v):
    """Where V·I is largest: the root of its slope, by bisection."""
    low, high = 0.0, open_v
    for _ in range(100):
        u = 0.5 * (low + high)
        i, g = panel.current(light_a, u), panel.steepness(light_a, u)
        if (1.0 + g * panel.series_ohm) * i - (u - i * panel.series_ohm) * g > 0.0:
            low = u
        else:
            high = u
    amps = panel.current(light_a, high)
    return high - amps * panel.series_ohm, amps


def _driven(vt, watt, r, limit):
    """Current that a power drives through r into a voltage, and its slope."""
    if r > 0.0:
        root = sqrt(vt * vt + 4.0 * r * watt)
        amps = 2.0 * watt / (vt + root)
    else:
        root = vt
        amps = watt / vt if vt > 0.0 else inf
    if amps >= limit:
        return limit, 0.0
    return amps, -amps / root


def _least(draw, ohm):
    """Below this no terminal voltage is stable: the fold of v_t + i_drawn R."""
    return sqrt(draw[1] * ohm / (1.0 + draw[2] * ohm)) if draw[1] > 0.0 else 0.0


def _drawn(vt, draw):
    return draw[0] + (draw[1] / max(vt, 1e-9) if draw[1] > 0.0 else 0.0) + draw[2] * vt


def _drawn_and_slope(vt, draw, least):
    i, p, g = draw
    if p <= 0.0:
        return i + g * vt, g
    if vt <= least or vt <= 1e-9:
        return i + p / max(least, 1e-9) + g * vt, g
    return i + p / vt + g * vt, g - p / (vt * vt)


def alone(v, draw, ohm):
    """The store without a charger: a parabola."""
    i, p, g = draw
    if p <= 0.0:
        vt = (v - i * ohm) / (1.0 + g * ohm)
        return (vt, 0.0, i + g * vt) if vt > 0.0 else (None, 0.0, i)
    w, stiff = v - i * ohm, 1.0 + g * ohm
    below = w * w - 4.0 * stiff * p * ohm
    if below < 0.0 or w <= 0.0:
        return None, 0.0, i
    vt = (w + sqrt(below)) / (2.0 * stiff)
    return vt, 0.0, _drawn(vt, draw)


class DiodeSource:
    """Panel and blocking diode at one light level; the panel's diode voltage is the unknown."""

    def __init__(self, device, light_a):
        self.panel, self.light_a = device.panel, light_a
        self.leak_a = device.charger.diode_saturation_A
        self.slope_v = device.diode_slope_v
        self.shunt_s = self.panel.shunt_s + self.panel.photo_shunt_per_v * light_a
        self.stop = self.panel.diode_v(light_a, -self.leak_a * (1.0 - 1e-5))
        self.stop_vt = self._terminal(self.stop)[0]
        self._last = 0.5 * self.stop

    def _terminal(self, u):
        """Terminal voltage, its slope, the current and its fall at a diode voltage."""
        p, leak_a = self.panel, self.leak_a
        grown = p.saturation_a * exp(min(u / p.slope_v, 600.0))
        amps = self.light_a + p.saturation_a - grown - u * self.shunt_s
        fall = grown / p.slope_v + self.shunt_s
        inside = 1.0 + amps / leak_a
        if inside < 1e-7:
            inside = 1e-7
        vt = u - amps * p.series_ohm - self.slope_v * log(inside)
        return vt, 1.0 + fall * (p.series_ohm + self.slope_v / (leak_a * inside)), amps, fall

    def terminals(self, v, draw, ohm, ceiling, cold):
        """Terminal voltage, charging and drawn current; the voltage is None where there is none."""
        back = alone(v, (draw[0] + self.leak_a, draw[1], draw[2]), ohm)
        if back[0] is not None and back[0] >= self.stop_vt:
            return back[0], -self.leak_a, _drawn(back[0], draw)
        least = _least(draw, ohm)

        def miss(u):
            vt, rise, amps, fall = self._terminal(u)
            if amps >= ceiling:
                amps, fall = ceiling, 0.0
            taken, more = _drawn_and_slope(vt, draw, least)
            return vt - v - ohm * (amps - taken), rise * (1.0 + ohm * more) + ohm * fall

        u = _root(miss, -1.0 - self.stop, self.stop, self._last)
        self._last = u
        vt, _, amps, _ = self._terminal(u)
        amps = min(amps, ceiling)
        if vt <= least or vt <= 0.0:
            vt = None if ohm > 0.0 or v <= 0.0 else v
            if vt is None:
                return None, self._into_nothing(ceiling), draw[0]
        return vt, amps, _drawn(vt, draw)

    def current(self, vt, ceiling, cold, v=None):
        """Charging current into a terminal voltage. [A]"""
        if vt >= self.stop_vt:
            return -self.leak_a

        def miss(u):
            found, rise, _, _ = self._terminal(u)
            return found - vt, rise

        return min(self._terminal(_root(miss, -1.0 - self.stop, self.stop, self._last))[2], ceiling)

    def _into_nothing(self, ceiling):
        """Current into a terminal voltage of zero."""
        u = _root(lambda x: self._terminal(x)[:2], -1.0, self.stop, self._last)
        return min(self._terminal(u)[2], ceiling)


def _root(function, low, high, start):
    """Root of a rising function by Newton's method, halving where it would leave the bracket."""
    x = min(max(start, low), high)
    for _ in range(200):
        miss, slope = function(x)
        if miss == 0.0:
            return x
        if miss > 0.0:
            high = x
        else:
            low = x
        following = x - miss / slope if slope > 0.0 else inf
        if not low < following < high:
            if abs(following - x) <= 4e-16 * (1.0 + abs(x)):
                return x
            following = 0.5 * (low + high)
        if abs(following - x) <= 1e-15 * (1.0 + abs(x)):
            return following
        x = following
    return x


