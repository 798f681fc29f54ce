"""A sheet as one HTML page that needs nothing beside it, fit to be printed."""

from __future__ import annotations

import html

from explorer.advice.verdict import State
from explorer.files.report_blocks import (
    SHORT_TABLE,
    Banner,
    Block,
    Figure,
    Heading,
    Note,
    Paragraph,
    Render,
    Row,
    Sheet,
    Table,
    plain,
)
from explorer.files.report_svg import chart_svg, hazard_svg, printable, shape_svg
from explorer.text import say

_STYLE = """
@page { size: auto; margin: 16mm 14mm 16mm 14mm; }
* { box-sizing: border-box; }
body { font: 10.5pt/1.4 system-ui, "DejaVu Sans", Arial, sans-serif; color: black;
  background: white; margin: 0 auto; padding: 8mm 6mm; max-width: 190mm; }
header p, .soft, figcaption, caption { color: dimgray; }
h1 { font-size: 20pt; line-height: 1.2; margin: 0 0 1mm; }
h2 { font-size: 13pt; margin: 9mm 0 2mm; padding-top: 2mm; border-top: 1.2pt solid black; }
p { margin: 1.5mm 0; }
.banner { border: 1.6pt solid black; border-radius: 2mm; padding: 4mm 5mm 4mm 20mm;
  margin: 5mm 0 3mm; position: relative; }
.banner svg { width: 11mm; height: 11mm; position: absolute; left: 5mm; top: 5mm; }
h3 { font-size: 11pt; margin: 4mm 0 0; }
h3 + table { margin-top: 0; }
.banner strong { font-size: 22pt; line-height: 1.15; display: block; }
.note { border: 0.8pt solid dimgray; border-left: 3pt solid black; padding: 2mm 3mm;
  margin: 2.5mm 0; font-size: 9.5pt; }
.note.hazard { border: 1.6pt solid black; }
.note svg, td svg { width: 4mm; height: 4mm; vertical-align: -0.8mm; margin-right: 1.2mm; }
table { border-collapse: collapse; width: 100%; margin: 2mm 0 4mm;
  font-size: 9.2pt; }
caption { text-align: left; padding: 0 0 1.2mm; font-size: 9.2pt; }
th, td { text-align: left; vertical-align: top; padding: 0.9mm 2mm 0.9mm 0;
  border-bottom: 0.5pt solid silver; overflow-wrap: anywhere; font-weight: normal; }
thead th { font-weight: bold; border-bottom: 1pt solid black; vertical-align: bottom;
  overflow-wrap: normal; }
tr.strong th, tr.strong td { font-weight: bold; }
tr.group th { font-weight: bold; padding-top: 2.4mm; }
.number { text-align: right; padding-right: 2.4mm; white-space: nowrap;
  font-variant-numeric: tabular-nums; }
th:last-child, td:last-child { padding-right: 0; }
.code { font-family: ui-monospace, "DejaVu Sans Mono", monospace; font-size: 8pt; }
tr.strong td.code { font-weight: normal; }
thead .code { font-family: inherit; font-size: inherit; }
thead .number { white-space: normal; }
figure { margin: 3mm 0 4mm; }
figure svg { width: 100%; height: auto; display: block; }
figcaption { font-size: 9.2pt; margin-top: 1mm; }
tr.blank th, tr.blank td { height: 11mm; vertical-align: bottom; }
@media screen and (max-width: 640px) {
  table { font-size: 8.2pt; }
  col { width: auto !important; }
  th, td:not(.code) { overflow-wrap: normal; padding-right: 1.2mm; }
}
@media print {
  body { padding: 0; max-width: none; font-size: 9.5pt; }
  h2 { margin-top: 5mm; }
  .banner { padding-top: 2.5mm; padding-bottom: 2.5mm; margin: 3mm 0 2mm; }
  table { font-size: 8.4pt; line-height: 1.25; }
  figure svg { max-height: 55mm; }
  thead { display: table-header-group; }
  tr, figure, .note, .banner, .short, caption, thead { break-inside: avoid; }
  tr.group, tr:nth-last-child(2) { break-after: avoid; }
  h2, h3, h2 + p, caption, thead, thead tr { break-after: avoid; }
}
"""
"""Named greys alone: the sheet is ink on paper, whatever the theme of the window.

Columns are as wide as they are said to be, or as the longest word above them where that is wider.
"""

_LONG_CELL = 400
"""A table with a text of so many letters may be parted, however few its rows."""


def sheet_html(sheet: Sheet, language: str = "en", render: Render = plain) -> str:
    """A whole page.

    Parameters
    ----------
    sheet : Sheet
        What it says.
    language : str
        Code of the language that `render` puts texts into.
    render : callable
        Puts a text into that language; English when left out.
    """
    title = escape(sheet.title)
    body = "\n".join(_block(block, render) for block in sheet.blocks)
    head = render(
        say("Can it live on this light? Scenario {hash}", hash=sheet.short_hash)
    )
    return (
        f'<!DOCTYPE html>\n<html lang="{escape(language)}">\n<head>\n<meta charset="utf-8"/>\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1"/>\n'
        f"<title>{title}</title>\n<style>{_STYLE}</style>\n</head>\n<body>\n"
        f"<header><p>{escape(head)}</p><h1>{title}</h1>"
        f"<p>{escape(sheet.place)}</p></header>\n<main>\n{body}\n</main>\n</body>\n</html>\n"
    )


def escape(text: str) -> str:
    """A text as it may stand on a page."""
    return html.escape(printable(text))


def _block(block: Block, render: Render) -> str:
    if isinstance(block, Heading):
        return f"<h2>{escape(render(block.text))}</h2>"
    if isinstance(block, Paragraph):
        return f"<p>{escape(render(block.text))}</p>"
    if isinstance(block, Banner):
        return (
            f'<div class="banner">{shape_svg(block.state, 44)}'
            f"<strong>{escape(render(block.word))}</strong>"
            f"<p>{escape(render(block.reason))}</p>"
            f'<p class="soft">{escape(render(block.number))}</p></div>'
        )
    if isinstance(block, Note):
        kind = "note hazard" if block.hazard else "note"
        sign = hazard_svg(16) if block.hazard else ""
        return (
            f'<div class="{kind}" role="note">{sign}<strong>{escape(render(block.title))}</strong> '
            f"{escape(render(block.text))}</div>"
        )
    if isinstance(block, Figure):
        return (
            f"<figure>{chart_svg(block.chart, block.spoken, render)}"
            f"<figcaption>{escape(render(block.caption))}</figcaption></figure>"
        )
    return _table(block, render)


def _table(table: Table, render: Render) -> str:
    widths = "".join(f'<col style="width:{100 * c.share:g}%"/>' for c in table.columns)
    heads = "".join(
        f'<th scope="col"{_kind(c.kind)}>{escape(render(c.title))}</th>' for c in table.columns
    )
    title = f"<h3>{escape(render(table.title))}</h3>\n" if table.title else ""
    rows = "\n".join(_row(row, table, render) for row in table.rows)
    longest = max((len(cell) for row in table.rows for cell in row.cells), default=0)
    few = len(table.rows) <= SHORT_TABLE and longest < _LONG_CELL
    short = ' class="short"' if few else ""
    return (
        f"{title}<table{short}>\n<caption>{escape(render(table.caption))}</caption>\n"
        f"<colgroup>{widths}</colgroup>\n<thead><tr>{heads}</tr></thead>\n"
        f"<tbody>\n{rows}\n</tbody>\n</table>"
    )


def _row(row: Row, table: Table, render: Render) -> str:
    if row.group:
        text = escape(render(row.cells[0]))
        return (
            f'<tr class="group"><th scope="rowgroup" colspan="{len(table.columns)}">'
            f"{text}</th></tr>"
        )
    kinds = ["strong"] if row.strong else []
    kinds += ["blank"] if not any(row.cells[1:]) else []
    name = f' class="{" ".join(kinds)}"' if kinds else ""
    cells = [f'<th scope="row">{escape(render(row.cells[0]))}</th>']
    for i, (cell, column) in enumerate(zip(row.cells[1:], table.columns[1:], strict=True)):
        shape = _shape(row.state) if i == 0 else ""
        text = escape(render(cell)).replace("\n", "<br/>")
        cells.append(f"<td{_kind(column.kind)}>{shape}{text}</td>")
    return f"<tr{name}>{''.join(cells)}</tr>"


def _shape(state: State | None) -> str:
    return shape_svg(state, 14) if state is not None else ""


def _kind(kind: str) -> str:
    return "" if kind == "text" else f' class="{kind}"'
