"""Ratings and hazards: what a store's limits say of a design, in numbers and in sentences."""

from __future__ import annotations

from collections.abc import Sequence

from explorer.advice.verdict import Hazard
from explorer.quantity import show
from explorer.scenario.model import Scenario
from explorer.scenario.ratings import Rating
from explorer.text import Text, say


def ratings_sentence(scenario: Scenario, rows: Sequence[Rating]) -> Text:
    """What is said of the limit that is nearest, or farthest overstepped, in one design."""
    row = min(rows, key=lambda row: float(row.margin))
    seen, rated = show(float(row.seen), row.unit), show(float(row.rated), row.unit)
    if row.key == "cell_voltage":
        return say(
            "Each cell sees up to {full} when full; it is rated {rated}.", full=seen, rated=rated
        )
    if row.key in ("charging_voltage", "standing_voltage"):
        volts = {float(r.seen) for r in rows if r.key in ("charging_voltage", "standing_voltage")}
        if len(volts) == 1:
            return say(
                "Fully charged, each unit is at up to {full}; it is rated for {rated}.",
                full=seen, rated=rated,
            )
        if row.key == "charging_voltage":
            return say(
                "Charged quickly, the unit with the least capacitance sees up to {volts}; it is "
                "rated {rated}.",
                volts=seen, rated=rated,
            )
        return say(
            "Standing full, the unit with the least leakage sees up to {volts}; it is rated "
            "{rated}.",
            volts=seen, rated=rated,
        )
    if row.key == "charging_current":
        if scenario.charger.kind == "direct":
            return say(
                "In full sun the panel would charge the cell with {current}, and nothing "
                "limits it; {allowed} is allowed.",
                current=seen, allowed=rated,
            )
        return say(
            "In full sun the charger passes {current} into the cell; {allowed} is allowed.",
            current=seen, allowed=rated,
        )
    if row.key == "discharging_current":
        return say(
            "The largest draw is {current}; the cell allows {allowed}.",
            current=seen, allowed=rated,
        )
    if row.key == "output_current":
        return say(
            "Through the load output flow up to {current}; it carries {allowed}.",
            current=seen, allowed=rated,
        )
    ambient = show(float(row.seen), "")
    window = {r.key: show(float(r.rated), "") for r in rows}
    if "too_cold" not in window:
        return say(
            "The place is at {ambient} °C; the units are rated {rated} °C.",
            ambient=ambient, rated=window["too_hot"],
        )
    return say(
        "At {ambient} °C the cell must not be charged; its window is {low} to {high} °C.",
        ambient=ambient, low=window["too_cold"], high=window["too_hot"],
    )


def _charging_outside(scenario: Scenario, row: Rating) -> Text:
    """What charging does to a cell at the temperature that a place comes to."""
    ambient = show(float(row.seen), "")
    # What the mean of a month keeps within, the forecast charges all the same.
    mean_c, rated_c = scenario.light.ambient_C, float(row.rated)
    if row.key == "too_cold":
        if mean_c > rated_c:
            return say(
                "At {ambient} °C, the coldest that it is in light, lithium plates out when the "
                "cell is charged; the charger must stop by itself. The forecast goes by the mean "
                "of the month, {mean} °C, and counts that charge.",
                ambient=ambient, mean=show(mean_c, ""),
            )
        return say(
            "At {ambient} °C charging plates metallic lithium onto the electrode; the charger "
            "must refuse by itself. The forecast assumes no charging here.",
            ambient=ambient,
        )
    if mean_c <= rated_c:
        return say(
            "At {ambient} °C, the warmest that it is in light, the cell must not be charged. The "
            "forecast goes by the mean of the month, {mean} °C, and counts that charge.",
            ambient=ambient, mean=show(mean_c, ""),
        )
    return say(
        "At {ambient} °C the cell must not be charged; the forecast counts no charge here.",
        ambient=ambient,
    )


def hazards(scenario: Scenario, rows: Sequence[Rating]) -> tuple[Hazard, ...]:
    """Dangers to people or parts of one design, apart from whether it works."""
    found: list[Hazard] = []
    passed = {row.key: row for row in rows if float(row.margin) < 1.0}
    over = [passed[k] for k in ("charging_voltage", "standing_voltage") if k in passed]
    if over:
        worst = max(over, key=lambda row: float(row.seen))
        found.append(Hazard(
            key="over_voltage", title=say("Over-voltage"),
            sentence=say(
                "A unit can reach {volts} and is rated for {rated}; it may vent or burst. "
                "Lower the full voltage, add balancing, or connect one more in series.",
                volts=show(float(worst.seen), "V"), rated=show(float(worst.rated), "V"),
            ),
        ))
    if "cell_voltage" in passed:
        row = passed["cell_voltage"]
        found.append(Hazard(
            key="over_voltage", title=say("Over-voltage"),
            sentence=say(
                "A cell may be charged to {volts} but is rated {rated}; it can vent or catch fire. "
                "Lower the full threshold.",
                volts=show(float(row.seen), "V"), rated=show(float(row.rated), "V"),
            ),
        ))
    if "too_cold" in passed:
        found.append(Hazard(
            key="cold_charging", title=say("Cold charging"),
            sentence=_charging_outside(scenario, passed["too_cold"]),
        ))
    elif "too_hot" in passed and "cell_voltage" in {row.key for row in rows}:
        found.append(Hazard(
            key="hot_charging", title=say("Hot charging"),
            sentence=_charging_outside(scenario, passed["too_hot"]),
        ))
    if "charging_current" in passed:
        found.append(_charging_current(scenario, passed["charging_current"]))
    if scenario.load.actuator == "door_lock":
        found.append(Hazard(
            key="egress", title=say("Escape route"),
            sentence=say(
                "A lock must let people out when the store is empty. Decide fail-safe or "
                "fail-secure with the code official; this forecast must not be the only proof."
            ),
        ))
    return tuple(found)


def _charging_current(scenario: Scenario, row: Rating) -> Hazard:
    current, allowed = show(float(row.seen), "A"), show(float(row.rated), "A")
    if scenario.charger.kind == "direct":
        sentence = say(
            "Left in the sun the panel drives {current} into the cell; it allows {allowed}. Add a "
            "limiter.",
            current=current, allowed=allowed,
        )
    else:
        sentence = say(
            "Left in the sun the charger passes {current} into the cell; it allows {allowed}. "
            "Lower the charger's output limit.",
            current=current, allowed=allowed,
        )
    return Hazard(key="charge_current", title=say("Charging current"), sentence=sentence)
