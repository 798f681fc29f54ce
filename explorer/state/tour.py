"""The first-run tour: five steps, each about one part of the window."""

from __future__ import annotations

from dataclasses import dataclass

from explorer.text import say


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step: which part of the window, and what to say about it."""

    key: str
    title: str
    text: str


STEPS: tuple[Step, ...] = (
    Step(
        key="knobs",
        title=say("Four knobs"),
        text=say(
            "Light, panels, store and load pulse: drag one, or give it the focus and use the "
            "arrow keys. One step is one real part. Below each, a fold holds the details."
        ),
    ),
    Step(
        key="break_even",
        title=say("Where it breaks even"),
        text=say(
            "Where a track is thick and green the design runs, where it is dashed it is marginal, "
            "everything else as it is. The line below it says the same in numbers."
        ),
    ),
    Step(
        key="sign",
        title=say("The sign"),
        text=say(
            "A full disc runs, a half disc is marginal, an open ring falls short. The reason "
            "that governs stands beside it, and the six checks below; press one to read it."
        ),
    ),
    Step(
        key="trace",
        title=say("The trace"),
        text=say(
            "The store's voltage over the week, lit hours shaded, thresholds dashed. Point at "
            "it, or use the arrow keys, to read every curve at one moment."
        ),
    ),
    Step(
        key="drawers",
        title=say("The drawers"),
        text=say(
            "Below the trace: where the energy goes, which store, where it would work, how "
            "sure. Press F1 anywhere to have a quantity explained. This tour is in the Help menu."
        ),
    ),
)


class Tour:
    """Where somebody is in the tour; begins at the first step."""

    def __init__(self, steps: tuple[Step, ...] = STEPS) -> None:
        self.steps = steps
        self.index = 0

    @property
    def step(self) -> Step:
        """The step on show."""
        return self.steps[self.index]

    @property
    def is_first(self) -> bool:
        """Whether there is nothing to go back to."""
        return self.index == 0

    @property
    def is_last(self) -> bool:
        """Whether the next step is the end."""
        return self.index == len(self.steps) - 1

    @property
    def place(self) -> str:
        """Such as ``2 of 5``."""
        return say("{n} of {count}", n=self.index + 1, count=len(self.steps))

    def forward(self) -> bool:
        """Go to the next step; False where there is none."""
        if self.is_last:
            return False
        self.index += 1
        return True

    def back(self) -> bool:
        """Go to the step before; False where there is none."""
        if self.is_first:
            return False
        self.index -= 1
        return True
