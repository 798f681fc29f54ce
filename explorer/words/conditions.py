"""Under which conditions a run was logged, in words."""

from __future__ import annotations

from explorer.quantity import show
from explorer.scenario.logged_run import BenchRun, Conditions, Draw
from explorer.scenario.weekdays import WEEKDAYS
from explorer.text import Text, figure, joined, say, texts
from explorer.words.fit import percent
from explorer.words.options import option

DRAW_NAMES: dict[Draw, str] = texts({
    "design": "the device as designed",
    "asleep": "the device without its operations",
    "off": "nothing",
    "current": "a steady current",
})  # fmt: skip


def conditions_text(run: BenchRun) -> Text:
    """Under what a run was logged, in one line.

    Examples
    --------
    >>> import numpy as np
    >>> x = np.arange(3.0)
    >>> dark = Conditions(light_lx=0.0, draw="current", current_A=0.02)
    >>> conditions_text(BenchRun(name="a.csv", time_s=x, volts=x, low_v=x, high_v=x, step_s=1.0,
    ...                          readings=3, conditions=dark))
    'in the dark; connected: a steady current of 20 mA ± 1 %'
    """
    told = run.conditions
    parts = [_light(run), say("connected: {what}", what=_draw(told))]
    if told.connected is not None:
        parts.append(say("on at first") if told.connected else say("off at first"))
    if run.start is None and told.begins_s is not None:
        parts.append(say("begins on {moment}", moment=moment_text(told.begins_s)))
    return joined("; ", parts)


def moment_text(since_monday_s: float) -> Text:
    """A moment of the week.

    Examples
    --------
    >>> moment_text(86_400.0 + 9.5 * 3600.0)
    'Tue 09:30'
    """
    day, rest = divmod(int(since_monday_s // 60), 1440)
    clock = figure(f"{rest // 60:02d}:{rest % 60:02d}")
    return joined(" ", (option(WEEKDAYS[day % 7]), clock))


def _light(run: BenchRun) -> Text:
    told = run.conditions
    if told.light_lx == 0.0:
        return say("in the dark")
    if told.light_lx is not None:
        level = show(told.light_lx, "lx")
        if told.light_share is None:
            return say("in steady light of {lux}", lux=level)
        return say("in steady light of {lux} ± {share}", lux=level, share=percent(told.light_share))
    if run.light is not None:
        return say("in the light of the log")
    return say("in the light of the design")


def _draw(told: Conditions) -> Text:
    if told.draw != "current":
        return joined("", (DRAW_NAMES[told.draw],))
    return say(
        "a steady current of {current} ± {share}",
        current=show(told.current_A, "A"), share=percent(told.current_share),
    )  # fmt: skip
