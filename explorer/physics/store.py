"""Stores: capacitor banks and small cells behind one interface, `StoreCurve`.

The state is the charge q; open-circuit voltage, leakage and limits are functions of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from explorer.physics.arrays import FloatArray, Number, distinct

Balancing = Literal["none", "resistors", "active"]

MIDDLE_OF_RATED = 0.6
"""Middle of the window from 0.8 to 0.4 of rated voltage in which IEC 62391-1 measures."""
HALF_WINDOW = 0.2
_FLATTENED = HALF_WINDOW**2 / 3.0
"""Mean of the squared distance from the middle over the window."""
ROOM_C = 20.0
COLD_C = -20.0
"""Temperatures between which the cold factors of the parts are given."""
LEAKAGE_SPREAD = 0.5
"""Spread of leakage between the units of a bank, as a share (own judgement, no source)."""
LAWFUL = 0.875
"""How far the law of capacitance is followed towards the voltage at which it comes to nothing."""
LEAST_COLD_CAPACITY = 0.05
FIRST_DAYS_S = 72 * 3600.0
"""Length of the first charge: makers state leakage after 72 h at rated voltage."""


LOWEST_NODES = (1 / 64, 1 / 16, 1 / 4, 1 / 2, 3 / 4, 1.25, 1.5, 2.5, 3.5, 4.5)
"""Places of further nodes near the lowest, in steps between nodes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StoreCurve:
    """A store tabulated over its charge; arrays of shape (nodes,), charge rising."""

    charge_c: FloatArray
    open_v: FloatArray
    leak_a: FloatArray
    esr_ohm: float
    charge_limit_a: float
    """Largest charging current; zero where charging is not allowed. [A]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class CapacitorBank:
    """A bank of capacitors as seen from its terminals."""

    capacitance_f: Number
    """Of the bank, as the IEC 62391-1 procedure gives it. [F]"""
    rated_v: Number
    """Of the bank. [V]"""
    esr_ohm: Number
    leakage_a: Number
    """At rated voltage, balancing included. [A]"""
    slope: Number = 0.0
    bend: Number = 0.0
    lowest_v: Number = 0.0
    """Voltage that counts as empty; above zero for hybrid types that must stay charged. [V]"""

    @property
    def empty_v(self) -> Number:
        """Lowest open-circuit voltage, a column for many banks. [V]"""
        return self.lowest_v

    @property
    def series_ohm(self) -> Number:
        """Resistance between the open-circuit voltage and the terminals. [ohm]"""
        return self.esr_ohm

    @property
    def most_charge_a(self) -> Number:
        """Largest charging current: a bank takes what comes. [A]"""
        return np.inf

    def charge_at(self, voltage_v: Number) -> FloatArray:
        """Charge at an open-circuit voltage. [C]"""
        return bank_charge(self, voltage_v)

    def leak_a(self, charge_c: Number, voltage_v: Number) -> FloatArray:
        """Leakage at a charge and the voltage that belongs to it. [A]"""
        return bank_leakage(self, voltage_v)

    def reaching(self, voltage_v: float, charge_c: float) -> float:
        """A voltage not below one given, at which the bank holds a charge or more. [V]"""
        while float(bank_charge(self, voltage_v)) < charge_c:
            voltage_v *= 1.1
        return voltage_v

    def curve(self, *, top_v: float, marks_v: ArrayLike = (), nodes: int = 400) -> StoreCurve:
        """The bank from empty to a top voltage, tabulated.

        Parameters
        ----------
        top_v : float
            Highest open-circuit voltage. [V]
        marks_v : array_like
            Voltages that become nodes. A voltage given twice becomes two nodes, so that a quantity
            may jump there. [V]
        nodes : int
            Number of evenly spaced nodes beside the marks.
        """
        bottom, marks = float(np.asarray(self.lowest_v)), np.asarray(marks_v, float).ravel()
        even = _finer_below(np.linspace(bottom, top_v, nodes))
        inside = marks[(marks > bottom) & (marks < top_v)]
        volts = np.sort(np.concatenate([even[~np.isin(even, inside)], inside]))
        return StoreCurve(
            charge_c=bank_charge(self, volts),
            open_v=volts,
            leak_a=bank_leakage(self, volts),
            esr_ohm=float(np.asarray(self.esr_ohm)),
            charge_limit_a=np.inf,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A rechargeable cell or a string of them."""

    capacity_c: Number
    state_of_charge: FloatArray
    open_circuit_v: FloatArray
    """Of the string, rising with the state of charge. [V]"""
    resistance_ohm: Number
    self_discharge_a: Number
    charge_limit_a: Number
    may_charge: bool

    @property
    def empty_v(self) -> Number:
        """Lowest open-circuit voltage, a column for many cells. [V]"""
        table = self.open_circuit_v
        return float(table[0]) if table.ndim == 1 else table[:, :1]

    @property
    def series_ohm(self) -> Number:
        """Resistance between the open-circuit voltage and the terminals. [ohm]"""
        return self.resistance_ohm

    @property
    def most_charge_a(self) -> Number:
        """Largest charging current; zero where charging is not allowed. [A]"""
        return self.charge_limit_a if self.may_charge else 0.0

    def charge_at(self, voltage_v: Number) -> FloatArray:
        """Charge at an open-circuit voltage, full above the table and empty below. [C]"""
        return np.asarray(self.share_at(voltage_v) * self.capacity_c)

    def share_at(self, voltage_v: Number) -> FloatArray:
        """State of charge at an open-circuit voltage, row by row for many cells."""
        return _row_by_row(voltage_v, self.open_circuit_v, self.state_of_charge)

    def voltage_at(self, share: Number) -> FloatArray:
        """Open-circuit voltage at a state of charge, row by row for many cells. [V]"""
        return _row_by_row(share, self.state_of_charge, self.open_circuit_v)

    def leak_a(self, charge_c: Number, voltage_v: Number) -> FloatArray:
        """Self-discharge at a charge and the voltage that belongs to it. [A]"""
        return np.where(np.asarray(charge_c) > 0, np.asarray(self.self_discharge_a, float), 0.0)

    def reaching(self, voltage_v: float, charge_c: float) -> float:
        """The upper end of the table: no cell holds more. [V]"""
        return float(self.open_circuit_v[-1])

    def curve(self, *, top_v: float, marks_v: ArrayLike = (), nodes: int = 400) -> StoreCurve:
        """The cell from empty to full, tabulated; a cell ends at its table's end, not at `top_v`.

        Half of the nodes are even in charge and half in voltage: where the voltage is steep, a
        diode's current changes e-fold within some 25 mV. See `CapacitorBank.curve`.
        """
        marks = np.asarray(marks_v, float).ravel()
        table_v, table_share = self.open_circuit_v, self.state_of_charge
        even_v = _finer_below(np.linspace(table_v[0], table_v[-1], nodes - nodes // 2))
        by_voltage = np.interp(even_v, table_v, table_share)
        share = np.concatenate([np.linspace(0.0, 1.0, nodes // 2), by_voltage, table_share])
        share = distinct(np.round(share, 9))
        inside = marks[(marks > table_v[0]) & (marks < table_v[-1])]
        extra = np.interp(inside, table_v, table_share)
        apart = np.abs(share[:, None] - extra).min(axis=1, initial=1.0) > 1e-9
        share = np.sort(np.concatenate([share[apart], extra]))
        charge, volts = share * float(self.capacity_c), np.interp(share, table_share, table_v)
        return StoreCurve(
            charge_c=charge,
            open_v=volts,
            leak_a=self.leak_a(charge, volts),
            esr_ohm=float(self.resistance_ohm),
            charge_limit_a=float(self.most_charge_a),
        )


Store = CapacitorBank | Cell


def _finer_below(volts: FloatArray) -> FloatArray:
    """Rising voltages with a few more near the lowest.

    What a power takes, and a diode leaks, changes many times over as a store runs empty.
    """
    step = volts[1] - volts[0]
    return np.sort(np.concatenate([volts, volts[0] + step * np.array(LOWEST_NODES)]))


def _row_by_row(x: Number, known_x: FloatArray, known_y: FloatArray) -> FloatArray:
    """`numpy.interp`, where either table may have a row for each of many systems."""
    if known_x.ndim == 1 and known_y.ndim == 1:
        return np.asarray(np.interp(x, known_x, known_y))
    tables = np.broadcast_arrays(known_x, known_y)
    rows = np.broadcast_to(np.atleast_2d(x), (len(tables[0]), np.shape(np.atleast_2d(x))[1]))
    return np.array([np.interp(at, *table) for at, *table in zip(rows, *tables, strict=True)])


# ---- capacitor banks -----------------------------------------------------------------------


def bank_charge(bank: CapacitorBank, voltage_v: Number) -> FloatArray:
    """Charge at a voltage above `lowest_v`. [C]

    The integral of ``c(u) = 1 + slope (u - 0.6) - bend ((u - 0.6)^2 - 0.04/3)``, capacitance over
    its rated value with u the voltage over the rated one. The last term makes the mean over 0.4 to
    0.8 of rated voltage 1, so that ``capacitance_f`` is what the IEC 62391-1 procedure gives. The
    quadratic form and the defaults of a scenario are those of open measured discharges (Zenodo
    10.5281/zenodo.19221698, CC BY 4.0), in which a unit holds 2 to 6 % more near the top and 10 to
    15 % less below 0.4 of its rating; the table of stores gives them with their spread.

    Examples
    --------
    >>> bank = CapacitorBank(capacitance_f=2.0, rated_v=5.0, esr_ohm=0.1, leakage_a=0.0)
    >>> float(bank_charge(bank, 3.0))
    6.0
    """
    return _charge_from_zero(bank, voltage_v) - _charge_from_zero(bank, bank.lowest_v)


def _charge_from_zero(bank: CapacitorBank, voltage_v: Number) -> FloatArray:
    u = np.asarray(voltage_v, float) / bank.rated_v
    w = u - MIDDLE_OF_RATED
    area = (
        u
        + bank.slope * (w * w - MIDDLE_OF_RATED**2) / 2.0
        - bank.bend * ((w * w * w + MIDDLE_OF_RATED**3) / 3.0 - _FLATTENED * u)
    )
    return np.asarray(bank.capacitance_f * bank.rated_v * area)


def highest_lawful_share(slope: Number, bend: Number) -> FloatArray:
    """Share of rated voltage up to which the law of capacitance is used, infinite without a bend.

    The parabola under `bank_charge` falls to zero far above the rating, where a bank would
    lose charge with rising voltage. It is used to an eighth below that (own judgement), which
    leaves room for the nodes above the full voltage.

    Examples
    --------
    >>> round(float(highest_lawful_share(0.29, 0.33)), 2)
    2.48
    """
    s, b = np.asarray(slope, float), np.asarray(bend, float)
    some = np.maximum(b, 1e-9)
    root = np.sqrt(s * s + 4.0 * some * (1.0 + some * _FLATTENED))
    share = MIDDLE_OF_RATED + (s + root) / (2.0 * some)
    return np.where(b > 0.0, LAWFUL * share, np.inf)


def bank_leakage(bank: CapacitorBank, voltage_v: Number) -> FloatArray:
    """Leakage current, proportional to voltage. [A]

    Measured leakage falls faster than this below the rating, so the line is on the safe side
    (common practice, no source).
    """
    return np.asarray(bank.leakage_a * np.asarray(voltage_v, float) / bank.rated_v)


def first_days_leakage(
    settled_a: Number,
    fresh_factor: Number,
    settling_s: Number,
    span_s: Number = FIRST_DAYS_S,
) -> FloatArray:
    """Mean leakage over the first days: it costs the same charge as the law does. [A]

    ``I(t) = settled (1 + (factor - 1) exp(-t / tau))``. That leakage falls for days, and that
    makers state it after 72 h at rated voltage, is their practice; the single exponential is a
    simplification (common practice, no source).
    """
    turns = np.asarray(span_s, float) / settling_s
    share = -np.expm1(-turns) / turns
    return np.asarray(settled_a * (1.0 + (np.asarray(fresh_factor, float) - 1.0) * share))


# ---- series units --------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitVoltage:
    """Voltage on the unit of a series bank that sees the most."""

    charging_v: FloatArray
    """Right after a quick charge from empty. [V]"""
    standing_v: FloatArray
    """After standing charged for long. [V]"""

    @property
    def worst_v(self) -> FloatArray:
        """The higher of the two. [V]"""
        return np.asarray(np.maximum(self.charging_v, self.standing_v))


def largest_share(in_series: Number, spread: Number) -> FloatArray:
    """Share of a voltage on the unit with the least of a quantity that divides it inversely.

    One unit lies ``spread`` below the nominal value and all others lie ``spread`` above it, the
    worst case of a bank within tolerance.

    Examples
    --------
    Two units, +20 % and -20 %, at 5 V:

    >>> round(float(5.0 * largest_share(2, 0.2)), 9)
    3.0
    """
    s = np.asarray(spread, float)
    least, others = 1.0 / (1.0 - s), (in_series - 1) / (1.0 + s)
    return np.asarray(least / (least + others))


def worst_unit_voltage(
    bank_v: Number,
    *,
    in_series: Number,
    tolerance: Number,
    balancing: Balancing,
    leakage_a: Number,
    balancing_a: Number = 0.0,
    leakage_spread: Number = LEAKAGE_SPREAD,
) -> UnitVoltage:
    """Voltage on the worst unit of a series bank.

    A quick charge from empty divides inversely to capacitance, long standing inversely to the
    conductance of leakage and balancing (the linear circuit at both ends of time). A slower charge
    ends between the two, so the higher of them bounds every charge, that in full sun included.
    Active balancing is taken as perfect; resistors are far too slow to help while charging.

    Parameters
    ----------
    bank_v : array_like
        Voltage of the bank. [V]
    in_series : array_like
        Units in series; one unit carries the whole voltage.
    tolerance, leakage_spread : array_like
        Spread of capacitance and of leakage around their nominal values, as shares.
    balancing : {"none", "resistors", "active"}
        What keeps the units together.
    leakage_a, balancing_a : array_like
        Leakage of the bank and current through its balancing, both at rated voltage. [A]

    Examples
    --------
    Three units at 7.8 V, 20 % of tolerance, resistors that take as much as the units leak:

    >>> volts = worst_unit_voltage(
    ...     7.8, in_series=3, tolerance=0.2, balancing="resistors",
    ...     leakage_a=8e-6, balancing_a=8e-6,
    ... )
    >>> round(float(volts.charging_v), 2), round(float(volts.standing_v), 2)
    (3.34, 3.55)
    """
    volts = np.asarray(bank_v, float)
    if balancing == "active":
        even = np.asarray(volts / in_series)
        return UnitVoltage(charging_v=even, standing_v=even)
    leak = np.asarray(leakage_a, float)
    total = leak + (np.asarray(balancing_a, float) if balancing == "resistors" else 0.0)
    some = total > 0
    spread = np.where(some, leak * leakage_spread / np.where(some, total, 1.0), 0.0)
    by_charge = largest_share(in_series, tolerance)
    by_leak = np.where(some, largest_share(in_series, spread), by_charge)
    return UnitVoltage(
        charging_v=np.asarray(volts * by_charge), standing_v=np.asarray(volts * by_leak)
    )


# ---- temperature ---------------------------------------------------------------------------


def cold_resistance_factor(temperature_c: Number, factor_at_cold: Number) -> FloatArray:
    """Series resistance over its value at 20 °C.

    Exponential in temperature below 20 °C, through ``factor_at_cold`` at -20 °C, and 1 above
    (common practice, no source; data sheets give the one factor).
    """
    share = np.maximum(ROOM_C - np.asarray(temperature_c, float), 0.0) / (ROOM_C - COLD_C)
    return np.asarray(np.asarray(factor_at_cold, float) ** share)


def cold_capacity_share(temperature_c: Number, share_at_cold: Number) -> FloatArray:
    """Usable capacity of a cell over that at 20 °C.

    Linear from 20 °C through ``share_at_cold`` at -20 °C, never below 5 % (common practice, no
    source).
    """
    colder = np.maximum(ROOM_C - np.asarray(temperature_c, float), 0.0) / (ROOM_C - COLD_C)
    left = 1.0 - (1.0 - np.asarray(share_at_cold, float)) * colder
    return np.asarray(np.maximum(left, LEAST_COLD_CAPACITY))


def charge_current_share(
    temperature_c: Number,
    *,
    above_c: Number,
    below_c: Number,
    cool_below_c: Number,
    cool_share: Number,
) -> FloatArray:
    """Share of a cell's charging limit that a temperature allows.

    None at or below ``above_c`` (lithium plates out) and above ``below_c``; ``cool_share`` up to
    ``cool_below_c``: the bands of the JEITA profile as charger data sheets describe it (0 °C,
    10 °C, 20 % by default). Its reduced end-of-charge voltage above 45 °C is not modelled; there
    the limit is zero instead.
    """
    t = np.asarray(temperature_c, float)
    allowed = (t > above_c) & (t <= below_c)
    return np.where(allowed, np.where(t < cool_below_c, cool_share, 1.0), 0.0)
