"""Texts about a panel's data sheet and the curve that was laid through it, without widgets."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from explorer.physics import panel as pv
from explorer.physics.arrays import FloatArray
from explorer.physics.constants import thermal_voltage
from explorer.physics.measured_curve import CurveMisfit, curve_misfit
from explorer.physics.panel_fit import QUANTITIES, PanelFit, SheetFault
from explorer.quantity import show
from explorer.scenario.data_sheet import REFERENCE_C
from explorer.scenario.fields import describe
from explorer.scenario.light import Source
from explorer.scenario.sheet_draft import DraftLine, Judged
from explorer.scenario.supply import Panels, SheetPoint
from explorer.text import Text, capitalised, figure, joined, say
from explorer.words.options import option
from explorer.words.refusal import in_plain_words

_CURVE_POINTS = 160


def percent_off(share: float) -> Text:
    """A relative misfit as a percentage with its sign.

    Examples
    --------
    >>> percent_off(0.0123), percent_off(-0.2)
    ('+1.2 %', '−20 %')
    """
    if np.isnan(share):
        return say("")
    size = abs(100.0 * share)
    sign = "" if size < 0.05 else "+" if share > 0 else "−"
    return figure(f"{sign}{size:.{0 if size >= 10 else 1}f} %")


def line_off(fit: PanelFit, row: int) -> float:
    """The largest misfit of one line, with its sign."""
    missed = fit.residuals[row]
    return float(missed[int(np.nanargmax(np.abs(missed)))])


def fault_sentence(fault: SheetFault) -> Text:
    """A fault by the names that fields have on the screen."""
    return say(
        "Point {n}: {fault}.", n=fault.line + 1, fault=capitalised(in_plain_words(fault.text))
    )


def misfit_sentence(line: int, missed: CurveMisfit) -> Text:
    """How far a fitted curve passes from the measured points of a line."""
    return say(
        "Point {n}: of {points} measured points the curve misses {mean} of the short-circuit "
        "current (RMS), {most} at most.",
        n=line + 1, points=missed.points,
        mean=figure(f"{100.0 * missed.root_mean_square:.2g} %"),
        most=figure(f"{100.0 * missed.largest:.2g} %"),
    )


def measured_of(point: SheetPoint) -> tuple[FloatArray, FloatArray]:
    """Points of the curve that a line was taken from. [V, A]"""
    return np.array(point.measured_V), np.array(point.measured_A)


def misfit_sentences(panels: Panels, fit: PanelFit, numbers: Sequence[int]) -> tuple[Text, ...]:
    """The same for every line that was taken from a measured curve, by its place in a table."""
    return tuple(
        misfit_sentence(place, curve_misfit(fit.panel, amps, *measured_of(point)))
        for place, point, amps in zip(
            numbers, panels.data_sheet, fit.photocurrent_a.tolist(), strict=True
        )
        if point.measured_V
    )


def unfinished_sentence(line: int, draft: DraftLine) -> Text:
    """What a line that has been begun still lacks."""
    names = tuple(_label(key) for key in draft.missing)
    return say("Point {n} still lacks: {what}.", n=line + 1, what=joined(", ", names))


def fit_sentence(panels: Panels, fit: PanelFit) -> Text:
    """How close the curves pass, and what the technology had to fill in."""
    missed = fit.residuals[np.isfinite(fit.residuals)]
    percent = figure(f"{max(100.0 * float(np.abs(missed).max()), 0.1):.2g} %")
    if missed.size == 1:
        close = say("The curve passes within {percent} of the only value.", percent=percent)
    else:
        close = say(
            "The curves pass within {percent} of {n} values.", percent=percent, n=missed.size
        )
    filled = filled_sentence(panels)
    return joined(" ", (close, filled)) if filled else close


def filled_sentence(panels: Panels) -> Text | None:
    """What no line of a data sheet says, so that the technology decides it."""
    points = panels.data_sheet
    silent = [
        _label(key) for key in ("open_circuit_V", "max_power_A")
        if all(getattr(point, key) is None for point in points)
    ]
    if not silent:
        return None
    return say(
        "{what}: not on the sheet, filled in by the cell technology ({technology}).",
        what=joined(", ", silent), technology=option(panels.technology),
    )


def fit_rows(panels: Panels, fit: PanelFit) -> tuple[tuple[Text, Text], ...]:
    """Name and value of the parameters of one panel's diode, at 25 °C."""
    panel, point = fit.panel, panels.data_sheet[0]
    slope = float(np.asarray(panel.slope_v))
    amps = float(fit.photocurrent_a[0])
    isc, voc, imp, vmp = fit.model[0].tolist()
    shunt_s = float(np.asarray(panel.shunt_s)) + float(np.asarray(panel.photo_shunt_per_v)) * amps
    level = show(point.illuminance_lx, "lx")
    ideality = slope / thermal_voltage(REFERENCE_C) / panels.cells_in_series
    return (
        (say("Photocurrent at {light}", light=level), show(amps, "A")),
        (say("Saturation current"), show(float(np.asarray(panel.saturation_a)), "A")),
        (say("Ideality of each cell"), figure(f"{ideality:.3g}")),
        (say("Series resistance"), show(float(np.asarray(panel.series_ohm)), "Ω")),
        (say("Shunt at {light}", light=level), show(1.0 / max(shunt_s, 1e-15), "Ω")),
        (say("Fill factor at {light}", light=level), figure(f"{imp * vmp / (isc * voc):.2f}")),
    )


def curves(fit: PanelFit) -> tuple[tuple[FloatArray, FloatArray], ...]:
    """Voltage and current of the fitted panel for each line of its sheet. [V, A]"""
    found = []
    for amps in fit.photocurrent_a.tolist():
        curve = pv.current_over(fit.panel, amps, points=_CURVE_POINTS)
        # The first points lie below zero volts, by what the series resistance drops.
        inside = curve.voltage_v > 0.0
        short = pv.current_at_voltage(fit.panel, amps, 0.0)
        found.append((
            np.append(0.0, curve.voltage_v[inside]), np.append(short, curve.current_a[inside])
        ))  # fmt: skip
    return tuple(found)


def points_of(point: SheetPoint | DraftLine) -> tuple[tuple[str, float, float], ...]:
    """Quantity, voltage and current of what a line says of its curve. [V, A]"""
    found = []
    if point.short_circuit_A is not None:
        found.append((QUANTITIES[0], 0.0, point.short_circuit_A))
    if point.open_circuit_V is not None:
        found.append((QUANTITIES[1], point.open_circuit_V, 0.0))
    if point.max_power_A is not None and point.max_power_V is not None:
        found.append((QUANTITIES[2], point.max_power_V, point.max_power_A))
    return tuple(found)


def light_name(illuminance_lx: float, source: Source, *, with_source: bool) -> Text:
    """What a curve is called: its light level, with the lamp where a sheet has several."""
    level = show(illuminance_lx, "lx")
    return say("{level}, {lamp}", level=level, lamp=option(source)) if with_source else level


def summary(panels: Panels, judgement: Judged | None) -> Text:
    """A data sheet in one line, for the form that opens it."""
    if not panels.data_sheet:
        return say("None: the curve follows from technology and area.")
    if judgement is None or judgement.fit is None or judgement.faults:
        return say("Its lines contradict each other.")
    return fit_sentence(panels, judgement.fit)


def _label(key: str) -> str:
    return describe(SheetPoint, key).label
