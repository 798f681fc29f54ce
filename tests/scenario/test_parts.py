import importlib.util
import shutil
from typing import get_args

import numpy as np
import pytest

from explorer import resource_files
from explorer.resource_files import read_notes, read_table
from explorer.scenario import parts
from explorer.scenario.chemistry import ChemistryName
from explorer.scenario.fields import describe
from explorer.scenario.light import Source
from explorer.scenario.supply import Technology

SOURCES = get_args(Source)
TECHNOLOGIES = get_args(Technology)
CHEMISTRIES = get_args(ChemistryName)


@pytest.mark.parametrize("source", SOURCES)
def test_every_source_of_a_scenario_has_a_spectrum_with_its_origin(source):
    spectrum = parts.spectrum(source)
    assert spectrum.wavelength_nm[[0, -1]].tolist() == [300.0, 1200.0]
    assert spectrum.relative.shape == spectrum.photopic.shape == spectrum.wavelength_nm.shape
    assert (spectrum.relative >= 0).all()
    assert spectrum.origin
    assert spectrum.licence
    assert spectrum.kind in {"tabulated", "modelled"}
    assert 0.001 < parts.irradiance_per_lux(source) < 0.05


@pytest.mark.parametrize("technology", TECHNOLOGIES)
def test_every_technology_of_a_scenario_has_a_cell_that_says_how_it_is_known(technology):
    cell = parts.cell(technology)
    assert cell.technology == technology
    assert (np.diff(cell.eqe_wavelength_nm) > 0).all()
    assert (cell.eqe >= 0).all()
    assert (cell.eqe < 1).all()
    assert cell.eqe[-1] < 0.01
    assert cell.voc_temperature_v_per_k < 0
    known = ("tabulated", "modelled", "from memory", "measured")
    assert cell.eqe_kind.startswith(known)
    assert cell.diode_kind.startswith(known)
    assert cell.origin
    assert cell.licence


@pytest.mark.parametrize("technology", TECHNOLOGIES)
def test_no_cell_answers_to_photons_below_its_gap(technology):
    cell = parts.cell(technology)
    edge_nm = 1239.84 / cell.band_gap_ev
    beyond = np.interp(edge_nm + 60.0, cell.eqe_wavelength_nm, cell.eqe, right=0.0)
    assert beyond < 0.1


@pytest.mark.parametrize("name", CHEMISTRIES)
def test_a_chemistry_rises_all_the_way_from_empty_to_full(name):
    chemistry = parts.chemistry(name)
    assert chemistry.state_of_charge.size >= 101
    assert chemistry.state_of_charge[[0, -1]].tolist() == [0.0, 1.0]
    assert (np.diff(chemistry.state_of_charge) > 0).all()
    assert (np.diff(chemistry.open_circuit_v) > 0).all()
    assert chemistry.minimum_v < chemistry.maximum_v


def test_the_titanate_cell_admits_that_it_is_modelled_from_memory():
    titanate = parts.chemistry("titanate")
    assert titanate.kind == "modelled, from memory"
    assert titanate.maximum_v < parts.chemistry("lithium_ion").minimum_v


def test_parts_are_read_once():
    assert parts.spectrum("led_4000") is parts.spectrum("led_4000")
    assert parts.cell("amorphous") is parts.cell("amorphous")


def test_a_missing_source_is_reported_by_its_file():
    with pytest.raises(FileNotFoundError, match=r"spectra/candle\.csv is missing"):
        parts.spectrum("candle")


def test_the_answer_at_500_lx_gives_watts_and_every_cells_current():
    answer = parts.light_answer("led_4000", 500.0)
    assert set(answer.photocurrent_a_per_m2) == set(TECHNOLOGIES)
    assert answer.irradiance_w_per_m2 == pytest.approx(500.0 * parts.irradiance_per_lux("led_4000"))
    assert answer.photocurrent_a_per_m2["crystalline"] == pytest.approx(
        500.0 * parts.photocurrent_per_lux("led_4000", "crystalline")
    )
    double = parts.light_answer("led_4000", 1000.0)
    assert double.irradiance_w_per_m2 == pytest.approx(2.0 * answer.irradiance_w_per_m2)


def test_silicon_gains_from_a_hot_filament_and_amorphous_cells_hardly_do():
    def gain(technology):
        return parts.photocurrent_per_lux("incandescent", technology) / (
            parts.photocurrent_per_lux("led_4000", technology)
        )

    assert gain("crystalline") > 5.0
    assert gain("amorphous") < 1.5


def test_places_carry_their_source_and_warn_about_the_work_surface():
    places = parts.places()
    assert len({place.name for place in places}) == len(places) >= 15
    for place in places:
        assert 1.0 <= place.illuminance_lx <= 2000.0
        assert place.source
        assert place.note
        if place.group == "design":
            assert place.note.startswith("Lighting design value on the")
        if place.group == "dim":
            assert place.source.startswith("own judgement")
    assert {"design", "wall", "daylight", "dim"} == {place.group for place in places}


def test_a_table_is_read_with_notes_and_columns(tmp_path):
    path = tmp_path / "table.csv"
    path.write_text("# origin: a bench: the left one\n#\ntime_s,level_lx\n0, 1\n1,2.5\n")
    table = read_table(path)
    assert list(table) == ["time_s", "level_lx"]
    assert table["level_lx"].tolist() == [1.0, 2.5]
    assert read_notes(path) == {"origin": "a bench: the left one"}


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("time_s\n", "no rows"),
        ("time_s,level_lx\n1\n", "needs 2 values"),
        ("time_s\nnoon\n", "something else than numbers"),
    ],
)
def test_a_broken_table_is_refused_with_the_reason(tmp_path, text, reason):
    path = tmp_path / "table.csv"
    path.write_text(text)
    with pytest.raises(ValueError, match=reason):
        read_table(path)


def test_a_missing_table_is_named(tmp_path):
    with pytest.raises(FileNotFoundError, match=r"no table at .*nothing\.csv"):
        read_table(tmp_path / "nothing.csv")


def _installed_at(package):
    """The module as it would be imported from another folder."""
    package.mkdir()
    shutil.copy(resource_files.__file__, package)
    spec = importlib.util.spec_from_file_location("elsewhere", package / "resource_files.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_resources_are_found_in_a_checkout(tmp_path):
    module = _installed_at(tmp_path / "explorer")
    with pytest.raises(FileNotFoundError, match="folder 'resources' is missing"):
        module.resource_path("spectra")
    (tmp_path / "resources").mkdir()
    (tmp_path / "scenarios").mkdir()
    assert module.resource_path() == tmp_path / "resources"
    assert module.scenario_folder() == tmp_path / "scenarios"
    with pytest.raises(FileNotFoundError, match="resources/spectra is missing"):
        module.resource_path("spectra")


def test_an_installed_wheel_takes_its_own_resources_before_a_stranger_beside_it(tmp_path):
    module = _installed_at(tmp_path / "explorer")
    (tmp_path / "resources").mkdir()
    bundled = tmp_path / "explorer" / "_bundled"
    (bundled / "resources").mkdir(parents=True)
    (bundled / "scenarios").mkdir()
    assert module.resource_path() == bundled / "resources"
    assert module.scenario_folder() == bundled / "scenarios"


@pytest.mark.parametrize("family", parts.store_families(), ids=lambda f: f.key)
def test_a_store_of_every_family_can_be_as_small_and_as_large_as_a_file_may_say(family):
    kind = type(family.store(family.sizes[0]))
    field = describe(kind, kind.size_key)
    for size in (field.low, field.high):
        assert family.store(size).size == size
