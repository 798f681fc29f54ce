"""How deep the tests go: every so-many-th of cases that are alike, or all of them.

The suite that runs with every change has to end while one waits for it. What is drawn by the
hundred, and what states once more in another layer what a quicker test states, is taken whole
before a release::

    GLOAMING_TESTS=thorough python -m pytest -n logical --dist loadfile

That no fault gets past the quick one alone is what `tests.mutation_trial` shows.
"""

import os
from collections.abc import Callable, Iterable
from typing import TypeVar

Case = TypeVar("Case")

THOROUGH = os.environ.get("GLOAMING_TESTS") == "thorough"


def some(cases: Iterable[Case], every: int) -> list[Case]:
    """Every so-many-th case, from the first on; all of them where the tests go deep."""
    return list(cases)[:: 1 if THOROUGH else every]


def thorough(test: Callable[..., None]) -> Callable[..., None] | None:
    """A test that is there only where the tests go deep."""
    return test if THOROUGH else None
