"""Tips that are shown as they are written."""

from __future__ import annotations

from html import escape

from PySide6.QtGui import Qt


def plain_tip(text: str) -> str:
    """A tip to be shown letter by letter, also where Qt would take it for a page.

    Labels have a format for that, tips have none.
    """
    if not Qt.mightBeRichText(text):
        return text
    return f'<p style="white-space: pre-wrap">{escape(text)}</p>'
