"""How large something is, beside things that everybody has held.

Areas after ISO 216 (A4 to A6) and ISO/IEC 7810 (bank card), volumes of batteries after IEC 60086;
a stamp, a pea, a matchbox and a drink can by measuring one (common practice, no source).
"""

from __future__ import annotations

from math import log

from explorer.text import texts

_AREAS: tuple[tuple[float, str], ...] = texts((
    (1.5, "a fingernail"),
    (5.5, "a postage stamp"),
    (12.0, "two postage stamps"),
    (23.0, "half a bank card"),
    (46.0, "a bank card"),
    (92.0, "two bank cards"),
    (155.0, "a postcard"),
    (311.0, "half a sheet of writing paper"),
    (624.0, "a sheet of writing paper (A4)"),
    (1247.0, "two sheets of writing paper (A4)"),
))  # fmt: skip
_VOLUMES: tuple[tuple[float, str], ...] = texts((
    (0.05, "a lentil"),
    (0.25, "a pea"),
    (1.0, "a coin cell of 20 mm"),
    (3.9, "an AAA battery"),
    (8.3, "an AA battery"),
    (26.0, "a matchbox"),
    (56.0, "a D battery"),
    (330.0, "a drink can"),
    (1000.0, "a carton of milk"),
))  # fmt: skip


def like_area(area_cm2: float) -> str:
    """A flat thing of about that area.

    Examples
    --------
    >>> like_area(60.0)
    'a bank card'
    """
    return _nearest(_AREAS, area_cm2)


def like_volume(volume_cm3: float) -> str:
    """A body of about that volume.

    Examples
    --------
    >>> like_volume(7.0)
    'an AA battery'
    """
    return _nearest(_VOLUMES, volume_cm3)


def _nearest(table: tuple[tuple[float, str], ...], size: float) -> str:
    return min(table, key=lambda line: abs(log(line[0] / max(size, 1e-9))))[1]
