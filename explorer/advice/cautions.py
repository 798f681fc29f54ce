"""Cautions: what can hurt someone, shown beside the choice that calls for it.

Only what applies to the scenario is shown. Where a text names a standard, its number was read on
public pages that quote it, not in the standard itself; where none is named it is common practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from explorer.advice.cautions_season import frost, heat
from explorer.quantity import show
from explorer.scenario.model import Scenario
from explorer.scenario.ratings import full_sun_voltage
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.text import Text, figure, joined, say

Where = Literal["store", "load", "panel", "charger"]

SMALL_CELL_MAH = 250.0
"""A cell up to this capacity may be a coin cell that a child can swallow (own judgement)."""
MANY_PANELS_CM2 = 2500.0
"""Above this area panels go on a wall or a ceiling rather than on a device (own judgement)."""
DEFER = say("The part's data sheet, local codes and a qualified person decide.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One caution that applies."""

    key: str
    title: str
    text: str
    where: Where


def cautions(scenario: Scenario) -> tuple[Caution, ...]:
    """The cautions that apply to a scenario, in the order in which they are shown.

    Parameters
    ----------
    scenario : Scenario
        Validated scenario.
    """
    return (
        *_store(scenario), *_discharge(scenario), *_charger(scenario), *_load(scenario),
        *_panel(scenario), *_seasons(scenario),
    )  # fmt: skip


def _discharge(scenario: Scenario) -> list[Caution]:
    store, off_v = scenario.store, scenario.load.disconnect_V
    if off_v >= store.empty_v:
        return []
    return [
        Caution(
            key="over_discharge",
            title=say("Discharged too far"),
            text=_deferred(
                say(
                    "The load disconnects at {off} V, but the store is empty at {empty} V and "
                    "harmed below. The forecast takes it that a protection circuit cuts off "
                    "there; without one, raise the disconnect threshold.",
                    off=figure(f"{off_v:g}"), empty=figure(f"{store.empty_v:.4g}"),
                )
            ),
            where="store",
        )
    ]


def _deferred(*sentences: str) -> Text:
    """A caution's sentences, ended by whose word counts."""
    return joined(" ", (*sentences, DEFER))


def _store(scenario: Scenario) -> list[Caution]:
    store = scenario.store
    if isinstance(store, CapacitorStore):
        return _capacitor(store)
    if isinstance(store, SupercapacitorStore):
        return _supercapacitor(store)
    return _cell(store)


def _capacitor(store: CapacitorStore) -> list[Caution]:
    found = [
        Caution(
            key="electrolytic",
            title=say("Electrolytic capacitors"),
            text=_deferred(
                say(
                    "An electrolytic has a polarity: reversed or above its rated voltage it vents "
                    "hot gas and may burst. Keep the space above its vent free. Heat shortens its "
                    "life. After some two years in store, form it again before use: rated voltage "
                    "through 1 kΩ for half an hour to an hour is usual."
                )
            ),
            where="store",
        )
    ]
    if store.units_in_series > 1:
        found.append(_series_bank(say("capacitors")))
    return found


def _supercapacitor(store: SupercapacitorStore) -> list[Caution]:
    found = [
        Caution(
            key="supercapacitor",
            title=say("Supercapacitors"),
            text=_deferred(
                say(
                    "A charged supercapacitor drives a very high current through a short "
                    "circuit: insulate the terminals, take off rings and watches, and "
                    "discharge it through a resistor before handling or transport. Never "
                    "exceed its rated voltage or temperature; the gas pressure then opens "
                    "the vent. Mind the polarity; reversal ages or destroys it."
                )
            ),
            where="store",
        )
    ]
    if store.units_in_series > 1:
        found.append(_series_bank(say("supercapacitors")))
    if store.lowest_V > 0:
        found.append(
            Caution(
                key="hybrid",
                title=say("Hybrid capacitors"),
                text=_deferred(
                    say(
                        "A hybrid (lithium-ion) capacitor is harmed below its lower limit, here "
                        "{volts} V a unit: cut the load off above it, never discharge it to zero "
                        "or short it, and treat it as a lithium part in transport.",
                        volts=figure(f"{store.lowest_V:g}"),
                    )
                ),
                where="store",
            )
        )
    found.append(
        Caution(
            key="acetonitrile",
            title=say("Electrolyte"),
            text=_deferred(
                say(
                    "Many supercapacitors hold acetonitrile, which is flammable and poisonous. Do "
                    "not open, crush or burn them; if one leaks, leave and air the room, and keep "
                    "it off the skin."
                )
            ),
            where="store",
        )
    )
    return found


def _series_bank(what: str) -> Caution:
    return Caution(
        key="series_bank",
        title=say("Units in series"),
        text=_deferred(
            say(
                "In series, {parts} share the voltage by their capacitance while charging and by "
                "their leakage while standing, so one unit can pass its rating though the bank "
                "does not. Balance them, leave headroom for tolerance and age, and measure each "
                "unit.",
                parts=what,
            )
        ),
        where="store",
    )


def _cell(store: CellStore) -> list[Caution]:
    found = [
        Caution(
            key="lithium",
            title=say("Lithium cells"),
            text=_deferred(
                say(
                    "Charge only between {low} and {high} °C and within the cell's own window of "
                    "voltage and current; a lithium cell charged below 0 °C plates lithium unless "
                    "its data sheet allows it. A protection circuit against over-charge, "
                    "over-discharge and short circuit is needed. Do not crush, pierce or heat it. "
                    "Product safety (IEC 62133-2) and transport (UN 38.3) are two separate proofs.",
                    low=show(store.charge_above_C, ""),
                    high=show(store.charge_below_C, ""),
                )
            ),
            where="store",
        )
    ]
    if store.capacity_mAh <= SMALL_CELL_MAH:
        found.append(
            Caution(
                key="coin",
                title=say("Coin cells and children"),
                text=_deferred(
                    say(
                        "A swallowed coin cell burns the gullet within two hours. If the cell is a "
                        "coin or button type, close its compartment with a tool or two separate "
                        "actions and mark it; several countries require this by law (in the United "
                        "States 16 CFR 1263). Call emergency services at once if one may have been "
                        "swallowed."
                    )
                ),
                where="store",
            )
        )
    if store.cells_in_series > 1:
        found.append(
            Caution(
                key="series_cells",
                title=say("Cells in series"),
                text=_deferred(
                    say(
                        "Cells in series drift apart. Each one needs its own voltage watched and "
                        "balanced by its protection circuit."
                    )
                ),
                where="store",
            )
        )
    return found


def _charger(scenario: Scenario) -> list[Caution]:
    if scenario.store.is_lithium and scenario.charger.kind == "direct":
        return [
            Caution(
                key="direct_lithium",
                title=say("No charge control"),
                text=_deferred(
                    say(
                        "A diode alone limits neither voltage nor current nor temperature. A "
                        "lithium cell needs a charger that ends the charge and refuses it in the "
                        "cold, whatever light falls on the panel."
                    )
                ),
                where="charger",
            )
        ]
    return _unstopped(scenario)


def _unstopped(scenario: Scenario) -> list[Caution]:
    """A bank on a diode whose panel could charge it above its rating, were it not stopped."""
    store, charger = scenario.store, scenario.charger
    rated_v = store.unit_rated_v * store.in_series
    if charger.kind != "direct":
        return []
    try:
        sun_v = full_sun_voltage(scenario)
    except ValueError:  # a data sheet of no panel, which is told where the design is judged
        return []
    if sun_v <= rated_v:
        return []
    return [
        Caution(
            key="direct_bank",
            title=say("Only the threshold protects"),
            text=_deferred(
                say(
                    "A diode alone does not stop charging. Left in the sun this panel reaches "
                    "{sun} V, and the units are rated {rated} V together. The forecast takes it "
                    "that something ends the charge at {full} V: a clamp or a switch that stands "
                    "the panel's full current.",
                    sun=show(sun_v, ""), rated=figure(f"{rated_v:.4g}"),
                    full=figure(f"{charger.full_V:.4g}"),
                )
            ),
            where="charger",
        )
    ]


_ACTUATORS: dict[str, tuple[str, str, str]] = {
    "door_lock": (
        "egress",
        say("Locks and escape"),
        say(
            "Decide what the lock does when the store is empty: fail-safe unlocks, fail-secure "
            "stays locked from outside. People inside must be able to leave at any time without "
            "power, and this lock must not be the only way out. Fire and building codes (such as "
            "NFPA 101 and EN 179, EN 1125 or EN 13637) apply, and a code official decides."
        ),
    ),
    "latching_valve": (
        "valve",
        say("Valves without power"),
        say(
            "A latching valve stays where it is when the energy ends. Decide which position is "
            "safe, keep the energy for one last move in the reserve, and do not rely on it alone "
            "against flooding, gas, scalding or pressure."
        ),
    ),
    "vent_or_flap": (
        "vent",
        say("Vents and flaps"),
        say(
            "Decide where the vent rests when the energy ends. It must not be the only means of "
            "smoke extraction, fire separation or combustion air, and moving leaves pinch fingers."
        ),
    ),
    "other_motor": (
        "motor",
        say("Moving parts"),
        say(
            "A motor that is started by the light may move without warning. Guard pinch points, "
            "limit its force, and disconnect the store before working on it."
        ),
    ),
}
"""Key, title and text for each kind of actuator."""


def _load(scenario: Scenario) -> list[Caution]:
    if scenario.load.actuator == "none":
        return []
    key, title, *sentences = _ACTUATORS[scenario.load.actuator]
    if scenario.load.reserve_J <= 0 and scenario.load.actuator != "other_motor":
        sentences.append(say("No energy is reserved for a last safe action in this scenario."))
    return [Caution(key=key, title=title, text=_deferred(*sentences), where="load")]


def _panel(scenario: Scenario) -> list[Caution]:
    found = [
        Caution(
            key="mounting",
            title=say("Glass and heights"),
            text=_deferred(
                say(
                    "Panels are often glass: carry them with gloves and do not bend them. Mounting "
                    "above head height needs a proper ladder or platform and fixings that hold "
                    "what falls if one lets go. Keep clear of mains wiring and lamps."
                )
            ),
            where="panel",
        )
    ]
    panels = scenario.panels
    area = panels.active_area_cm2 * panels.count * panels.in_series
    if area > MANY_PANELS_CM2:
        found.append(
            Caution(
                key="large_array",
                title=say("A large array"),
                text=_deferred(
                    say(
                        "Some {area} m² of panel give far more voltage and current when the sun "
                        "reaches them than the lamps let expect; they cannot be switched off while "
                        "light falls on them.",
                        area=show(area / 1e4, "", 2),
                    )
                ),
                where="panel",
            )
        )
    return found


def _seasons(scenario: Scenario) -> list[Caution]:
    found = []
    if (cold := frost(scenario)) is not None:
        found.append(Caution(key="frost", title=say("Frost"), text=_deferred(cold), where="store"))
    if (hot := heat(scenario)) is not None:
        title = say("Heat behind glass")
        found.append(Caution(key="heat", title=title, text=_deferred(hot), where="store"))
    return found
