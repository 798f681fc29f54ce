"""The shipped light sources, cells, chemistries, stores and places, each read once."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any, get_args

import numpy as np

from explorer.physics import light as physics
from explorer.physics.arrays import FloatArray
from explorer.resource_files import read_notes, read_table, resource_path
from explorer.scenario.chemistry import ChemistryName
from explorer.scenario.chemistry import chemistry as chemistry
from explorer.scenario.fields import Section, plain
from explorer.scenario.light import Source
from explorer.scenario.storage import (
    CapacitorStore,
    CellStore,
    Store,
    StoreKind,
    SupercapacitorStore,
)
from explorer.scenario.store_table import family_rows, monthly_loss
from explorer.scenario.supply import Technology
from explorer.text import say

_M2_PER_CM2 = 1e-4
_GRID_NM = np.arange(physics.BAND_NM[0], physics.BAND_NM[1] + 1.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spectrum:
    """Relative spectrum of a light source on 300 to 1200 nm in steps of 1 nm."""

    source: Source
    wavelength_nm: FloatArray
    """Wavelengths, shape (901,). [nm]"""
    relative: FloatArray
    """Spectral power in any unit, zero where the table says nothing, shape (901,)."""
    photopic: FloatArray
    """CIE 1924 V(λ) on the same grid, shape (901,)."""
    origin: str
    licence: str
    kind: str
    """Tabulated, measured, modelled or from memory."""
    notes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """What modules that are sold give: the weak ones, the usual ones and the best."""

    low: float
    typical: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ModuleLine:
    """What modules of one technology give at one light level, at 25 °C."""

    illuminance_lx: float
    power_w_per_m2: Span
    """Greatest output per active area. [W/m²]"""
    max_power_v: Span
    """Voltage of one cell at the greatest output. [V]"""
    open_circuit_v: Span
    """Open-circuit voltage of one cell. [V]"""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CellTechnology:
    """Response and single-diode parameters of one cell at 25 °C, per unit of its area."""

    technology: Technology
    title: str
    band_gap_ev: float
    saturation_current_a_per_m2: float
    ideality: float
    series_resistance_ohm_m2: float
    shunt_conductance_s_per_m2: float
    """Conductance in the dark."""
    photo_shunt_per_v: float
    """Further conductance over photocurrent. [1/V]"""
    voc_temperature_v_per_k: float
    """Change of open-circuit voltage of one cell in full sun, as sheets state it. [V/K]"""
    current_temperature_per_k: float
    """Relative change of photocurrent. [1/K]"""
    eqe_wavelength_nm: FloatArray
    eqe: FloatArray
    """Electrons per photon, same shape as ``eqe_wavelength_nm``."""
    current_share: float
    """What a module keeps of the response's current: cover, wiring, gaps, mismatch."""
    modules: tuple[ModuleLine, ...]
    """What is sold, by rising light; the parameters above give the typical one."""
    modules_lamp: Source
    """Under which `modules` hold."""
    modules_source: str
    eqe_kind: str
    diode_kind: str
    origin: str
    licence: str
    notes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place with a typical light level, as a starting point for a measurement."""

    name: str
    illuminance_lx: float
    group: str
    """``design`` (lighting design value on the work surface), ``wall``, ``daylight`` or ``dim``."""
    note: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StoreFamily:
    """One generic kind of store in all of its sizes."""

    key: str
    title: str
    kind: StoreKind
    chemistry: ChemistryName | None
    """Of a cell, None for capacitors."""
    sizes: tuple[float, ...]
    """Capacitance of the whole store, or capacity for a cell, rising. [F or mAh]"""
    numbers: Mapping[str, float]
    """Values by key, for the whole store per farad or per mAh where the key says so."""
    sources: Mapping[str, str]
    """Where each number comes from, by the same keys and ``sizes``."""
    cautions: tuple[str, ...]
    note: str

    @property
    def cost_class(self) -> int:
        """Rank of cost for the same job, 1 (cheapest) to 5."""
        return int(self.numbers["cost_class"])

    @property
    def window_v(self) -> tuple[float, float]:
        """Voltage at which the store counts as empty, and its rated or full voltage. [V]"""
        if self.chemistry is not None:
            table, cells = chemistry(self.chemistry), self.numbers["cells_in_series"]
            return table.minimum_v * cells, table.maximum_v * cells
        units = self.numbers["units_in_series"]
        return self.numbers.get("lowest_V", 0.0) * units, self.numbers["rated_V"] * units

    def volume_cm3(self, size: float) -> float:
        """Volume of the bare parts. [cm³]"""
        return size * self.numbers[f"volume_cm3_per_{self.size_unit}"]

    def mass_g(self, size: float) -> float:
        """Mass of the bare parts. [g]"""
        return size * self.numbers[f"mass_g_per_{self.size_unit}"]

    def height_mm(self, size: float) -> float:
        """Height of the parts standing on a board, from their volume alone. [mm]

        Round cans stand twice as high as they are wide, discs lie a quarter as high, pouches and
        chips a tenth (own judgement).
        """
        units = self.numbers.get("units_in_series", self.numbers.get("cells_in_series", 1.0))
        slim = _HEIGHT_OVER_WIDTH.get(self.key, 2.0)
        one_mm3 = 1000.0 * self.volume_cm3(size) / units
        return float(slim * (4.0 * one_mm3 / (np.pi * slim)) ** (1.0 / 3.0))

    @property
    def size_unit(self) -> str:
        """Unit of its sizes."""
        return _SECTIONS[self.kind].size_unit

    def store(self, size: float) -> Store:
        """The scenario's store section for a size, new and empty (a cell 30 % charged).

        Parameters
        ----------
        size : float
            Capacitance of the whole store, or capacity for a cell. [F or mAh]
        """
        given = dict(self.numbers)
        if self.chemistry is not None:
            given["self_discharge_per_month"] = monthly_loss(given, size)
            cell = {
                "capacity_mAh": size,
                "resistance_ohm": given["resistance_ohm_mAh"] / size,
                "charge_limit_A": given["charge_rate_per_h"] * size * 1e-3,
                "discharge_limit_A": given["discharge_rate_per_h"] * size * 1e-3,
                **_only(CellStore, given),
            }
            return CellStore(chemistry=self.chemistry, **_held(CellStore, cell))
        own: dict[str, Any] = {
            "capacitance_F": size,
            "esr_ohm": given["esr_ohm_F"] / size,
            "leakage_A": given["leakage_A_per_F"] * size,
        }
        if self.kind == "capacitor":
            return CapacitorStore(**_held(CapacitorStore, own | _only(CapacitorStore, given)))
        own |= {"balancing_A": given["balancing_A_per_F"] * size}
        own |= _only(SupercapacitorStore, given)
        return SupercapacitorStore(**_held(SupercapacitorStore, own))


_HEIGHT_OVER_WIDTH = {
    "ceramic": 0.1, "memory_backup": 0.25, "lithium_coin": 0.25, "lithium_pouch": 0.1,
}
"""Of parts that are no round cans (own judgement)."""
_SECTIONS: Mapping[StoreKind, type[CapacitorStore | SupercapacitorStore | CellStore]] = {
    "capacitor": CapacitorStore, "supercapacitor": SupercapacitorStore, "cell": CellStore,
}  # fmt: skip


def _held(section: type[Section], values: Mapping[str, Any]) -> dict[str, Any]:
    """Values within the ranges of their fields, which a size that nobody sells may leave."""
    return {key: plain(value) for key, value in section.within_ranges(values).items()}


def _only(section: type[Section], given: Mapping[str, float]) -> dict[str, Any]:
    """The numbers that a section has under the same key."""
    whole = {"units_in_series", "cells_in_series"}
    return {
        key: int(value) if key in whole else value
        for key, value in given.items()
        if key in section.model_fields
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class LightAnswer:
    """What one source gives at one light level."""

    source: Source
    illuminance_lx: float
    irradiance_w_per_m2: float
    """Within 300 to 1200 nm. [W/m²]"""
    photocurrent_a_per_m2: dict[Technology, float]
    """Photocurrent density of each cell technology; 1 A/m² is 100 µA/cm². [A/m²]"""


@cache
def spectrum(source: Source) -> Spectrum:
    """Spectrum of a light source.

    Raises
    ------
    FileNotFoundError
        No such source is shipped.
    """
    path = resource_path("spectra", f"{source}.csv")
    notes = read_notes(path)
    return Spectrum(
        source=source,
        wavelength_nm=_GRID_NM,
        relative=_on_grid(read_table(path), "relative"),
        photopic=_photopic(),
        origin=notes["origin"],
        licence=notes["licence"],
        kind=notes["kind"],
        notes=notes["notes"],
    )


@cache
def cell(technology: Technology) -> CellTechnology:
    """Parameters of a cell technology.

    Raises
    ------
    FileNotFoundError
        No such technology is shipped.
    """
    data = _json("cells", f"{technology}.json")
    diode, modules = data["diode"], data["modules"]
    return CellTechnology(
        technology=technology,
        title=data["title"],
        band_gap_ev=data["band_gap_eV"],
        saturation_current_a_per_m2=diode["saturation_current_A_per_cm2"] / _M2_PER_CM2,
        ideality=diode["ideality"],
        series_resistance_ohm_m2=diode["series_resistance_ohm_cm2"] * _M2_PER_CM2,
        shunt_conductance_s_per_m2=diode["shunt_conductance_S_per_cm2"] / _M2_PER_CM2,
        photo_shunt_per_v=diode["photo_shunt_per_V"],
        voc_temperature_v_per_k=diode["voc_temperature_V_per_K"],
        current_temperature_per_k=diode["current_temperature_per_K"],
        eqe_wavelength_nm=np.array(data["eqe"]["wavelength_nm"], dtype=np.float64),
        eqe=np.array(data["eqe"]["eqe"], dtype=np.float64),
        current_share=modules["current_share"]["value"],
        modules=tuple(_module_line(line) for line in modules["lines"]),
        modules_lamp=modules["lamp"],
        modules_source=modules["source"],
        eqe_kind=data["eqe_kind"],
        diode_kind=diode["kind"],
        origin=data["eqe_origin"],
        licence=data["licence"],
        notes=data["notes"],
    )


def _module_line(line: dict[str, Any]) -> ModuleLine:
    micro = {key: value * 1e-6 / _M2_PER_CM2 for key, value in line["power_uW_per_cm2"].items()}
    return ModuleLine(
        illuminance_lx=line["illuminance_lx"],
        power_w_per_m2=Span(**micro),
        max_power_v=Span(**line["max_power_V"]),
        open_circuit_v=Span(**line["open_circuit_V"]),
    )


@lru_cache(maxsize=1024)
def sold_share(technology: Technology, illuminance_lx: float) -> tuple[float, float]:
    """What the weakest and the best modules on sale give, over what the typical one gives.

    Between the levels of `CellTechnology.modules` along the logarithm of light, beyond them as at
    the nearest.

    Parameters
    ----------
    technology : str
        Cell technology.
    illuminance_lx : float
        Light at the panel. [lx]
    """
    lines = cell(technology).modules
    levels = np.log([line.illuminance_lx for line in lines])
    at = np.log(max(illuminance_lx, 1e-3))
    low, high = (
        float(np.interp(at, levels, [getattr(line.power_w_per_m2, end)
                                     / line.power_w_per_m2.typical for line in lines]))
        for end in ("low", "high")
    )  # fmt: skip
    return low, high


@cache
def photocurrent_per_lux(source: Source, technology: Technology) -> float:
    """Photocurrent of a typical module's active area for one lux of a source, in A/(m²·lx)."""
    light, answer = spectrum(source), cell(technology)
    return answer.current_share * physics.photocurrent_per_lux(
        light.wavelength_nm, light.relative, light.photopic, answer.eqe_wavelength_nm, answer.eqe
    )


@cache
def irradiance_per_lux(source: Source) -> float:
    """Irradiance within 300 to 1200 nm for one lux of a source, in W/(m²·lx)."""
    light = spectrum(source)
    return physics.irradiance_per_lux(light.wavelength_nm, light.relative, light.photopic)


def light_answer(source: Source, illuminance_lx: float = 500.0) -> LightAnswer:
    """Irradiance and every technology's photocurrent density at one light level."""
    technologies: tuple[Technology, ...] = get_args(Technology)
    return LightAnswer(
        source=source,
        illuminance_lx=illuminance_lx,
        irradiance_w_per_m2=illuminance_lx * irradiance_per_lux(source),
        photocurrent_a_per_m2={
            technology: illuminance_lx * photocurrent_per_lux(source, technology)
            for technology in technologies
        },
    )


@cache
def places() -> tuple[Place, ...]:
    """Places to start from, as listed."""
    listed = _json("places", "places.json")["places"]
    return tuple(Place(**place | {"source": say(place["source"])}) for place in listed)


@cache
def store_families() -> tuple[StoreFamily, ...]:
    """Generic kinds of store, as listed in ``resources/parts/stores.json``."""
    return tuple(_family(data) for data in family_rows())


def _family(data: dict[str, Any]) -> StoreFamily:
    sizes = data["sizes_mAh" if data["kind"] == "cell" else "sizes_F"]
    numbers = data["numbers"]
    return StoreFamily(
        key=data["key"],
        title=say(data["title"]),
        kind=data["kind"],
        chemistry=data.get("chemistry"),
        sizes=tuple(float(size) for size in sizes["value"]),
        numbers={key: float(entry["value"]) for key, entry in numbers.items()},
        sources={key: entry["source"] for key, entry in numbers.items()}
        | {"sizes": sizes["source"]},
        cautions=tuple(data["cautions"]),
        note=data["note"],
    )


@cache
def _photopic() -> FloatArray:
    return _on_grid(read_table(resource_path("spectra", "photopic.csv")), "photopic")


def _on_grid(table: dict[str, FloatArray], column: str) -> FloatArray:
    return np.asarray(
        np.interp(_GRID_NM, table["wavelength_nm"], table[column], left=0.0, right=0.0)
    )


def _json(folder: str, name: str) -> Any:
    return json.loads(resource_path(folder, name).read_text(encoding="utf-8"))
