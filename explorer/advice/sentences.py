"""What the checks say of one design, in sentences made from the numbers that they are judged by."""

from __future__ import annotations

from math import isfinite, isinf

import numpy as np

from explorer.advice.case import Case
from explorer.advice.checks import asked_of, more_than, shares
from explorer.advice.readings import START_UP, Readings
from explorer.advice.readings.one import study
from explorer.engine.system import WEEK_S
from explorer.quantity import show
from explorer.text import Text, figure, joined, say

AS_OFTEN_AS_WANTED = say(
    "The device runs until the store gives out, and as often and as long as is wanted."
)
"""Of a design that runs from every connect on."""


def all_of(case: Case, found: Readings) -> dict[str, Text]:
    """The sentences of all checks but Ratings, by the names of the checks."""
    made = {
        "starts": starts(case),
        "balance": balance(found),
        "dark": dark(case, found),
        "pulse": pulse(case, found),
        "service": service(case, found),
    }
    if not found.repeats[0] and isfinite(float(found.ready_s[0])):
        settles = say("The course does not repeat; its last {n} periods stand for it.",
                      n=f"{study(case).course.periods}")
        made["service"] = joined(" ", (made["service"], settles))
    return made


def starts(case: Case) -> Text:
    """Of the first charge."""
    first, scenario = study(case).first, case.scenario
    allowed = show(scenario.margins.start_within_h * 3600.0, "s")
    if isfinite(first.seconds):
        time = show(first.seconds, "s")
        if first.connects < 2:
            return say(
                "From empty, the device is ready {time} after the light comes on; {allowed} is "
                "allowed.",
                time=time, allowed=allowed,
            )
        return say(
            "From empty, the device is ready {time} after the light comes on, after {n} connects; "
            "{allowed} is allowed.",
            time=time, n=f"{first.connects:.0f}", allowed=allowed,
        )
    if first.connects >= 1:
        return say(
            "The device never completes its start-up: each attempt empties the store first "
            "({n} attempts).",
            n=f"{first.connects:.0f}",
        )
    return say(
        "Starting empty, the store reaches only {volts} within {time}; the device connects "
        "at {connect}.",
        volts=show(first.stuck_v, "V"), time=show(first.looked_s, "s"),
        connect=show(scenario.load.connect_V, "V"),
    )


def balance(found: Readings) -> Text:
    """Of what the light brings."""
    got, need = float(found.brought_w[0]), float(found.taken_w[0])
    values = {
        "got": show(got, "W"), "need": show(need, "W"), "volts": show(float(found.level_v[0]), "V"),
    }
    if got >= need:
        return say(
            "With the store held at {volts}, where it suits best, the light brings {got} on "
            "average, which covers the {need} that device, leakage and charger take.",
            **values,
        )
    return say(
        "With the store held at {volts}, where it suits best, the light brings {got} on average, "
        "which does not cover the {need} that device, leakage and charger take.",
        **values,
    )


def dark(case: Case, found: Readings) -> Text:
    """Of the worst dark stretch."""
    d = found.dark
    if case.scenario.load.runs_until_empty:
        return say("The device runs until the store gives out: the dark asks nothing of it.")
    needed_s, lasts_s = float(d.needed_s[0]), float(d.lasts_s[0])
    if needed_s <= 0:
        return say(
            "There is no stretch between lights that bring something, and no closure is declared."
        )
    lasts, needed = show(lasts_s, "s"), show(needed_s, "s")
    if more_than(found)[0]:
        lasts = say("more than {time}", time=lasts)
    if isinf(needed_s):
        asked = say("the light never brings it anything")
    elif d.closure[0]:
        asked = say("the closure lasts {time}", time=needed)
    else:
        asked = say("the dark stretch lasts {time}", time=needed)
    if lasts_s <= 0.0 >= float(d.begin_v[0]):
        return say("Whenever the dark begins, the device is off already; {asked}.", asked=asked)
    volts, reserve = show(float(d.begin_v[0]), "V"), case.scenario.load.reserve_J
    if reserve <= 0:
        return say(
            "Starting at {volts}, the store lasts {time} in the dark; {asked}.",
            volts=volts, time=lasts, asked=asked,
        )
    return say(
        "From {volts} the store lasts {time} in the dark, keeping {energy} for the last safe "
        "action; {asked}.",
        volts=volts, time=lasts, energy=show(reserve, "J"), asked=asked,
    )


def pulse(case: Case, found: Readings) -> Text:
    """Of the deepest pulse."""
    p = found.pulse
    if p is None:
        return say("The device has no pulses.")
    number = int(p.operation[0])
    name = (
        say("the start-up") if number == START_UP
        else say("“{operation}”", operation=case.scenario.load.operations[number].name)
    )
    begin, lowest, need = float(p.begin_v[0]), float(p.lowest_v[0]), float(p.need_v[0])
    volts = show(begin, "V")
    short_s, ramp = float(p.short_s[0]), float(p.ramp_v[0])
    if 0 < short_s < np.inf and ramp > 0.5 * (begin - lowest):
        return say(
            "From {volts}, without light, {operation} takes too much out of the store: after "
            "{time} it is down to the {need} that the device needs.",
            operation=name, volts=volts, time=show(short_s, "s"), need=show(need, "V"),
        )
    if lowest <= 0:
        return say(
            "At {volts}, {operation} asks for more power than the store's series resistance "
            "passes; the voltage collapses.",
            operation=name, volts=volts,
        )
    return say(
        "From {volts}, without light, {operation} pulls the terminals down by {dip} to {lowest}; "
        "down to the {need} that the device needs there are {room}.",
        operation=name, volts=volts, dip=show(begin - lowest, "V"), lowest=show(lowest, "V"),
        need=show(need, "V"), room=show(max(begin - need, 0.0), "V"),
    )


def service(case: Case, found: Readings) -> Text:
    """Of what is served in the course."""
    asked = asked_of(case.scenario, 1)
    share = figure(f"{100 * float(asked.served_share[0]):g}")
    if not isfinite(float(found.ready_s[0])):
        return say(
            "From empty the device never starts, so nothing is served; {asked} % is asked for.",
            asked=share,
        )
    row = shares(found, asked)[0]
    worst = int(np.argmin(row[::-1]))
    worst = len(row) - 1 - worst
    cut_offs = float(found.cut_offs[0])
    if worst < len(row) - 1 and row[worst] < row[-1]:
        return say(
            "“{operation}” is completed in {share} % of the cases wanted; {asked} % is "
            "required.",
            operation=case.scenario.load.operations[worst].name, share=percent(row[worst]),
            asked=share,
        )
    if row[-1] < 1.0 and cut_offs <= 0:
        return say(
            "Once it has settled, the device is connected {share} % of the time; {asked} % is "
            "asked for.",
            share=percent(row[-1]), asked=share,
        )
    if cut_offs > 0:
        a_week = cut_offs / float(found.span_s[0]) * WEEK_S
        return say(
            "The device is connected {share} % of the time, with {n} cut-offs per week; {asked} % "
            "is asked for, and without any cut-off.",
            share=percent(row[-1]), n=show(a_week, ""), asked=share,
        )
    if case.scenario.load.runs_until_empty:
        return AS_OFTEN_AS_WANTED
    if not case.scenario.load.operations:
        return say("The device has no operations; it stays connected all the time.")
    return say("The device stays connected all the time and completes every run that is wanted.")


def percent(share: float) -> Text:
    """A share in per cent, never rounded up to all of it."""
    if share >= 1.0:
        return figure("100")
    text = f"{100 * share:.4g}"
    return figure("99.99" if text == "100" else text)
