"""The command that reads a meter into a logged run; the window runs it too."""

from __future__ import annotations

import json
import os
import sys
import threading
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from explorer.meters.meter import BAUD, LONGEST_S, QUERY, SHORTEST_S
from explorer.quantity import parse

if TYPE_CHECKING:
    from explorer.files.run_keeper import RunKeeper
    from explorer.meters.follow import Happening

BAD_INPUT = 3
STOP = "stop"
"""Line on the standard input that ends a run under `--events`."""


def _seconds(_: click.Context, param: click.Parameter, text: str | None) -> float | None:
    """A length of time with any unit."""
    if text is None:
        return None
    try:
        value = parse(text, "s")
    except ValueError as fault:
        raise click.BadParameter(str(fault), param=param) from None
    if not SHORTEST_S <= value <= LONGEST_S * 366:
        raise click.BadParameter(f"{text} is out of range; from {SHORTEST_S:g} s.", param=param)
    return value


@click.command()
@click.argument("address")
@click.argument("log", type=click.Path(path_type=Path))
@click.option("--every", default="10 s", show_default=True, callback=_seconds,
              help="Time between two readings.")  # fmt: skip
@click.option("--for", "length_s", default=None, callback=_seconds,
              help="End so long after the first reading; else with Ctrl-C.")  # fmt: skip
@click.option("--stream", is_flag=True, help="The meter sends lines of numbers unasked.")
@click.option("--query", default=QUERY, show_default=True, help="What asks for a reading.")
@click.option("--baud", default=BAUD, show_default=True, type=click.IntRange(50, 4_000_000),
              help="Speed of a serial line.")  # fmt: skip
@click.option("--go-on", is_flag=True, help="Take up a run that was interrupted.")
@click.option("--events", is_flag=True, hidden=True)
@click.pass_context
def measure(
    context: click.Context, address: str, log: Path, every: float, length_s: float | None,
    stream: bool, query: str, baud: int, go_on: bool, events: bool,
) -> None:
    """Read the meter at ADDRESS into LOG, a logged run for `bench`.

    ADDRESS is a host such as 192.0.2.7 or 192.0.2.7:5025, a serial line such as COM3 or
    /dev/ttyUSB0, or a VISA resource name. Every reading is on disk at once; a meter that is lost
    is sought again. Needs the library PyVISA (pip install 'gloaming[meters]').
    """
    from explorer.files.disk import FileError
    from explorer.files.run_keeper import RunKeeper
    from explorer.meters.faults import MeterFault
    from explorer.meters.follow import follow
    from explorer.meters.meter import Meter, resource_name
    from explorer.words.meter import fault_sentence

    tell = _tell_events if events else _tell
    stop = threading.Event()
    keeper = None
    try:
        meter = Meter(
            address=resource_name(address), every_s=every, is_stream=stream, query=query, baud=baud
        )
        keeper = RunKeeper(log, go_on=go_on)
        before = keeper.count
        if events:
            threading.Thread(target=_end_when_told, args=(keeper,), daemon=True).start()
        for happening in follow(meter, stop):
            _keep(keeper, happening)
            if length_s is not None and keeper.count > before:
                _end_after(length_s, stop)
                length_s = None
            tell(happening, keeper.count, meter.address)
    except KeyboardInterrupt:
        pass
    except MeterFault as fault:
        if events:
            _line("refused", {"kind": fault.kind, "detail": fault.detail})
        else:
            click.echo(fault_sentence(fault.kind, fault.detail, address), err=True)
        context.exit(BAD_INPUT)
    except (FileError, ValueError) as fault:
        if events:
            _line("refused", {"kind": "", "detail": str(fault)})
        else:
            click.echo(str(fault), err=True)
        context.exit(BAD_INPUT)
    finally:
        if keeper is not None:
            keeper.close()


def _end_after(length_s: float, stop: threading.Event) -> None:
    """End a run so long after its first reading."""
    timer = threading.Timer(length_s, stop.set)
    timer.daemon = True
    timer.start()


def _keep(keeper: RunKeeper, happening: Happening) -> None:
    from explorer.meters.follow import Reading

    if isinstance(happening, Reading):
        keeper.add(happening.moment, happening.volts, happening.lux)


def _tell(happening: Happening, count: int, address: str) -> None:
    """For a person at a terminal."""
    from explorer.meters.follow import Found, Garbled, Lost, Reading
    from explorer.words import meter as words

    match happening:
        case Found():
            click.echo(f"{address}: {happening.identity or 'numbers arrive'}")
        case Reading():
            clock = f"{happening.moment:%H:%M:%S}"
            click.echo(words.reading_sentence(count, happening.volts, clock))
        case Lost(kind=kind, detail=detail, again_s=again_s):
            click.echo(words.retry_sentence(kind, detail, address, again_s), err=True)
        case Garbled(detail=detail):
            click.echo(words.garbled_sentence(detail), err=True)
        case _:
            click.echo(words.odd_sentence(happening.volts), err=True)


def _tell_events(happening: Happening, count: int, address: str) -> None:
    """For the window: one JSON object a line."""
    values = asdict(happening)
    if "moment" in values:
        values["moment"] = values["moment"].isoformat()
    _line(type(happening).__name__.lower(), {**values, "count": count, "address": address})


def _line(event: str, values: dict[str, Any]) -> None:
    print(json.dumps({"event": event, **values}), flush=True)


def _end_when_told(keeper: RunKeeper) -> None:
    """End with the window: at its word for good, at its death so that the run can be taken up.

    The thread that waits for the meter may wait long, so the process goes without it; the run is
    on disk.
    """
    for line in sys.stdin:
        if line.strip() == STOP:
            keeper.close()
            break
    os._exit(0)
