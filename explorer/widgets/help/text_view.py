"""Rich text that can be read with the keyboard and follows the theme."""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtGui import (
    QFocusEvent,
    QPaintEvent,
    QPalette,
    QTextCharFormat,
    QTextCursor,
    QTextFormat,
)
from PySide6.QtWidgets import QFrame, QTextBrowser, QWidget

from explorer.state import theme
from explorer.state.theme import tokens_of
from explorer.widgets.outlined_list import paint_ring
from explorer.widgets.slim_scroll import SlimBar


class TextView(QTextBrowser):
    """A page of help; keeps what it shows so that a new theme can draw it again."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._html, self._markdown = "", ""
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setVerticalScrollBar(SlimBar())
        self.setOpenExternalLinks(False)
        self.setOpenLinks(False)
        self.setAccessibleName(name)
        self.document().setDefaultFont(theme.font("body"))
        self.document().setDocumentMargin(4)
        self._colour()

    def show_html(self, html: str) -> None:
        """Show a page from its beginning."""
        if html != self._html:
            self._html, self._markdown = html, ""
            self.document().setDefaultStyleSheet(self._style())
            self.setHtml(html)

    def show_markdown(self, text: str) -> None:
        """Show a Markdown page from its beginning."""
        if text != self._markdown:
            self._html, self._markdown = "", text
            self.setMarkdown(text)
            self._space_out()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the page, and a ring while it has the keyboard."""
        super().paintEvent(event)
        paint_ring(self)

    def scrollContentsBy(self, dx: int, dy: int) -> None:
        """Scroll the page, and leave the ring where it is."""
        super().scrollContentsBy(dx, dy)
        self.viewport().update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show the ring."""
        super().focusInEvent(event)
        self.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Take the ring away."""
        super().focusOutEvent(event)
        self.viewport().update()

    def changeEvent(self, event: QEvent) -> None:
        """Draw the page in the colours of a new theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "_html"):
            self._colour()
            html, self._html = self._html, ""
            if html:
                self.show_html(html)

    def _space_out(self) -> None:
        """Markdown comes without room between its paragraphs and with very large headings."""
        block = self.document().begin()
        while block.isValid():
            cursor = QTextCursor(block)
            level = block.blockFormat().headingLevel()
            layout = block.blockFormat()
            in_list = block.textList() is not None
            code = layout.hasProperty(QTextFormat.Property.BlockCodeFence) or (
                layout.nonBreakableLines()
            )
            layout.setTopMargin(14.0 if level else 0.0)
            layout.setBottomMargin(0.0 if code else 4.0 if level or in_list else 8.0)
            if code:
                layout.setLeftMargin(16.0)
            cursor.setBlockFormat(layout)
            if level:
                cursor.select(QTextCursor.SelectionType.BlockUnderCursor)
                letters = QTextCharFormat()
                letters.setFont(theme.font("heading" if level < 3 else "body", bold=True))
                cursor.mergeCharFormat(letters)
            block = block.next()

    def _colour(self) -> None:
        tokens = tokens_of(self.palette())
        palette = self.palette()
        if palette.color(QPalette.ColorRole.Base) != tokens.color("card"):
            palette.setColor(QPalette.ColorRole.Base, tokens.color("card"))
            palette.setColor(QPalette.ColorRole.Text, tokens.color("ink"))
            self.setPalette(palette)

    def _style(self) -> str:
        small, heading = theme.TEXT_SIZES["body"] + 2, theme.TEXT_SIZES["heading"]
        return (
            f"h2 {{ font-size: {heading}px; margin-top: 16px; margin-bottom: 4px; }}"
            f"h3 {{ font-size: {small}px; margin-top: 12px; margin-bottom: 4px; }}"
            "p { margin-top: 4px; margin-bottom: 8px; }"
        )
