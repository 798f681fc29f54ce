import dataclasses
import math

import numpy as np
import pytest

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.advice.verdict import CHECK_NAMES, Check, Verdict
from explorer.quantity import show
from explorer.scenario.model import Scenario, with_value
from explorer.words import readout
from explorer.words.answer_groups import answer_groups, answer_lines, course_note
from explorer.words.answers import OF_CHECK, SHOWN, value_of

BRIGHT = with_value(with_value(Scenario(), "light.illuminance_lx", 2000.0), "panels.count", 4)
DIM = with_value(Scenario(), "light.illuminance_lx", 30.0)


@pytest.fixture(scope="module")
def bright():
    return assess(Case(BRIGHT), span_s=604_800.0)


@pytest.fixture(scope="module")
def dim():
    return assess(Case(DIM), span_s=604_800.0)


def check(**changes):
    values = {
        "name": "dark", "value": 7200.0, "limit": 3600.0, "unit": "s", "margin": 2.0,
        "wanted": 1.3, "sentence": "Lasts 2 h in the dark.",
    }  # fmt: skip
    return Check(**(values | changes))


def test_the_sign_says_the_word_and_the_governing_reason(dim):
    text = readout.sign(dim)
    assert text.state == "falls_short"
    assert text.word == "Falls short"
    assert text.reason.replace("\u00a0", " ") == dim.verdict.governing.sentence
    assert text.spoken.startswith("Falls short. ")


def test_a_hazard_is_spoken_apart_from_the_verdict(bright):
    hazards = bright.verdict.hazards
    spoken = readout.sign(bright).spoken
    assert all(f"Hazard: {hazard.title}." in spoken for hazard in hazards)
    none = dataclasses.replace(bright, verdict=Verdict(checks=bright.verdict.checks, hazards=()))
    assert "Hazard" not in readout.sign(none).spoken


def test_the_six_checks_come_in_their_order_with_state_value_and_margin(bright):
    rows = readout.check_rows(bright)
    assert tuple(row.name for row in rows) == CHECK_NAMES
    for row, found in zip(rows, bright.verdict.checks, strict=True):
        assert row.state == found.state
        assert row.label in row.spoken
        assert row.margin in row.spoken


def test_a_store_that_never_starts_says_never(dim):
    assert readout.check_rows(dim)[0].value == "never"


def test_a_margin_just_under_one_never_reads_as_a_pass():
    assert readout.margin_text(0.9999) == "0.99×"
    assert readout.margin_text(1.0) == "1.00×"
    assert readout.margin_text(99.0) == "> 99×"


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("starts", math.inf, "never"),
        ("dark", math.inf, "no end"),
        ("dark", 9000.0, "2.5 h"),
    ],
)
def test_values_without_end_are_words(name, value, words):
    unit = "s"
    assert readout.value_text(check(name=name, value=value, unit=unit)) == words


def test_what_is_known_to_be_more_is_short_in_its_row_and_spoken_in_words(bright):
    checks = tuple(
        dataclasses.replace(check, value=14 * 86_400.0, margin=20.0, at_least=True)
        if check.name == "dark" else check
        for check in bright.verdict.checks
    )
    found = dataclasses.replace(
        bright, verdict=dataclasses.replace(bright.verdict, checks=checks)
    )
    dark = next(row for row in readout.check_rows(found) if row.name == "dark")
    assert (dark.value, dark.margin) == ("> 14 d", "> 20×")
    assert "more than 14 d" in dark.spoken


def test_service_is_a_share_in_percent():
    assert readout.value_text(check(name="service", value=0.9996, unit="")) == "99.9 %"


def test_the_cursor_reads_every_curve_at_one_moment(bright, dim):
    trace, time_s = bright.trace, 0.5 * bright.trace.span_s
    lines = {x.label: x.value for x in readout.cursor_lines(trace, time_s, dim.trace, True)}
    assert lines["store"] == readout.volts(float(trace.at(np.array([time_s])).store_v[0]))
    assert {"in the pulse", "light", "charging", "load", "pinned"} <= set(lines)
    alone = readout.cursor_lines(trace, time_s, None, True)
    assert "pinned" not in {x.label for x in alone}


def test_the_cursor_reads_means_over_its_width(bright):
    """A pixel of a week holds several pulses: what they draw counts with its mean."""
    trace, width_s = bright.trace, 1800.0
    time_s = 4.5 * 86_400.0
    begin, end = np.array([time_s - 900.0]), np.array([time_s + 900.0])
    row = trace.rows(begin, end)
    lines = {
        x.label: x.value for x in readout.cursor_lines(trace, time_s, None, True, width_s=width_s)
    }
    assert lines["load"] == show(float(row.load_a[0]), "A")
    assert lines["in the pulse"] == readout.volts(float(row.terminal_min_v[0]))


def test_a_disconnected_load_reads_off(dim):
    lines = {x.label: x.value for x in readout.cursor_lines(dim.trace, 3600.0, None, True)}
    assert not readout.spot(dim.trace, 3600.0, 0.0).connected[0]
    assert lines["load"] == "off"


def test_beyond_what_was_followed_the_cursor_says_so(bright):
    beyond_s = 1.01 * bright.trace.span_s
    lines = readout.cursor_lines(bright.trace, beyond_s, None, True)
    assert [line.label for line in lines[1:]] == ["not followed so far"]
    assert readout.spot(bright.trace, -1.0, 0.0) is None


def test_the_summary_names_the_extremes(bright):
    text = readout.trace_summary(bright)
    assert readout.volts(bright.trace.extremes().highest_store_v) in text
    assert "connects" in text


def test_the_pulse_is_split_into_step_and_ramp(bright):
    assert bright.pulse is not None
    labels = [line.label for line in readout.pulse_lines(bright.pulse)]
    assert labels == ["ESR step", "ramp", "lowest", "minimum"]
    lowest = readout.pulse_lines(bright.pulse)[2].value
    assert lowest == readout.volts(float(np.min(bright.pulse.terminal_v)))


def test_answers_are_those_that_the_model_gives(bright):
    lines = answer_lines(bright)
    assert {line.key for line in lines} >= {key for key in SHOWN if key in bright.answers}
    assert len(lines) >= 5


def test_the_answer_behind_the_verdict_comes_first_in_its_group(bright):
    assessment = dataclasses.replace(bright, verdict=deciding("dark"))
    groups = answer_groups(assessment)
    (decides,) = [a for group in groups for a in group.answers if a.decides]
    assert decides.key == "dark_time_s"
    assert [group.answers[0].decides for group in groups] == [False, True, False]


def test_every_check_has_an_answer_behind_it_and_every_answer_a_meaning(bright):
    assert set(OF_CHECK) == set(CHECK_NAMES)
    for name in CHECK_NAMES:
        lines = answer_lines(dataclasses.replace(bright, verdict=deciding(name)))
        assert sum(line.decides for line in lines) == 1, name
        assert all(line.meaning and line.short for line in lines)


def deciding(name):
    """A verdict that one check alone spoils."""
    checks = tuple(
        Check(name=n, value=1.0, limit=1.0, unit="", margin=0.5 if n == name else 3.0, wanted=1.2,
              sentence="")
        for n in CHECK_NAMES
    )
    return Verdict(checks=checks, hazards=())


def test_a_trace_that_is_not_the_settled_course_says_so():
    """A store that starts full under a weak light: the first week is not what is judged."""
    scenario = with_value(Scenario(), "store.initial_V", 5.0)
    found = assess(Case(with_value(scenario, "light.illuminance_lx", 200.0)))
    note = course_note(found)
    settled = found.answers["lowest_store_V"]
    assert note is not None
    assert readout.volts(settled) in note
    since = next(m.time_s for m in found.marks if m.kind == "connect")
    moments = np.linspace(since, found.trace.span_s, 20_000)
    seen = float(np.min(found.trace.at(moments).store_v))
    assert readout.volts(seen) in note
    assert abs(seen - settled) > 0.02


def test_an_answer_without_end_is_a_word():
    assert value_of("first_charge_s", math.inf) == "never"
    assert value_of("operations_per_charge", math.inf) == "no limit"


def test_a_number_stays_on_one_line_with_its_unit():
    assert readout.bind_units("1.3 is asked for, 2 h left") == "1.3 is asked for, 2\u00a0h left"
