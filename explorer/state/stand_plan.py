"""How a stand is set up: what visitors see, may move, and when the page resets; one JSON file."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Annotated, Final, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError, field_validator

from explorer.files.disk import MEGABYTE, FileError, read_text, write_text
from explorer.files.scenario_json import load_scenario
from explorer.resource_files import scenario_folder
from explorer.state.knobs import KNOB_KEYS
from explorer.state.theme import ThemeChoice
from explorer.text import joined, say
from explorer.words.refusal import fault_text

FORMAT: Final = "gloaming-stand"
BUNDLED = "bundled:"
"""Begins the name of a scenario that comes with the program; anything else is a file."""
OWN_FOLDER = "stand"
"""Below the bundled scenarios: those that the stand shows in place of the one of that name."""
OPENING = "soil_probe"
"""Stem of the bundled scenario that a stand begins with."""
SHORTEST_WARNING_S = 20
"""A person must have at least this long to ask for more time (WCAG 2.2, 2.2.1). [s]"""
LIMIT_BYTES = MEGABYTE

TITLE = say("Is the light enough?")
KnobKey = Literal["light", "panels", "store", "pulse"]


class StandPlan(BaseModel):
    """Settings of a stand; the first scenario is the one that comes back after a visitor."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, allow_inf_nan=False)

    format: Literal["gloaming-stand"] = FORMAT
    version: Literal[1] = 1
    scenarios: tuple[str, ...] = ()
    idle_s: Annotated[int, Field(ge=10, le=3600)] = 90
    """Quiet time before the warning. [s]"""
    warning_s: Annotated[int, Field(ge=SHORTEST_WARNING_S, le=300)] = 20
    """Countdown of the warning. [s]"""
    cycle_s: Annotated[int, Field(ge=5, le=600)] = 24
    """How long each scenario stays while nobody is there. [s]"""
    movable: tuple[KnobKey, ...] = ("light", "panels", "store", "pulse")
    title: Annotated[str, Field(max_length=120)] = TITLE
    """Of the page; a `Text` only while nobody has given another one."""
    contact: Annotated[str, Field(max_length=160)] = ""
    diagonal_in: Annotated[float, Field(ge=5, le=150)] = 24.0
    """Diagonal of the screen. [in]"""
    distance_m: Annotated[float, Field(ge=0.3, le=20)] = 3.0
    """From how far the verdict must be read. [m]"""
    theme: ThemeChoice = "light"
    reduced_motion: bool = False
    link: Annotated[str, Field(max_length=300)] = ""
    """The keeper's own page, which the code leads to; without one the code holds a text."""
    logo: str = ""
    """File of a picture that stands below the window of the drawn room."""
    picture: str = ""
    """File of a picture of the thing itself, which lies over the drawn one."""
    may_print: bool = False
    may_save: bool = False
    """Whether visitors may save on a stick."""
    meter: Annotated[str, Field(max_length=200)] = ""
    """Address of a meter on the real device; empty where there is none."""
    meter_scenario: str = ""
    """Which of the scenarios that device is; the first where it is empty."""
    screen: str = ""
    """Name of the screen, as the system has it; the explorer's own where it is empty or away."""
    languages: tuple[Literal["en", "de"], ...] = ()
    """Between which visitors may switch; fewer than two offer none."""
    code_hash: str = ""
    """Of the staff code, as `stand.staff_code` makes it; empty where there is none."""

    @field_validator("movable")
    @classmethod
    def _in_order(cls, keys: tuple[KnobKey, ...]) -> tuple[KnobKey, ...]:
        if not keys:
            raise ValueError(say("must name at least one of the four knobs"))
        return tuple(sorted(set(keys), key=KNOB_KEYS.index))

    @field_validator("title")
    @classmethod
    def _follows(cls, title: str) -> str:
        """A title that nobody changed follows the language, also after it was saved."""
        return TITLE if title == TITLE else title

    @field_validator("link")
    @classmethod
    def _is_link(cls, link: str) -> str:
        if link and not link.startswith(("https://", "http://")):
            raise ValueError(say("must begin with https:// or http://"))
        return link

    @field_validator("scenarios")
    @classmethod
    def _once(cls, names: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(dict.fromkeys(names))


def bundled_names() -> tuple[str, ...]:
    """Scenarios that come with the program and suit a stand, as a plan names them.

    One that a visitor can turn with a single knob comes first. Years of daylight are left out:
    their trace is too long to be read in passing.
    """
    try:
        found = sorted(
            scenario_folder().glob("*.json"), key=lambda path: (path.stem != OPENING, path.stem)
        )
        return tuple(
            f"{BUNDLED}{path.stem}"
            for path in found
            if load_scenario(path).scenario.light.pattern.kind != "daylight"
        )
    except FileNotFoundError:
        return ()


def listed_name(name: str) -> str:
    """How a list names a scenario of a plan.

    Examples
    --------
    >>> listed_name("bundled:soil_probe")
    'Soil probe'
    >>> listed_name("/media/stick/stand/bell.json")
    'stand/bell.json'
    """
    if not name.startswith(BUNDLED):
        return "/".join(Path(name).parts[-2:])
    return name.removeprefix(BUNDLED).replace("_", " ").capitalize()


def default_plan() -> StandPlan:
    """A stand with every bundled scenario."""
    return StandPlan(scenarios=bundled_names())


def scenario_path(name: str) -> Path:
    """File of a scenario that a plan names.

    Raises
    ------
    FileNotFoundError
        The program's own scenarios are missing.
    """
    if not name.startswith(BUNDLED):
        return Path(name)
    # Only the last part counts, so that a name cannot lead out of the folder.
    file = f"{Path(name.removeprefix(BUNDLED)).name}.json"
    # Where no setting of the four knobs would make a demonstration run, the stand has its own.
    own = scenario_folder() / OWN_FOLDER / file
    return own if own.exists() else scenario_folder() / file


def load_plan(path: Path) -> StandPlan:
    """Read the set-up of a stand.

    Raises
    ------
    FileError
        The file is missing, is no set-up, or holds a value that is not allowed.
    """
    text = read_text(path, limit_bytes=LIMIT_BYTES, what=say("stand set-up"))
    try:
        plan = StandPlan.model_validate_json(text)
    except ValidationError as error:
        raise FileError(joined(": ", (path.name, _sentence(error)))) from None
    return _with_names(plan, lambda name: str(path.parent / name))  # an absolute one stays


def _with_names(plan: StandPlan, change: Callable[[str], str]) -> StandPlan:
    names = (n if n.startswith(BUNDLED) else change(n) for n in plan.scenarios)
    return plan.model_copy(update={"scenarios": tuple(names)})


def save_plan(path: Path, plan: StandPlan) -> None:
    """Write the set-up of a stand in one step.

    Files that lie with it are named from there, so that the folder can be moved.

    Raises
    ------
    FileError
        The place cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(
            say(
                "{place} cannot be made: {reason}.",
                place=str(path.parent),
                reason=error.strerror or str(error),
            )
        ) from None
    data = _with_names(plan, lambda name: _from(path.parent, name)).model_dump(mode="json")
    write_text(path, json.dumps(data, indent=2, ensure_ascii=False) + "\n")


def _from(folder: Path, name: str) -> str:
    """A file as it is named from a folder that holds it; as it is where none does."""
    file = Path(name)
    return file.relative_to(folder).as_posix() if file.is_relative_to(folder) else name


def _sentence(error: ValidationError) -> str:
    fault = error.errors(include_url=False)[0]
    key = ".".join(str(part) for part in fault["loc"])
    if fault["type"] == "json_invalid":
        return say("the text is not JSON: {reason}.", reason=fault["msg"])
    if fault["type"] == "extra_forbidden":
        known = ", ".join(StandPlan.model_fields)
        return say("{key} is not a known key; known are {known}.", key=key, known=known)
    return joined(": ", (key, fault_text(fault))) + "."
