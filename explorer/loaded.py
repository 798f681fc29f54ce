"""What is loaded once and stays, which Python's collector of cycles need not look at again."""

from __future__ import annotations

import gc

YOUNG, MIDDLE, OLD = 10_000, 5, 5
"""Allocations, and rounds of the next younger generation, between rounds of the collector: a frame
makes some thousand objects, most of which stay for a while."""


def settle_down() -> None:
    """Take what is loaded by now as there to stay.

    The collector looks through everything that is not set aside: modules and windows alone held a
    drag for 200 ms now and then.
    """
    gc.freeze()
    gc.set_threshold(YOUNG, MIDDLE, OLD)
