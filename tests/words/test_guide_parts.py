"""The lowest price in the guide, with the prices of one's own parts."""

import pytest

from explorer.advice.guided_design import find_design
from explorer.scenario.guide.answers import Answers
from explorer.scenario.part import PanelPart, StorePart
from explorer.scenario.storage import SupercapacitorStore
from explorer.scenario.supply import Panels
from explorer.words import plain_answer
from explorer.words.plain_answer import answer

ASKED = Answers(place="desk", job="report_near")


@pytest.fixture(scope="module", autouse=True)
def designs_are_found_once():
    """The search knows nothing of parts of one's own."""
    found = {}

    def find(answers, *stopped):
        if answers not in found:
            found[answers] = find_design(answers, *stopped)
        return found[answers]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(plain_answer, "find_design", find)
        yield


def panel(title, price, cm2=30.0, currency="EUR"):
    return PanelPart(
        title=title, price=price, currency=currency,
        panels=Panels(count=1, active_area_cm2=cm2, cells_in_series=8),
    )  # fmt: skip


def store(price):
    bank = SupercapacitorStore(capacitance_F=5.0, esr_ohm=0.2)
    return StorePart(title="Ember pair", price=price, currency="EUR", store=bank)


def test_the_cheapest_of_ones_own_parts_that_run_are_taken_and_their_price_is_said():
    found = answer(ASKED, own=(panel("Fern", 4.5), panel("Moss", 9.0, 250.0), store(2.2)))
    assert found.assessment.verdict.state == "runs"
    said = next(line for line in found.assumptions if "are yours" in line)
    # One large panel at 9 EUR is dearer than two small ones, and three of them are dearer yet.
    small = found.scenario.panels.count * 4.5
    assert found.scenario.panels.part.title in ("Fern", "Moss")
    expected = 2.2 + (9.0 if found.scenario.panels.part.title == "Moss" else small)
    assert expected <= 2.2 + 9.0 * 1.5
    assert f"{expected:.2f} EUR" in said
    assert "those of your own that cost least" in found.scenario.notes
    assert not any(told in found.scenario.notes for told in ("Fern", "Moss", "EUR"))
    assert "relative" not in " ".join(found.assumptions)


@pytest.mark.parametrize(
    "own", [(panel("Fern", 4.5),), (panel("Fern", 4.5, currency="GBP"), store(2.2))]
)
def test_prices_that_cannot_be_added_do_not_count_and_that_is_said(own):
    found = answer(ASKED, own=own)
    assert found.scenario.panels.part is None
    assert "Your parts: their prices count once" in found.assumptions[-1]


def test_where_the_size_matters_prices_do_not_count():
    found = answer(Answers(place="desk", job="report_near", matters="smallest"), own=(store(2.2),))
    assert not any("our parts" in line for line in found.assumptions)
