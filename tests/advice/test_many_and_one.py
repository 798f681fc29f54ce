"""Two ways to make readings, one meaning: the batch is held against the exact march."""

from collections import Counter
from functools import cache

import pytest

from tests.advice.agreement import compare, scenarios
from tests.depth import some

BLOCKS, SIZE = some((2, 0, 4, 1, 5, 3), 2), 25
PART = len(BLOCKS) / 6
"""Of all the designs that are looked at where the tests go deep, those looked at now."""
FEW = 0.05
"""Share of the sure readings that may part by more than is stated."""


@cache
def block(seed):
    """Some scenarios, each with what the two engines read of it."""
    return [(scenario, compare(scenario, log)) for scenario, log in scenarios(seed, SIZE)]


@pytest.fixture
def seen():
    return [pair for seed in BLOCKS for pair in block(seed)]


@pytest.mark.parametrize("seed", BLOCKS)
def test_what_the_batch_decides_the_march_decides_alike(seed):
    decided = [found for _, found in block(seed) if found.decided]
    assert len(decided) > 5
    assert all(found.codes[0] == found.codes[1] for found in decided)


def test_sure_readings_agree_within_their_tolerance(seen):
    told = [found for _, found in seen if found.sure and not found.hopeless]
    assert len(told) > 20 * PART
    parted = [found.parted for found in told if found.parted]
    assert len(parted) <= FEW * len(told), parted


def test_designs_of_every_kind_are_compared(seen):
    kinds = Counter()
    for scenario, _ in seen:
        kinds.update([
            scenario.store.kind, scenario.charger.kind, scenario.light.pattern.kind,
            "regulator " + scenario.load.regulator.kind,
            *{op.schedule.kind for op in scenario.load.operations},
        ])
        kinds["cold"] += scenario.light.ambient_C < 0.0
        kinds["old"] += scenario.store.years_in_service > 0.0
    assert min(
        kinds[name] for name in (
            "capacitor", "supercapacitor", "cell", "direct", "converter", "steady", "week", "log",
            "every", "when_ready", "regulator none", "regulator linear", "regulator switching",
            "cold", "old",
        )
    ) > 3 * PART, kinds


def test_what_is_cut_off_is_left_to_the_exact_march_unless_past_saving(seen):
    cut = [found for _, found in seen if found.batch.cut_offs[0] > 0 and not found.hopeless]
    assert len(cut) > 5 * PART
    assert not any(found.decided for found in cut)


def test_most_designs_need_no_exact_march(seen):
    works = [found for _, found in seen if found.codes[0] > 0]
    assert len(works) > 15 * PART
    assert sum(found.decided for found in works) > 0.4 * len(works)
    assert sum(found.decided for _, found in seen) > 0.5 * len(seen)
