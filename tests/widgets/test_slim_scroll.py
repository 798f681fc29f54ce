"""A column's scroll bar is there only while the column is longer than its room."""

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from explorer.widgets.slim_scroll import WIDTH, SlimScroll

WORDS = " ".join(["seven"] * 60)


def test_a_bar_that_came_with_a_longer_text_goes_with_it(qtbot):
    """At a width at which the text fits, and would not beside the bar."""
    inner = QWidget()
    label = QLabel(WORDS, wordWrap=True)
    QVBoxLayout(inner).addWidget(label)
    scroll = SlimScroll(inner)
    qtbot.addWidget(scroll)
    scroll.show()
    height = inner.heightForWidth
    width = next(w for w in range(200, 600) if height(w) < height(w - WIDTH))
    scroll.resize(width, height(width))
    bar = scroll.verticalScrollBar()
    qtbot.waitUntil(lambda: not bar.isVisible())
    label.setText(f"{WORDS} {WORDS} {WORDS}")
    qtbot.waitUntil(bar.isVisible)
    label.setText(WORDS)
    qtbot.waitUntil(lambda: not bar.isVisible())
    assert inner.width() == width
