"""The deliberate faults of the mutation trial have a place to be made at."""

from pathlib import Path

import pytest

from tests.faults import FAULTS

ROOT = Path(__file__).parent.parent


@pytest.mark.parametrize("fault", FAULTS, ids=[fault.name for fault in FAULTS])
def test_a_fault_changes_one_place_and_names_tests_that_exist(fault):
    text = (ROOT / fault.file).read_text(encoding="utf-8")
    assert text.count(fault.old) == 1
    assert all((ROOT / place.partition("::")[0]).exists() for place in fault.tests)
