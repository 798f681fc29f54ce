"""A person types a number as it comes, and reads it back in the unit that is said aloud."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.quantity import PREFIXES, parse, show
from explorer.text import rendered


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("1,5 F", "F", 1.5),
        ("1.5", "F", 1.5),
        ("4.7 mF", "F", 4.7e-3),
        ("4,7mF", "F", 4.7e-3),
        ("470u", "F", 470e-6),
        ("470 µF", "F", 470e-6),
        ("470 \u03bcF", "F", 470e-6),  # the Greek letter in place of the micro sign
        ("3.3m", "V", 3.3e-3),
        ("22 p", "F", 22e-12),
        ("4.7 kΩ", "Ω", 4700.0),
        ("4.7 kohm", "Ω", 4700.0),
        ("1M", "Ω", 1e6),
        ("1e-6", "A", 1e-6),
        (".5", "V", 0.5),
        ("−3", "°C", -3.0),
        ("- 3 °C", "°C", -3.0),
        ("1 300 lx", "lx", 1300.0),
        ("1\u202f300\u2009lx", "lx", 1300.0),
        ("1.3 klx", "lx", 1300.0),
        ("1300 lux", "lx", 1300.0),
        ("90 min", "s", 5400.0),
        ("2 h", "s", 7200.0),
        ("3 d", "s", 259_200.0),
        ("3 Days", "s", 259_200.0),
        ("1 week", "s", 604_800.0),
        ("50 ms", "s", 0.05),
        ("90 min", "h", 1.5),
        ("1h30", "s", 5400.0),
        ("1 h 30 min", "min", 90.0),
        ("2d 4h", "h", 52.0),
        ("8:30", "h", 8.5),
        ("1,300.5", "lx", 1300.5),
        ("1.300,5 lx", "lx", 1300.5),
        ("1.300.500", "lx", 1_300_500.0),
        ("1'300", "lx", 1300.0),
        ("0,300", "V", 0.3),
        ("1300,500", "lx", 1300.5),
        ("35u", "A", 35e-6),
        ("2m2", "cm²", 20_000.0),
        ("50 mm^2", "cm²", 0.5),
        ("36 h", "d", 1.5),
        ("40", "mAh", 40.0),
        ("1.2 Ah", "mAh", 1200.0),
        ("20 %", "", 0.2),
        ("1.3x", "×", 1.3),
        ("12", "", 12.0),
    ],
)
def test_what_a_person_types_is_understood(text, unit, value):
    assert parse(text, unit) == value


@pytest.mark.parametrize(
    ("text", "unit", "said"),
    [
        ("", "F", "Nothing was entered; allowed is a number in F, also with p n µ m k M G"),
        ("much", "F", '"much" does not begin with a number; allowed is a number in F'),
        ("nan", "F", '"nan" does not begin with a number'),
        ("inf", "V", '"inf" does not begin with a number'),
        ("5 V", "F", '"5 V" has "V" as its unit; allowed is a number in F'),
        ("5 m", "s", "allowed is a number with ms, s, min, h, d or week, such as 90 min."),
        ("3k", "", "allowed is a plain number, such as 3 or 0.5."),
        ("1,300", "lx", '"1,300" can be read in two ways; write 1300 or 1.300.'),
        ("1,30,5", "lx", '"1,30,5" has its marks where no number has them'),
        ("1.300.5", "lx", '"1.300.5" has its marks where no number has them'),
        ("8:30", "s", '"8:30" can be read in two ways; write it with units'),
        ("1h-30", "s", '"1h-30" has "h-30" as its unit'),
        ("1e999", "F", '"1e999" is too large a number.'),
        ("1e99999999999999999999", "F", "is too large a number."),
    ],
)
def test_what_cannot_be_meant_is_answered_with_what_is_allowed(text, unit, said):
    with pytest.raises(ValueError, match=r"\.$") as caught:
        parse(text, unit)
    assert said in str(caught.value)


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (0.22, "F", "0.22 F"),
        (0.1, "F", "0.1 F"),
        (0.0047, "F", "4.7 mF"),
        (0.09999, "F", "0.1 F"),
        (9.999e-7, "A", "1 µA"),
        (2e-6, "A", "2 µA"),
        (0.0, "A", "0 A"),
        (4700.0, "Ω", "4.7 kΩ"),
        (1300.0, "lx", "1300 lx"),
        (0.3, "lx", "0.3 lx"),
        (150_000.0, "lx", "150000 lx"),
        (44_806.0, "lx·h", "44800 lx·h"),
        (0.05, "s", "50 ms"),
        (90.0, "s", "90 s"),
        (600.0, "s", "10 min"),
        (50_400.0, "s", "14 h"),
        (224_640.0, "s", "2.6 d"),
        (1e7, "s", "116 d"),
        (1.123, "×", "1.12×"),
        (35.0, "%", "35%"),
        (10_080, "", "10080"),
        (-3.5, "°C", "−3.5 °C"),
        (1200.0, "mAh", "1200 mAh"),
        (math.inf, "s", "never"),
        (math.nan, "V", "unknown"),
    ],
)
def test_a_value_reads_as_it_is_said(value, unit, text):
    assert show(value, unit) == text


def in_german(text):
    """With the decimal comma, and no word changed."""
    return rendered(text, lambda template, _: template, ",")


def test_the_decimal_mark_and_the_word_for_infinity_can_be_chosen():
    assert in_german(show(0.0047, "F")) == "4,7 mF"
    assert show(math.inf, "lx", infinite="no limit") == "no limit"


@given(st.floats(1e-11, 1e8), st.sampled_from(["F", "V", "A", "W", "Ω", "J", "lx", "s", "", "×"]))
def test_what_is_shown_reads_back_as_the_same_value(value, unit):
    for form in (str, in_german):
        mark = "," if form is in_german else "."
        assert parse(form(show(value, unit)), unit, mark) == pytest.approx(value, rel=5.1e-3)
        negative = form(show(-value, unit, 12))
        assert parse(negative, unit, mark) == pytest.approx(-value, rel=1e-11)


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_plain_number_is_read_to_the_last_bit(value):
    assert parse(repr(value), "V") == value


@given(st.integers(1, 999), st.sampled_from(sorted(PREFIXES)))
def test_a_prefix_gives_the_same_number_as_its_power_of_ten(number, prefix):
    power = round(math.log10(PREFIXES[prefix]))
    assert parse(f"{number} {prefix}F", "F") == float(f"{number}e{power}")


@given(st.floats(1e-6, 1e12))
def test_light_and_time_never_wear_a_clumsy_prefix(value):
    assert show(value, "lx").endswith(" lx")
    assert show(value, "s").split()[-1] in {"s", "ms", "µs", "min", "h", "d"}


@given(st.text(), st.sampled_from(["F", "s", "lx", "", "×", "mAh", "°C"]))
def test_any_text_is_a_finite_number_or_a_sentence(text, unit):
    try:
        value = parse(text, unit)
    except ValueError as error:
        value, said = 0.0, str(error)
        assert said.endswith(".")
    assert math.isfinite(value)


def test_the_language_on_show_decides_what_a_single_mark_is():
    assert parse("1.300", "V") == parse("1,300", "V", ",") == 1.3
    with pytest.raises(ValueError, match="two ways"):
        parse("1.300", "V", ",")
