"""The command `builds`: which panels, charger and store do it, and which of them are the best."""

from __future__ import annotations

from dataclasses import asdict, replace
from pathlib import Path
from typing import Any

import click

from explorer.files.disk import FileError

BAD_INPUT, NONE_RUNS = 3, 2


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--parts", type=click.Path(path_type=Path, file_okay=False), default=None,
    help="Folder with parts of your own; those beside FILE are tried in any case.",
)  # fmt: skip
@click.option("--forget-limits", is_flag=True, help="Leave aside the limits that a study keeps.")
@click.option("--no-lithium", is_flag=True, help="Leave lithium cells out.")
@click.option("--most-parts", type=click.IntRange(3), default=None,
              help="Panels, charger and store together.")
@click.option("--most-price", type=click.FloatRange(0, min_open=True), default=None,
              help="In the currency that most of your parts are priced in, or relative as generic "
              "parts where these are chargers alone; what costs something in another is not within "
              "it.")
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
@click.option("-o", "--output", default=None, type=click.Path(path_type=Path),
              help="CSV file with the front; with --save a scenario. A study needs none.")
@click.pass_context
def builds(
    context: click.Context, file: Path, parts: Path | None, forget_limits: bool, no_lithium: bool,
    most_parts: int | None, most_price: float | None, most_area: float | None,
    most_volume: float | None, most_mass: float | None, most_height: float | None,
    number: int | None, output: Path | None,
) -> None:
    """Search the builds that run for a scenario FILE, and write the best of them.

    Place, device and requirements stay. Panels and stores are generic ones in the sizes in which
    they are had, and your own; where yours have prices, generic ones of that kind are left out.
    The charger is that of the scenario, or one of your own. The table
    holds the front: builds that no other beats in price, panel area, volume and mass at once. Each
    was confirmed by the exact march: "check" says runs. Ends with 2 where none runs.

    FILE may be the folder of a study. Its limits hold where no option says otherwise; limits and
    front are put down in it, the builds as scenarios of their own beside builds.csv.
    """
    from explorer.advice.build_front import Wanted
    from explorer.advice.builds import search
    from explorer.files.beside import resolve_case
    from explorer.files.json_text import validated
    from explorer.files.scenario_json import load_scenario, save_scenario
    from explorer.files.shelf import Shelf
    from explorer.files.study import load_study, remember_builds
    from explorer.files.study_builds import search_of
    from explorer.files.study_place import scenario_file, study_folder
    from explorer.files.tables import write_table
    from explorer.scenario.study import KeptLimits
    from explorer.words.builds import builds_line, builds_table, limits_text, price_note

    try:
        study, file = study_folder(file), scenario_file(file)
        if output is None and (study is None or number is not None):
            raise FileError("Say with -o where the table, or with --save the scenario, goes.")
        if output is not None and output.exists() and file.exists() and output.samefile(file):
            raise FileError(f"{output} is the scenario itself; give another name.")
        scenario = load_scenario(file).scenario
        case = resolve_case(scenario, file)
        shelf = Shelf(parts or file.parent, file.parent)
        own = tuple(one.part for one in shelf.kept() if one.part is not None)
        kept = Wanted() if study is None or forget_limits else load_study(study).builds.limits
        given: dict[str, Any] = {
            "most_parts": most_parts, "price": most_price, "panel_cm2": most_area,
            "volume_cm3": most_volume, "mass_g": most_mass, "height_mm": most_height,
        }  # fmt: skip
        wanted = replace(
            kept, lithium=kept.lithium and not no_lithium,
            **{name: most for name, most in given.items() if most is not None},
        )  # fmt: skip
        validated(asdict(wanted), "limits", KeptLimits)  # before a search of minutes
        if study is not None:
            click.echo(f"Limits: {limits_text(wanted)}.")
        found = None
        for found in search(case, own=own, wanted=wanted):
            click.echo(f"\r{found.tried} builds tried, {len(found.front)} on the front", nl=False,
                       err=True)
        click.echo(err=True)
        assert found is not None
        click.echo(builds_line(found))
        if study is not None:
            remember_builds(study, search_of(found, wanted, scenario))
        if output is None:
            pass
        elif number is None:
            write_table(output, builds_table(found))
        elif number > len(found.front):
            raise FileError(f"--save {number}: the front has {len(found.front)} rows.")
        else:
            save_scenario(output, found.front[number - 1].scenario)
    except (FileError, ValueError) as fault:
        click.echo(str(fault), err=True)
        context.exit(BAD_INPUT)
    if found.front or len(found.currencies) > 1:
        click.echo(price_note(found))
    if found.front:
        click.echo(f"{output or study}: written.")
    context.exit(0 if found.front else NONE_RUNS)
