"""The first-run tour: six steps, each about one part of the window."""

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
        key="guide",
        title=say("The guide"),
        text=say(
            "No numbers at hand? The guide asks a few simple questions and answers with a design "
            "that you can change here."
        ),
    ),
    Step(
        key="knobs",
        title=say("Four sliders"),
        text=say(
            "Light, panels, store and load pulse: drag one, or give it the focus and use the "
            "arrow keys. Open the details below each for every other value."
        ),
    ),
    Step(
        key="break_even",
        title=say("Where the verdict changes"),
        text=say(
            "Where the track is thick and green, the design runs; where it is dashed, it is "
            "marginal, with everything else unchanged. The line below gives the same in numbers."
        ),
    ),
    Step(
        key="sign",
        title=say("The verdict"),
        text=say(
            "A full disc runs, a half disc is marginal: it works, with less margin than "
            "required. An open ring falls short. Beside it stands the deciding reason, below it "
            "the six checks; press one to read it."
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
        title=say("The questions"),
        text=say(
            "Where the energy goes, which store suits, where else it would work, how certain the "
            "answer is, how the panel works, whether a measurement agrees, what the year brings, "
            "and which build is best. F1 explains what has the focus. "
            "This tour is in the Help menu."
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
