"""Parts of one's own: what is saved comes back, what is damaged is told, nothing is lost."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explorer.files.disk import FileError
from explorer.files.part_json import (
    dump_part,
    is_part,
    load_part,
    parse_part,
    part_schema,
    save_part,
)
from explorer.files.scenario_json import dump_scenario, parse_scenario, save_scenario
from explorer.files.shelf import Shelf
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.part import (
    KINDS,
    SECTION_OF,
    is_changed,
    part_from,
    section_of,
    taken,
)
from explorer.scenario.storage import CapacitorStore, CellStore
from explorer.scenario.supply import DirectCharger, Panels, SheetPoint

SHEET = (SheetPoint(open_circuit_V=4.6), SheetPoint(illuminance_lx=1000.0, short_circuit_A=1e-4))
DESIGNS = (
    Scenario(panels=Panels(count=3, in_series=2, data_sheet=SHEET), store=CapacitorStore()),
    Scenario(store=CellStore(), charger=DirectCharger(full_V=4.1)),
)
KNOWN = {
    "title": "Fern A24", "source": "Data sheet of 2026", "date": "2026-03-01", "price": 4.2,
    "currency": "EUR", "volume_cm3": 3.5, "mass_g": 8.0, "area_cm2": 24.0,
}  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("design", DESIGNS)
def test_a_part_comes_back_as_it_was_saved(tmp_path, kind, design):
    shelf = Shelf(tmp_path / "new" / "parts")
    part = part_from(kind, getattr(design, SECTION_OF[kind]), **KNOWN)
    path = shelf.add(part)
    assert load_part(path) == part
    assert [one.part for one in shelf.kept()] == [part]
    assert is_part(path)


def test_a_part_of_panels_is_one_panel_and_leaves_the_number_to_the_scenario():
    panels = DESIGNS[0].panels
    part = part_from("panel", panels, title="Fern")
    assert (part.panels.count, part.panels.in_series) == (1, 1)
    again = taken(part, panels)
    assert (again.count, again.in_series) == (3, 2)
    assert again.model_copy(update={"part": None}) == panels


def test_a_scenario_keeps_title_and_source_and_tells_a_changed_part():
    part = part_from("store", CellStore(), title="Hearth 40", source="Bench, March")
    scenario = with_value(DESIGNS[1], "store", taken(part, DESIGNS[1].store))
    again = parse_scenario(dump_scenario(scenario), "made.json")
    assert again == scenario
    assert (again.store.part.title, again.store.part.source) == ("Hearth 40", "Bench, March")
    assert not is_changed(again.store)
    assert is_changed(with_value(again, "store.resistance_ohm", 2.0).store)
    assert not is_changed(with_value(again, "store.years_in_service", 3.0).store)
    panel = taken(part_from("panel", Panels(), title="Fern"), again.panels)
    design = with_value(again, "panels", panel)
    assert not is_changed(with_value(design, "panels.count", 7).panels)
    assert is_changed(with_value(design, "panels.cells_in_series", 9).panels)
    assert part_from("store", again.store, title="Other").store.part is None


DAMAGES = [
    (lambda d: d.update(format="gloaming-scenario"), 'must be "gloaming-part", found'),
    (lambda d: d.update(version=3), "reads versions up to 2"),
    (lambda d: d.update(version="1"), "version must be a whole number from 1 to 2"),
    (lambda d: d.update(kind="lamp"), 'kind is "lamp"; allowed is "panel", "charger", "store" or'),
    (lambda d: d.pop("kind"), "kind is nothing"),
    (lambda d: d.update(kind=["store"]), 'kind is ["store"]; allowed is'),
    (lambda d: d.update(title=" "), "title must not be empty"),
    (lambda d: d.update(price="4"), "price"),
    (lambda d: d.update(colour="red"), "colour is not a known key here"),
    (lambda d: d["store"].update(kind="jar"), "store.kind"),
    (lambda d: d["store"].update(capacity_mAh=-1.0), "store.capacity_mAh is -1.0; allowed is 0.1"),
    (lambda d: d["store"].update(resistance_ohm=float("nan")), "only finite numbers"),
]


@pytest.mark.parametrize(("damage", "said"), DAMAGES)
def test_a_damaged_part_is_told_of_by_file_and_key(damage, said):
    data = json.loads(dump_part(part_from("store", CellStore(), title="Hearth")))
    damage(data)
    with pytest.raises(FileError) as caught:
        parse_part(json.dumps(data), "hearth.json")
    assert str(caught.value).startswith("hearth.json")
    assert said in str(caught.value)


@given(st.data())
def test_a_file_that_is_cut_anywhere_is_a_sentence(data):
    text = dump_part(part_from("load", Scenario().load, title="Probe"))
    cut = data.draw(st.integers(0, len(text) - 3))
    with pytest.raises(FileError, match=r"\.$"):
        parse_part(text[:cut], "probe.json")


def test_a_damaged_file_on_the_shelf_hides_no_other(tmp_path):
    shelf = Shelf(tmp_path)
    part = part_from("store", CellStore(), title="Hearth")
    sound = shelf.add(part)
    shelf.add(part_from("load", Scenario().load, title="Probe"))
    assert shelf.stores() == (part,)
    (tmp_path / "broken.json").write_text("{", encoding="utf-8")
    kept = {one.path.name: one for one in shelf.kept()}
    assert kept[sound.name].part is not None
    assert kept["broken.json"].part is None
    assert "ends too early" in kept["broken.json"].fault


def test_parts_of_one_title_have_files_of_their_own_and_are_handled_alone(tmp_path):
    shelf, elsewhere = Shelf(tmp_path / "shelf"), tmp_path / "given.json"
    part = part_from("store", CellStore(), title="Hearth / 40 mAh")
    first, second = shelf.add(part), shelf.add(part)
    assert (first.name, second.name) == ("hearth-40-mah.json", "hearth-40-mah-2.json")
    third = shelf.duplicate(first)
    assert load_part(third).title == "Hearth / 40 mAh 2"
    shelf.replace(first, part.model_copy(update={"price": 3.0}))
    shelf.give_out(first, elsewhere)
    shelf.delete(first)
    assert [one.path for one in shelf.kept()] == sorted([second, third])
    back = shelf.take_in(elsewhere)
    assert load_part(back).price == 3.0
    assert elsewhere.exists()


def test_a_shelf_that_cannot_be_written_is_a_sentence(tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(FileError, match="cannot be made"):
        Shelf(tmp_path / "file").add(part_from("store", CellStore(), title="Hearth"))
    assert Shelf(tmp_path / "nothing").kept() == ()


def test_the_schema_knows_every_kind():
    found = json.dumps(part_schema())
    for kind, section in SECTION_OF.items():
        assert f'"{kind}"' in found
        assert f'"{section}"' in found


def test_what_a_part_holds_is_the_section_of_a_scenario():
    part = part_from("charger", DESIGNS[1].charger, title="Wren")
    assert section_of(part) == DESIGNS[1].charger


def test_parts_beside_the_scenario_stand_behind_those_of_the_shelf(tmp_path):
    shelf = Shelf(tmp_path / "shelf", tmp_path)
    part = part_from("store", Scenario().store, title="Bank in the drawer")
    own = part.model_copy(update={"title": "Bank on the shelf"})
    save_part(tmp_path / "bank.json", part)
    save_scenario(tmp_path / "fern.json", Scenario())
    (tmp_path / "notes.json").write_text("{", encoding="utf-8")
    shelf.add(own)
    assert [one.part.title for one in shelf.kept()] == ["Bank on the shelf", "Bank in the drawer"]
    assert {one.title for one in shelf.stores()} == {"Bank on the shelf", "Bank in the drawer"}
