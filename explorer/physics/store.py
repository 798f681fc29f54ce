"""Stores: capacitor banks and small cells behind one interface, `StoreCurve`.

The state is the charge q; open-circuit voltage, leakage and limits are functions of it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]

MIDDLE_OF_RATED = 0.6
"""Relative voltage at which a unit has its rated capacitance: the middle of the window from
0.8 to 0.4 of rated voltage in which IEC 62391-1 measures it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CapacitorBank:
    """A bank of capacitors as seen from its terminals."""

    capacitance_f: ArrayLike
    """Of the bank, as the IEC 62391-1 procedure gives it. [F]"""
    rated_v: ArrayLike
    """Of the bank. [V]"""
    esr_ohm: ArrayLike
    leakage_a: ArrayLike
    """At rated voltage, balancing included. [A]"""
    slope: ArrayLike = 0.0
    bend: ArrayLike = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A rechargeable cell or a string of them."""

    capacity_c: ArrayLike
    state_of_charge: FloatArray
    open_circuit_v: FloatArray
    """Of the string, rising with the state of charge. [V]"""
    resistance_ohm: ArrayLike
    self_discharge_a: ArrayLike
    charge_limit_a: ArrayLike
    may_charge: bool


Store = CapacitorBank | Cell


@dataclass(frozen=True, slots=True, kw_only=True)
class StoreCurve:
    """A store tabulated over its charge; arrays of shape (nodes,), charge rising."""

    charge_c: FloatArray
    open_v: FloatArray
    leak_a: FloatArray
    esr_ohm: float
    charge_limit_a: float
    """Largest charging current; zero where charging is not allowed. [A]"""


def relative_capacitance(bank: CapacitorBank, voltage_v: ArrayLike) -> FloatArray:
    """Capacitance over its rated value at a voltage.

    ``c(u) = 1 + slope (u - 0.6) - bend (u - 0.6)^2`` with u the voltage over the rated one; a
    quadratic fitted to open measured discharges (Zenodo 10.5281/zenodo.19221698, CC BY 4.0),
    in which a unit holds 2 to 6 % more near the top and 6 to 15 % less below 0.4 of its rating.
    """
    u = np.asarray(voltage_v, float) / bank.rated_v - MIDDLE_OF_RATED
    return np.asarray(1.0 + bank.slope * u - bank.bend * u * u)


def bank_charge(bank: CapacitorBank, voltage_v: ArrayLike) -> FloatArray:
    """Charge at a voltage: the integral of `relative_capacitance` from zero. [C]

    Examples
    --------
    >>> bank = CapacitorBank(capacitance_f=2.0, rated_v=5.0, esr_ohm=0.1, leakage_a=0.0)
    >>> float(bank_charge(bank, 3.0))
    6.0
    """
    u = np.asarray(voltage_v, float) / bank.rated_v
    w = u - MIDDLE_OF_RATED
    area = (
        u
        + bank.slope * (w * w - MIDDLE_OF_RATED**2) / 2.0
        - bank.bend * (w**3 + MIDDLE_OF_RATED**3) / 3.0
    )
    return np.asarray(bank.capacitance_f * bank.rated_v * area)


def bank_leakage(bank: CapacitorBank, voltage_v: ArrayLike) -> FloatArray:
    """Leakage current, proportional to voltage. [A]

    Measured leakage falls faster than this below the rating, so the line is on the safe side
    (common practice, no source).
    """
    return np.asarray(bank.leakage_a * np.asarray(voltage_v, float) / bank.rated_v)


def cell_voltage(cell: Cell, charge_c: ArrayLike) -> FloatArray:
    """Open-circuit voltage at a charge, linear between the table's points. [V]"""
    return np.interp(
        np.asarray(charge_c, float) / cell.capacity_c, cell.state_of_charge, cell.open_circuit_v
    )


def store_curve(store: Store, *, top_v: float, marks_v: ArrayLike = (), nodes: int = 400) -> StoreCurve:
    """Tabulate a store from empty to a top voltage.

    Parameters
    ----------
    store : CapacitorBank or Cell
        The store.
    top_v : float
        Highest open-circuit voltage of a capacitor bank; a cell ends at its table's end. [V]
    marks_v : array_like
        Voltages that become nodes. A voltage given twice becomes two nodes, so that a quantity
        may jump there. [V]
    nodes : int
        Number of evenly spaced nodes beside the marks.
    """
    marks = np.asarray(marks_v, float).ravel()
    if isinstance(store, Cell):
        capacity = float(np.asarray(store.capacity_c))
        share = np.union1d(np.linspace(0.0, 1.0, nodes), store.state_of_charge)
        inside = marks[(marks > store.open_circuit_v[0]) & (marks < store.open_circuit_v[-1])]
        extra = np.interp(inside, store.open_circuit_v, store.state_of_charge)
        share = np.sort(np.concatenate([share[~np.isin(share, extra)], extra]))
        volts = np.interp(share, store.state_of_charge, store.open_circuit_v)
        leak = np.where(share > 0, float(np.asarray(store.self_discharge_a)), 0.0)
        return StoreCurve(
            charge_c=share * capacity,
            open_v=volts,
            leak_a=leak,
            esr_ohm=float(np.asarray(store.resistance_ohm)),
            charge_limit_a=float(np.asarray(store.charge_limit_a)) if store.may_charge else 0.0,
        )
    even = np.linspace(0.0, top_v, nodes)
    inside = marks[(marks > 0) & (marks < top_v)]
    volts = np.sort(np.concatenate([even[~np.isin(even, inside)], inside]))
    return StoreCurve(
        charge_c=bank_charge(store, volts),
        open_v=volts,
        leak_a=bank_leakage(store, volts),
        esr_ohm=float(np.asarray(store.esr_ohm)),
        charge_limit_a=np.inf,
    )
