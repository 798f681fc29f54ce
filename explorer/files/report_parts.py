"""Which parts of one's own a design took, on the sheet."""

from __future__ import annotations

from explorer.files.report_blocks import Block, Column, Heading, Row, Table
from explorer.scenario.model import Scenario
from explorer.text import say
from explorer.words.part import taken_rows


def part_blocks(scenario: Scenario) -> list[Block]:
    """Title and source of every part that was taken; nothing where none was."""
    rows = taken_rows(scenario)
    if not rows:
        return []
    return [
        Heading(text=say("Parts of one's own")),
        Table(
            caption=say("Parts that were copied into this design, with the source of their values"),
            columns=(
                Column(title=say("For"), share=0.14),
                Column(title=say("Part"), share=0.32),
                Column(title=say("Source"), share=0.36),
                Column(title=say("Values"), share=0.18),
            ),
            rows=tuple(Row(cells=row) for row in rows),
        ),
    ]
