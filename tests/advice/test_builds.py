"""The search for a build: what it shows runs, and nothing that runs is better."""

import csv
import itertools
import math

import numpy as np
import pytest
from click.testing import CliRunner

from explorer.advice import build_parts
from explorer.advice import builds as module
from explorer.advice.as_sold import cost_of, family_like
from explorer.advice.assess import assess
from explorer.advice.build_front import ALIKE, MEASURES, Wanted, front_of
from explorer.advice.build_parts import StoreKind
from explorer.advice.builds import HOPEFUL, search
from explorer.advice.case import Case
from explorer.advice.contest import sizes_of
from explorer.advice.fleet import fleet, prospects
from explorer.advice.judge import judge
from explorer.advice.together import together
from explorer.cli.main import commands
from explorer.files.logs import resolve_log
from explorer.files.part_json import save_part
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.resource_files import scenario_folder
from explorer.scenario import parts
from explorer.scenario.model import Scenario, with_value, with_values
from explorer.scenario.part import part_from
from explorer.scenario.price import RELATIVE
from explorer.scenario.supply import Panels
from explorer.words.builds import builds_line, price_note
from tests.depth import some
from tests.reference.strategy import numbered

LABEL = scenario_folder() / "plant_label.json"


@pytest.fixture(scope="module")
def label():
    scenario = load_scenario(LABEL).scenario
    return Case(scenario, resolve_log(scenario, LABEL))


@pytest.fixture(scope="module", autouse=True)
def few_kinds():
    """Some generic kinds stand for all of them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(build_parts, "_technologies", lambda _: ("amorphous", "gallium_arsenide"))
        patch.setattr(module, "COUNTS", (1, 2))
        few = parts.store_families()[3:7]
        patch.setattr(build_parts.parts, "store_families", lambda: few)
        yield


@pytest.fixture(scope="module")
def found(label):
    return list(search(label))[-1]


def rows_of(path):
    with path.open(encoding="utf-8") as stream:
        return list(csv.DictReader(stream))


def assert_same(one, other):
    """The same amounts in the same currencies."""
    assert (one.is_known, dict(one.amounts)) == (other.is_known, pytest.approx(dict(other.amounts)))


def test_a_front_is_what_no_row_beats():
    dice = np.random.default_rng(3)
    for columns in (1, 2, 4):
        table = dice.integers(0, 9, (200, columns)).astype(float)
        kept = set(front_of(table).tolist())
        for i, j in itertools.product(range(len(table)), kept):
            beats = (table[i] <= table[j]).all() and (table[i] < table[j]).any()
            assert not beats
        for i in set(range(len(table))) - kept:
            assert any((table[j] <= table[i]).all() for j in kept)


def test_what_is_not_known_is_no_advantage():
    assert front_of(np.array([[1.0, np.nan], [2.0, 3.0], [3.0, np.nan]])).tolist() == [0, 1]


def test_every_build_on_the_front_runs_by_a_check_of_its_own_scenario(label, found):
    assert found.is_done
    assert found.tried > 500
    assert len(found.front) >= 2
    for build in found.front:
        fresh = Case(type(build.scenario).model_validate(build.scenario.model_dump()))
        assert assess(fresh).verdict.state == "runs"
        panels = build.scenario.panels
        assert build.panel_cm2 == pytest.approx(panels.count * panels.active_area_cm2)


@pytest.mark.parametrize("number", some([4, 1, 14, 27], 2))
def test_no_build_of_a_drawn_scenario_is_refused_once_it_is_read_from_its_file(number, tmp_path):
    scenario, log = numbered(number)
    front = list(search(Case(scenario, log)))[-1].front
    assert front
    for build in front:
        save_scenario(tmp_path / "one.json", build.scenario, replace_older=True)
        again = load_scenario(tmp_path / "one.json").scenario
        assert judge(Case(again, log)).state == "runs"


@pytest.mark.parametrize("name", ["soil_probe", "door_counter"])
def test_no_build_is_left_out_that_would_be_followed_to_a_good_end(name, monkeypatch):
    """What is known without following a build says too much of it, never too little."""
    path = scenario_folder() / f"{name}.json"
    closed = with_value(load_scenario(path).scenario, "margins.closure_days", 0.4)
    out = {"few": 0, "all": 0}

    def all_followed(case, changes, **asked):
        found = fleet(case, changes)
        size, most = len(found.reserve), prospects(case, changes)
        wanted = np.maximum(found.wanted["balance"], 1e-300)
        least = np.minimum(found.margins["balance"], found.margins["dark"]) / wanted
        stays = found.sure & (found.readings.cut_offs == 0)
        assert (least[stays] <= most[stays] * (1.0 + 1e-3)).all()
        assert (most[found.reserve > HOPEFUL] >= HOPEFUL).all()
        out["all"] += size
        out["few"] += int((most >= HOPEFUL).sum())
        return fleet(case, changes, **asked)

    monkeypatch.setattr(module, "fleet", all_followed)
    monkeypatch.setattr(
        module, "prospects", lambda _, changes: np.ones(np.size(changes["panels.count"]))
    )
    next(search(Case(closed)))
    assert out["few"] < out["all"]


def test_stores_looked_at_together_are_judged_as_each_by_itself():
    path = scenario_folder() / "soil_probe.json"
    scenario = load_scenario(path).scenario
    designs = []
    for family in parts.store_families():
        base = StoreKind(family=family).on(scenario, family.sizes[0])
        count = np.resize([1.0, 3.0], len(family.sizes))
        designs.append((base, sizes_of(base, base, family) | {"panels.count": count}))
    groups = together(designs)
    assert sorted(i for group in groups for i in group.members) == list(range(len(designs)))
    assert 1 < len(groups) <= 0.5 * len(designs)
    for group in groups:
        case = Case(group.scenario)
        joined = fleet(case, group.changes), prospects(case, group.changes)
        alone = [(fleet(Case(s), c), prospects(Case(s), c)) for s, c in
                 (designs[i] for i in group.members)]
        for name in ("balance", "dark", "starts", "pulse", "ratings"):
            each = np.concatenate([one.margins[name] for one, _ in alone])
            np.testing.assert_allclose(joined[0].margins[name], each, rtol=1e-9, err_msg=name)
        np.testing.assert_array_equal(
            joined[0].codes, np.concatenate([one.codes for one, _ in alone])
        )
        np.testing.assert_allclose(joined[1], np.concatenate([most for _, most in alone]))


def test_nothing_that_runs_is_better_by_more_than_what_counts_as_alike(found):
    table = np.column_stack([found.measures[name] for name in MEASURES])
    for build in found.front:
        own = np.array([getattr(build, name) for name in MEASURES])
        assert not (table * ALIKE**2 < own).all(axis=1).any()


def test_what_the_march_refuses_makes_room_for_others(label, found, monkeypatch):
    """The cheapest of the front, were it refused, is not shown, and others take its place."""
    cheapest = found.front[0].scenario
    refused = []

    def strict(case):
        verdict = judge(case)
        if case.scenario == cheapest:
            refused.append(case)
            weak = with_value(case.scenario, "light.illuminance_lx", 1.0)
            return judge(case.with_scenario(weak))
        return verdict

    monkeypatch.setattr(module, "judge", strict)
    again = list(search(label))[-1]
    assert len(refused) == 1
    assert cheapest not in [build.scenario for build in again.front]
    assert again.front[0].price >= found.front[0].price


@pytest.mark.parametrize(
    ("wanted", "holds"),
    [
        (Wanted(lithium=False), lambda b: b.scenario.store.kind != "cell"),
        (Wanted(most_parts=3), lambda b: b.scenario.panels.count == 1),
        (Wanted(panel_cm2=3.0), lambda b: b.panel_cm2 <= 3.0),
        (Wanted(volume_cm3=1.0), lambda b: b.volume_cm3 <= 1.0),
        (Wanted(mass_g=1.45), lambda b: b.mass_g <= 1.45),
        (Wanted(price=2.6), lambda b: b.price <= 2.6),
        (Wanted(height_mm=15.0), lambda b: b.height_mm <= 15.0),
    ],
)
def test_what_a_build_may_have_at_most_is_kept(label, wanted, holds):
    front = list(search(label, wanted=wanted))[-1].front
    assert front
    assert all(holds(build) for build in front)


def test_own_parts_with_prices_stand_for_their_kind(label):
    panel = part_from(
        "panel", Panels(active_area_cm2=20.0, technology="amorphous"), title="Pane", price=3.0,
        currency="EUR", mass_g=9.0, volume_cm3=4.0, area_cm2=24.0,
    )  # fmt: skip
    store = parts.store_families()[0].store(1.0)
    bank = part_from(
        "store", store, title="Pair", price=2.0, currency="EUR", volume_cm3=3.0, mass_g=4.0
    )
    found = list(search(label, own=(panel, bank)))[-1]
    assert found.currencies == ("EUR",)
    assert found.tried == found.within == 2  # one panel once and twice, on one store
    (build,) = found.front
    assert "one of them is beaten by no other" in builds_line(found)
    assert (build.price, build.panel_cm2, build.volume_cm3, build.mass_g) == (5.0, 24.0, 7.0, 13.0)
    assert "Pane" in build.panels
    assert "Pair" in build.store
    assert build.scenario.panels.part is not None


def test_the_command_writes_the_front_and_a_scenario_that_runs(tmp_path):
    run = CliRunner().invoke
    front = tmp_path / "front.csv"
    told = run(commands, ["builds", str(LABEL), "--no-lithium", "-o", str(front)])
    assert told.exit_code == 0, told.output
    rows = rows_of(front)
    prices = [float(row["price"]) for row in rows]
    assert prices == sorted(prices)
    one = tmp_path / "one.json"
    told = run(commands, ["builds", str(LABEL), "--no-lithium", "--save", "1", "-o", str(one)])
    assert told.exit_code == 0, told.output
    assert run(commands, ["check", str(one)]).exit_code == 0
    told = run(commands, ["builds", str(LABEL), "--save", "99", "-o", str(one)])
    assert told.exit_code == 3
    assert "the front has" in told.output


def test_where_none_runs_the_command_says_so(tmp_path):
    dark = tmp_path / "dark.json"
    scenario = with_value(load_scenario(LABEL).scenario, "light.illuminance_lx", 1.0)
    dark.write_text(scenario.model_dump_json(), encoding="utf-8")
    told = CliRunner().invoke(commands, ["builds", str(dark), "-o", str(tmp_path / "f.csv")])
    assert told.exit_code == 2
    assert "none runs in this light" in told.output


def test_a_shelf_beside_the_scenario_is_tried(tmp_path):
    own = tmp_path / "label.json"
    own.write_text(LABEL.read_text(encoding="utf-8"), encoding="utf-8")
    panel = part_from("panel", Panels(active_area_cm2=20.0), title="Pane", price=3.0)
    save_part(tmp_path / "pane.json", panel)
    front = tmp_path / "f.csv"
    CliRunner().invoke(commands, ["builds", str(own), "-o", str(front)])
    rows = rows_of(front)
    assert rows
    assert all("Pane" in row["panels"] for row in rows)


def test_a_build_measures_what_its_scenario_holds(found):
    """Price, panel area and the store's volume once more, from the scenario alone."""
    for build in found.front:
        panels = build.scenario.panels
        number = panels.count * panels.in_series
        assert build.part_count == number + 2
        assert build.panel_cm2 == pytest.approx(number * panels.active_area_cm2)
        assert_same(build.cost, cost_of(build.scenario))
        family = family_like(build.scenario.store)
        store_cm3 = build.volume_cm3 - 0.2 * build.panel_cm2  # panels are 2 mm thick
        assert store_cm3 == pytest.approx(family.volume_cm3(build.scenario.store.size))


def test_a_longer_string_is_larger_heavier_and_dearer_and_as_high_as_its_larger_units():
    """Four units for 10 V in place of two: for the same farads each is twice as large."""
    store = StoreKind(family=next(
        f for f in parts.store_families() if f.key == "standard_supercapacitor"
    ))
    high = with_values(Scenario(), {"charger.full_V": 10.0, "load.connect_V": 6.0})
    fitted = store.on(high, 2.2)
    assert fitted.store.units_in_series == 4
    assert store.stretch(fitted) == 2.0
    price, volume, mass = store.measures(2.2, 2.0)
    assert (volume, mass) == pytest.approx((4 * 0.95 * 2.2, 4 * 1.2 * 2.2))
    assert price == pytest.approx(3 * (0.3 + 0.1 * volume))
    assert store.height_mm(2.2, 2.0) == pytest.approx(store.height_mm(2.2) * 2.0 ** (1 / 3))


def own_files(folder, **stores):
    """One panel in euros, and twins of a store at other prices, as files of one's own parts."""
    pane = Panels(active_area_cm2=20.0, technology="amorphous")
    known = {"volume_cm3": 3.0, "mass_g": 4.0}
    save_part(folder / "pane.json", part_from(
        "panel", pane, title="Pane", price=3.0, currency="EUR", **known
    ))  # fmt: skip
    bank = parts.store_families()[0].store(1.0)
    for title, (price, currency) in stores.items():
        save_part(folder / f"{title}.json", part_from(
            "store", bank, title=title, price=price, currency=currency, **known
        ))  # fmt: skip
    return folder


def front_of_command(folder, *options):
    front = folder / "front.csv"
    told = CliRunner().invoke(
        commands, ["builds", str(LABEL), "--parts", str(folder), "-o", str(front), *options]
    )
    return told, rows_of(front) if front.exists() else []


def test_prices_in_several_currencies_are_never_added_from_the_files_to_the_table(tmp_path):
    folder = own_files(tmp_path, dear=(9.0, "EUR"), cheap=(2.5, "eur"), far=(1.0, "USD"))
    told, rows = front_of_command(folder)
    assert told.exit_code == 0, told.output
    # 3 + 2.5 euros; 3 euros and a dollar, which no number of euros says; 3 + 9 is beaten.
    seen = {row["store"].partition(",")[0]: row for row in rows}
    assert list(seen) == ["cheap", "far"]
    assert (seen["cheap"]["price"], seen["cheap"]["currency"]) == ("5.5", "EUR")
    assert (seen["far"]["price"], seen["far"]["currency"]) == ("nan", "EUR + USD")
    assert (seen["far"]["price_EUR"], seen["far"]["price_USD"]) == ("3", "1")
    assert "Prices in EUR, USD are never added up" in told.output


def test_what_costs_no_more_in_any_currency_beats_whatever_the_rate(tmp_path):
    folder = own_files(tmp_path, far=(1.0, "USD"), farther=(2.0, "USD"))
    _, rows = front_of_command(folder)
    assert [row["store"].partition(",")[0] for row in rows] == ["far"]


def test_a_limit_on_the_price_takes_nothing_that_is_paid_in_another_currency(tmp_path):
    folder = own_files(tmp_path, dear=(9.0, "EUR"), cheap=(2.5, "EUR"), far=(1.0, "USD"))
    _, rows = front_of_command(folder, "--most-price", "6")
    assert [row["store"].partition(",")[0] for row in rows] == ["cheap"]
    told, _ = front_of_command(folder, "--most-price", "5")
    assert told.exit_code == 2
    assert "None of 6 builds is within the limits." in told.output
    assert "holds for what is priced in EUR alone" in told.output


def test_a_charger_with_a_price_leaves_a_limit_to_what_everything_else_is_priced_in(label):
    """Panels and stores are generic; the present charger may stay."""
    charger = part_from("charger", label.scenario.charger, title="Pump", price=5.0, currency="EUR")
    wanted = Wanted(price=1000.0, most_parts=3, lithium=False)
    found = next(search(label, own=(charger,), wanted=wanted))
    alone = next(search(label, wanted=wanted))
    assert found.currencies == (RELATIVE, "EUR")
    assert found.within == alone.within > 0


def test_a_part_without_a_price_makes_no_build_cheap(tmp_path):
    folder = own_files(tmp_path, cheap=(2.5, "EUR"), unknown=(None, ""))
    _, rows = front_of_command(folder)
    assert [row["store"].partition(",")[0] for row in rows] == ["cheap"]


def test_panels_in_series_are_counted_and_paid_for(label):
    """Two of one's own in a string: 3 each, so 6 for one string."""
    own = part_from("panel", Panels(active_area_cm2=20.0), title="Pane", price=3.0, area_cm2=25.0,
                    currency="EUR")  # fmt: skip
    strings = label.with_scenario(with_value(label.scenario, "panels.in_series", 2))
    found = list(search(strings, own=(own,), wanted=Wanted(most_parts=4)))[-1]
    assert found.front
    for build in found.front:
        assert build.panels == "2 × Pane"
        assert (build.part_count, build.panel_cm2) == (4, 50.0)
        assert build.cost.amount("EUR") == 6.0
        assert_same(build.cost, cost_of(build.scenario))
        assert math.isnan(build.price)  # euros and what is relative are not one number
    assert "relative ones of generic parts" in price_note(found)
    assert "As yours have prices, generic panels were not tried." in price_note(found)
    free = own.model_copy(update={"price": None, "currency": ""})
    found = next(search(strings, own=(free,), wanted=Wanted(most_parts=3)))
    assert "not tried" not in price_note(found)


def test_a_search_measures_the_longer_strings_that_a_high_voltage_takes(label, monkeypatch):
    pair = next(f for f in parts.store_families() if f.key == "standard_supercapacitor")
    monkeypatch.setattr(build_parts.parts, "store_families", lambda: (pair,))
    monkeypatch.setattr(module, "COUNTS", (1,))
    high = label.with_scenario(with_value(label.scenario, "charger.full_V", 7.0))
    found = list(search(high, wanted=Wanted(most_parts=3)))[-1]
    assert found.front
    for build in found.front:
        store = build.scenario.store
        assert store.units_in_series == 3
        more = 1.5**2
        store_cm3 = build.volume_cm3 - 0.2 * build.panel_cm2
        assert store_cm3 == pytest.approx(more * pair.volume_cm3(store.capacitance_F))
        assert_same(build.cost, cost_of(build.scenario))
