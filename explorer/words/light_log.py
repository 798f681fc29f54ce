"""What is said about light that was measured, or computed for a year, and what is made of it."""

from __future__ import annotations

from explorer.advice.case import Case
from explorer.quantity import show
from explorer.scenario.course import log_scale
from explorer.scenario.light_log import LightLog
from explorer.scenario.year_light import year_scale
from explorer.text import Text, joined, say

_DAY_S = 86_400.0


def log_sentences(case: Case) -> tuple[str, ...]:
    """Summary, scale and everything the reader found, or what a year of daylight stands on.

    Empty where the light follows neither.
    """
    try:
        year = case.year
    except ValueError:
        return ()  # the verdict says why there is no light
    if year is not None:
        return (*year.notes, *_year_scale(case))
    log = case.log
    if log is None:
        return ()
    found = (log_summary(log), scale_sentence(case, log), *log.notes)
    if log.duration_s >= _DAY_S:
        return found
    short = say(
        "The log is shorter than a day and is repeated end to end, so it has no nights of its own; "
        "log for a week or more."
    )
    return (*found, short)


def log_summary(log: LightLog) -> Text:
    """File, number of readings, span and step."""
    said = {
        "file": log.name,
        "n": log.readings,
        "span": show(log.duration_s, "s"),
        # A large log is joined to means, and its step is theirs.
        "step": show(min(log.step_s, log.duration_s / max(log.readings, 1)), "s"),
    }
    if log.start is None:
        return say("{file}: {n} readings over {span}, one about every {step}.", **said)
    return say(
        "{file}: {n} readings from {start} over {span}, one about every {step}.",
        start=f"{log.start:%Y-%m-%d %H:%M}",
        **said,
    )


def scale_text(case: Case) -> Text | None:
    """The scale that is in force, such as ``× 1.10``; None where readings are as measured.

    A knob names a light level; the readings of a log are scaled to it without a word otherwise.
    """
    light = case.scenario.light
    if light.illuminance_lx is None or not case.is_long:
        return None
    try:
        year = case.year
    except ValueError:
        return None
    if year is not None:
        return _times(float(year_scale(light.illuminance_lx, year)))
    return None if case.log is None else _times(log_scale(light, case.log))


def _times(scale: float) -> Text:
    return joined(" ", ("×", show(scale, "")))


def _year_scale(case: Case) -> tuple[Text, ...]:
    scale = scale_text(case)
    if scale is None:
        return ()
    return (
        say(
            "The whole year is scaled ({scale}), so that its mean while lit is {wanted}.",
            scale=scale,
            wanted=show(float(case.scenario.light.illuminance_lx or 0.0), "lx"),
        ),
    )


def scale_sentence(case: Case, log: LightLog) -> Text:
    """Whether the readings are as measured, or by how much they are multiplied."""
    measured = show(log.mean_lit_lx, "lx")
    scale = scale_text(case)
    if scale is None:
        return say("The readings are as measured; their mean while lit is {lux}.", lux=measured)
    return say(
        "Every reading is scaled ({scale}), so that the mean while lit is {wanted} in place of the "
        "measured {lux}.",
        scale=scale,
        wanted=show(float(case.scenario.light.illuminance_lx or 0.0), "lx"),
        lux=measured,
    )
