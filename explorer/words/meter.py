"""What is said of a meter that is followed."""

from __future__ import annotations

from math import isfinite

from explorer.quantity import show
from explorer.text import say

INSTALL = "pip install 'gloaming[meters]'"


def fault_sentence(kind: str, detail: str, address: str) -> str:
    """Why a meter cannot be read, and what to do."""
    if kind == "no_library":
        return say(
            "To read a meter the library PyVISA is needed. Install it with: {command}",
            command=INSTALL,
        )
    if kind == "no_driver":
        return say(
            "The meter {address} needs a driver that is not installed: {detail}.",
            address=address,
            detail=detail.rstrip("."),
        )
    if kind == "unreachable":
        return say(
            "The meter {address} cannot be reached ({detail}). Is it switched on, and the address "
            "right?",
            address=address,
            detail=detail,
        )
    if kind == "silent":
        return say(
            "The meter {address} does not answer. Is its line plugged in, and its interface "
            "switched on?",
            address=address,
        )
    if kind == "comma":
        return say(
            "The meter {address} sends “{found}”, in which the comma may be a decimal mark or part "
            "two numbers. Let it write a decimal point.",
            address=address,
            found=detail,
        )
    return say(
        "The meter {address} sends “{found}”, which is not one voltage, or a voltage and a light.",
        address=address,
        found=detail,
    )


def retry_sentence(kind: str, detail: str, address: str, again_s: float) -> str:
    """The same, with the next attempt."""
    return say(
        "{why} Trying again in {time}; what was read is kept.",
        why=fault_sentence(kind, detail, address),
        time=show(again_s, "s"),
    )


def garbled_sentence(detail: str) -> str:
    """A line of a stream that is passed over."""
    return say("A line without a reading is passed over: “{found}”.", found=detail)


def odd_sentence(volts: float) -> str:
    """A number that is no reading of a store."""
    if not isfinite(volts):
        return say("The meter shows an overload; choose a higher range.")
    if volts < 0.0:
        return say(
            "The meter shows {volts}, which is not kept; are its leads swapped?",
            volts=show(volts, "V", 4),
        )
    return say("The meter shows {volts}, which is not kept.", volts=show(volts, "V", 4))


def reading_sentence(count: int, volts: float, clock: str) -> str:
    """Where a run of a meter stands."""
    return say(
        "{volts} at {clock}; {n} readings kept.", volts=show(volts, "V", 5), clock=clock, n=count
    )
