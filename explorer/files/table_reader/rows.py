"""The lines of a table as cells, each as wide as the line of names."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from explorer.files.table_reader.layout import Layout
from explorer.files.table_reader.source import HEAD, Block, below, cells_of
from explorer.files.table_reader.told import LogError
from explorer.text import say


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """Lines of a table, as cells."""

    lines: list[int]
    cells: list[list[str]]
    is_cut: bool = False
    """Whether a last line was left out because the file ends within it."""


class TableRows:
    """All lines of a table, block by block; those of a short file are kept.

    Parameters
    ----------
    layout : Layout
        Of the table.
    """

    def __init__(self, layout: Layout) -> None:
        self.layout = layout
        self._only: Rows | None = None

    def blocks(self) -> Iterator[Rows]:
        """From the first line to the last.

        Raises
        ------
        LogError
            A line is wider or narrower than the line of names, or the disk refuses.
        """
        for block in self.layout.file.blocks():
            yield self.of(block)

    def of(self, block: Block) -> Rows:
        """The lines of one block; errors as `blocks`."""
        if self._only is not None:
            return self._only
        rows = rows_of(block, self.layout)
        if block.is_last and block.first_line == 1:
            self._only = rows
        return rows

    def column(self, place: int) -> Iterator[str]:
        """Cells of one column."""
        for rows in self.blocks():
            yield from (row[place] for row in rows.cells if place < len(row))

    def sample(self, place: int, most: int = 20) -> list[str]:
        """First cells of one column, blank ones left out."""
        block = next(self.layout.file.blocks(HEAD), None)
        if block is None:  # somebody emptied the file meanwhile
            return []
        cells = rows_of(block, self.layout).cells[:most]
        return [row[place] for row in cells if place < len(row) and row[place].strip()]


def rows_of(block: Block, layout: Layout) -> Rows:
    """Lines of readings in a block, as cells, each as wide as the line of names.

    Raises
    ------
    LogError
        A line is wider or narrower than the line of names.
    """
    text, first = below(block, layout.first_line)
    lines, cells = cells_of(text, first, layout.delimiter, layout.name)
    width = layout.width
    if not cells or set(map(len, cells)) == {width}:
        return Rows(lines=lines, cells=cells)
    taken = (layout.time, layout.date, *layout.values)
    least = max(c.place for c in taken if c is not None) + 1
    is_cut = block.is_last and len(cells[-1]) < least and not block.text.endswith("\n")
    if is_cut:
        lines, cells = lines[:-1], cells[:-1]
    for number, row in zip(lines, cells, strict=True):
        if len(row) < least:
            raise LogError(
                say(
                    "{file}, line {line}: {n} columns found, at least {wanted} are needed.",
                    file=layout.name,
                    line=number,
                    n=len(row),
                    wanted=least,
                )
            )
        if any(cell.strip() for cell in row[width:]):
            raise LogError(
                say(
                    "{file}, line {line}: {n} columns found where the line of names has {wanted}. "
                    "With decimal commas, part the columns by semicolons or tabs.",
                    file=layout.name,
                    line=number,
                    n=len(row),
                    wanted=width,
                )
            )
    return Rows(lines=lines, cells=cells, is_cut=is_cut)
