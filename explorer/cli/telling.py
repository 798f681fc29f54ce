"""Options that tell how a table is to be read, shared by the commands that read one."""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import wraps
from typing import Any

import click

from explorer.files.table_reader.told import Told, Undecided, ways


def telling(command: Callable[..., Any]) -> Callable[..., Any]:
    """A command with the options that answer what a table leaves open, as its argument `told`."""

    @click.option(
        "--dates", type=click.Choice(["dmy", "mdy", "ymd"]),
        help="Whether 03/04/05 is 3 April 2005, 4 March 2005 or 5 April 2003.",
    )  # fmt: skip
    @click.option(
        "--decimal", type=click.Choice(["point", "comma"]),
        help="Which mark parts decimals where 1,234 or 1.234 could be thousands.",
    )  # fmt: skip
    @click.option(
        "--clock", type=click.Choice(["h:mm", "mm:ss"]),
        help="Whether 12:30 is hours and minutes, or minutes and seconds.",
    )  # fmt: skip
    @click.option(
        "--column", metavar="NAME", help="Which of several columns to take: heading or number."
    )
    @wraps(command)
    def told_command(
        *arguments: Any, dates: Any, decimal: Any, clock: Any, column: str | None, **options: Any
    ) -> Any:
        told = Told(dates=dates, decimal=decimal, clock=clock, column=column)
        return command(*arguments, told=told, **options)

    return told_command


class ReadingLine:
    """How far the reading of a large file is, on a line of the terminal that is written over."""

    def __init__(self) -> None:
        self._shown = False

    def __call__(self, share: float) -> None:
        """Show a share; a file that is read at once shows nothing."""
        if not sys.stderr.isatty() or (share >= 1.0 and not self._shown):
            return
        self._shown = True
        click.echo(f"\rReading the light log: {100 * share:.0f} %", nl=share >= 1.0, err=True)


def sentence_of(fault: Exception) -> str:
    """What is wrong; of a table that leaves something open also what to say."""
    if isinstance(fault, Undecided):
        return f"{fault} {ways(fault.question, f'--{fault.question.about} ')}"
    return str(fault)
