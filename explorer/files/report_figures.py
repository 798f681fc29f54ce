"""The three pictures of a sheet, from the columns of the engine."""

from __future__ import annotations

import math

import numpy as np

from explorer.advice.assess import Assessment, PulseView
from explorer.advice.panel_curve import PanelCurve
from explorer.engine.picture import runs
from explorer.engine.trace import Trace
from explorer.files.report_blocks import (
    Axis,
    Band,
    Chart,
    Column,
    Curve,
    Dot,
    Drop,
    Figure,
    NamedLine,
    Row,
    Strip,
    Table,
)
from explorer.quantity import PREFIXES, show
from explorer.scenario.light_log import DARK_BELOW_LX
from explorer.text import figure, joined, say
from explorer.words.figures import small_volts, volts
from explorer.words.moments import Tick, time_ticks

LEAST_SPAN = 1e-9
"""Shortest axis that is drawn; a panel in the dark gives nothing at all."""
COLUMNS = 1000
ROWS = 400
"""About so many points wide and high is what a printed curve can show."""
MOST_TICKS = 6
_TIME_LABELS = 9
_BELOW = 0.14
"""Room for a name under the deepest point of a pulse, over the height of the pulse."""
_NEAR = 2.0
"""The device's need is drawn where it lies within so many depths of the pulse below it."""
LETTERS = "ABCDEFGH"


def store_figure(found: Assessment, repeating: Trace | None, calendar: float | None) -> Figure:
    """The store's voltage over one period of the light.

    Parameters
    ----------
    found : Assessment
        Its trace is the run from the scenario's own beginning.
    repeating : Trace, optional
        The course that repeats; left out where the device never starts.
    calendar : float, optional
        Time from Monday 00:00 to the beginning of the light; None where no weekday is meant. [s]
    """
    trace = found.trace
    main = trace if repeating is None else repeating
    first = say("first period")
    end = main.span_s
    picture = main.picture(0.0, end, COLUMNS)
    extremes = main.extremes()
    pixel_v = max(extremes.highest_store_v, 1e-3) / ROWS
    x, y = picture.line(pixel_v)
    curves = [Curve(label=say("store"), x=x, y=y)]
    if repeating is not None:
        curves[0] = Curve(label=say("store, repeating"), x=x, y=y)
        # Where every so many periods alone are alike, it ends before they do.
        x, y = trace.picture(0.0, min(end, trace.span_s), COLUMNS).line(pixel_v)
        curves.append(Curve(label=first, x=x, y=y, dash="2 3", width=1.1))
    levels = tuple(
        NamedLine(label=joined(" ", (level.label, volts(level.volts))), y=level.volts)
        for level in found.thresholds
    )
    highest = max(extremes.highest_store_v, trace.extremes().highest_store_v)
    top = max(highest, *(level.y for level in levels))
    bottom = min(extremes.lowest_ever_v, *(level.y for level in levels),
                 *(float(c.y.min()) for c in curves))  # fmt: skip
    low = 0.0 if bottom < 0.5 * top else bottom
    time = Axis(
        title=say("time"), low=0.0, high=end,
        ticks=time_ticks(0.0, end, _TIME_LABELS, calendar is not None, calendar or 0.0),
    )  # fmt: skip
    light_s, lux = main.light()
    brightest = float(lux.max(initial=0.0))
    strip = Strip(
        title=say("light at the place"),
        x=np.repeat(light_s, 2)[1:-1], y=np.repeat(lux, 2),  # constant between its edges
        high=1.05 * brightest if brightest > 0 else 1.0, high_label=show(brightest, "lx"),
    )  # fmt: skip
    chart = Chart(
        x=time,
        left=axis(say("voltage, V"), low, top + 0.04 * (top - low)),
        shades=_dark(light_s, lux),
        shade_label=say("dark"),
        bands=tuple(
            Band(label=say("pulse envelope"), x=x, low=low, high=high)
            for x, low, high in picture.envelope()
        ),
        curves=tuple(curves),
        levels=levels,
        strip=strip,
    )  # fmt: skip
    words = say(
        "Store voltage over {time}: between {low} and {high}, lowest at the terminals {lowest}.",
        time=show(end, "s"), low=volts(extremes.lowest_store_v),
        high=volts(extremes.highest_store_v), lowest=volts(extremes.lowest_ever_v),
    )  # fmt: skip
    if repeating is None:
        kind = say("The run from the scenario's own beginning.")
    else:
        kind = say(
            "Solid: the course that repeats, which the checks judge. Dotted: the first period "
            "from the scenario's own beginning."
        )
    return Figure(caption=joined(" ", (words, kind)), spoken=words, chart=chart)


def pulse_figure(pulse: PulseView) -> Figure:
    """The deepest pulse at the lowest store voltage, split into its step and its ramp."""
    x = pulse.time_s
    lowest = float(pulse.terminal_v.min())
    at = float(x[int(np.argmin(pulse.terminal_v))])
    top = float(pulse.store_v.max())
    under = lowest + pulse.step_v
    shown = lowest - pulse.minimum_v <= _NEAR * max(top - lowest, 1e-3)
    low = min(lowest, pulse.minimum_v) if shown else lowest
    depth = top - low
    needs = joined(" ", (say("needs"), volts(pulse.minimum_v)))
    chart = Chart(
        x=Axis(
            title=say("time from the beginning of the operation"),
            low=float(x[0]), high=float(x[-1]),
            ticks=time_ticks(float(x[0]), float(x[-1]), 6, False),
        ),
        left=axis(say("voltage, V"), max(low - _BELOW * depth, 0.0), top + 0.05 * depth),
        curves=(
            Curve(label=say("terminals"), x=x, y=pulse.terminal_v),
            Curve(label=say("store"), x=x, y=pulse.store_v, dash="7 4", width=1.2),
        ),
        levels=(NamedLine(label=needs, y=pulse.minimum_v),) if shown else (),
        drops=(
            Drop(label=joined(" ", (say("ESR step"), small_volts(pulse.step_v))), x=at,
                 low=lowest, high=under),
            Drop(label=joined(" ", (say("ramp"), small_volts(pulse.ramp_v))), x=at,
                 low=under, high=min(under + pulse.ramp_v, top)),
        ),
    )  # fmt: skip
    words = say(
        "{title}: {step} across the series resistance, {ramp} by discharge; lowest "
        "{lowest}, the device needs {minimum}.",
        title=pulse.title, step=small_volts(pulse.step_v), ramp=small_volts(pulse.ramp_v),
        lowest=volts(lowest), minimum=volts(pulse.minimum_v),
    )  # fmt: skip
    return Figure(caption=words, spoken=words, chart=chart)


def panel_figure(curve: PanelCurve) -> Figure:
    """Current and power of the array over its voltage, with its working points."""
    amps, amp_prefix = scaled(float(curve.current_a.max()))
    watts, watt_prefix = scaled(float(curve.power_w.max()))
    end = max(float(curve.voltage_v.max()), *(p.voltage_v for p in curve.points), 1e-3)
    chart = Chart(
        x=axis(say("panel voltage, V"), 0.0, end, snug=True),
        left=axis(say("current, {unit}", unit=f"{amp_prefix}A"), 0.0,
                   float(curve.current_a.max()) * amps),
        right=axis(say("power, {unit}", unit=f"{watt_prefix}W"), 0.0,
                    float(curve.power_w.max()) * watts),
        curves=(
            Curve(label=say("current"), x=curve.voltage_v, y=curve.current_a * amps),
            Curve(label=say("power"), x=curve.voltage_v, y=curve.power_w * watts, dash="7 4",
                  right=True),
        ),
        dots=tuple(
            Dot(letter=letter, x=point.voltage_v, y=point.current_a * amps)
            for letter, point in zip(LETTERS, curve.points, strict=False)
        ),
    )  # fmt: skip
    words = say(
        "Current and power of the whole array at {light} at the place. {note}",
        light=show(curve.illuminance_lx, "lx"), note=curve.note,
    )  # fmt: skip
    return Figure(caption=words, spoken=words, chart=chart)


def point_table(curve: PanelCurve) -> Table:
    """What the letters on the panel's curve stand for."""
    return Table(
        caption=say("Points on the curves"),
        columns=(
            Column(title=say("Point"), share=0.4),
            Column(title=say("Voltage", "column"), share=0.2, kind="number"),
            Column(title=say("Current", "column"), share=0.2, kind="number"),
            Column(title=say("Power", "column"), share=0.2, kind="number"),
        ),
        rows=tuple(
            Row(
                cells=(
                    joined("  ", (letter, point.label)), show(point.voltage_v, "V"),
                    show(point.current_a, "A"), show(point.power_w, "W"),
                )
            )
            for letter, point in zip(LETTERS, curve.points, strict=False)
        ),
    )  # fmt: skip


def ticks(low: float, high: float) -> tuple[float, ...]:
    """Round values from the first at or below `low` to the first at or above `high`.

    Examples
    --------
    >>> ticks(0.0, 4.7)
    (0.0, 1.0, 2.0, 3.0, 4.0, 5.0)
    """
    span = max(high - low, LEAST_SPAN) if high > low else max(abs(high), LEAST_SPAN)
    rough = span / MOST_TICKS
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(f * power for f in (1.0, 2.0, 5.0, 10.0) if f * power >= rough * (1 - 1e-9))
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return tuple(round(i * step, 12) for i in range(first, max(last, first + 1) + 1))


def axis(title: str, low: float, high: float, *, snug: bool = False) -> Axis:
    """An axis between round values, or one that ends with the data."""
    places = ticks(low, high)
    end = max(high, places[0] + LEAST_SPAN) if snug else places[-1]
    return Axis(
        title=title, low=places[0], high=end,
        ticks=tuple(
            Tick(time_s=v, label=figure(f"{v:.6g}".replace("-", "−"))) for v in places if v <= end
        ),
    )  # fmt: skip


def scaled(largest: float) -> tuple[float, str]:
    """Factor and prefix that bring a value to a number from 1 to 1000."""
    usable = [p for p, size in PREFIXES.items() if largest >= size]
    prefix = usable[-1] if usable else "p"
    return 1.0 / PREFIXES[prefix], prefix


def _dark(edges_s: np.ndarray, lux: np.ndarray) -> tuple[tuple[float, float], ...]:
    """Stretches (from, to) without light, of light that is constant between edges. [s]"""
    first, last = runs(lux < DARK_BELOW_LX)
    return tuple(
        (float(edges_s[i]), float(edges_s[j])) for i, j in zip(first, last, strict=True)
    )
