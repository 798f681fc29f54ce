"""The command `sweep`: many variants of one scenario into a table."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from explorer.files.disk import FileError

BAD_INPUT = 3


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--vary", "texts", multiple=True, required=True, metavar="PATH=VALUES",
    help="Values of one key: low:high:count, low:high:count:ratio, low:high or a,b,c.",
)  # fmt: skip
@click.option(
    "--random", "rows", type=click.IntRange(1), default=None,
    help="Draw this many variants instead of every combination.",
)  # fmt: skip
@click.option("--seed", type=int, default=1, show_default=True, help="Seed of the random variants.")
@click.option(
    "--columns", type=click.Choice(["all", "verdict"]), default="all", show_default=True,
    help="All columns, or verdict and margins without the answers, which takes less time.",
)  # fmt: skip
@click.option("--exact", is_flag=True, help="Judge every variant by the exact march.")
@click.option("--workers", type=click.IntRange(1, 256), default=None,
              help="Processes; as many as there are cores when left out.")
@click.option(
    "--cluster", metavar="ADDRESS", default=None,
    help="Let a Dask cluster do it, by the address of its scheduler: tcp://host:8786.",
)  # fmt: skip
@click.option(
    "-o", "--output", required=True, type=click.Path(path_type=Path),
    help="Table to write, .csv or .parquet; with --cluster a folder of parts, .parquet.",
)  # fmt: skip
@click.pass_context
def sweep(
    context: click.Context, file: Path, texts: tuple[str, ...], rows: int | None, seed: int,
    columns: str, exact: bool, workers: int | None, cluster: str | None, output: Path,
) -> None:
    """Evaluate many variants of a scenario FILE, one table row each.

    Variants are judged many at once, with pulses averaged; the exact march judges those that lie
    close to a limit or that averages do not suit. The column judged_by says which it was: numbers
    of rows by "batch" are estimates, good to some 1 to 15 %, their verdict is meant to be the one
    of "check". Rows stream to OUTPUT.partial; the same command started again goes on from there.

    FILE may be the folder of a study: a table that is written there is put down in it, with what
    made it.

    With --cluster the rows are made by the workers of a Dask cluster that stands already, and come
    as parts of Parquet in the folder OUTPUT: the same values, and a worker may die. A worker
    takes 1024 rows at once and about a second of its processor to load the program; beside that
    a tenth more processor time was measured than here (2000 rows of the plant label: 10.6 s
    against 9.6 s). So it pays from some 1024 rows for each core of this machine on, and if the
    cluster has more cores than that: with fewer rows its workers stand idle.
    """
    from explorer.files.scenario_json import load_scenario
    from explorer.files.study import remember_sweep
    from explorer.files.study_place import scenario_file, study_folder
    from explorer.files.sweep import CHUNK, Sweep, parse_vary, run_sweep
    from explorer.files.sweep_cluster import run_on_cluster
    from explorer.scenario.study import KeptSweep

    try:
        folder, file = study_folder(file), scenario_file(file)
        scenario = load_scenario(file).scenario
        plan = Sweep(
            scenario=scenario,
            varied=tuple(parse_vary(scenario, text) for text in texts),
            random_rows=rows or 0,
            seed=seed,
            with_answers=columns == "all",
            exact=exact,
        )
        done = 0
        with click.progressbar(
            length=len(plan), label="Variants", file=sys.stderr, update_min_steps=4
        ) as bar:
            counts = (
                run_sweep(plan, file, output, workers=workers) if cluster is None
                else run_on_cluster(plan, file, output, cluster, chunk=CHUNK)
            )  # fmt: skip
            for count in counts:
                bar.update(count - done)
                done = count
        if folder is not None and output.resolve().is_relative_to(folder.resolve()):
            made = KeptSweep(
                file=output.resolve().relative_to(folder.resolve()).as_posix(), vary=texts,
                random=rows or 0, seed=seed, columns="all" if columns == "all" else "verdict",
                exact=exact,
            )  # fmt: skip
            remember_sweep(folder, made)
    except (FileError, ValueError) as fault:
        click.echo(str(fault), err=True)
        context.exit(BAD_INPUT)
    click.echo(f"{output}: {done} variants.")
