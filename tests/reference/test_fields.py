"""No field of the model is left out of the reference by mistake."""

import ast
from functools import cache
from pathlib import Path

from explorer.scenario.daylight import DaylightPattern, Outdoors, SkyReading
from explorer.scenario.demand import Load, Operation, Phase, UntilEmpty
from explorer.scenario.fields import Section
from explorer.scenario.light import Elsewhere, Light, LogPattern
from explorer.scenario.measured import MeasuredValue
from explorer.scenario.model import Margins, Names, Scenario
from explorer.scenario.origin import PartOrigin
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore
from explorer.scenario.supply import ConverterCharger, EfficiencyPoint, SheetPoint
from tests.every_field import all_fields, named
from tests.reference.strategy import Lots, numbered
from tests.reference.yearly import numbered_year

NOTHING_TO_COMPUTE = {
    (Scenario, "format"), (Scenario, "version"), (Scenario, "title"), (Scenario, "place"),
    (Scenario, "notes"), (Operation, "name"), (Phase, "name"), (Load, "actuator"),
    *all_fields(Names), *all_fields(PartOrigin), *all_fields(MeasuredValue),
}  # fmt: skip
"""Names, origins, and what cautions alone read."""
AT_DEFAULT = {
    *((bank, key) for bank in (CapacitorStore, SupercapacitorStore)
      for key in ("rated_life_h", "rated_C", "end_of_life_esr_rise")),
    (SupercapacitorStore, "settling_h"),
    *((CellStore, key) for key in ("charge_above_C", "cool_below_C", "cool_charge_share",
                                   "cycles_to_end", "fade_per_year")),
    (Light, "cover_factor"), (Outdoors, "ground_reflectance"),
}  # fmt: skip
"""Followed by the reference, but no design that is drawn has another value than the default."""
DRAWN_ELSEWHERE = {
    "tests/test_whole_model.py": {
        (ConverterCharger, "table_scale"),
        *((EfficiencyPoint, key) for key in EfficiencyPoint.model_fields),
    },
    "tests/test_board_and_places.py": {
        (Load, "output_limit_A"), (Load, "indicator_V"), (Load, "indicator_share"),
        *((Elsewhere, key) for key in Elsewhere.model_fields),
    },
    "tests/test_requirements.py": {
        (Margins, key) for key in ("operations_per_charge", "operations_per_hour", "rate_light_lx",
                                   "fill_within_h", "fill_light_lx", "dark_days", "store_years")
    },
    "tests/test_until_empty.py": {(UntilEmpty, "kind"), (UntilEmpty, "wanted_per_day")},
    "tests/scenario/test_year_light.py": {
        *((SkyReading, key) for key in SkyReading.model_fields), (DaylightPattern, "weather_file"),
    },
    "tests/files/test_logs.py": {
        (LogPattern, key) for key in LogPattern.model_fields if key != "kind"
    },
    "tests/files/test_measured_curves.py": {
        (SheetPoint, "measured_V"), (SheetPoint, "measured_A"),
    },
}  # fmt: skip
"""Which file looks at a field instead, some of them beside the reference too."""
WITHOUT_A_DRAW = NOTHING_TO_COMPUTE | AT_DEFAULT | set().union(*DRAWN_ELSEWHERE.values())
READ_BY_THE_PRODUCT = {
    (Light, "known_by"), (Margins, "design_margin"),
    *((SheetPoint, key) for key in ("short_circuit_A", "open_circuit_V", "max_power_A",
                                    "max_power_V")),
}  # fmt: skip
"""Drawn, and taken by the reference as the product gives them: limits, and the fit of a sheet."""


def values_in(part, found):
    for key in type(part).model_fields:
        value = getattr(part, key)
        inner = value if isinstance(value, tuple) else (value,)
        if inner and all(isinstance(one, Section) for one in inner):
            for one in inner:
                values_in(one, found)
        else:
            found.setdefault((type(part), key), set()).add(value)


@cache
def drawn():
    """Fields that differ from design to design; a kind counts where it is drawn at all."""
    found = {}
    for number in range(300):
        values_in(numbered(number)[0], found)
    for number in range(100):
        values_in(numbered_year(number), found)
    several = {field for field, values in found.items() if len(values) > 1 or field[1] == "kind"}
    return several & all_fields()


def names_read():
    """Names of attributes, and texts, in what works a scenario out."""
    found = set()
    for path in Path(__file__).parent.glob("*.py"):
        if path.stem not in ("strategy", "yearly", "files") and not path.stem.startswith("test_"):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Attribute):
                    found.add(node.attr)
                elif isinstance(node, ast.Constant):
                    found.add(node.value)
    return found


def test_every_field_is_drawn():
    missing = named(all_fields() - drawn() - WITHOUT_A_DRAW)
    assert not missing, (
        f"{missing}: no design of the reference varies this. Draw it in tests/reference/strategy.py"
        " (`d.beside` moves nothing else) and follow it in device.py there, or say in this file "
        "who looks at it instead"
    )


def test_nothing_is_excused_that_is_drawn():
    assert not named(drawn() & WITHOUT_A_DRAW)
    assert not named(WITHOUT_A_DRAW - all_fields())


def test_every_field_that_is_drawn_is_read_by_the_reference():
    """By its name alone; that it is read rightly is what tests/test_whole_model.py compares."""
    known = names_read()
    missing = named(field for field in drawn() - READ_BY_THE_PRODUCT if field[1] not in known)
    assert not missing, f"{missing}: drawn and read nowhere; follow it in tests/reference/device.py"


def test_lots_beside_move_no_other():
    one, other = Lots(7), Lots(7)
    extra = [one.beside(name).between(0.0, 1.0) for name in ("a_V", "b_V", "a_V")]
    assert [one.whole(0, 999) for _ in range(5)] == [other.whole(0, 999) for _ in range(5)]
    assert extra[0] == extra[2] != extra[1]
