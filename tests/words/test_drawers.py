

from explorer.advice.edges import Edge, Edges
from explorer.advice.territory import Axis
from explorer.scenario.model import Scenario, with_value
from explorer.state.drawer_steps import same_but_for
from explorer.words import drawers as drawer_text

LIGHT = Axis(
    path="light.illuminance_lx", label="Illuminance", unit="lx",
    values=(100.0, 200.0, 400.0, 800.0),
)
PANELS = Axis(path="panels.count", label="Panels", unit="", values=(1.0, 2.0))


def edges(axis, *found, at_low=False, at_high=False):
    """Edges between values that hold and their neighbours that do not."""
    return Edges(
        path=axis.path, low=axis.values[0], high=axis.values[-1], at_low=at_low, at_high=at_high,
        edges=tuple(Edge(value=value, beyond=beyond) for value, beyond in found),
    )


FROM_200 = edges(LIGHT, (200.0, 190.0), at_high=True)
FROM_280 = edges(LIGHT, (280.0, 270.0), at_high=True)


def test_the_summary_reads_the_row_of_the_present_point():
    assert drawer_text.territory_summary(LIGHT, PANELS, 2.0, FROM_280, FROM_280) == (
        "With 2 panels: runs from 280 lx."
    )
    nowhere = edges(LIGHT)
    assert drawer_text.territory_summary(LIGHT, PANELS, 1.0, nowhere, nowhere) == (
        "Falls short at every illuminance from 100 lx to 800 lx with 1 panel."
    )


def test_the_summary_tells_where_it_works_under_its_margin():
    assert drawer_text.territory_summary(LIGHT, PANELS, 2.0, FROM_200, FROM_280) == (
        "With 2 panels: runs from 280 lx; works, below the required margin, from 200 lx."
    )


def test_more_can_be_worse_and_the_summary_says_so():
    between = edges(LIGHT, (150.0, 140.0), (560.0, 570.0))
    assert drawer_text.territory_summary(LIGHT, PANELS, 2.0, between, between) == (
        "With 2 panels: runs between 150 lx and 560 lx."
    )


def test_where_nothing_changes_the_summary_names_what_was_looked_at():
    everywhere = edges(LIGHT, at_low=True, at_high=True)
    assert drawer_text.territory_summary(LIGHT, PANELS, 2.0, everywhere, everywhere) == (
        "With 2 panels: runs everywhere from 100 lx to 800 lx."
    )


def test_a_count_is_named_as_one():
    from_2 = edges(PANELS, (2.0, 1.0), at_high=True)
    assert drawer_text.territory_summary(PANELS, LIGHT, 300.0, from_2, from_2) == (
        "With illuminance 300 lx: runs from 2."
    )


def test_while_the_row_is_looked_at_no_value_is_named():
    assert drawer_text.row_pending(PANELS, 2.0) == (
        "With 2 panels: looking for where the verdict changes…"
    )


def test_a_store_resized_along_its_range_is_the_same_but_for_its_size():
    one = Scenario()
    other = one
    for farads in (1.7, 0.3, 2.9, 0.77):
        other = with_value(other, "store.capacitance_F", farads)
    other = with_value(other, "light.illuminance_lx", 777.0)
    paths = ("store.capacitance_F", "light.illuminance_lx")
    assert same_but_for(paths, one, other)
    assert not same_but_for(paths, one, with_value(other, "load.sleep_A", 9e-6))
    assert not same_but_for(("store.capacity_mAh",), one, other)
