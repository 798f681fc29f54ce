"""Single-diode parameters from the lines of a panel's data sheet.

A sheet gives short-circuit current, open-circuit voltage and the point of greatest power at one to
three light levels. Least squares in the logarithms of the parameters finds the panel that comes
closest; a weak pull towards the starting parameters settles what the sheet leaves open.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from explorer.physics.arrays import FloatArray
from explorer.physics.panel import Panel, current_at_voltage, maximum_power, open_circuit_voltage
from explorer.text import Text, figure, say

ROUNDING = 0.01
"""Rounding of a printed number that is allowed for in the checks, as a share."""
PULL = 5e-4
"""Weight of one e-fold away from the starting parameters, against a relative misfit of 1."""
LEAST_FILL_FACTOR, MOST_FILL_FACTOR = 0.25, 0.9
MOST_SPREAD = 2.0
"""Largest ratio of current per lux between two lines with the same lamp."""
QUANTITIES = ("short_circuit_A", "open_circuit_V", "max_power_A", "max_power_V")


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetValues:
    """One line of a data sheet, as numbers."""

    illuminance_lx: float
    source: str
    short_circuit_a: float
    open_circuit_v: float
    max_power_a: float
    max_power_v: float
    expected_a: float = 0.0
    """Photocurrent that the technology and the area let expect at this light. [A]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelFit:
    """A panel fitted to a data sheet."""

    panel: Panel
    current_scale: float
    """Photocurrent of the fitted panel over the expected one."""
    residuals: FloatArray
    """Model over sheet less 1; a row for each line, columns as in `QUANTITIES`."""

    @property
    def worst(self) -> tuple[int, str, float]:
        """Line (from 0), quantity and size of the largest residual."""
        line, column = np.unravel_index(
            int(np.argmax(np.abs(self.residuals))), self.residuals.shape
        )
        return int(line), QUANTITIES[column], float(self.residuals[line, column])


def line_contradiction(point: SheetValues) -> str:
    """What one line of a data sheet gets wrong, empty if nothing.

    The current of a panel falls ever faster with voltage. So the point of greatest power lies
    inside the rectangle of V_oc and I_sc, and the tangent there (slope -I/V) stays above the
    curve, which puts it at no less than half of V_oc and half of I_sc.

    Returns
    -------
    str
        A sentence that names the quantities by their keys in a file.
    """
    isc, voc = point.short_circuit_a, point.open_circuit_v
    imp, vmp = point.max_power_a, point.max_power_v
    if vmp >= voc:
        return say(
            "max_power_V ({peak} V) must lie below open_circuit_V ({end} V)",
            peak=_plain(vmp),
            end=_plain(voc),
        )
    if imp >= isc:
        return say(
            "max_power_A ({peak} A) must lie below short_circuit_A ({end} A)",
            peak=_plain(imp),
            end=_plain(isc),
        )
    if vmp < 0.5 * voc * (1.0 - ROUNDING):
        return say(
            "max_power_V ({peak} V) is less than half of open_circuit_V ({end} V), which no panel "
            "does",
            peak=_plain(vmp),
            end=_plain(voc),
        )
    if imp < 0.5 * isc * (1.0 - ROUNDING):
        return say(
            "max_power_A ({peak} A) is less than half of short_circuit_A ({end} A), which no panel "
            "does",
            peak=_plain(imp),
            end=_plain(isc),
        )
    fill = vmp * imp / (voc * isc)
    low, high = LEAST_FILL_FACTOR * (1.0 - 2.0 * ROUNDING), MOST_FILL_FACTOR
    if not low <= fill <= high:
        return say(
            "the fill factor, max_power_V · max_power_A over open_circuit_V · short_circuit_A, is "
            "{fill}; a panel has {low} to {high}",
            fill=figure(f"{fill:.2f}"),
            low=_plain(LEAST_FILL_FACTOR),
            high=_plain(MOST_FILL_FACTOR),
        )
    return ""


def _plain(value: float) -> Text:
    return figure(f"{value:g}")


def sheet_contradiction(points: Sequence[SheetValues]) -> str:
    """What the lines of a data sheet contradict each other in, empty if nothing.

    Returns
    -------
    str
        A sentence that names the lines, counted from 1, and the quantity.
    """
    if not 1 <= len(points) <= 3:
        return say("a data sheet takes 1 to 3 light levels, found {n}", n=len(points))
    for number, point in enumerate(points, start=1):
        fault = line_contradiction(point)
        if fault:
            return say("point {number}: {fault}", number=number, fault=fault)
    by_current = sorted(enumerate(points, start=1), key=lambda item: item[1].short_circuit_a)
    for i, (n, a) in enumerate(by_current):
        for m, b in by_current[i + 1 :]:
            fault = _pair_contradiction(n, a, m, b)
            if fault:
                return fault
    return ""


def _pair_contradiction(n: int, a: SheetValues, m: int, b: SheetValues) -> str:
    """Fault between two lines, the second with the greater short-circuit current."""
    if a.source == b.source:
        if a.illuminance_lx == b.illuminance_lx:
            return say(
                "points {n} and {m} have the same illuminance_lx and source; give each once",
                n=n,
                m=m,
            )
        if a.illuminance_lx > b.illuminance_lx or a.short_circuit_a == b.short_circuit_a:
            return say(
                "point {n}: short_circuit_A ({current} A at {level} lx) does not rise with light "
                "against point {m} ({other_current} A at {other_level} lx)",
                n=n,
                current=_plain(a.short_circuit_a),
                level=_plain(a.illuminance_lx),
                m=m,
                other_current=_plain(b.short_circuit_a),
                other_level=_plain(b.illuminance_lx),
            )
        per_lux = a.short_circuit_a / a.illuminance_lx, b.short_circuit_a / b.illuminance_lx
        spread = max(per_lux) / min(per_lux)
        if spread > MOST_SPREAD:
            return say(
                "point {m}: short_circuit_A per lux differs {factor} times from point {n}; current "
                "is nearly proportional to light",
                m=m,
                factor=figure(f"{spread:.1f}"),
                n=n,
            )
    if b.open_circuit_v <= a.open_circuit_v:
        return say(
            "point {m}: open_circuit_V ({volts} V) does not rise with light against point {n} "
            "({other_volts} V)",
            m=m,
            volts=_plain(b.open_circuit_v),
            n=n,
            other_volts=_plain(a.open_circuit_v),
        )
    if b.max_power_a <= a.max_power_a:
        return say(
            "point {m}: max_power_A ({current} A) does not rise with light against point {n} "
            "({other_current} A)",
            m=m,
            current=_plain(b.max_power_a),
            n=n,
            other_current=_plain(a.max_power_a),
        )
    return ""


def fit_panel(points: Sequence[SheetValues], start: Panel) -> PanelFit:
    """Find the panel that a data sheet describes.

    Parameters
    ----------
    points : sequence of SheetValues
        One to three lines; `SheetValues.expected_a` sets the ratio of photocurrents between
        them, and only that.
    start : Panel
        Parameters to start from and to stay near where the sheet is silent; a photo-shunt of
        zero stays zero.

    Returns
    -------
    PanelFit
        Parameters of one panel, the factor on its photocurrent, and what is left over.

    Raises
    ------
    ValueError
        The lines contradict a panel's physics or each other; the sentence names the line and
        the quantity.
    """
    fault = sheet_contradiction(points)
    if fault:
        raise ValueError(fault)
    expected = np.array([p.expected_a for p in points])
    if np.any(expected <= 0):
        raise ValueError(
            say("the expected photocurrent of every data-sheet line must be above zero")
        )
    sheet = np.array(
        [[p.short_circuit_a, p.open_circuit_v, p.max_power_a, p.max_power_v] for p in points]
    )
    guess = _first_guess(sheet, expected, start)

    # Loaded here: only data-sheet panels need it, and it would double the time to the first
    # verdict.
    from scipy.optimize import least_squares

    def misfit(shift: FloatArray) -> FloatArray:
        panel, scale = guess.moved(shift)
        left = _quantities(panel, scale * expected) / sheet - 1.0
        return np.concatenate([left.ravel(), PULL * shift])

    size = len(_REACH) if guess.photo_shunt_per_v > 0 else len(_REACH) - 1
    found = least_squares(
        misfit,
        np.zeros(size),
        bounds=(-_REACH[:size], _REACH[:size]),
        x_scale=_STEP[:size],
        max_nfev=300,
    )
    panel, scale = guess.moved(found.x)
    return PanelFit(
        panel=panel,
        current_scale=scale,
        residuals=_quantities(panel, scale * expected) / sheet - 1.0,
    )


_REACH = np.array([0.3, 1.5, 12.0, 12.0, 1.0, 12.0])
_STEP = np.array([0.05, 0.3, 1.0, 1.0, 0.05, 1.0])
"""Largest and typical shift of the logarithms: diode voltage, slope, series resistance, shunt,
current, photo-shunt."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Guess:
    """A panel written by the voltage at which its diode takes a current.

    Voltage and slope then hardly disturb each other, where saturation current and slope would.
    """

    diode_a: float
    diode_v: float
    slope_v: float
    series_ohm: float
    shunt_s: float
    photo_shunt_per_v: float
    scale: float

    def moved(self, shift: FloatArray) -> tuple[Panel, float]:
        """Panel and current scale after a shift of the logarithms."""
        factor = np.exp(shift).tolist()
        slope = self.slope_v * factor[1]
        panel = Panel(
            saturation_a=self.diode_a * float(np.exp(-self.diode_v * factor[0] / slope)),
            slope_v=slope,
            series_ohm=self.series_ohm * factor[2],
            shunt_s=self.shunt_s * factor[3],
            photo_shunt_per_v=self.photo_shunt_per_v * (factor[5] if len(factor) > 5 else 1.0),
        )
        return panel, self.scale * factor[4]


def _first_guess(sheet: FloatArray, expected: FloatArray, start: Panel) -> _Guess:
    """Starting parameters at the sheet's own scale of current and voltage."""
    scale = float(np.exp(np.mean(np.log(sheet[:, 0] / expected))))
    top_a, top_v = sheet[int(np.argmax(sheet[:, 0])), :2].tolist()
    photo = float(np.asarray(start.photo_shunt_per_v))
    shunt = min(scale * float(np.asarray(start.shunt_s)), 0.2 * top_a / top_v)
    photo = min(photo, 0.3 / top_v)
    return _Guess(
        diode_a=top_a - top_v * (shunt + photo * top_a),
        diode_v=top_v,
        slope_v=float(np.asarray(start.slope_v)),
        series_ohm=max(float(np.asarray(start.series_ohm)) / scale, 1e-6),
        shunt_s=max(shunt, 1e-6 * top_a / top_v),
        photo_shunt_per_v=photo,
        scale=scale,
    )


def _quantities(panel: Panel, photocurrent_a: FloatArray) -> FloatArray:
    """Short-circuit current, open-circuit voltage and the point of greatest power."""
    best = maximum_power(panel, photocurrent_a)
    return np.stack(
        [
            current_at_voltage(panel, photocurrent_a, 0.0),
            open_circuit_voltage(panel, photocurrent_a),
            best.current_a,
            best.voltage_v,
        ],
        axis=1,
    )
