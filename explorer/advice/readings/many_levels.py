"""Charges between which the stores of a batch stand."""

from __future__ import annotations

import numpy as np

from explorer.engine import many_run as run
from explorer.engine.many import Batch
from explorer.engine.thresholds import LOWEST_V, charge_at, needed_voltage
from explorer.physics.arrays import FloatArray
from explorer.physics.load import Draw, drawn_current

LOWEST_OF = 10**6
"""Moments of which the lowest is at the end of the band of a full store."""


def full_charge(batch: Batch, gaps: int) -> FloatArray:
    """Charge of a full store at the lowest of several moments. [C]

    A full store stands anywhere between its threshold and the level at which charging resumes;
    the lowest of n such moments is expected n / (n + 1) of the way down. What waits for less than
    a full store keeps it from filling up: then no such moment comes, and the charge is infinite.
    """
    system = batch.system
    fall = np.asarray(system.full_hysteresis_v, float) * (gaps / (gaps + 1.0))
    found = charge_at(np.asarray(system.full_v, float) - fall, batch.nodes_v, batch.nodes_c)
    return np.where(batch.waits.ready_c < batch.nodes_c[:, -1], np.inf, found)


def lowest_charge(batch: Batch, course: run.Rows) -> FloatArray:
    """Lowest charge of each course, at the end of its largest run, shape (n,). [C]"""
    seen = [*course.at_edges, *course.lowest_c.T, full_charge(batch, LOWEST_OF)]
    return np.asarray(np.maximum(np.min(seen, axis=0) - batch.grain_c, 0.0))


def cut_charge(batch: Batch) -> FloatArray:
    """Charge at which a device is cut off, whatever is due, (systems,). [C]"""
    return np.asarray(np.max([c.need_c for c in batch.cut.values()], axis=0))


def together_charge(batch: Batch) -> FloatArray:
    """Charge below which operations that coincide pull the terminals to the cut-off. [C]

    The largest phase of each at once; nothing where there is but one operation.
    """
    load, esr = batch.system.load, batch.esr
    if len(load.operations) < 2:
        return np.full(batch.size, -np.inf)
    off = np.maximum(np.asarray(load.off_v, float), LOWEST_V)
    total = load.sleep + Draw(current_a=batch.system.quiescent_a)
    for op in load.operations:
        draws = [phase.draw for phase in op.phases]
        total = total + max(draws, key=lambda draw: float(np.max(drawn_current(draw, off))))
    needed = needed_voltage(total, load.off_v, esr)
    return charge_at(np.broadcast_to(needed, (batch.size, 1)), batch.nodes_v, batch.nodes_c)


__all__ = ["LOWEST_OF", "cut_charge", "full_charge", "lowest_charge", "together_charge"]
