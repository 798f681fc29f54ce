"""A system made ready to be marched: the one that everybody outside the engine asks."""

from __future__ import annotations

from copy import copy
from math import inf

import numpy as np

from explorer.engine.course import Standing, StopAt, Trajectory
from explorer.engine.levels import Level
from explorer.engine.motions import Motions
from explorer.engine.system import WEEK_S
from explorer.engine.walk import MAX_LEGS, Run


class Engine(Motions):
    """A system made ready to be marched; what it moves along is built when first needed."""

    def initial_state(self) -> Standing:
        """The state in which the scenario begins."""
        return Standing(charge_c=self.system.initial_charge_c, connected=False)

    def march(
        self,
        span_s: float,
        start: Standing | None = None,
        *,
        begin_s: float = 0.0,
        stop_at: StopAt | None = None,
        most_legs: int = MAX_LEGS,
        most_cut_offs: float = inf,
    ) -> Trajectory:
        """Run for a span of time.

        Parameters
        ----------
        span_s : float
            Length of the run. [s]
        start : Standing, optional
            Where it begins; the scenario's own beginning when left out.
        begin_s : float
            Time within the light course at which it begins. [s]
        stop_at : StopAt, optional
            End as soon as this happens.
        most_legs : int
            End after this many legs; the trajectory's span tells how far it came.
        most_cut_offs : float
            End after this many cut-offs.
        """
        run = Run(self, span_s, start or self.initial_state(), begin_s)
        found = run.go(stop_at, most_legs, most_cut_offs)
        self.walked.legs += len(found.legs)
        return found

    def dark(self) -> Engine:
        """The same system in the dark for ever; what it moves along is shared."""
        return self.in_steady_light(0.0)

    def in_steady_light(self, photocurrent_a: float) -> Engine:
        """The same system in one light for ever; what it moves along is shared."""
        twin = copy(self)
        twin.levels = [Level(photocurrent_a, photocurrent_a, 0.0)]
        twin.edges = [0.0, WEEK_S]
        twin.illuminance_lx = np.zeros(1)
        twin._stretches = {}
        return twin

    def unloaded(self) -> Engine:
        """The same system with the load switch held open."""
        twin = copy(self)
        twin.may_connect = False
        twin._stretches = {}
        return twin
