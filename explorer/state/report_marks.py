"""What Qt leaves out of a PDF: bookmarks, and signs that are told letter by letter."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import NamedTuple, cast

from pypdf import PdfWriter
from pypdf.generic import DictionaryObject, Fit, StreamObject

_POINTS = 72.0 / 25.4
"""Of type, in a millimetre."""
_SPELLED = {
    b"<FB00>": b"<00660066>", b"<FB01>": b"<00660069>", b"<FB02>": b"<0066006C>",
    b"<FB03>": b"<006600660069>", b"<FB04>": b"<00660066006C>", b"<0009>": b"<0020>",
}  # fmt: skip
"""What a font tells a sign to be, and what it is: the letters that are drawn as one in pictures,
whose fonts cannot be told to leave them apart, and the space, which Qt calls a tab."""


class Mark(NamedTuple):
    """Where a bookmark leads."""

    text: str
    page: int
    """Counted from 1."""
    height: float
    """Above the foot of the paper. [mm]"""


def finished(pdf: bytes, marks: Sequence[Mark]) -> bytes:
    """A document with its bookmarks, whose words are found by a search.

    Parameters
    ----------
    pdf : bytes
        As Qt wrote it.
    marks : sequence of Mark
        In the order of the pages.
    """
    writer = PdfWriter(clone_from=BytesIO(pdf))
    for page in writer.pages:
        for font in cast("DictionaryObject", page["/Resources"]).get("/Font", {}).values():
            _spell(font.get_object())
    for mark in marks:
        place = Fit.xyz(top=mark.height * _POINTS)
        writer.add_outline_item(title=mark.text, page_number=mark.page - 1, fit=place)
    if marks:
        writer.page_mode = "/UseOutlines"
    made = BytesIO()
    writer.write(made)
    return made.getvalue()


def _spell(font: DictionaryObject) -> None:
    """Tell what the signs of a font are, letter by letter."""
    if "/ToUnicode" in font:
        table = cast("StreamObject", font["/ToUnicode"].get_object())
        data = table.get_data()
        for sign, letters in _SPELLED.items():
            data = data.replace(sign, letters)
        table.set_data(data)
