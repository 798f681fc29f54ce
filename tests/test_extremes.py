"""A short run of the designs from all corners that go on for hours by command."""

from explorer.advice.spread import spread
from tests import extremes


def test_what_is_made_of_a_corner_is_made_in_numbers():
    counts, faults = extremes.run(8, 4000, print)
    assert faults == []
    assert set(counts) == {*extremes.EVERY, extremes.SLOW}


def test_a_number_that_is_none_and_a_search_that_does_not_ask_are_noticed(monkeypatch):
    def torn(case, *given, **more):
        found = spread(case, *given, **more)
        found.margin[0] = float("nan")
        return found

    monkeypatch.setattr(extremes, "spread", torn)
    monkeypatch.setattr(extremes, "find_remedies", lambda case, wanted: iter(()))
    monkeypatch.setattr(extremes, "MOST_S", 0.0)
    monkeypatch.setattr(extremes, "EVERY", {"spread": 1, "remedies": 1})
    _, faults = extremes.run(1, 1, lambda _: None)
    assert len(faults) == 2
    assert "no number in the spread" in faults[0]
    assert "did not ask" in faults[1]
