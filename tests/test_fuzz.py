"""A short run of the trials that go on for hours by command."""

from explorer.files.disk import FileError
from tests import fuzz


def test_nothing_that_is_broken_breaks_the_program():
    counts, faults = fuzz.run(60.0, 1000, print, most=200)
    assert faults == []
    assert {kind.partition(",")[0] for kind in counts} == set(fuzz.KINDS)


def test_a_fault_is_noticed(monkeypatch):
    """A trial that raises anything but a refusal of ours, or refuses without a sentence, counts."""
    def fails(self, rng):
        raise [KeyError("x"), FileError(""), ValueError("not ours")][rng.randrange(3)]

    for kind in fuzz.KINDS:
        monkeypatch.setattr(fuzz.Trials, kind, fails)
    _, faults = fuzz.run(5.0, 1, lambda _: None, most=30)
    assert len(faults) == 30
    assert any("KeyError" in fault for fault in faults)
    assert any("ValueError: not ours" in fault for fault in faults)
    assert any("no sentence" in fault for fault in faults)
