"""The drawer of the year: what it shows, a day by keys, an aged store by one click."""

import numpy as np
import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtTest import QTest

from explorer.advice.case import Case
from explorer.advice.year.view import year_view, year_views
from explorer.scenario.model import Scenario
from explorer.state import theme
from explorer.widgets.drawers.year_drawer import AGE, YearDrawer
from explorer.widgets.drawers.year_paint import name_box, with_room_above
from explorer.widgets.drawers.year_picture import YearPicture
from explorer.words.year import NO_YEAR
from tests.advice.years import plant_label


@pytest.fixture(scope="module")
def view():
    return year_view(plant_label())


@pytest.fixture
def drawer(qtbot, document, jobs, view):
    made = YearDrawer(document, jobs)
    qtbot.addWidget(made)
    made.resize(760, 700)
    made.show()
    made.show_step(view)
    return made


def test_a_scenario_without_a_year_says_so():
    assert list(year_views(Case(Scenario()), lambda: False)) == [None]
    assert "“A year of daylight” under “Lighting times”" in NO_YEAR  # as the form calls them


def test_keys_move_the_day_and_home_finds_the_lowest(drawer, view):
    picture = drawer.picture_of_year
    lowest = int(np.argmin(view.calendar.lowest_v))
    assert picture.day == lowest
    QTest.keyClick(picture, Qt.Key.Key_Left)
    QTest.keyClick(picture, Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    assert picture.day == lowest - 8
    QTest.keyClick(picture, Qt.Key.Key_Home)
    assert picture.day == lowest
    assert "December" in drawer.day_line.text() or "January" in drawer.day_line.text()


def test_the_answer_counts_the_days_off_by_date(drawer, view):
    assert f"Off on {view.off_days} of 365 days" in drawer.answer.text()
    assert "from 1 January, 16:00" in drawer.dark_line.text()


@pytest.mark.parametrize(("bottom", "height"), [(0.0, 60.0), (0.0, 140.0), (2.3, 87.0)])
def test_the_name_of_full_stands_above_a_store_that_is_full_all_year(bottom, height):
    room = QRectF(40.0, 20.0, 500.0, height)
    top = with_room_above(bottom, 2.7, height)
    y = room.bottom() - (2.7 - bottom) / (top - bottom) * height
    curve = np.linspace(40.0, 540.0, 365), np.full((2, 365), y + 2.0)
    box = name_box(room, y, 60.0, curve, [])
    assert box.bottom() < y
    assert room.contains(box)


def test_a_name_stays_in_the_middle_below_its_line_where_no_curve_is():
    room = QRectF(40.0, 20.0, 500.0, 100.0)
    curve = np.linspace(40.0, 540.0, 365), np.full((2, 365), 30.0)
    box = name_box(room, 100.0, 60.0, curve, [])
    assert box.top() > 100.0
    assert box.center().x() == room.center().x()


def test_one_click_judges_an_aged_store(drawer, document):
    assert document.scenario.store.years_in_service == 0.0
    drawer.age.click()
    assert document.scenario.store.years_in_service == 10.0
    document.undo_stack.undo()
    assert AGE.endswith("years_in_service")


def test_the_numbers_leave_by_month_and_by_hour(drawer):
    months = drawer.table("months")
    assert months["month"][0] == "2027-01"
    assert len(drawer.table("hours")["store_V"]) == 8760


@pytest.mark.parametrize("tokens", theme.ALL_TOKENS, ids=lambda t: t.name)
def test_dark_weeks_are_seen_at_a_glance(qtbot, view, tokens):
    """Hours off have a colour of their own, hatched, where they were and nowhere else."""
    picture = YearPicture()
    qtbot.addWidget(picture)
    picture.setPalette(theme.palette_of(tokens))
    picture.resize(1460, 700)
    picture.set_view(view)
    picture.set_day(180)
    image = picture.grab().toImage()
    room = picture._rooms()[2]
    off = tokens.color("falls_short")
    calendar = view.calendar
    days, wide = len(calendar.works), room.width() / len(calendar.works)
    day = int(np.argmin(calendar.connected.sum(axis=1)))

    def reds(at):
        x = room.left() + (at + 0.5) * wide
        rows = range(int(room.top()) + 4, int(room.bottom()) - 4)
        return sum(image.pixelColor(int(x), y) == off for y in rows)

    assert not calendar.connected[day].all()
    assert reds(day) > 5
    assert reds(days // 2 - 10) == 0
