"""A verdict and its reason in two sentences, without a word of the trade."""

from __future__ import annotations

from math import floor, isfinite

from explorer.advice.assess import Assessment
from explorer.advice.checks import SHARE
from explorer.advice.verdict import Check, Verdict
from explorer.quantity import show
from explorer.scenario.model import Scenario
from explorer.text import Text, capitalised, figure, say
from explorer.words.figures import check_quantity, value_text


def two_sentences(found: Assessment) -> tuple[str, str]:
    """The verdict, and the reason that governs it, without a word of the trade.

    Parameters
    ----------
    found : Assessment
        Of any scenario, not only of the guide's.
    """
    verdict = found.verdict
    return _lead(found), _reason(found, _root(verdict))


def _lead(found: Assessment) -> Text:
    governing = found.verdict.governing
    panels, store = _panels(found.scenario), _store(found.scenario)
    if governing.state == "runs":
        return say(
            "Yes: with {panels} and {store} it can live on this light.", panels=panels, store=store
        )
    if governing.state == "marginal":
        return say(
            "Marginal: with {panels} and {store} it works, but with less margin than "
            "required.",
            panels=panels,
            store=store,
        )
    if governing.name == "starts" and isfinite(governing.value):
        return say(
            "No: with {panels} and {store} it does not start soon enough.",
            panels=panels,
            store=store,
        )
    return say(
        "No: with {panels} and {store} this light is not enough.", panels=panels, store=store
    )


def _root(verdict: Verdict) -> Check:
    """The check to speak of: the one that governs, or a failed balance that explains it."""
    governing = verdict.governing
    if governing.name in ("dark", "service") and governing.state == "falls_short":
        balance = next((c for c in verdict.checks if c.name == "balance"), governing)
        return balance if balance.state == "falls_short" else governing
    return governing


def _panels(scenario: Scenario) -> Text:
    panels = scenario.panels
    count = panels.count * panels.in_series
    if count == 1:
        return say(
            "1 panel of {area} cm²", "after with", area=figure(f"{panels.active_area_cm2:g}")
        )
    return say(
        "{n} panels of {area} cm² ({total} cm² in all)",
        "after with",
        n=count,
        area=figure(f"{panels.active_area_cm2:g}"),
        total=figure(f"{count * panels.active_area_cm2:g}"),
    )


def _store(scenario: Scenario) -> Text:
    store = scenario.store
    size = show(store.size, store.size_unit)
    if store.kind == "cell":
        return say("a rechargeable cell of {size}", "after with", size=size)
    if store.kind == "capacitor":
        return say("a capacitor of {size}", "after with", size=size)
    return say("a supercapacitor store of {size}", "after with", size=size)


def _reason(found: Assessment, check: Check) -> Text:
    text = {
        "starts": _starts, "balance": _balance, "dark": _dark, "pulse": _pulse,
        "ratings": _ratings, "service": _service,
    }[check.name](check)  # fmt: skip
    if check.state == "runs":
        first = found.answers["first_charge_s"]
        if check.name == "starts":
            return say("The tightest point: {reason}.", reason=text)
        if not isfinite(first):
            return say("The tightest point: {reason}; it starts at once.", reason=text)
        return say(
            "Tightest point: {reason}; it starts {time} after the light first comes on.",
            reason=text,
            time=show(first, "s"),
        )
    text = capitalised(text)
    if check.state == "marginal":
        return say(
            "{reason}; {factor} times what is needed is asked for.",
            reason=text,
            factor=figure(f"{check.wanted:g}"),
        )
    return text + "."


# Each of these is a clause that can stand alone, begin a sentence or follow a colon.


def _starts(check: Check) -> Text:
    if not isfinite(check.value):
        return say("starting empty it never gets going, however long it hangs there")
    return say(
        "from empty it needs {time} until it is ready, and {allowed} are allowed",
        time=show(check.value, "s"),
        allowed=show(check.limit, "s"),
    )


def _balance(check: Check) -> Text:
    if check.margin >= 10:
        return say("the light brings more than ten times the energy that it uses")
    if check.margin < 0.01:
        return say("the light brings less than 1 % of the energy that it uses")
    if check.margin < 2:
        # Truncated as the margin is: what is not quite enough must not read as all of it.
        return say(
            "the light brings {share} % of the energy that it uses",
            share=f"{floor(100 * check.margin + 1e-9)}",
        )
    return say(
        "the light brings {factor} times the energy that it uses",
        factor=figure(f"{check.margin:.2g}"),
    )


def _dark(check: Check) -> Text:
    if not isfinite(check.limit):
        return say("the light never brings its store anything")
    if not isfinite(check.value):
        return say("there is enough light at all times")
    lasts, needed = show(check.value, "s"), show(check.limit, "s")
    if check.value < 60.0:
        return say("it has no charge left for the dark and must last {time}", time=needed)
    if lasts == needed and check.value < check.limit:
        return say("it lasts a little less in the dark than the {needed} it must", needed=needed)
    if check.at_least:
        lasts = say("more than {time}", time=lasts)
    return say("it lasts {time} in the dark and must last {needed}", time=lasts, needed=needed)


def _pulse(check: Check) -> Text:
    if check.value <= 0:
        return say("its store cannot deliver what a pulse takes; the voltage collapses")
    return say(
        "when it works the voltage dips to {volts}, and the device needs {need}",
        volts=show(check.value, "V"),
        need=show(check.limit, "V"),
    )


def _ratings(check: Check) -> Text:
    if check.state == "runs":
        return say("its parts stay within what they are made for")
    return say(
        "a part would be at {value} and is made for {limit}",
        value=show(check.value, check.unit),
        limit=show(check.limit, check.unit),
    )


def _service(check: Check) -> Text:
    if check.unit != SHARE:
        return say(
            "it reaches {value} where {limit} is asked for",
            value=value_text(check), limit=check_quantity(check, check.limit),
        )
    return say("it gets {share} % of its work done", share=figure(f"{100 * check.value:.3g}"))
