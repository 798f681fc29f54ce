"""What belongs to several runs of one device: their conditions, what is known, parts of it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from explorer.advice.bench.fit import Fit
from explorer.advice.bench.found_parts import kinds_of, measured_part, rounded
from explorer.advice.bench.parameters import all_values
from explorer.advice.spread import default_tolerances
from explorer.files.disk import FileError
from explorer.files.shelf import Shelf
from explorer.files.story import RunFile, Story
from explorer.scenario.part import SECTION_OF, taken
from explorer.state.bench_steps import FitView
from explorer.state.document import Document
from explorer.state.language import tr
from explorer.text import joined, say
from explorer.widgets.buttons import pill
from explorer.widgets.drawers.known_dialog import KnownDialog
from explorer.widgets.drawers.run_dialog import RunDialog
from explorer.widgets.drawers.run_list import RunList
from explorer.words.outlook import drift_sentences, next_sentences
from explorer.words.part import KIND_NAMES


class BenchStory(QObject):
    """Opens what asks for conditions, and keeps fitted values as parts.

    Parameters
    ----------
    document : Document
        The design.
    parts : pathlib.Path
        Folder of the parts of one's own.
    parent : QWidget
        Over which dialogs stand.
    """

    changed = Signal(object)
    """Carries the runs with something told of them otherwise, or with one less."""
    kept = Signal(object)
    """Carries a sentence: what was kept, or why not."""

    def __init__(self, document: Document, parts: Path, parent: QWidget) -> None:
        super().__init__(parent)
        self._document, self._shelf, self._over = document, Shelf(parts), parent
        self._story = Story()
        self._fit: Fit | None = None
        self._kept: tuple[str, ...] = ()
        """What was kept last, until another fit."""
        self.dialog: RunDialog | None = None
        self.known_dialog: KnownDialog | None = None
        self.runs = RunList()
        self.keep_button = pill(
            tr("Keep as part"),
            tr("Put what is determined on your shelf of parts with its ±, and take it from there"),
        )
        self.known_button = pill(
            tr("What is known…"),
            tr("Tell how well the values are known that are not fitted"),
        )
        self.next_button = pill(
            tr("What next?"),
            tr("Which measurement to make next, and by how much it would narrow each value"),
        )
        self.runs.conditions_wanted.connect(self.ask_conditions)
        self.runs.remove_wanted.connect(self._on_remove)
        self.keep_button.clicked.connect(self._on_keep)
        self.known_button.clicked.connect(self.ask_known)

    def ways(self) -> QHBoxLayout:
        """The buttons below the values."""
        row = QHBoxLayout()
        row.setContentsMargins(2, 2, 0, 2)
        row.setSpacing(6)
        row.addWidget(self.known_button)
        row.addWidget(self.next_button)
        row.addStretch(1)
        return row

    def set_story(self, story: Story, fit: Fit | None) -> None:
        """What is open, and what was found."""
        self._story, self._fit = story, fit
        self._kept = self._kept if fit is None else ()

    def where_kept(self) -> tuple[str, ...]:
        """What becomes of the runs and of what was told of them, where no folder holds them."""
        if self._document.folder is not None:
            return ()
        return (say("File, Keep as a study… keeps these runs and their conditions."),)

    def more(self, found: FitView | None) -> tuple[str, ...]:
        """What the runs tell beside the values, or what was kept of them."""
        if found is None:
            return self._kept
        lines = tuple(next_sentences(found.fit, found.prospects))
        return lines if found.drift is None else (*lines, *drift_sentences(found.drift))

    def ask_conditions(self) -> None:
        """Ask under which conditions the run on show was logged."""
        if self.dialog is not None or not self._story.runs:
            return
        run = self._story.runs[self.runs.place]
        self.dialog = RunDialog(
            run, same_meter=self._story.same_meter, dated=self.runs.is_dated, parent=self._over
        )
        self.dialog.taken.connect(self._on_conditions)
        self.dialog.finished.connect(self._on_dialog_closed)
        self.dialog.open()

    def _on_conditions(self, run: RunFile, same_meter: bool) -> None:
        story = self._story.with_run(self.runs.place, run)
        self.changed.emit(replace(story, same_meter=same_meter))

    def _on_dialog_closed(self) -> None:
        if self.dialog is not None:
            self.dialog.deleteLater()
            self.dialog = None

    def _on_remove(self) -> None:
        self.changed.emit(self._story.without(self.runs.place))

    def ask_known(self) -> None:
        """Ask how well the values are known that are not fitted."""
        if self.known_dialog is not None:
            return
        self.known_dialog = KnownDialog(
            default_tolerances(self._document.scenario), dict(self._story.known), self._over
        )
        self.known_dialog.taken.connect(self._on_known)
        self.known_dialog.finished.connect(self._on_known_closed)
        self.known_dialog.open()

    def _on_known(self, known: dict[str, float]) -> None:
        self.changed.emit(replace(self._story, known=tuple(known.items())))

    def _on_known_closed(self) -> None:
        if self.known_dialog is not None:
            self.known_dialog.deleteLater()
            self.known_dialog = None

    def take_over(self, fit: Fit) -> None:
        """Put fitted values into the design; one step of undo."""
        if not fit.is_good:
            return
        self._document.begin_gesture()
        self._document.edit_together(
            all_values(self._document.scenario, rounded(fit)), "values fitted to a log"
        )
        self._document.begin_gesture()

    def _on_keep(self) -> None:
        """Parts on the shelf, and the design takes them; one step of undo."""
        if self._fit is None:
            return
        scenario, sections, titles = self._document.scenario, {}, []
        try:
            for kind in kinds_of(self._fit):
                named = {"kind": KIND_NAMES[kind], "design": scenario.title}
                title = tr("{kind} of {design}, measured", **named)
                part = measured_part(kind, scenario, self._fit, title)
                self._shelf.add(part)
                sections[SECTION_OF[kind]] = taken(part, getattr(scenario, SECTION_OF[kind]))
                titles.append(title)
        except FileError as error:
            self.kept.emit(str(error))
            return
        self._kept = (
            say(
                "On your shelf and in the design: {titles}. Its ± counts in How sure? in place of "
                "the usual tolerance.",
                titles=joined("; ", titles),
            ),
        )
        self._document.begin_gesture()
        self._document.edit_together(sections, "measured parts")
        self._document.begin_gesture()
        self.kept.emit(self._kept[0])
