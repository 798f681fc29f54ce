"""The model note says the numbers that the program computes with."""

import re

import pytest

from explorer.advice.bench import certainty as fit_certainty
from explorer.advice.bench import forecast as bench
from explorer.advice.bench import outlook, steps, sure, unsure
from explorer.advice.checks import PULSE_MARGIN
from explorer.engine import cycles as cycle
from explorer.engine import legs, steady
from explorer.engine import levels as illumination
from explorer.engine import motions as march
from explorer.files import weather_year
from explorer.physics import ageing, panel_fit
from explorer.resource_files import resource_path
from explorer.scenario import build, year_light
from explorer.scenario.model import MARGIN_BY_KNOWLEDGE
from explorer.scenario.storage import CapacitorStore, CellStore, SupercapacitorStore

NOTE = re.sub(r"\s+", " ", resource_path("help", "model-note.md").read_text(encoding="utf-8"))
SUPERCAPACITOR, CELL = SupercapacitorStore(), CellStore()


@pytest.mark.parametrize(
    "said",
    [
        f"s = {SUPERCAPACITOR.capacitance_slope:g} ± 0.2 and "
        f"b = {SUPERCAPACITOR.capacitance_bend:g} ± 0.13",
        f"f = {SUPERCAPACITOR.fresh_leakage_factor:g} and τ = {SUPERCAPACITOR.settling_h:g} h",
        f"{SUPERCAPACITOR.life_per_tenth_volt:g}^((V_rated − V)/0.1 V)",
        f"{SUPERCAPACITOR.cold_esr_factor:g} for supercapacitors, "
        f"{CapacitorStore().cold_esr_factor:g} for electrolytics",
        f"capacity falls linearly to {100 * CELL.cold_capacity_share:g} %",
        f"{100 * CELL.self_discharge_per_month:g} % a month by default",
        f"None at or below {CELL.charge_above_C:g} °C and above {CELL.charge_below_C:g} °C",
        f"no life counts beyond {ageing.LONGEST_YEARS:g} years",
        f"below {ageing.LOWEST_COUNTED_SHARE:g} of the rating",
        f"weight of {panel_fit.PULL:g} per e-fold",
        f"(ASTM G173-03, {build.FULL_SUN_LX:.0f} lx)",
        f"reproduces the map to {cycle.GENERATOR_TOLERANCE_V * 1e6:g} µV",
        f"less than {march.AVERAGED_BELOW_V * 1e3:g} mV "
        f"({march.AVERAGED_IN_LOG_V * 1e3:g} mV under a measured log)",
        f"more often than every {march.AVERAGED_BELOW_S / 60:g} minutes",
        f"where it comes every {legs.OWN_MOMENTS_S / 3600:g} hours or less often",
        f"a ladder of some {illumination.RUNGS} to",
        f"up to {illumination.GATHER_S / 60:g} minutes in which the store moves by less than "
        f"{illumination.GATHER_V * 1e3:g} mV",
        f"within {steady.MOST_PERIODS} weeks a course of up to {steady.LONGEST_COURSE} is",
        f"pulse {PULSE_MARGIN:g}",
        f"{100 * bench.BAND_SHARE:g} % of the full voltage",
        f"s = {fit_certainty.SOFT_FROM:g} × noise",
        f"half-width at {100 * sure.CONFIDENCE:g} %",
        f"the voltmeter ({100 * unsure.METER_GAIN:g} %)",
        f"and the clock ({unsure.CLOCK_S / 60:g} min)",
        f"whose square is {1.0 - sure.CORRELATED:.2f} or less",
        f"reaches {sure.CORRELATED:g} while one is not known to {100 * sure.LOOSE:g} %",
        f"within {100 * steps.SETTLED:g} % of its length, by more than {steps.CLEAR:g} times",
        f"J is taken over {100 * sure.WIDE_STEP:g} % of each value",
        f"under a lamp known to {100 * outlook.LAMP_SHARE:g} %",
        "margins {:.1f}, {:.1f} and {:.1f}".format(*MARGIN_BY_KNOWLEDGE.values()),
        "had {:g} to {:g} times the light of the skies".format(*year_light.REAL_OVER_SHARES),
        "and {:.1f} to {:.1f} times that of overcast".format(*year_light.REAL_OVER_OVERCAST),
        "(clear {:g}, partly cloudy {:g}, overcast {:g} times".format(
            *(mean for _, mean, _ in year_light.REAL_OVER_SKY.values())
        ),
        f"{weather_year.DIFFUSE_LM_PER_W:g} lm/W for the sky and "
        f"{weather_year.NORMAL_LM_PER_W:g} lm/W for the sun",
    ],
)
def test_the_note_states(said):
    assert said in NOTE


def test_the_note_has_a_section_for_every_part_with_its_expected_error():
    sections = re.split(r"(?<!#)## ", NOTE)
    of_parts = [text for text in sections if text[:2] in {"2.", "3.", "4.", "5.", "6.", "7."}]
    assert len(of_parts) == 6
    assert all("**Expected error" in text for text in of_parts)
