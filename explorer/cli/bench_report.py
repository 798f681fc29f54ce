"""What the command `bench` prints: a page, or one JSON object."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from explorer.text import say

if TYPE_CHECKING:
    from explorer.advice.bench.drift import Drift
    from explorer.advice.bench.fit import Fit
    from explorer.advice.bench.forecast import Agreement
    from explorer.advice.bench.outlook import Prospect


@dataclass(kw_only=True)
class Found:
    """Everything that a call of `bench` has found."""

    file: Path
    logs: Sequence[Path]
    count: int
    """How many of the logs belong to the first sitting."""
    agreements: Sequence[Agreement]
    fit: Fit | None = None
    later: Fit | None = None
    drift: Drift | None = None
    prospects: tuple[Prospect, ...] = ()
    parts: list[Path] = field(default_factory=list)


def page(found: Found) -> list[str]:
    """The lines of a page."""
    from explorer.words import fit as words
    from explorer.words.conditions import conditions_text
    from explorer.words.outlook import drift_sentences, next_sentences

    lines: list[str] = []
    for place, (log, one) in enumerate(zip(found.logs, found.agreements, strict=True)):
        if len(found.logs) > 1:
            is_later = place >= found.count
            head = f"{place + 1}. {log.name}" + (", later" if is_later else "")
            lines += ["", head] if lines else [head]
        if len(found.logs) > 1 or one.run.conditions != type(one.run.conditions)():
            lines.append(conditions_text(one.run) + ".")
        lines += [*words.agreement_sentences(one), *one.notes]
    for fit, head in ((found.fit, ""), (found.later, say("Later:"))):
        if fit is not None:
            lines += ["", *([head] if head else []), *_fit_lines(fit)]
    if found.drift is not None:
        lines += ["", *drift_sentences(found.drift)]
    if found.fit is not None:
        sentences = next_sentences(found.fit, found.prospects)
        lines += ["", *sentences] if sentences else []
    lines += [say("Written: {path}", path=path) for path in found.parts]
    return lines


def _fit_lines(found: Fit) -> list[str]:
    from explorer.words import fit as words

    lines: list[str] = [words.fit_sentence(found)]
    if found.is_good:
        width = max(len(v.parameter.path) for v in found.values)
        lines += [f"  {v.parameter.path:{width}}  {words.value_text(v)}" for v in found.values]
        for index, value in enumerate(found.values):
            said = words.remark(found, index)
            if said:
                lines.append(f"{value.parameter.path}: {said}")
    return lines


def report(found: Found) -> dict[str, Any]:
    """The object; numbers in the unit of their key, null where nothing is known."""
    out: dict[str, Any] = {
        "file": str(found.file),
        "runs": [
            _run(log, place >= found.count, one)
            for place, (log, one) in enumerate(zip(found.logs, found.agreements, strict=True))
        ],
    }
    if found.fit is not None:
        out["fit"] = _fit(found.fit)
    if found.later is not None:
        out["fit_later"] = _fit(found.later)
    if found.drift is not None:
        out["drift"] = _drift(found.drift)
    if found.prospects and found.fit is not None:
        out["next"] = [_prospect(found.fit, one) for one in found.prospects]
    if found.parts:
        out["parts"] = [str(path) for path in found.parts]
    return out


def _run(log: Path, is_later: bool, found: Agreement) -> dict[str, Any]:
    worst_v, worst_s = found.worst
    told = found.run.conditions
    return {
        "log": str(log),
        "later": is_later,
        "light_lx": told.light_lx,
        "light_share": told.light_share,
        "device": told.draw,
        "current_A": told.current_A if told.draw == "current" else None,
        "readings": found.run.readings,
        "span_s": found.run.span_s,
        "rms_V": found.rms_v,
        "bias_V": found.bias_v,
        "worst_V": worst_v,
        "worst_s": worst_s,
        "outside_share": found.outside_share,
        "outside_s": [list(stretch) for stretch in found.stretches],
        "notes": list(found.notes),
    }


def _fit(found: Fit) -> dict[str, Any]:
    from explorer.advice.answers import finite
    from explorer.words import fit as words

    good = found.is_good
    return {
        "converged": good,
        "rms_before_V": found.missed_before_v,
        "rms_V": found.missed_v,
        "values": [
            {
                "path": v.parameter.path,
                "unit": v.parameter.unit,
                "before": v.parameter.value,
                # A search that did not end has no values to go by.
                "value": v.value if good else None,
                "plus_minus": finite(v.plus_minus) if good else None,
                "plus_minus_by_readings": finite(v.by_readings) if good else None,
                "determined": v.determined and good,
                "remark": words.remark(found, i) if good else "",
            }
            for i, v in enumerate(found.values)
        ],
        "correlation": found.correlation.round(6).tolist(),
        "inseparable": [
            [found.values[i].parameter.path for i in group] for group in found.inseparable
        ],
    }


def _drift(found: Drift) -> dict[str, Any]:
    from explorer.words.outlook import drift_sentences

    return {
        "apart_s": found.apart_s,
        "same_meter": found.same_meter,
        "same": list(found.same),
        "values": [
            {
                "path": one.parameter.path,
                "unit": one.parameter.unit,
                "before": one.before,
                "after": one.after,
                "ratio": one.ratio,
                "ratio_low": one.ratio_low,
                "ratio_high": one.ratio_high,
                "told": bool(one.is_told),
                "seen": bool(one.is_seen),
            }
            for one in found.changes
        ],
        "sentences": list(drift_sentences(found)),
    }


def _prospect(fit: Fit, one: Prospect) -> dict[str, Any]:
    from explorer.advice.answers import finite

    return {
        "measurement": one.measurement.label,
        "gain": one.gain,
        "values": [
            {
                "path": value.parameter.path,
                "unit": value.parameter.unit,
                "plus_minus_now": finite(value.plus_minus),
                "plus_minus_then": finite(then),
            }
            for value, then in zip(fit.values, one.expected, strict=True)
        ],
    }
