"""Sheets on which the search of one knob stands for that of four."""

import pytest

from explorer.files import report
from tests.depth import THOROUGH


@pytest.fixture(scope="module", autouse=True)
def one_knob_is_searched():
    """For every test of the file that imports this, but where the tests go deep.

    The searches take four fifths of the time of a sheet. What it says of all four knobs is held
    against them by `tests.words.test_one_value`.
    """
    with pytest.MonkeyPatch.context() as patch:
        if not THOROUGH:
            searched = report.knob_paths
            patch.setattr(report, "knob_paths", lambda scenario: searched(scenario)[:1])
        yield
