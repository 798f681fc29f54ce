"""The command `builds`: which panels, charger and store do it, and which of them are the best."""

from __future__ import annotations

from pathlib import Path

import click

from explorer.files.disk import FileError

BAD_INPUT, NONE_RUNS = 3, 2


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--parts", type=click.Path(path_type=Path, file_okay=False), default=None,
    help="Folder with parts of your own; those beside FILE are tried in any case.",
)  # fmt: skip
@click.option("--no-lithium", is_flag=True, help="Leave lithium cells out.")
@click.option("--most-parts", type=click.IntRange(3), default=None,
              help="Panels, charger and store together.")
@click.option("--most-price", type=click.FloatRange(0, min_open=True), default=None,
              help="In the currency of your parts.")
@click.option("--most-area", type=click.FloatRange(0, min_open=True), default=None,
              help="Of all panels, in cm².")
@click.option("--most-volume", type=click.FloatRange(0, min_open=True), default=None,
              help="Of panels and store, in cm³.")
@click.option("--most-mass", type=click.FloatRange(0, min_open=True), default=None,
              help="Of panels and store, in g.")
@click.option("--most-height", type=click.FloatRange(0, min_open=True), default=None,
              help="Of store and charger, in mm.")
@click.option("--save", "number", type=click.IntRange(1), default=None,
              help="Write the build of this row as a scenario to OUTPUT instead of the table.")
@click.option("-o", "--output", required=True, type=click.Path(path_type=Path),
              help="CSV file with the front; with --save a scenario.")
@click.pass_context
def builds(
    context: click.Context, file: Path, parts: Path | None, no_lithium: bool,
    most_parts: int | None, most_price: float | None, most_area: float | None,
    most_volume: float | None, most_mass: float | None, most_height: float | None,
    number: int | None, output: Path,
) -> None:
    """Search the builds that run for a scenario FILE, and write the best of them.

    Place, device and requirements stay. Panels and stores are generic ones in the sizes in which
    they are had, and your own; the charger is that of the scenario, or one of your own. The table
    holds the front: builds that no other beats in price, panel area, volume and mass at once. Each
    was confirmed by the exact march: "check" says runs. Ends with 2 where none runs.
    """
    from explorer.advice.builds import Wanted, search
    from explorer.files.beside import resolve_case
    from explorer.files.scenario_json import load_scenario, save_scenario
    from explorer.files.shelf import Shelf
    from explorer.files.tables import write_table
    from explorer.words.builds import builds_line, builds_table, price_note

    try:
        if output.exists() and file.exists() and output.samefile(file):
            raise FileError(f"{output} is the scenario itself; give another name.")
        scenario = load_scenario(file).scenario
        case = resolve_case(scenario, file)
        shelf = Shelf(parts or file.parent, file.parent)
        own = tuple(one.part for one in shelf.kept() if one.part is not None)
        wanted = Wanted(
            lithium=not no_lithium, most_parts=most_parts, price=most_price,
            panel_cm2=most_area, volume_cm3=most_volume, mass_g=most_mass, height_mm=most_height,
        )  # fmt: skip
        found = None
        for found in search(case, own=own, wanted=wanted):
            click.echo(f"\r{found.tried} builds tried, {len(found.front)} on the front", nl=False,
                       err=True)
        click.echo(err=True)
        assert found is not None
        click.echo(builds_line(found))
        if number is None:
            write_table(output, builds_table(found))
        elif number > len(found.front):
            raise FileError(f"--save {number}: the front has {len(found.front)} rows.")
        else:
            save_scenario(output, found.front[number - 1].scenario)
    except (FileError, ValueError) as fault:
        click.echo(str(fault), err=True)
        context.exit(BAD_INPUT)
    if found.front:
        click.echo(price_note(found))
        click.echo(f"{output}: written.")
    context.exit(0 if found.front else NONE_RUNS)
