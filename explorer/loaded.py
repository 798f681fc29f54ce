"""What is loaded once and stays, which Python's collector of cycles need not look at again."""

from __future__ import annotations

import gc

YOUNG, MIDDLE, OLD = 10_000, 5, 5
"""Allocations, and rounds of the next younger generation, between rounds of the collector: a frame
makes some thousand objects, most of which stay for a while."""
YOUNG_IN_WINDOW = 50_000
"""Allocations between rounds in a window. A frame under a log makes ten thousand objects and lets
as many go, none of them in a circle: with fewer the collector would look through those that stay
every few frames, for as long as a frame may take."""


def settle_down(young: int = YOUNG) -> None:
    """Take what is loaded by now as there to stay.

    The collector looks through everything that is not set aside: modules and windows alone held a
    drag for 200 ms now and then.

    Parameters
    ----------
    young : int
        Allocations between two rounds of the collector from now on.
    """
    gc.freeze()
    gc.set_threshold(young, MIDDLE, OLD)
