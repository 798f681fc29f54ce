"""The tour walks its steps and remembers that it was seen."""

from explorer.state.settings import SettingsStore
from explorer.state.tour import STEPS, Tour


def test_it_walks_from_the_first_step_to_the_last_and_back():
    tour = Tour()
    seen = [tour.step]
    while tour.forward():
        seen.append(tour.step)
    assert tuple(seen) == STEPS
    assert tour.is_last
    while tour.back():
        pass
    assert tour.is_first


def test_it_says_where_it_is():
    tour = Tour()
    tour.forward()
    assert tour.place == "2 of 6"


def test_it_begins_with_the_guide_and_ends_with_the_questions():
    keys = [s.key for s in STEPS]
    assert keys == ["guide", "knobs", "break_even", "sign", "trace", "drawers"]
    assert all(s.title and s.text.endswith(".") for s in STEPS)


def test_once_seen_it_is_seen_at_the_next_start(tmp_path):
    place = tmp_path / "settings.ini"
    assert not SettingsStore(place).settings.tour_seen
    SettingsStore(place).update(tour_seen=True)
    assert SettingsStore(place).settings.tour_seen
