"""Single-diode parameters from the lines of a panel's data sheet.

A sheet gives the short-circuit current at one light level or several, and often the open-circuit
voltage and the point of greatest power. Least squares in the logarithms of the parameters finds the
panel that comes closest; a weak pull towards the starting parameters settles what the sheet leaves
open.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from explorer.physics.arrays import FloatArray
from explorer.physics.panel import Panel, current_at_voltage, maximum_power, open_circuit_voltage
from explorer.quantity import show
from explorer.text import Text, figure, say

ROUNDING = 0.01
"""Rounding of a printed number that is allowed for in the checks, as a share."""
PULL = 5e-4
"""Weight of one e-fold away from the starting parameters, against a relative misfit of 1."""
CURVE_WEIGHT = 6.0
"""Weight of all points of a measured curve together, against one value of a sheet (own judgement:
the points say more than the four values that were taken from them)."""
LEAST_FILL_FACTOR, MOST_FILL_FACTOR = 0.25, 0.9
MOST_LINES = 8
MOST_SPREAD = 2.0
"""Largest ratio of current per lux between two lines with the same lamp."""
_DIGITS = 6
"""What is typed with up to six digits is said as typed."""
QUANTITIES = ("short_circuit_A", "open_circuit_V", "max_power_A", "max_power_V")


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetValues:
    """One line of a data sheet, as numbers; None where the sheet says nothing."""

    illuminance_lx: float
    source: str
    short_circuit_a: float
    open_circuit_v: float | None = None
    max_power_a: float | None = None
    max_power_v: float | None = None
    expected_a: float = 0.0
    """Photocurrent that the technology and the area let expect at this light. [A]"""
    curve_v: tuple[float, ...] = ()
    curve_a: tuple[float, ...] = ()
    """Points of a measured curve, where the line was taken from one. [V], [A]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelFit:
    """A panel fitted to a data sheet."""

    panel: Panel
    current_scale: float
    """Photocurrent of the fitted panel over the expected one."""
    photocurrent_a: FloatArray
    """Of each line, shape (lines,). [A]"""
    model: FloatArray
    """What the fitted panel gives; a row for each line, columns as in `QUANTITIES`."""
    residuals: FloatArray
    """Model over sheet less 1, of the same shape; NaN where the sheet says nothing."""

    @property
    def worst(self) -> tuple[int, str, float]:
        """Line (from 0), quantity and size of the largest residual."""
        line, column = np.unravel_index(
            int(np.nanargmax(np.abs(self.residuals))), self.residuals.shape
        )
        return int(line), QUANTITIES[column], float(self.residuals[line, column])


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetFault:
    """What a data sheet gets wrong, and where."""

    line: int
    """From 0."""
    quantity: str
    """One of `QUANTITIES`, or ``"illuminance_lx"``."""
    text: Text
    """Names the quantities by their keys in a file, and lines from 1."""


def line_contradiction(point: SheetValues, line: int = 0) -> SheetFault | None:
    """What one line of a data sheet gets wrong, None if nothing.

    The current of a panel falls ever faster with voltage. So the point of greatest power lies
    inside the rectangle of V_oc and I_sc, and the tangent there (slope -I/V) stays above the
    curve, which puts it at no less than half of V_oc and half of I_sc.

    What a line leaves out is not held against it; a point of greatest power has both its current
    and its voltage.
    """

    def fault(quantity: str, text: Text) -> SheetFault:
        return SheetFault(line=line, quantity=quantity, text=text)

    isc, voc = point.short_circuit_a, point.open_circuit_v
    imp, vmp = point.max_power_a, point.max_power_v
    if (imp is None) != (vmp is None):
        missing = "max_power_A" if imp is None else "max_power_V"
        return fault(missing, say(
            "{key} is missing; the maximum power point has a current and a voltage",
            key=missing,
        ))  # fmt: skip
    if vmp is not None and voc is not None:
        if vmp >= voc:
            return fault("max_power_V", say(
                "max_power_V ({peak}) must lie below open_circuit_V ({end})",
                peak=_volts(vmp), end=_volts(voc),
            ))  # fmt: skip
        if vmp < 0.5 * voc * (1.0 - ROUNDING):
            return fault("max_power_V", say(
                "max_power_V ({peak}) is less than half of open_circuit_V ({end}), which no panel "
                "does",
                peak=_volts(vmp), end=_volts(voc),
            ))  # fmt: skip
    if imp is not None:
        if imp >= isc:
            return fault("max_power_A", say(
                "max_power_A ({peak}) must lie below short_circuit_A ({end})",
                peak=_amps(imp), end=_amps(isc),
            ))  # fmt: skip
        if imp < 0.5 * isc * (1.0 - ROUNDING):
            return fault("max_power_A", say(
                "max_power_A ({peak}) is less than half of short_circuit_A ({end}), which no panel "
                "does",
                peak=_amps(imp), end=_amps(isc),
            ))  # fmt: skip
    if vmp is None or imp is None or voc is None:
        return None
    fill = vmp * imp / (voc * isc)
    low, high = LEAST_FILL_FACTOR * (1.0 - 2.0 * ROUNDING), MOST_FILL_FACTOR
    if low <= fill <= high:
        return None
    return fault("max_power_A", say(
        "the fill factor, max_power_V · max_power_A over open_circuit_V · short_circuit_A, is "
        "{fill}; a panel has {low} to {high}",
        fill=figure(f"{fill:.2f}"), low=_plain(LEAST_FILL_FACTOR), high=_plain(MOST_FILL_FACTOR),
    ))  # fmt: skip


def sheet_contradiction(
    points: Sequence[SheetValues], places: Sequence[int] | None = None
) -> SheetFault | None:
    """What the lines of a data sheet contradict each other in, None if nothing.

    Parameters
    ----------
    points : sequence of SheetValues
        The lines.
    places : sequence of int, optional
        Place of each line on its sheet, from 0; one after another where left out.

    Raises
    ------
    ValueError
        There is no line, or more than `MOST_LINES`.
    """
    if not 1 <= len(points) <= MOST_LINES:
        raise ValueError(
            say(
                "a data sheet has 1 to {most} points, found {n}",
                most=MOST_LINES, n=len(points),
            )
        )  # fmt: skip
    placed = list(zip(places or range(len(points)), points, strict=True))
    for line, point in placed:
        if fault := line_contradiction(point, line):
            return fault
    by_current = sorted(placed, key=lambda item: item[1].short_circuit_a)
    for i, (n, a) in enumerate(by_current):
        for m, b in by_current[i + 1 :]:
            if fault := _pair_contradiction(n, a, m, b):
                return fault
    return None


def numbered(fault: SheetFault) -> Text:
    """The fault as a sentence that begins with its line, counted from 1."""
    return say("point {number}: {fault}", number=fault.line + 1, fault=fault.text)


def _plain(value: float) -> Text:
    return figure(f"{value:g}")


def _volts(value: float) -> Text:
    return show(value, "V", _DIGITS)


def _amps(value: float) -> Text:
    return show(value, "A", _DIGITS)


def _pair_contradiction(n: int, a: SheetValues, m: int, b: SheetValues) -> SheetFault | None:
    """Fault between two lines, the second with no less short-circuit current."""
    if a.source == b.source:
        if a.illuminance_lx == b.illuminance_lx:
            return SheetFault(line=max(n, m), quantity="illuminance_lx", text=say(
                "points {n} and {m} have the same illuminance_lx and source; give each once",
                n=min(n, m) + 1, m=max(n, m) + 1,
            ))  # fmt: skip
        if a.illuminance_lx > b.illuminance_lx or a.short_circuit_a == b.short_circuit_a:
            return SheetFault(line=n, quantity="short_circuit_A", text=say(
                "short_circuit_A ({current} at {level}) does not rise with light against point "
                "{m} ({other_current} at {other_level})",
                current=_amps(a.short_circuit_a), level=show(a.illuminance_lx, "lx", _DIGITS),
                m=m + 1, other_current=_amps(b.short_circuit_a),
                other_level=show(b.illuminance_lx, "lx", _DIGITS),
            ))  # fmt: skip
        per_lux = a.short_circuit_a / a.illuminance_lx, b.short_circuit_a / b.illuminance_lx
        spread = max(per_lux) / min(per_lux)
        if spread > MOST_SPREAD:
            return SheetFault(line=m, quantity="short_circuit_A", text=say(
                "short_circuit_A per lux differs {factor} times from point {n}; current is nearly "
                "proportional to light",
                factor=figure(f"{spread:.1f}"), n=n + 1,
            ))  # fmt: skip
    # Two lamps may give nearly the same current; what is printed is rounded.
    least = 1.0 - ROUNDING if a.source != b.source else 1.0
    for quantity, less, more, said in (
        ("open_circuit_V", a.open_circuit_v, b.open_circuit_v, _volts),
        ("max_power_A", a.max_power_a, b.max_power_a, _amps),
    ):
        if less is None or more is None:
            continue
        if more < less * least or (more == less and least == 1.0):
            return SheetFault(line=m, quantity=quantity, text=say(
                "{key} ({value}) does not rise with light against point {n} ({other})",
                key=quantity, value=said(more), n=n + 1, other=said(less),
            ))  # fmt: skip
    return None


def fit_panel(points: Sequence[SheetValues], start: Panel) -> PanelFit:
    """Find the panel that a data sheet describes.

    Parameters
    ----------
    points : sequence of SheetValues
        One line or several; `SheetValues.expected_a` sets the ratio of photocurrents between
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
    if fault := sheet_contradiction(points):
        raise ValueError(numbered(fault))
    expected = np.array([p.expected_a for p in points])
    if np.any(expected <= 0):
        raise ValueError(
            say("the photocurrent of every data-sheet point must be above zero")
        )
    sheet = np.array(
        [[p.short_circuit_a, p.open_circuit_v, p.max_power_a, p.max_power_v] for p in points],
        dtype=np.float64,
    )
    said = np.isfinite(sheet)
    guess = _first_guess(sheet, expected, start)
    curves = [
        (k, np.array(p.curve_v), np.array(p.curve_a), p.short_circuit_a)
        for k, p in enumerate(points) if p.curve_v
    ]  # fmt: skip

    # Loaded here: only data-sheet panels need it, and it would double the time to the first
    # verdict.
    from scipy.optimize import least_squares

    def misfit(shift: FloatArray) -> FloatArray:
        panel, scale = guess.moved(shift)
        left = _quantities(panel, scale * expected) / sheet - 1.0
        return np.concatenate([left[said], PULL * shift])

    def with_curves(shift: FloatArray) -> FloatArray:
        panel, scale = guess.moved(shift)
        beside = [
            CURVE_WEIGHT / np.sqrt(len(volts)) / short_a
            * (current_at_voltage(panel, scale * expected[k], volts) - amps)
            for k, volts, amps, short_a in curves
        ]  # fmt: skip
        return np.concatenate([misfit(shift), *beside])

    size = len(_REACH) if guess.photo_shunt_per_v > 0 else len(_REACH) - 1
    found = least_squares(
        misfit,
        np.zeros(size),
        bounds=(-_REACH[:size], _REACH[:size]),
        x_scale=_STEP[:size],
        max_nfev=300,
    )
    if curves:
        found = least_squares(
            with_curves, found.x, bounds=(-_REACH[:size], _REACH[:size]), x_scale=_STEP[:size],
            ftol=1e-5, xtol=1e-5, max_nfev=25,
        )  # fmt: skip
    panel, scale = guess.moved(found.x)
    model = _quantities(panel, scale * expected)
    return PanelFit(
        panel=panel, current_scale=scale, photocurrent_a=scale * expected, model=model,
        residuals=model / sheet - 1.0,
    )  # fmt: skip


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
    """Starting parameters at the sheet's own scale of current and voltage.

    The voltage is that of the brightest line which has one; that of the starting panel where no
    line has.
    """
    scale = float(np.exp(np.mean(np.log(sheet[:, 0] / expected))))
    known = np.isfinite(sheet[:, 1])
    brightest = int(np.argmax(np.where(known, sheet[:, 0], 0.0) if known.any() else sheet[:, 0]))
    top_a, top_v = sheet[brightest, :2].tolist()
    if not known.any():
        at = expected[[brightest]]
        top_v = float(np.asarray(open_circuit_voltage(start, at)).item())
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
