"""The command that shows how a table of readings is understood."""

from __future__ import annotations

import json
from pathlib import Path

import click

from explorer.cli.telling import sentence_of, telling
from explorer.files.disk import FileError
from explorer.files.look import Look, look
from explorer.files.table_reader.told import Told

BAD_INPUT = 3


@click.command("look")
@click.argument("file", type=click.Path(path_type=Path))
@telling
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_context
def look_command(context: click.Context, file: Path, told: Told, as_json: bool) -> None:
    """Show how a table FILE of readings is understood: columns, units and the first rows.

    Nothing is written. A file that can be read in two ways is refused, with the option that tells
    which is meant.
    """
    try:
        found = look(file, told)
    except FileError as fault:
        click.echo(sentence_of(fault), err=True)
        context.exit(BAD_INPUT)
    if as_json:
        report = {
            "file": str(file),
            "summary": found.sentence,
            "columns": list(found.columns),
            "heads": list(found.heads),
            "rows": [list(row) for row in found.rows],
            "notes": list(found.notes),
        }
        click.echo(json.dumps(report, indent=2, ensure_ascii=False))
    else:
        click.echo("\n".join(_page(found)))


def _page(found: Look) -> list[str]:
    table = [found.heads, *found.rows]
    widths = [max(len(row[n]) for row in table) for n in range(len(found.heads))]
    lines = [
        "  ".join(cell.rjust(width) for cell, width in zip(row, widths, strict=True))
        for row in table
    ]
    notes = ["", *found.notes] if found.notes else []
    return [found.sentence, *found.columns, "", *lines, *notes]
