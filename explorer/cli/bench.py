"""The command that holds a forecast against a logged run."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from explorer.cli.telling import sentence_of, telling
from explorer.files.table_reader.told import Told
from explorer.quantity import parse

BAD_INPUT = 3


def _shares(
    _: click.Context, param: click.Parameter, texts: tuple[str, ...]
) -> dict[str, float]:
    """Shares under their paths."""
    found = {}
    for text in texts:
        path, _sign, amount = text.partition("=")
        try:
            found[path.strip()] = parse(amount, "")
        except ValueError as fault:
            raise click.BadParameter(str(fault), param=param) from None
        if not 0.0 <= found[path.strip()] <= 1.0:
            raise click.BadParameter(f"{text} is out of range; from 0 to 100 %.", param=param)
    return found


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.argument("log", type=click.Path(path_type=Path))
@click.option(
    "--fit", "paths", multiple=True, metavar="PATH", help="A value to fit; may be given again."
)
@telling
@click.option(
    "--known", "known", multiple=True, metavar="PATH=SHARE", callback=_shares,
    help="How well a value that is not fitted is known, such as load.sleep_A=0.5%; may be given "
    "again.",
)  # fmt: skip
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_context
def bench(
    context: click.Context,
    file: Path,
    log: Path,
    paths: tuple[str, ...],
    told: Told,
    known: dict[str, float],
    as_json: bool,
) -> None:
    """Hold the forecast of a scenario FILE against a logged run LOG.

    LOG is a table with the columns time and store_V (or store_mV), and lux where the light was
    logged too. --fit store.capacitance_F searches the value with which the forecast follows the
    log best, with its ± at 95 %: what the readings leave open, and what the values that are not
    fitted may be wrong by.
    """
    from explorer.advice.bench import fit as ft
    from explorer.advice.bench import forecast as bn
    from explorer.advice.bench.parameters import parameter
    from explorer.files.bench_log import read_bench_log
    from explorer.files.beside import resolve_case
    from explorer.files.scenario_json import load_scenario

    try:
        scenario = load_scenario(file).scenario
        case = resolve_case(scenario, file)
        run = read_bench_log(log, told)
        agreement = bn.agreement(case, run)
        chosen = [parameter(scenario, path) for path in paths]
        for path in known:
            parameter(scenario, path)
        found = list(ft.fit(case, [run], chosen, known=known))[-1] if chosen else None
    except (ValueError, ArithmeticError) as fault:
        click.echo(sentence_of(fault), err=True)
        context.exit(BAD_INPUT)
    if as_json:
        report = _report(file, log, agreement, found)
        click.echo(json.dumps(report, indent=2, ensure_ascii=False, allow_nan=False))
    else:
        click.echo("\n".join(_page(agreement, found)))


def _page(agreement: Any, found: Any) -> list[str]:
    from explorer.words import fit as words

    lines = [*words.agreement_sentences(agreement), *agreement.notes]
    if found is not None:
        lines += ["", words.fit_sentence(found)]
        if found.is_good:
            width = max(len(v.parameter.path) for v in found.values)
            lines += [
                f"  {v.parameter.path:{width}}  {words.value_text(v)}" for v in found.values
            ]
            for index, value in enumerate(found.values):
                said = words.remark(found, index)
                if said:
                    lines.append(f"{value.parameter.path}: {said}")
    return lines


def _report(file: Path, log: Path, agreement: Any, found: Any) -> dict[str, Any]:
    from explorer.advice.answers import finite
    from explorer.words import fit as words

    worst_v, worst_s = agreement.worst
    report: dict[str, Any] = {
        "file": str(file),
        "log": str(log),
        "readings": agreement.run.readings,
        "span_s": agreement.run.span_s,
        "rms_V": agreement.rms_v,
        "bias_V": agreement.bias_v,
        "worst_V": worst_v,
        "worst_s": worst_s,
        "outside_share": agreement.outside_share,
        "outside_s": [list(stretch) for stretch in agreement.stretches],
        "notes": list(agreement.notes),
    }
    if found is not None:
        report["fit"] = {
            "converged": found.is_good,
            "rms_before_V": found.missed_before_v,
            "rms_V": found.missed_v,
            "values": [
                {
                    "path": v.parameter.path,
                    "unit": v.parameter.unit,
                    "before": v.parameter.value,
                    # A search that did not end has no values to go by.
                    "value": v.value if found.is_good else None,
                    "plus_minus": finite(v.plus_minus) if found.is_good else None,
                    "plus_minus_by_readings": finite(v.by_readings) if found.is_good else None,
                    "determined": v.determined and found.is_good,
                    "remark": words.remark(found, i) if found.is_good else "",
                }
                for i, v in enumerate(found.values)
            ],
            "correlation": found.correlation.round(6).tolist(),
            "inseparable": [
                [found.values[i].parameter.path for i in group] for group in found.inseparable
            ],
        }
    return report
