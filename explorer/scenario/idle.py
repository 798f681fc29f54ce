"""Which fields of a section have no effect with the choices that it holds now.

Forms leave them out and the sheet could; a file keeps them, so that going back to a choice brings
the old values back. Whatever is named here changes nothing that is computed (tests build the system
with and without).
"""

from __future__ import annotations

from explorer.scenario.banks import SupercapacitorStore
from explorer.scenario.daylight import DaylightPattern, SkyReading
from explorer.scenario.demand import Load, Regulator
from explorer.scenario.fields import Section
from explorer.scenario.light import Light
from explorer.scenario.model import LIGHT_OF, Margins
from explorer.scenario.supply import ConverterCharger

_NONE: frozenset[str] = frozenset()
_OF_REGULATOR = {
    "none": frozenset({"output_V", "dropout_V", "ground_A", "efficiency", "minimum_input_V"}),
    "linear": frozenset({"efficiency", "minimum_input_V"}),
    "switching": frozenset({"dropout_V"}),
}


def idle_keys(section: Section) -> frozenset[str]:
    """Keys of the fields that change nothing as the section stands.

    Examples
    --------
    >>> sorted(idle_keys(Regulator(kind="linear")))
    ['efficiency', 'minimum_input_V']
    """
    if isinstance(section, Regulator):
        return _OF_REGULATOR[section.kind]
    if isinstance(section, ConverterCharger):
        return _of_converter(section)
    if isinstance(section, SupercapacitorStore):
        return _of_supercapacitor(section)
    if isinstance(section, SkyReading):
        return _NONE if section.illuminance_lx is not None else frozenset({"date", "time", "sky"})
    if isinstance(section, DaylightPattern):
        of_file = {"latitude_deg", "longitude_deg", "months"}
        return frozenset(of_file) if section.weather_file else _NONE
    if isinstance(section, Load):
        return _NONE if section.indicator_V is None else frozenset({"indicator_share"})
    if isinstance(section, Margins):
        return frozenset(
            light for amount, light in LIGHT_OF.items() if getattr(section, amount) is None
        )
    if isinstance(section, Light):
        by_hour = {"daylight_share", "ambient_C"}
        return frozenset(by_hour) if isinstance(section.pattern, DaylightPattern) else _NONE
    return _NONE


def _of_converter(charger: ConverterCharger) -> frozenset[str]:
    idle = {"voc_fraction"} if charger.tracking == "maximum_power" else set()
    if charger.efficiency_table:
        return frozenset(idle | {"efficiency", "fixed_loss_W", "loss_resistance_ohm"})
    return frozenset(idle | {"table_scale"})


def _of_supercapacitor(store: SupercapacitorStore) -> frozenset[str]:
    idle = set()
    if store.condition == "settled":
        idle |= {"fresh_leakage_factor", "settling_h"}
    if store.units_in_series == 1:
        idle |= {"balancing", "balancing_A"}
    elif store.balancing == "none":
        idle.add("balancing_A")
    return frozenset(idle)
