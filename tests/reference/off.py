"""One number of the product beside the reference's."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Off:
    """One number of the product beside the reference's."""

    name: str
    share: float
    """Difference over what is allowed."""
    seen: float
    right: float
    time_s: float = 0.0
