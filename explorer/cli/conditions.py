"""Options that say under which conditions each of several logs was written."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import click

from explorer.quantity import parse, show
from explorer.scenario.logged_run import BRIGHTEST_LX, MOST_A, Conditions
from explorer.scenario.weekdays import WEEKDAYS
from explorer.text import say

Change = Callable[[str, Conditions], Conditions]


def options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Give a command the options --light, --device, --on and --begins."""
    for name, metavar, told in reversed(
        (
            ("light", "N=LIGHT", "Light of log N: design, dark, or steady such as '500 lx' or "
             "'500 lx ± 5 %'; may be given again."),
            ("device", "N=WHAT", "What was connected in log N: design, asleep (no operations), off "
             "(nothing), or a steady current such as '20 mA' or '20 mA ± 0.5 %'."),
            ("on", "N=YES", "Whether the device was on at the first reading of log N: yes or no."),
            ("begins", "N=MOMENT", "When log N begins where it has no dates, such as 'mon 09:00'."),
        )
    ):  # fmt: skip
        command = click.option(f"--{name}", name, multiple=True, metavar=metavar, help=told)(
            command
        )
    return command


def conditions(
    before: Sequence[Conditions], *, light: Sequence[str], device: Sequence[str],
    on: Sequence[str], begins: Sequence[str],
) -> tuple[Conditions, ...]:
    """The conditions of each log, the later ones behind the others, as told over those before.

    Raises
    ------
    ValueError
        An option names no log, or something that is not allowed; the sentence says which.
    """  # fmt: skip
    found, count = list(before), len(before)
    changes: tuple[tuple[str, Sequence[str], Change], ...] = (
        ("light", light, _light), ("device", device, _device), ("on", on, _on),
        ("begins", begins, _begins),
    )  # fmt: skip
    for name, texts, change in changes:
        for text in texts:
            place, told = _split(name, text, count)
            try:
                found[place] = change(told, found[place])
            except ValueError as fault:
                raise ValueError(
                    say("--{name} {text}: {why}", name=name, text=text, why=fault)
                ) from None
    return tuple(found)


def _split(name: str, text: str, count: int) -> tuple[int, str]:
    """Which log is meant, counted from 0, and what is told of it."""
    number, sign, told = text.partition("=")
    if not sign and count == 1:
        return 0, text.strip()
    if not sign or not number.strip().isdigit() or not 1 <= int(number) <= count:
        raise ValueError(
            say(
                "--{name} {text}: say which log, from 1 to {count}, such as --{name} 1={example}.",
                name=name, text=text, count=count, example=told.strip() or text.strip(),
            )
        )  # fmt: skip
    return int(number) - 1, told.strip()


def _amount(text: str, unit: str, most: float) -> tuple[float, float | None]:
    """A value, and how well it is known where that is said."""
    value, sign, share = text.replace("+-", "±").partition("±")
    found = parse(value, unit)
    if not 0.0 < found <= most:
        raise ValueError(
            say(
                "“{found}” is out of range; allowed is above 0 and up to {most}.",
                found=value.strip(), most=show(most, unit),
            )
        )  # fmt: skip
    if not sign:
        return found, None
    known = parse(share.strip().rstrip("%"), "") * (0.01 if "%" in share else 1.0)
    if not 0.0 <= known <= 1.0:
        raise ValueError(
            say("± {share} is out of range; from 0 to 100 %.", share=share.strip())
        )
    return found, known


def _light(told: str, present: Conditions) -> Conditions:
    if told.lower() == "design":
        return replace(present, light_lx=None, light_share=None)
    if told.lower() == "dark":
        return replace(present, light_lx=0.0, light_share=None)
    try:
        lux, share = _amount(told, "lx", BRIGHTEST_LX)
    except ValueError as fault:
        raise ValueError(
            say("{why} Allowed are design, dark, or a level such as 500 lx ± 5 %.", why=fault)
        ) from None
    return replace(present, light_lx=lux, light_share=share)


def _device(told: str, present: Conditions) -> Conditions:
    match told.lower():
        case "design":
            return replace(present, draw="design")
        case "asleep":
            return replace(present, draw="asleep")
        case "off":
            return replace(present, draw="off")
    try:
        current_a, share = _amount(told, "A", MOST_A)
    except ValueError as fault:
        raise ValueError(
            say(
                "{why} Allowed are design, asleep, off, or a steady current such as 20 mA ± 0.5 %.",
                why=fault,
            )
        ) from None
    known = present.current_share if share is None else share
    return replace(present, draw="current", current_A=current_a, current_share=known)


def _on(told: str, present: Conditions) -> Conditions:
    if told.lower() not in ("yes", "no"):
        raise ValueError(say("“{found}” is neither yes nor no.", found=told))
    return replace(present, connected=told.lower() == "yes")


def _begins(told: str, present: Conditions) -> Conditions:
    day, _, clock = told.lower().partition(" ")
    hour, _, minute = clock.strip().partition(":")
    if (
        day not in WEEKDAYS or not hour.isdigit() or not (minute or "0").isdigit()
        or int(hour) > 23 or int(minute or 0) > 59
    ):  # fmt: skip
        raise ValueError(
            say(
                "“{found}” is no moment of a week; it is a weekday and a time, such as mon 09:00.",
                found=told,
            )
        )
    since_s = WEEKDAYS.index(day) * 86_400.0 + int(hour) * 3600.0 + int(minute or 0) * 60.0
    return replace(present, begins_s=since_s)
