"""A study keeps the limits of a search for a build and the front that it found."""

import csv
import json
from dataclasses import fields, replace

import pytest
from click.testing import CliRunner

from explorer.advice import build_parts
from explorer.advice import builds as module
from explorer.advice.build_front import Wanted
from explorer.advice.builds import search
from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.cli.main import commands
from explorer.files import study_results
from explorer.files.disk import FileError
from explorer.files.logs import resolve_log
from explorer.files.scenario_json import load_scenario, save_scenario
from explorer.files.study import Study, keep_study, load_study
from explorer.files.study_builds import (
    BuildSearch,
    FrontBuild,
    builds_again,
    design_hash,
    search_of,
)
from explorer.files.study_place import DESIGN, NAME
from explorer.resource_files import scenario_folder
from explorer.scenario import parts
from explorer.scenario.fields import MOST_LETTERS
from explorer.scenario.model import Scenario, with_value
from explorer.scenario.price import RELATIVE, Price, price_of
from explorer.scenario.study import KeptLimits
from explorer.words.builds import builds_table

DESIGN_OF = load_scenario(scenario_folder() / "plant_label.json").scenario
LIMITS = Wanted(lithium=False, height_mm=17.5)


@pytest.fixture(scope="module", autouse=True)
def few_kinds():
    """Some generic kinds stand for all of them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(build_parts, "_technologies", lambda _: ("amorphous", "gallium_arsenide"))
        patch.setattr(module, "COUNTS", (1, 2))
        few = parts.store_families()[3:5]
        patch.setattr(build_parts.parts, "store_families", lambda: few)
        patch.setattr(study_results, "reach", lambda _: {})
        yield


@pytest.fixture(scope="module")
def found():
    return list(search(Case(DESIGN_OF), wanted=LIMITS))[-1]


@pytest.fixture
def folder(found, tmp_path):
    made = search_of(found, LIMITS, DESIGN_OF)
    keep_study(tmp_path / "study", DESIGN_OF, None, Study(builds=made))
    return tmp_path / "study"


def rows(path):
    with path.open(encoding="utf-8") as stream:
        return list(csv.DictReader(stream))


def test_what_is_kept_of_limits_is_what_the_search_takes():
    assert set(KeptLimits.model_fields) == {field.name for field in fields(Wanted)}


def test_a_search_opens_as_it_was_kept_and_each_build_is_a_scenario_that_runs(found, folder):
    kept = load_study(folder).builds
    assert kept == search_of(found, LIMITS, DESIGN_OF)
    assert len(kept.front) == len(found.front) >= 2
    for number, build in enumerate(found.front, 1):
        scenario = load_scenario(folder / f"build-{number}.json").scenario
        assert scenario == build.scenario
        assert judge(Case(scenario)).state == "runs"
    table = rows(folder / "builds.csv")
    assert list(table[0]) == list(builds_table(found))
    assert [float(row["price"]) for row in table] == pytest.approx([b.price for b in found.front])


def test_prices_in_several_currencies_are_kept_each_by_itself(found, folder):
    mixed = price_of(3.0, "EUR") + price_of(1.0, "")
    none = Price(is_known=False)
    some = [replace(found.front[0], cost=mixed), replace(found.front[1], cost=none)]
    made = search_of(
        replace(found, front=tuple(some), currencies=("EUR", "")), LIMITS, DESIGN_OF
    )
    keep_study(folder, DESIGN_OF, folder / DESIGN, Study(builds=made), own=folder)
    again = load_study(folder).builds
    assert again == made
    assert [one.cost.amounts for one in again.front] == [(("EUR", 3.0), ("", 1.0)), ()]
    shown = builds_again(again, Case(DESIGN_OF)).measures
    assert shown["price EUR"].tolist() == pytest.approx([3.0, float("nan")], nan_ok=True)
    assert [row["currency"] for row in rows(folder / "builds.csv")] == ["EUR + unnamed", ""]


@pytest.mark.parametrize(("named", "currency"), [("", RELATIVE), ("EUR", "EUR")])
def test_a_front_of_an_older_file_has_one_number_in_the_currency_of_its_search(
    folder, named, currency
):
    data = json.loads((folder / NAME).read_text(encoding="utf-8"))
    kept = data["builds"]
    kept["currency"] = named
    del kept["currencies"]
    for one, price in zip(kept["front"], (1.5, None), strict=False):
        del one["prices"]
        one["price"] = price
    (folder / NAME).write_text(json.dumps(data), encoding="utf-8")
    again = load_study(folder).builds
    assert again.currencies == (currency,)
    assert again.front[0].cost == price_of(1.5, currency)
    assert not again.front[1].cost.is_known


def test_a_kept_front_is_judged_again_and_what_does_not_run_is_left_out(found, folder):
    kept = load_study(folder).builds
    assert builds_again(kept, Case(DESIGN_OF)).front == found.front
    dim = with_value(kept.front[0].scenario, "light.illuminance_lx", 1.0)
    spoilt = replace(kept, front=(replace(kept.front[0], scenario=dim), *kept.front[1:]))
    assert builds_again(spoilt, Case(DESIGN_OF)).front == found.front[1:]


def test_a_build_that_somebody_made_impossible_to_compute_is_left_out(found, folder):
    kept = load_study(folder).builds
    logged = with_value(
        kept.front[0].scenario, "light.pattern", {"kind": "log", "file": "gone.csv"}
    )
    spoilt = replace(kept, front=(replace(kept.front[0], scenario=logged), *kept.front[1:]))
    assert builds_again(spoilt, Case(DESIGN_OF)).front == found.front[1:]


def test_a_name_that_is_as_long_as_a_file_may_say_is_kept_shortened(found, tmp_path):
    long = replace(found.front[0], panels=f"4 × {MOST_LETTERS * 'p'}")
    made = search_of(replace(found, front=(long,)), LIMITS, DESIGN_OF)
    keep_study(tmp_path / "study", DESIGN_OF, None, Study(builds=made))
    name = load_study(tmp_path / "study").builds.front[0].panels
    assert name.startswith("4 × ppp")
    assert len(name) == MOST_LETTERS


def test_files_of_one_s_own_with_such_names_stay(found, folder):
    number = len(found.front) + 1
    mine = folder / f"build-{number}.json"
    mine.write_text("mine", encoding="utf-8")
    study = load_study(folder)
    keep_study(folder, DESIGN_OF, folder / DESIGN, study, own=folder)
    keep_study(folder, DESIGN_OF, folder / DESIGN, replace(study, builds=BuildSearch()), own=folder)
    assert [path.name for path in folder.glob("build*")] == [mine.name]
    (folder / "builds.csv").write_text("mine", encoding="utf-8")
    keep_study(folder, DESIGN_OF, folder / DESIGN, replace(study, builds=BuildSearch()), own=folder)
    assert mine.read_text(encoding="utf-8") == "mine"
    assert (folder / "builds.csv").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("name", ["build-1.json", "builds.csv"])
def test_a_front_is_not_written_over_a_file_of_one_s_own(found, folder, name):
    study = load_study(folder)
    keep_study(folder, DESIGN_OF, folder / DESIGN, replace(study, builds=BuildSearch()), own=folder)
    (folder / name).write_text("mine", encoding="utf-8")
    with pytest.raises(FileError, match=f"{name} would be written over"):
        keep_study(folder, DESIGN_OF, folder / DESIGN, study, own=folder)
    assert (folder / name).read_text(encoding="utf-8") == "mine"
    assert load_study(folder).builds.front == ()


def test_of_a_changed_design_the_limits_stay_and_the_front_goes(folder):
    study = load_study(folder)
    changed = with_value(DESIGN_OF, "light.illuminance_lx", 900.0)
    keep_study(folder, changed, folder / DESIGN, study, own=folder)
    again = load_study(folder).builds
    assert again == BuildSearch(limits=LIMITS)
    assert not list(folder.glob("build*"))


def test_a_design_that_is_taken_from_the_front_keeps_it(found, folder):
    study = load_study(folder)
    keep_study(folder, found.front[1].scenario, folder / DESIGN, study, own=folder)
    again = load_study(folder).builds
    assert again == study.builds
    assert again.is_of(load_scenario(folder / DESIGN).scenario)


def test_builds_find_the_light_log_of_the_study(tmp_path):
    (tmp_path / "lux.csv").write_text(
        "time_s,lux\n" + "".join(f"{900 * i},{300 + i}\n" for i in range(96)), encoding="utf-8"
    )
    logged = with_value(Scenario(), "light.pattern", {"kind": "log", "file": "lux.csv"})
    one = FrontBuild(
        scenario=logged, panels="p", charger="c", store="s", part_count=3,
        cost=price_of(1.0, RELATIVE), panel_cm2=1.0, volume_cm3=1.0, mass_g=float("nan"),
        height_mm=1.0, governing="dark", margin=1.5,
    )  # fmt: skip
    made = BuildSearch(design=design_hash(logged), front=(one,))
    folder = tmp_path / "study"
    design, _ = keep_study(folder, logged, tmp_path / "s.json", Study(builds=made))
    again = load_study(folder).builds
    assert again.is_of(design)
    assert again.front[0].scenario.light.pattern.file == "light/lux.csv"
    assert resolve_log(again.front[0].scenario, folder / "build-1.json").readings == 96


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda d: d["limits"].update(height_mm=-1.0), "height_mm is -1.0; allowed is 1e-09 to 1"),
        (lambda d: d["limits"].update(most_parts=2), "most_parts is 2; allowed is 3 to 10000"),
        (lambda d: d["front"][0].update(price=-1.0), "price is -1.0; allowed is 0 to 1"),
        (lambda d: d["front"][0]["prices"][0].update(amount=-1.0), "amount is -1.0; allowed"),
        (lambda d: d["limits"].update(colour="red"), "colour"),
        (lambda d: d["front"][0].update(file="build-99.json"), "builds.front.0.file"),
        (lambda d: d["front"][0].update(file="study.json"), "study.json"),
    ],
)
def test_a_bad_search_ends_in_a_sentence(folder, change, said):
    data = json.loads((folder / NAME).read_text(encoding="utf-8"))
    change(data["builds"])
    (folder / NAME).write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(FileError, match=said):
        load_study(folder)


# --- the command --------------------------------------------------------------------------------


def gloaming(*words):
    return CliRunner().invoke(commands, [str(word) for word in words])


def test_the_command_takes_its_limits_from_the_study_and_puts_its_front_there(tmp_path):
    folder = tmp_path / "study"
    keep_study(folder, DESIGN_OF, None, Study())
    first = gloaming("builds", folder, "--no-lithium", "--most-height", 17.5)
    assert first.exit_code == 0, first.output
    kept = load_study(folder).builds
    assert kept.limits == LIMITS
    assert len(rows(folder / "builds.csv")) == len(kept.front) >= 2
    again = gloaming("builds", folder, "--most-parts", 3)
    assert "Limits: height up to 17.5 mm, no lithium, one panel." in again.output
    assert all(one.part_count == 3 for one in load_study(folder).builds.front)
    page = gloaming("study", folder).output
    assert "Search for a build: height up to 17.5 mm, no lithium, one panel." in page
    anew = gloaming("builds", folder, "--forget-limits")
    assert "Limits: no limits." in anew.output
    assert load_study(folder).builds.limits == Wanted()


@pytest.mark.parametrize("most", ["1e10", "inf", "nan"])
def test_a_limit_that_cannot_be_kept_is_refused_before_the_search(tmp_path, most):
    save_scenario(tmp_path / "a.json", DESIGN_OF)
    told = gloaming("builds", tmp_path / "a.json", "--most-price", most, "-o", tmp_path / "t.csv")
    assert told.exit_code == 3
    assert "price" in told.output
    assert "builds tried" not in told.output


def test_without_a_study_the_command_asks_where_its_table_goes(tmp_path):
    save_scenario(tmp_path / "a.json", DESIGN_OF)
    told = gloaming("builds", tmp_path / "a.json")
    assert told.exit_code == 3
    assert "Say with -o" in told.output
