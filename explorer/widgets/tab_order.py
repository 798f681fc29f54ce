"""Tab goes where the eye goes, also through what was built later than its neighbours."""

from __future__ import annotations

import itertools

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLayout, QWidget


def tab_stops(part: QWidget) -> list[QWidget]:
    """What takes the focus with Tab within a part, itself included, from top to bottom."""
    found = [part] if part.focusPolicy() & Qt.FocusPolicy.TabFocus else []
    layout = part.layout()
    return found + (_stops_of(layout) if layout is not None else [])


def splice_tabs(part: QWidget) -> None:
    """Put what is in a part into its place among the Tab stops of its column.

    What Qt is given last comes last with Tab, wherever it stands. The place is found from the
    layout above: what comes before the part there comes before it with Tab.
    """
    stops = tab_stops(part)
    before = _stop_before(part)
    for one, next_one in itertools.pairwise([before, *stops] if before is not None else stops):
        QWidget.setTabOrder(one, next_one)


def _stop_before(part: QWidget) -> QWidget | None:
    """The last Tab stop that the layouts above show before a part."""
    node = part
    while (above := node.parentWidget()) is not None and (layout := above.layout()) is not None:
        stops = _stops_of(layout, until=node)
        if stops:
            return stops[-1]
        node = above
    return None


def _stops_of(layout: QLayout, until: QWidget | None = None) -> list[QWidget]:
    found: list[QWidget] = []
    for place in range(layout.count()):
        item = layout.itemAt(place)
        assert item is not None
        widget, inner = item.widget(), item.layout()
        if until is not None and (widget is until or (inner and inner.indexOf(until) >= 0)):
            return found + (_stops_of(inner, until) if inner else [])
        if widget is not None:
            found += tab_stops(widget)
        elif inner is not None:
            found += _stops_of(inner)
    return found
