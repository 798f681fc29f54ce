"""The open scenario with its file, its light log, its undo stack and its one change signal."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal
from weakref import ref

from pydantic import ValidationError
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from explorer.advice.case import Case
from explorer.files.beside import NOTHING, Beside, beside_key, read_beside
from explorer.files.disk import FileError, digest_of
from explorer.files.progress import Progress, no_progress
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.files.study_place import NAME, scenario_file, study_folder
from explorer.files.trust import TRUST
from explorer.scenario.fields import Section, describe
from explorer.scenario.light_log import LightLog
from explorer.scenario.localised import in_language
from explorer.scenario.model import Scenario, get_value, owner_class, with_value
from explorer.scenario.storage import SIZE_PATHS
from explorer.state.cases import Cases
from explorer.state.language import language
from explorer.text import say
from explorer.words.refusal import refusal

if TYPE_CHECKING:
    from explorer.files.study import Study
    from explorer.files.study_builds import BuildSearch

FILE_PATHS = ("light.pattern.file", "light.pattern.weather_file")
MOST_STEPS = 500
"""Steps that can be undone (own judgement); each keeps the sections that it changed."""


class _Replace(QUndoCommand):
    """Put one scenario in the place of another; edits of one value in one gesture are one."""

    def __init__(
        self, doc: Document, old: Scenario, new: Scenario, where: tuple[str, int], text: str
    ) -> None:
        super().__init__(text)
        # A strong reference would close the circle document, stack, command: collected in the
        # wrong order, the dying stack clears commands that are gone already.
        self._doc = ref(doc)
        self._old, self._new, self._where = old, new, where

    def amend(self, new: Scenario, where: tuple[str, int]) -> bool:
        """Whether the step goes on to a further scenario, as one of the same gesture does.

        The stack could merge a second command into this one, but the binding never lets go of a
        command that was merged, nor of all that it holds.
        """
        if self._where != where:
            return False
        self._new = new
        self.setObsolete(new == self._old)
        return True

    def redo(self) -> None:
        self._show(self._new)

    def undo(self) -> None:
        self._show(self._old)

    def _show(self, scenario: Scenario) -> None:
        doc = self._doc()
        assert doc is not None, "a command outlives its document only while nobody undoes"
        doc._show(scenario)


OnDisk = Literal["as known", "changed", "gone"]


class Document(QObject):
    """Single owner of the scenario: everything else reads it and asks for changes."""

    changed = Signal(object)
    """Carries the new scenario."""
    file_changed = Signal()
    """Another file, or another name for it."""
    refused = Signal(object)
    """Why an edit did not happen, as a `Text` or plain string; the scenario is as before."""
    study_changed = Signal()
    """Other logged runs, or other designs beside this one; not by whoever keeps them here."""
    study_edited = Signal()
    """Whoever shows runs or designs has changed them."""

    def __init__(self, scenario: Scenario | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._scenario = scenario or Scenario()
        self._start = self._scenario
        self._gesture = 0
        self._beside = NOTHING
        self._cases = Cases()
        self._beside_of: tuple[Hashable, Path | None] | None = None
        self.path: Path | None = None
        self._study: Study | None = None
        self.folder: Path | None = None
        self._digests: tuple[str | None, ...] = ()
        self.migrated_from: int | None = None
        self.undo_stack = QUndoStack(self)
        self.undo_stack.setUndoLimit(MOST_STEPS)
        self.progress: Progress = no_progress
        """Is told how much of a large log was read, and may raise a `FileError` to end it."""

    @property
    def scenario(self) -> Scenario:
        """Current immutable scenario."""
        return self._scenario

    @property
    def start(self) -> Scenario:
        """The scenario as it was opened or last put in place as a whole."""
        return self._start

    @property
    def log(self) -> LightLog | None:
        """Measured light of the scenario; None where it has none or the log cannot be read."""
        return self._beside.log

    @property
    def case(self) -> Case:
        """The scenario with its measured light; what is computed for them hangs on it."""
        return self._cases.of(self._scenario, self._beside)

    @property
    def study(self) -> Study:
        """Logged runs and further designs; kept on disk where `folder` is the folder of a study."""
        if self._study is None:
            from explorer.files.study import Study  # a start does not wait for it

            self._study = Study()
        return self._study

    @study.setter
    def study(self, study: Study) -> None:
        self._study = study

    @property
    def name(self) -> str:
        """What the window calls the file."""
        if self.folder is not None:
            return self.folder.resolve().name
        return self.path.name if self.path else say("not saved yet")

    @property
    def is_clean(self) -> bool:
        """Whether the file holds what the window shows."""
        return self.undo_stack.isClean()

    def begin_gesture(self) -> None:
        """Start a new undo step: on a press, a focus, a key after a pause."""
        self._gesture += 1

    def edit(self, path: str, value: Any) -> bool:
        """Set one value through the undo stack.

        Parameters
        ----------
        path : str
            Dotted path, such as ``store.capacitance_F``.
        value : object
            What to put there.

        Returns
        -------
        bool
            Whether the scenario now holds the value; otherwise `refused` said why not.
        """
        if fault := self.attempt(path, value):
            self.refused.emit(fault)
        return not fault

    def attempt(self, path: str, value: Any) -> str:
        """Set one value as `edit` does, but say nothing.

        Returns
        -------
        str
            Why the scenario is as before, as a `Text`; empty where it now holds the value.
        """
        try:
            new = with_value(self._scenario, path, value)
        except (ValidationError, KeyError, TypeError) as error:
            return refusal(self._scenario, path, error)
        if path in FILE_PATHS:  # a person named it
            TRUST.allow((Path() if self.path is None else self.path.parent) / value)
        label = describe(owner_class(self._scenario, path), path.rpartition(".")[2]).label \
            if not path.rpartition(".")[2].isdigit() else "list"
        return self._push(new, (path, self._gesture), f"change of {label}")

    def edit_together(self, values: Mapping[str, Any], text: str) -> bool:
        """Set several values as one; those of one gesture merge into one undo step.

        A store's size is set before its resistance and leakage, which follow it.
        """
        new, path = self._scenario, ""
        try:
            for path in sorted(values, key=_after_size):
                new = with_value(new, path, values[path])
        except (ValidationError, KeyError, TypeError) as error:
            fault = refusal(self._scenario, path, error)
        else:
            fault = self._push(new, (text, self._gesture), text)
        if fault:
            self.refused.emit(fault)
        return not fault

    def replace(self, scenario: Scenario, text: str) -> bool:
        """Put a whole scenario in place as one undo step, such as a remedy does."""
        self.begin_gesture()
        if fault := self._push(scenario, ("", self._gesture), text):
            self.refused.emit(fault)
        return not fault

    def get(self, path: str) -> Any:
        """Value at a dotted path of the current scenario."""
        return get_value(self._scenario, path)

    def section(self, path: str) -> Section:
        """Section at a dotted path; the scenario itself for an empty one."""
        found = get_value(self._scenario, path) if path else self._scenario
        assert isinstance(found, Section)
        return found

    def new(self, scenario: Scenario | None = None) -> None:
        """Begin with a scenario that has no file yet."""
        self._take(scenario or Scenario(), None, None)

    def restore(
        self, scenario: Scenario, path: Path | None = None, migrated_from: int | None = None,
        study: Study | None = None,
    ) -> None:
        """Begin with work that no file holds yet; it counts as changed until it is saved.

        Parameters
        ----------
        scenario : Scenario
            What to show.
        path : pathlib.Path, optional
            The file that it was opened from.
        migrated_from : int, optional
            Version of that file where it is an older one.
        study : Study, optional
            What belongs to it; what the folder of its file says when left out.
        """
        folder = None if path is None else study_folder(path)
        if folder is not None and study is None:
            from explorer.files.study import load_study

            try:
                study = load_study(folder)
            except FileError as error:  # to be saved as a scenario alone
                folder = None
                self.refused.emit(str(error))
        self._take(scenario, path, migrated_from, folder, study)
        self.undo_stack.resetClean()

    def open(self, path: Path) -> None:
        """Load a file.

        Raises
        ------
        FileError
            The file cannot be read, or is neither a scenario nor the folder of a study; what was
            open stays.
        """
        folder = study_folder(path)
        study: Study | None = None
        if folder is not None:
            from explorer.files.study import load_study

            study = load_study(folder)
        loaded = load_scenario(scenario_file(path))
        self._beside = self._read_beside(loaded.scenario, loaded.path)
        self._beside_of = self._key(loaded.scenario, loaded.path)
        self._take(loaded.scenario, loaded.path, loaded.migrated_from, folder, study)

    def open_example(self, path: Path) -> None:
        """Load a bundled scenario; saving will ask for a name, the original stays as it is."""
        loaded = load_scenario(path)
        self._take(in_language(loaded.scenario, language()), None, None)

    def save(self, path: Path | None = None, *, replace_older: bool = False) -> None:
        """Write to `path`, or to the file that is open.

        Raises
        ------
        ScenarioError
            The place cannot be written, or holds an older version and `replace_older` is off.
        """
        target = path or self.path
        assert target is not None
        if self.folder is not None and target == self.path:
            self.keep(self.folder, replace_older=replace_older)
            return
        save_scenario(target, self._scenario, replace_older=replace_older)
        self._belong(None, None)
        self._saved(target)

    def keep(self, folder: Path, *, replace_older: bool = False) -> None:
        """Write the scenario with all that belongs to it as a study, which is open then.

        Raises
        ------
        FileError
            As `keep_study`; what is open stays as it is.
        """
        from explorer.files.study import keep_study

        scenario, study = keep_study(
            folder, self._scenario, self.path, self.study, own=self.folder,
            replace_older=replace_older,
        )  # fmt: skip
        self.folder = folder
        self._saved(scenario_file(folder))
        if scenario != self._scenario:  # its light log was copied
            self.undo_stack.clear()
            self._show(scenario)
        self._belong(folder, study)

    def edit_study(self, study: Study) -> None:
        """Other runs or designs, from whoever shows them; what a folder keeps is unsaved then."""
        if study == self.study:
            return
        self.study = study
        if self.folder is not None:
            self.undo_stack.resetClean()
        self.study_edited.emit()

    def note_builds(self, builds: BuildSearch) -> None:
        """Put down what a search for a build found, which is kept with the next save.

        Nobody changed anything by looking, so nothing is unsaved by it.
        """
        self.study = replace(self.study, builds=builds)

    def _belong(self, folder: Path | None, study: Study | None) -> None:
        """Belong to a study, or to none any more; runs without a study stay as they are."""
        left = self.folder is not None and folder is None
        self.folder = folder
        if study is not None or left:
            self._study = study
            self._digests = self._digests_now()
            self.study_changed.emit()

    def _saved(self, target: Path) -> None:
        self.path, self.migrated_from = target, None
        self._digests = self._digests_now()
        self.undo_stack.setClean()
        self.file_changed.emit()

    def on_disk(self) -> OnDisk:
        """What became of the open file since it was read or written here."""
        now = self._digests_now()
        if None in now:
            return "gone"
        return "as known" if now == self._digests else "changed"

    def _digests_now(self) -> tuple[str | None, ...]:
        """Of the file, and of what a study says beside it."""
        files = [self.path] if self.path is not None else []
        files += [self.folder / NAME] if self.folder is not None else []
        return tuple(digest_of(file) for file in files)

    def _push(self, new: Scenario, where: tuple[str, int], text: str) -> str:
        """Why the new scenario was not taken; empty where it was."""
        if new == self._scenario:
            return ""
        if (key := self._key(new, self.path)) != self._beside_of and key is not None:
            try:
                self._read_beside(new, self.path)
            except (FileError, OSError) as error:
                return str(error)
        top = self._top()
        if top is None or not top.amend(new, where):
            self.undo_stack.push(_Replace(self, self._scenario, new, where, text))
            return ""
        self._show(new)
        if top.isObsolete():
            self.undo_stack.undo()  # takes it away and does nothing else
        return ""

    def _top(self) -> _Replace | None:
        """The step that an edit may still amend: the last one, neither undone nor saved."""
        stack = self.undo_stack
        if stack.index() != stack.count() or stack.index() == 0 or stack.isClean():
            return None
        top = stack.command(stack.index() - 1)
        return top if isinstance(top, _Replace) else None

    def _take(
        self, scenario: Scenario, path: Path | None, migrated_from: int | None,
        folder: Path | None = None, study: Study | None = None,
    ) -> None:
        self.undo_stack.clear()
        self.undo_stack.setClean()  # which an empty stack is not made by clearing it
        self.begin_gesture()
        self.path, self.migrated_from, self._start = path, migrated_from, scenario
        self._belong(folder, study)
        self._digests = self._digests_now()
        self._show(scenario)
        self.file_changed.emit()

    def _show(self, scenario: Scenario) -> None:
        key = self._key(scenario, self.path)
        if key != self._beside_of:
            try:
                self._beside = self._read_beside(scenario, self.path)
            except (FileError, OSError) as error:
                self._beside = NOTHING
                self.refused.emit(str(error))
            self._beside_of = key
        self._scenario = scenario
        self.changed.emit(scenario)

    @staticmethod
    def _key(scenario: Scenario, path: Path | None) -> tuple[Hashable, Path | None] | None:
        key = beside_key(scenario)
        return None if key is None else (key, path)

    def _read_beside(self, scenario: Scenario, path: Path | None) -> Beside:
        try:
            return read_beside(scenario, path, self.progress)
        finally:
            self.progress(1.0)  # also where it ended in the middle


def _after_size(path: str) -> bool:
    return path not in SIZE_PATHS
