from explorer.files.beside import NOTHING, Beside
from explorer.scenario.daylight import DaylightPattern
from explorer.scenario.model import Scenario, with_value
from explorer.state.cases import MOST_CASES, MOST_YEARS, Cases


def with_panels(count):
    return with_value(Scenario(), "panels.count", count)


def test_a_design_that_was_on_show_lately_has_its_case_of_then():
    cases = Cases()
    first = cases.of(with_panels(1), NOTHING)
    assert cases.of(with_panels(2), NOTHING) is not first
    assert cases.of(with_panels(1), NOTHING) is first


def test_the_one_on_show_longest_ago_makes_room_and_lets_go_of_its_results():
    cases = Cases()
    first, second = (cases.of(with_panels(n), NOTHING) for n in (1, 2))
    for case in (first, second):
        case.once("a result", lambda: 1.0)
    for n in (*range(3, MOST_CASES + 1), 1, MOST_CASES + 1):
        cases.of(with_panels(n), NOTHING)
    assert cases.of(with_panels(1), NOTHING) is first
    assert first.knows("a result")
    assert cases.of(with_panels(2), NOTHING) is not second
    assert not second.knows("a result")


def test_a_year_takes_more_room_than_a_week():
    cases, base = Cases(), with_value(Scenario(), "light.pattern", DaylightPattern())
    years = [
        cases.of(with_value(base, "panels.count", n), NOTHING) for n in range(1, MOST_YEARS + 2)
    ]
    assert cases.of(years[1].scenario, NOTHING) is years[1]
    assert cases.of(years[0].scenario, NOTHING) is not years[0]


def test_in_another_measured_light_every_design_is_another_case():
    cases = Cases()
    first = cases.of(with_panels(1), NOTHING)
    assert cases.of(with_panels(1), Beside()) is not first
