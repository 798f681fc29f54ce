import numpy as np
from PySide6.QtCore import QRectF

from explorer.widgets.plots.free_place import free_place

FALLING = np.array([0.0, 100.0, 200.0]), np.array([10.0, 60.0, 110.0])
STEP = np.array([0.0, 50.0, 50.0, 100.0]), np.array([20.0, 20.0, 80.0, 80.0])
GAP = np.array([0.0, 40.0, 60.0, 100.0]), np.array([50.0, np.nan, np.nan, 50.0])


def box(left, top, width=40.0, height=12.0):
    return QRectF(left, top, width, height)


def test_the_preferred_place_is_taken_where_nothing_crosses_it():
    assert free_place([box(0, 80), box(0, 60)], [FALLING], []) == 0


def test_a_curve_that_only_passes_between_two_of_its_points_counts():
    # At 60 to 100 pixels across, the curve is 40 to 60 down.
    assert free_place([box(60, 44), box(60, 80)], [FALLING], []) == 1


def test_an_upright_stroke_counts():
    assert free_place([box(30, 40), box(60, 40)], [STEP], []) == 1


def test_where_a_line_is_parted_a_label_may_stand():
    assert free_place([box(2, 45, 20), box(45, 45, 10)], [GAP], []) == 1


def test_labels_keep_clear_of_each_other():
    assert free_place([box(0, 80), box(0, 95)], [], [box(10, 85, height=6.0)]) == 1


def test_where_all_is_crossed_the_least_covered_is_taken():
    assert free_place([box(0, 0, 100, 100), box(90, 50, 20, 12)], [FALLING], []) == 1


def test_a_line_along_the_letters_covers_more_than_one_that_dips_into_a_corner():
    along = np.array([0.0, 40.0]), np.array([26.0, 26.0])
    dip = np.array([60.0, 64.0, 68.0]), np.array([0.0, 24.0, 0.0])
    assert free_place([box(0, 20), box(60, 20)], [along, dip], []) == 1
