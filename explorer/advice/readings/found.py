"""Readings of one design, whatever its light repeats after: a week, a log or a year."""

from __future__ import annotations

from explorer.advice.case import Case
from explorer.advice.readings import DarkReading, Readings, one
from explorer.advice.readings.balance import Balance
from explorer.advice.year.readings import year_balance, year_dark, year_readings


def readings(case: Case) -> Readings:
    """What the checks read of one design; arrays of length 1."""
    return one.readings(case) if case.year is None else year_readings(case)


def dark(case: Case) -> DarkReading:
    """The worst dark stretch of the course of one design."""
    return one.dark(case) if case.year is None else year_dark(case)


def held(case: Case) -> Balance:
    """The balance of one design, for which nothing is marched."""
    return one.held(case) if case.year is None else year_balance(case)


__all__ = ["dark", "held", "readings"]
