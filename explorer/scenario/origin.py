"""Where a panel, charger, store or load of a scenario was taken from."""

from __future__ import annotations

from pydantic import BaseModel

from explorer.scenario.fields import Name, Section, choice, quantity
from explorer.scenario.measured import MeasuredValue


class PartOrigin(Section):
    """The part of one's own that a section was taken from; the section itself holds its values."""

    title: Name = choice("", "Part", "Title of the part that was taken.")
    source: Name = choice("", "Source of its values", "Where the values of the part come from.")
    fingerprint: Name = choice(
        "", "Fingerprint", "Of the values as they were taken; tells whether they were changed."
    )
    price: float | None = quantity(None, "Price of the part", "", 0, 1e9, "Of one part.")
    currency: Name = choice("", "Currency of that price", "Such as EUR.")
    measured: tuple[MeasuredValue, ...] = choice(
        (), "Measured values", "Values that were measured of this very part, each with its ±."
    )


class FromPart(BaseModel):
    """Mixed into the sections that may be taken from a part."""

    part: PartOrigin | None = choice(
        None, "Part", "The part of one's own that was taken; empty where none was."
    )
