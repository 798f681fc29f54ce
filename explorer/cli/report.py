"""The command that writes a sheet. Qt is loaded only for a PDF and for another language."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from datetime import datetime
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import TYPE_CHECKING, cast

import click

from explorer.files.disk import FileError, write_bytes, write_text
from explorer.files.report_blocks import PAPERS

if TYPE_CHECKING:
    from explorer.files.report_blocks import Paper, Render, Sheet

BAD_INPUT = 3
LANGUAGES = ("en", "de")


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--output",
    required=True,
    type=click.Path(path_type=Path),
    help="File to write; its ending, .pdf or .html, says which kind.",
)
@click.option("--note", default="", metavar="TEXT", help="A note printed in the report.")
@click.option(
    "--language",
    type=click.Choice(LANGUAGES),
    default="en",
    show_default=True,
    help="Language of the sheet.",
)
@click.option(
    "--paper",
    type=click.Choice(PAPERS, case_sensitive=False),
    default="A4",
    show_default=True,
    help="Paper of a PDF.",
)
@click.pass_context
def report(
    context: click.Context, file: Path, output: Path, note: str, language: str, paper: str
) -> None:
    """Write a report on a scenario FILE that another engineer can check.

    It holds the verdict with its six checks, all answers, three figures, the energy budget, every
    input, what the model leaves out, the cautions that apply and where all of it comes from.
    Ends with 0 when the sheet is written, whatever the verdict, and with 3 when it is not.
    """
    from explorer.words.console import one_line

    try:
        word = write_report(file, output, language=language, note=note, paper=paper)
    except (FileError, ValueError, ArithmeticError) as fault:
        told = str(fault)
        if isinstance(fault, ArithmeticError):
            told = f"This scenario cannot be computed: {fault}."
        for line in told.splitlines():
            click.echo(one_line(line), err=True)
        context.exit(BAD_INPUT)
    click.echo(f"{output}: written. The verdict is {word}.")


def write_report(
    file: Path, output: Path, *, language: str = "en", note: str = "", paper: str = "A4"
) -> str:
    """Write the sheet of a scenario file; returns the word of its verdict.

    Parameters
    ----------
    file : pathlib.Path
        Scenario.
    output : pathlib.Path
        What to write; its ending says whether PDF or HTML.
    language : str
        Code of the language of the sheet.
    note : str
        What the sheet says beside the scenario's own notes.
    paper : str
        Paper of a PDF, one of `PAPERS`.

    Raises
    ------
    FileError, ValueError, ArithmeticError
        The scenario cannot be read or computed, or the place cannot be written.
    """
    from explorer.files.beside import beside_path, resolve_case
    from explorer.files.examples import named_scenario
    from explorer.files.report import findings, sheet
    from explorer.files.report_blocks import plain
    from explorer.files.report_html import sheet_html
    from explorer.files.report_limits import model_limits
    from explorer.files.report_source import source_of
    from explorer.files.scenario_json import load_scenario

    ending = output.suffix.lower()
    if ending not in (".pdf", ".html"):
        raise FileError(f"{output}: the file name must end in .pdf or .html.")
    if not output.absolute().parent.is_dir():
        raise FileError(
            f"{output} cannot be written: there is no folder {output.absolute().parent}."
        )
    scenario = load_scenario(file).scenario
    case = resolve_case(named_scenario(file, language), file)
    for used in (file, beside_path(scenario, file)):
        if used is not None and output.exists() and output.samefile(used):
            raise FileError(f"{output} is what the sheet is made from; give another name.")
    source = source_of(scenario, file, _version(), datetime.now().astimezone(), note)
    found = findings(case)
    render: Render = plain
    press: Callable[[Sheet, Render, Paper], bytes] | None = None
    if ending == ".pdf" or language != "en":
        render, press = _with_qt(language)
    made = sheet(found, source, model_limits(language, render))
    if press is not None and ending == ".pdf":
        write_bytes(output, press(made, render, cast("Paper", paper)))
    else:
        write_text(output, sheet_html(made, language, render))
    return found.assessment.verdict.word


def _with_qt(language: str) -> tuple[Render, Callable[[Sheet, Render, Paper], bytes]]:
    """What shows a text in a language, and what makes a PDF."""
    shown = os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    if sys.platform.startswith("linux") and not shown:
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    try:
        from explorer.state.language import LanguageChoice, begin
        from explorer.state.report_pdf import sheet_pdf
    except ImportError as fault:
        raise FileError(
            f"A PDF, and any language but English, needs a part that is missing: {fault}"
        ) from None
    return begin(cast(LanguageChoice, language)), sheet_pdf


def _version() -> str:
    try:
        return version("gloaming")
    except PackageNotFoundError:
        return "(not installed)"
