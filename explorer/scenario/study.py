"""A study: a design with its logged runs, the designs beside it, and the sweeps made of it.

Nothing here is shown as a field, so keys and ranges are all that is declared.
"""

from __future__ import annotations

from typing import Annotated, Final, Literal

from pydantic import Field

from explorer.scenario.fields import Name, Section
from explorer.scenario.logged_run import BRIGHTEST_LX, MOST_A, Draw

FORMAT: Final = "gloaming-study"
VERSION: Final = 1
WEEK_S = 604_800.0
MOST_DESIGNS = 6
"""Designs that are still told apart, the open one included."""
FileName = Annotated[str, Field(min_length=1, max_length=4096)]
"""As the system has it: made visible, an odd name would be another one."""
Share = Annotated[float, Field(ge=0, le=1)]


class KeptConditions(Section):
    """What was otherwise than in the design while a run was logged, as `Conditions` says it."""

    light_lx: Annotated[float, Field(ge=0, le=BRIGHTEST_LX)] | None = None
    light_share: Share | None = None
    draw: Draw = "design"
    current_A: Annotated[float, Field(ge=0, le=MOST_A)] = 0.0
    current_share: Share = 0.01
    connected: bool | None = None
    begins_s: Annotated[float, Field(ge=0, le=WEEK_S)] | None = None


class KeptReading(Section):
    """What a person said of a table that can be read in two ways."""

    dates: Literal["dmy", "mdy", "ymd"] | None = None
    decimal: Literal["point", "comma"] | None = None
    clock: Literal["h:mm", "mm:ss"] | None = None
    column: Name | None = None


class KeptRun(Section):
    """A logged run; its file is named from the folder of the study."""

    file: FileName
    reading: KeptReading = KeptReading()
    conditions: KeptConditions = KeptConditions()
    later: bool = False
    """Whether it was logged months after the others."""


class KnownShare(Section):
    """How well a value is known that is not fitted, as a half-width over it."""

    path: Name
    share: Share


class KeptDesign(Section):
    """A design that is laid beside the one of the study: what it is called, and its scenario."""

    name: Name
    file: FileName


class KeptSweep(Section):
    """A table of many variants, and what made it."""

    file: FileName
    vary: tuple[Name, ...]
    """As `sweep --vary` takes it."""
    random: Annotated[int, Field(ge=0)] = 0
    seed: int = 1
    columns: Literal["all", "verdict"] = "all"
    exact: bool = False


Limit = Annotated[float | None, Field(ge=1e-9, le=1e9)]
Measure = Annotated[float | None, Field(ge=0, le=1e12)]
"""Empty where it is not known."""


class KeptLimits(Section):
    """What a build may have at most, as the search takes it; empty where it does not matter."""

    lithium: bool = True
    most_parts: Annotated[int | None, Field(ge=3, le=10_000)] = None
    price: Limit = None
    panel_cm2: Limit = None
    volume_cm3: Limit = None
    mass_g: Limit = None
    height_mm: Limit = None


class KeptPrice(Section):
    """What a build costs in one currency."""

    currency: Name = ""
    amount: Annotated[float, Field(ge=0, le=1e12)] = 0.0


class KeptBuild(Section):
    """One build of the front that was found; its file is a scenario."""

    file: FileName
    panels: Name
    charger: Name
    store: Name
    part_count: Annotated[int, Field(ge=3, le=10_000)]
    price: Measure = None
    """As older files have it, in the currency of the search; `prices` go before it."""
    prices: Annotated[tuple[KeptPrice, ...], Field(max_length=100)] = ()
    """One for each currency."""
    panel_cm2: Measure = None
    volume_cm3: Measure = None
    mass_g: Measure = None
    height_mm: Measure = None
    governing: Name = ""
    margin: Annotated[float, Field(ge=0, le=1e12)] = 0.0


class KeptBuilds(Section):
    """A search for a build: its limits, and what it found."""

    limits: KeptLimits = KeptLimits()
    design: Name = ""
    """Hash of the inputs that it was made for."""
    tried: Annotated[int, Field(ge=0)] = 0
    running: Annotated[int, Field(ge=0)] = 0
    currency: Name = ""
    """As older files have it; empty where prices were relative."""
    currencies: Annotated[tuple[Name, ...], Field(max_length=100)] = ()
    """Of the prices; that of most of one's own parts first."""
    front: Annotated[tuple[KeptBuild, ...], Field(max_length=1000)] = ()


class StudyFile(Section):
    """What `study.json` says; the design itself lies beside it, as `scenario.json`."""

    format: Literal["gloaming-study"] = FORMAT
    version: Literal[1] = VERSION
    runs: tuple[KeptRun, ...] = ()
    same_meters: bool = True
    """Whether later runs were logged with the meters of the others."""
    known: tuple[KnownShare, ...] = ()
    designs: Annotated[tuple[KeptDesign, ...], Field(max_length=MOST_DESIGNS - 1)] = ()
    sweeps: tuple[KeptSweep, ...] = ()
    builds: KeptBuilds | None = None
