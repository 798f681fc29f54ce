"""The three pictures of a sheet, from the columns of the engine."""

from __future__ import annotations

import math

import numpy as np

from explorer.advice.assess import Assessment, PulseView
from explorer.advice.panel_curve import PanelCurve
from explorer.engine.columns import Columns
from explorer.files.report_blocks import (
    Axis,
    Band,
    Chart,
    Column,
    Curve,
    Dot,
    Drop,
    Figure,
    Level,
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
MOST_TICKS = 6
_TIME_LABELS = 9
_NEAR = 2.0
"""The device's need is drawn where it lies within so many depths of the pulse below it."""
LETTERS = "ABCDEFGH"


def store_figure(found: Assessment, repeating: Columns | None, calendar: float | None) -> Figure:
    """The store's voltage over one period of the light.

    Parameters
    ----------
    found : Assessment
        Its trace is the run from the scenario's own beginning.
    repeating : Columns, optional
        The course that repeats; left out where the device never starts.
    calendar : float, optional
        Time from Monday 00:00 to the beginning of the light; None where no weekday is meant. [s]
    """
    trace = found.trace
    main = trace if repeating is None else repeating
    first = say("first period")
    curves = [Curve(label=say("store"), x=main.time_s, y=main.store_v)]
    if repeating is not None:
        curves[0] = Curve(label=say("store, repeating"), x=main.time_s, y=main.store_v)
        curves.append(Curve(label=first, x=trace.time_s, y=trace.store_v, dash="2 3", width=1.1))
    levels = tuple(
        Level(label=joined(" ", (level.label, volts(level.volts))), y=level.volts)
        for level in found.thresholds
    )
    top = max(*(float(c.y.max()) for c in curves), *(level.y for level in levels))
    bottom = min(float(main.terminal_min_v.min()), *(level.y for level in levels),
                 *(float(c.y.min()) for c in curves))  # fmt: skip
    low = 0.0 if bottom < 0.5 * top else bottom
    end = float(main.time_s[-1])
    time = Axis(
        title=say("time"), low=0.0, high=end,
        ticks=time_ticks(0.0, end, _TIME_LABELS, calendar is not None, calendar or 0.0),
    )  # fmt: skip
    brightest = float(main.illuminance_lx.max())
    strip = Strip(
        title=say("light at the place"), x=main.time_s, y=main.illuminance_lx,
        high=1.05 * brightest if brightest > 0 else 1.0, high_label=show(brightest, "lx"),
    )  # fmt: skip
    chart = Chart(
        x=time,
        left=_axis(say("voltage, V"), low, top + 0.04 * (top - low)),
        shades=_dark(main),
        shade_label=say("dark"),
        bands=(
            Band(label=say("pulse envelope"), x=main.time_s, low=main.terminal_min_v,
                 high=main.store_v),
        ),
        curves=tuple(curves),
        levels=levels,
        strip=strip,
    )  # fmt: skip
    words = say(
        "Store voltage over {time}: between {low} and {high}, lowest at the terminals {lowest}.",
        time=show(end, "s"), low=volts(float(main.store_v.min())),
        high=volts(float(main.store_v.max())), lowest=volts(float(main.terminal_min_v.min())),
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
    needs = joined(" ", (say("needs"), volts(pulse.minimum_v)))
    chart = Chart(
        x=Axis(
            title=say("time from the beginning of the operation"),
            low=float(x[0]), high=float(x[-1]),
            ticks=time_ticks(float(x[0]), float(x[-1]), 6, False),
        ),
        left=_axis(say("voltage, V"), max(low - 0.05 * (top - low), 0.0), top + 0.05 * (top - low)),
        curves=(
            Curve(label=say("terminals"), x=x, y=pulse.terminal_v),
            Curve(label=say("store"), x=x, y=pulse.store_v, dash="7 4", width=1.2),
        ),
        levels=(Level(label=needs, y=pulse.minimum_v),) if shown else (),
        drops=(
            Drop(label=joined(" ", (say("ESR step"), small_volts(pulse.step_v))), x=at,
                 low=lowest, high=under),
            Drop(label=joined(" ", (say("ramp"), small_volts(pulse.ramp_v))), x=at,
                 low=under, high=min(under + pulse.ramp_v, top)),
        ),
    )  # fmt: skip
    words = say(
        "{title}: {step} across the series resistance, {ramp} from the store; lowest {lowest}, "
        "the device needs {minimum}.",
        title=pulse.title, step=small_volts(pulse.step_v), ramp=small_volts(pulse.ramp_v),
        lowest=volts(lowest), minimum=volts(pulse.minimum_v),
    )  # fmt: skip
    return Figure(caption=words, spoken=words, chart=chart)


def panel_figure(curve: PanelCurve) -> Figure:
    """Current and power of the array over its voltage, with its working points."""
    amps, amp_prefix = _scaled(float(curve.current_a.max()))
    watts, watt_prefix = _scaled(float(curve.power_w.max()))
    end = max(float(curve.voltage_v.max()), *(p.voltage_v for p in curve.points), 1e-3)
    chart = Chart(
        x=_axis(say("panel voltage, V"), 0.0, end, snug=True),
        left=_axis(say("current, {unit}", unit=f"{amp_prefix}A"), 0.0,
                   float(curve.current_a.max()) * amps),
        right=_axis(say("power, {unit}", unit=f"{watt_prefix}W"), 0.0,
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


def _axis(title: str, low: float, high: float, *, snug: bool = False) -> Axis:
    """An axis between round values, or one that ends with the data."""
    places = ticks(low, high)
    end = max(high, places[0] + LEAST_SPAN) if snug else places[-1]
    return Axis(
        title=title, low=places[0], high=end,
        ticks=tuple(
            Tick(time_s=v, label=figure(f"{v:.6g}".replace("-", "−"))) for v in places if v <= end
        ),
    )  # fmt: skip


def _scaled(largest: float) -> tuple[float, str]:
    """Factor and prefix that bring a value to a number from 1 to 1000."""
    usable = [p for p, size in PREFIXES.items() if largest >= size]
    prefix = usable[-1] if usable else "p"
    return 1.0 / PREFIXES[prefix], prefix


def _dark(trace: Columns) -> tuple[tuple[float, float], ...]:
    """Stretches (from, to) of a trace without light. [s]"""
    dark = (trace.illuminance_lx < DARK_BELOW_LX).astype(int)
    change = np.diff(dark, prepend=0, append=0)
    begins, ends = np.flatnonzero(change == 1), np.flatnonzero(change == -1)
    last = trace.time_s.size - 1
    return tuple(
        (float(trace.time_s[i]), float(trace.time_s[min(j, last)]))
        for i, j in zip(begins.tolist(), ends.tolist(), strict=True)
    )
