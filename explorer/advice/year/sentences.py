"""What the checks say of a year, in sentences: the month or the date that decides is named."""

from __future__ import annotations

from math import inf, isfinite

import numpy as np

from explorer.advice import sentences as plain
from explorer.advice.case import Case
from explorer.advice.checks import asked_of, more_than
from explorer.advice.readings import Readings
from explorer.advice.year.dates import month_name, months_text
from explorer.advice.year.readings import (
    course_checks,
    nearest_limit,
    ratings_by_month,
    tightest,
    worst_of_course,
)
from explorer.advice.year.study import year_study
from explorer.engine.system import DAY_S
from explorer.quantity import show
from explorer.scenario.calendar import date_text
from explorer.scenario.model import Scenario
from explorer.scenario.year_course import moment_of
from explorer.text import Text, figure, joined, say


def year_sentences(case: Case, found: Readings) -> dict[str, Text]:
    """The sentences of all checks but Ratings, by the names of the checks."""
    return {
        "starts": _starts(case),
        "balance": _balance(case),
        "dark": (
            plain.dark(case, found) if case.scenario.load.runs_until_empty
            else _in_month(case, "dark", _dark(case, found))
        ),
        "pulse": _in_month(case, "pulse", plain.pulse(case, found)),
        "service": _service(case, found),
    }


def rated_scenario(case: Case) -> Scenario:
    """The design at the temperature of the month whose limits are the nearest."""
    runs = year_study(case).months
    rows = ratings_by_month(case)
    worst = min(rows, key=lambda row: float(row.margin.min()))
    return runs[nearest_limit(worst)].month.scenario


def _in_month(case: Case, check: str, sentence: Text) -> Text:
    begin = year_study(case).months[worst_of_course(case, check)].month.begin
    return say("In {month}: {sentence}", month=month_name(begin), sentence=sentence)


def _starts(case: Case) -> Text:
    found = year_study(case)
    first, hung = found.first, date_text(moment_of(found.year, found.hung_s))
    allowed = show(case.scenario.margins.start_within_h * 3600.0, "s")
    if isfinite(first.seconds):
        return say(
            "Hung up empty on {date}, the device is ready {time} after the first light; {allowed} "
            "is allowed.",
            date=hung, time=show(first.seconds, "s"), allowed=allowed,
        )
    if first.connects >= 1:
        return say(
            "Hung up empty on {date}, it does not get past its start-up within a year: each try "
            "empties the store before the device is up.",
            date=hung,
        )
    return say(
        "Hung up empty on {date}, the store only reaches {volts} within a year; it connects at "
        "{connect}.",
        date=hung, volts=show(first.stuck_v, "V"), connect=show(case.scenario.load.connect_V, "V"),
    )


def _balance(case: Case) -> Text:
    found, window = year_study(case), tightest(case)
    last = (window.first + window.count - 1) % len(found.months)
    got, need = float(window.balance.brought_w[0]), float(window.balance.taken_w[0])
    values: dict[str, object] = {
        "months": months_text(found.months[window.first].month.begin,
                              found.months[last].month.begin),
        "got": show(got, "W"), "need": show(need + window.gives_w, "W"),
        "gives": show(window.gives_w, "W"),
    }
    if window.count == len(found.months):
        values["need"] = show(need, "W")
        if got >= need:
            return say(
                "Over the year the light brings {got} on average, which covers the {need} that "
                "device, leakage and charger take.",
                **values,
            )
        return say(
            "Over the year the light brings {got} on average, which does not cover the {need} that "
            "device, leakage and charger take.",
            **values,
        )
    if got >= need:
        return say(
            "{months}, the tightest of the year, the light brings {got} on average and a full "
            "store gives {gives}; together that covers the {need} that device, leakage and charger "
            "take.",
            **values,
        )
    return say(
        "{months}, the tightest of the year, the light brings {got} on average and a full store "
        "gives {gives}; together that does not cover the {need} that device, leakage and charger "
        "take.",
        **values,
    )


def _dark(case: Case, found: Readings) -> Text:
    d = found.dark
    if 0.0 < float(d.needed_s[0]) < inf and float(d.lasts_s[0]) <= 0 and not more_than(found)[0]:
        return say("The device is off before every dark stretch; it lasts for none.")
    return plain.dark(case, found)


def _service(case: Case, found: Readings) -> Text:
    study = year_study(case)
    asked = figure(f"{100 * float(asked_of(case.scenario, 1).served_share[0]):g}")
    if not study.starts:
        return say(
            "Hung up empty the device does not start within a year, so nothing is served; {asked} "
            "% is asked for.",
            asked=asked,
        )
    rows = course_checks(case)["service"]
    worst = int(np.argmin(rows.value))
    month = month_name(study.months[worst].month.begin)
    if float(rows.value[worst]) >= 1.0 and case.scenario.load.runs_until_empty:
        said = plain.AS_OFTEN_AS_WANTED
    elif float(rows.value[worst]) >= 1.0 and case.scenario.load.operations:
        said = say("The device stays connected all year and completes every run that is wanted.")
    elif float(rows.value[worst]) >= 1.0:
        said = say("The device stays connected all year.")
    else:
        off_days = (1.0 - float(found.connected[0])) * float(found.span_s[0]) / DAY_S
        said = say(
            "It fares worst in {month}, with {share} % served; over the year it is off for {days}. "
            "{asked} % is asked for.",
            month=month, share=plain.percent(float(rows.value[worst])),
            days=show(off_days * DAY_S, "s"), asked=asked,
        )
    if not study.course.settled:
        said = joined(" ", (said, say(
            "The years do not come alike within {n}; the last one stands for them.",
            n=f"{study.course.years}",
        )))
    return said
