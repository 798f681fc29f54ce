"""A data sheet may be typed in any order; it is judged line by line and ends in a sentence."""

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.scenario.model import Scenario, with_value
from explorer.scenario.sheet_draft import NUMBERS, DraftLine, drafts_of, judged
from explorer.scenario.supply import Panels
from explorer.words.sheet import (
    curves,
    fault_sentence,
    filled_sentence,
    fit_rows,
    fit_sentence,
    points_of,
    unfinished_sentence,
)

DIM = {
    "illuminance_lx": 200.0, "short_circuit_A": 31.7e-6, "open_circuit_V": 4.64,
    "max_power_A": 26.1e-6, "max_power_V": 3.51,
}  # fmt: skip
BRIGHT = {
    "illuminance_lx": 1000.0, "short_circuit_A": 157e-6, "open_circuit_V": 5.15,
    "max_power_A": 130e-6, "max_power_V": 3.97,
}  # fmt: skip


def line(source="fluorescent_4000", **numbers):
    return DraftLine(source=source, **numbers)


def test_numbers_may_come_in_any_order_and_no_step_of_it_is_a_fault():
    for order in itertools.islice(itertools.permutations(NUMBERS), 0, None, 13):
        for count in range(len(order) + 1):
            typed = line(**{key: DIM[key] for key in order[:count]})
            found = judged(Panels(), (typed, line(**BRIGHT)))
            assert not found.faults
            assert (0 in found.lines) == (count > 0 and not typed.missing)
            assert (0 in found.unfinished) == (count > 0 and bool(typed.missing))


def test_what_is_missing_is_named():
    typed = line(illuminance_lx=200.0, max_power_A=1e-5)
    assert unfinished_sentence(1, typed) == (
        "Point 2 still lacks: Short-circuit current, Voltage at maximum power."
    )


def test_a_fault_names_its_cell_in_plain_words_and_leaves_the_other_lines_their_curve():
    wrong = {**BRIGHT, "illuminance_lx": 500.0, "short_circuit_A": 79e-6, "open_circuit_V": 4.58,
             "max_power_A": 65e-6}  # fmt: skip
    found = judged(Panels(), (line(**DIM), line(**wrong), line(**BRIGHT)))
    (fault,) = found.faults
    assert (fault.line, fault.quantity) == (1, "open_circuit_V")
    assert fault_sentence(fault) == (
        "Point 2: “Open-circuit voltage” (4.58 V) does not rise with light against point 1 "
        "(4.64 V)."
    )
    assert found.lines == (0, 2)
    assert len(curves(found.fit)) == 2
    assert not found.is_ready


def test_small_currents_are_said_with_their_unit():
    fault = judged(Panels(), (line(**{**DIM, "max_power_A": 40e-6}),)).faults[0]
    assert fault_sentence(fault) == (
        "Point 1: “Current at maximum power” (40 µA) must lie below “Short-circuit current” "
        "(31.7 µA)."
    )


def test_an_impossible_sheet_ends_in_a_sentence():
    one_cell = Panels(cells_in_series=1)
    typed = line(**{**DIM, "open_circuit_V": 40.0, "max_power_V": 30.0})
    (fault,) = judged(one_cell, (typed,)).faults
    assert fault.quantity == "open_circuit_V"
    assert "makes 40 V for each of the “Cells in series” (1)" in fault_sentence(fault)


@pytest.mark.parametrize("given", [NUMBERS[:2], NUMBERS[:3], NUMBERS])
def test_the_technology_fills_what_the_sheet_leaves_out_and_says_so(given):
    found = judged(Panels(), (line(**{key: DIM[key] for key in given}),))
    assert found.is_ready
    assert found.fit.model[0, 0] == pytest.approx(DIM["short_circuit_A"], rel=1e-3)
    said = filled_sentence(found.panels)
    assert (said is None) == (given == NUMBERS)
    if said:
        assert "Amorphous silicon" in said
        assert said in fit_sentence(found.panels, found.fit)


def test_one_value_is_not_spoken_of_as_several():
    found = judged(Panels(), (line(**{key: DIM[key] for key in NUMBERS[:2]}),))
    assert fit_sentence(found.panels, found.fit).startswith(
        "The curve passes within 0.1 % of the only value."
    )


def test_the_curves_pass_through_what_the_fit_says_of_them():
    found = judged(Panels(), (line(**DIM), line(**BRIGHT)))
    for row, (volts, amps) in enumerate(curves(found.fit)):
        isc, voc, imp, vmp = found.fit.model[row]
        assert (volts[0], amps[0]) == pytest.approx((0.0, isc))
        assert volts[-1] == pytest.approx(voc)
        assert np.max(volts * amps) == pytest.approx(imp * vmp, rel=1e-3)
    names = [name for name, _ in fit_rows(found.panels, found.fit)]
    assert "Series resistance" in names
    assert len(points_of(found.panels.data_sheet[0])) == 3


def test_a_sheet_opens_with_what_the_document_holds():
    panels = judged(Panels(), (line(**DIM), line(source="led_4000", **BRIGHT))).panels
    assert judged(panels, drafts_of(panels)).panels == panels
    assert with_value(Scenario(), "panels", panels).panels == panels


number = st.none() | st.floats(1e-6, 1e3)


@given(
    st.lists(st.tuples(*[number] * 5), min_size=1, max_size=3),
    st.integers(1, 144),
    st.sampled_from(["amorphous", "crystalline", "organic"]),
)
def test_any_numbers_end_in_curves_or_in_sentences(rows, cells, technology):
    drafts = []
    for light, isc, voc, imp, vmp in rows:
        scaled = {"illuminance_lx": light and light + 1.0, "short_circuit_A": isc and isc * 1e-3,
                  "open_circuit_V": voc and min(voc + 0.05, 200.0),
                  "max_power_A": imp and imp * 1e-3, "max_power_V": vmp and min(vmp + 0.02, 200.0)}
        drafts.append(line(**scaled))
    found = judged(Panels(cells_in_series=cells, technology=technology), drafts)
    for fault in found.faults:
        assert fault_sentence(fault).endswith(".")
    if found.fit is not None:
        assert all(np.isfinite(amps).all() for _, amps in curves(found.fit))
    if found.is_ready and found.lines:
        with_value(Scenario(), "panels", found.panels)
