"""Panels and store that the guide chooses, and what they must reach."""

from __future__ import annotations

from dataclasses import dataclass

from explorer.scenario import parts
from explorer.scenario.guide.answers import Answers, MattersKey
from explorer.scenario.guide.questions import DARK
from explorer.scenario.model import Margins
from explorer.scenario.parts import StoreFamily
from explorer.scenario.supply import Technology

AGED_YEARS = 3.0
CAUTIOUS_MARGIN, CAUTIOUS_DAYS = 2.5, 4.0
"""Where reliability matters most (own judgement)."""
SOON_H, PATIENT_H = 2.0, 168.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """What the guide chooses itself."""

    panels: int
    area_cm2: float
    """Of one panel."""
    family: str
    """Key of a store family."""
    size: float
    """Capacitance of the whole store, or capacity for a cell. [F or mAh]"""

    @property
    def panel_cm2(self) -> float:
        """Area of all panels. [cm²]"""
        return self.panels * self.area_cm2

    @property
    def store_family(self) -> StoreFamily:
        """The family of its store."""
        return family_of(self.family)

    @property
    def store_cm3(self) -> float:
        """Volume of the bare store. [cm³]"""
        return self.store_family.volume_cm3(self.size)


START_DESIGN = Design(panels=1, area_cm2=30.0, family="standard_supercapacitor", size=1.0)


def family_of(key: str) -> StoreFamily:
    """The family of stores with this key."""
    return next(f for f in parts.store_families() if f.key == key)


def technology_of(matters: MattersKey) -> Technology:
    """The kind of panel that suits what matters."""
    return "gallium_arsenide" if matters == "smallest" else "amorphous"


def margins_of(answers: Answers) -> Margins:
    """What a design for these answers must reach."""
    closure = DARK[answers.dark][2]
    if answers.matters == "never_fails":
        return Margins(
            design_margin=CAUTIOUS_MARGIN, closure_days=max(closure, CAUTIOUS_DAYS)
        )
    start = SOON_H if answers.matters == "soon" else PATIENT_H
    return Margins(closure_days=closure, start_within_h=start)
