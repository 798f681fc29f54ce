"""What happens when a visitor wants to take a design home: the veil, the printer, the stick."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QWidget

from explorer.advice.assess import Assessment
from explorer.stand.home_sheet import HomeSheet, print_sheet, save_on_stick, sticks
from explorer.stand.home_veil import HomeVeil
from explorer.stand.legibility import sizes_for
from explorer.stand.page import StandPage
from explorer.stand.phrases import caution_line
from explorer.stand.stand_trace import StandTrace
from explorer.stand.take_home import content_of, design_of
from explorer.state import theme
from explorer.state.language import tr
from explorer.state.stand_plan import BUNDLED

_PAPER = (1400, 560)
"""Size of the picture on paper. [px]"""


class TakeHome(QObject):
    """Opens and closes the veil, and does what its buttons ask for.

    Parameters
    ----------
    page : StandPage
        Shows the design.
    parent : QWidget
        The window, over which the veil lies.
    """

    def __init__(self, page: StandPage, parent: QWidget) -> None:
        super().__init__(parent)
        self._page = page
        self.veil = HomeVeil(parent)
        self.content = ""
        """What the code on show holds."""
        self._found: Assessment | None = None
        self.veil.print_wanted.connect(self._on_print)
        self.veil.stick_wanted.connect(self._on_stick)

    def open(self) -> bool:
        """Show the design that is judged now; False where there is none yet."""
        found = self._page.judged()
        if found is None:
            return False
        self._found = found
        session = self._page.session
        plan, design = session.plan, design_of(found)
        name = session.exhibit.name
        exhibit = name.removeprefix(BUNDLED) if name.startswith(BUNDLED) else Path(name).stem
        self.content = content_of(
            design, link=plan.link, exhibit=exhibit, contact=plan.contact
        )
        self.veil.show_design(
            design, self.content, is_link=bool(plan.link), prints=plan.may_print,
            saves=plan.may_save,
        )  # fmt: skip
        self.veil.show()
        self.veil.back.setFocus(Qt.FocusReason.OtherFocusReason)
        return True

    def close(self) -> None:
        """Put the veil away."""
        self.veil.hide()

    def sheet(self) -> HomeSheet:
        """The page of paper of the design on show."""
        found, plan = self._found, self._page.session.plan
        assert found is not None
        line = caution_line(found.scenario)
        trace = StandTrace()
        trace.setPalette(theme.palette_of(theme.LIGHT))
        trace.resize(*_PAPER)
        trace.set_sizes(sizes_for((1400, 900), 24.0, 1.2))
        self._page.show_trace_on(trace, found)
        return HomeSheet(
            heading=tr(plan.title), contact=plan.contact, design=design_of(found),
            cautions=tr("Take care. {line}", line=line) if line else "", content=self.content,
            trace=trace.grab(),
        )  # fmt: skip

    def _on_print(self) -> None:
        self.veil.say(print_sheet(self.sheet()))

    def _on_stick(self) -> None:
        assert self._found is not None
        self.veil.say(save_on_stick(sticks(), self._found.scenario, self.sheet()))
