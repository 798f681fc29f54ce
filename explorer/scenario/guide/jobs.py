"""What the guide's devices do, with the energy that it takes and how that is known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from explorer.scenario.guide.answers import BatteryKey, JobKey, LastsKey
from explorer.scenario.guide.places import COMMON
from explorer.text import say, texts


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What the device does, with the energy that it takes."""

    title: str
    line: str
    """What the job stands for, in a few words."""
    phases: tuple[tuple[str, float, float], ...]
    """Name, power at the device [W] and duration [s] of each phase."""
    sleep_a: float
    source: str
    """Where the energy comes from, as a clause."""
    actuator: Literal["none", "latching_valve", "door_lock", "other_motor"] = "none"
    reserve_j: float = 0.0
    most_cm2: float = 300.0
    """Panels beyond this are absurd for such a device (own judgement)."""
    called: str = ""
    """Title of a design that does it, where the answer's makes none."""

    @property
    def design_title(self) -> str:
        """What a design that does it is called."""
        return self.called or self.title


_READ = (say("read the sensor"), 3e-3, 0.05)
_NEAR = (say("send nearby, three times"), 0.0216, 0.005)
_NEAR_SOURCE = say(
    "a short-range radio takes 36 µJ to send once (a maker's application note on advertising: "
    "12.6 µC at 3 V)"
)
JOBS: dict[JobKey, Job] = {
    "show": Job(
        title=say("Show something on e-paper"),
        line=say("fetch a picture by radio and redraw it"),
        phases=((say("fetch the picture"), 0.1, 3.7), (say("drive the display"), 0.02, 0.5)),
        sleep_a=2e-6,
        source=say(
            "0.37 J to fetch a picture and 0.01 J to draw it (published measurement on one "
            "e-paper tag)"
        ),
    ),
    "report_near": Job(
        title=say("Measure and report nearby"),
        line=say("temperature, humidity; short-range radio"),
        phases=(_READ, _NEAR), sleep_a=2e-6,
        source=say(
            "{radio}; 0.15 mJ to read a sensor ({origin})", radio=_NEAR_SOURCE, origin=COMMON
        ),
    ),
    "report_far": Job(
        title=say("Measure and report far away"),
        line=say("long-range radio, some kilometres"),
        phases=(_READ, (say("send far"), 0.1452, 0.165)), sleep_a=2e-6,
        source=say(
            "a long-range radio is on the air for 165 ms to send 13 bytes (LoRa formula, "
            "spreading factor 9) at 44 mA and 3.3 V (current from memory): 24 mJ; 0.15 mJ to read "
            "a sensor ({origin})",
            origin=COMMON,
        ),
    ),
    "count": Job(
        title=say("Count"), line=say("people, doors, pulses; reports its count nearby"),
        phases=((say("report the count"), 0.0216, 0.005),), sleep_a=6e-6,
        source=say(
            "{radio}; 6 µA to watch and count all the time ({origin})",
            radio=_NEAR_SOURCE,
            origin=COMMON,
        ),
    ),
    "sense_co2": Job(
        title=say("Sense carbon dioxide"), line=say("measure the air, report nearby"),
        phases=((say("measure the air"), 0.06, 5.0), _NEAR), sleep_a=3e-6,
        source=say(
            "0.3 J for a reading (0.25 to 0.35 J by the data sheets of photo-acoustic sensors); "
            "{radio}",
            radio=_NEAR_SOURCE,
        ),
    ),
    "lock": Job(
        title=say("Unlock a door or a drawer"),
        line=say("a small motor turns a bolt; a keypad or card is watched"),
        phases=((say("read the card"), 0.05, 0.3), (say("turn the bolt"), 0.9, 0.5)), sleep_a=5e-6,
        source=say(
            "0.45 J to turn a bolt (0.3 A at 3 V for half a second) and 15 mJ to read a card "
            "({origin})",
            origin=COMMON,
        ),
        actuator="door_lock", reserve_j=0.465, most_cm2=150.0,
    ),
    "lamp": Job(
        title=say("Light something up"), line=say("one small lamp for half a minute"),
        phases=((say("light up"), 0.06, 30.0),), sleep_a=3e-6,
        source=say("1.8 J for half a minute of a lamp of 20 mA at 3 V ({origin})", origin=COMMON),
    ),
    "camera": Job(
        title=say("Take a picture"), line=say("one small picture, sent nearby"),
        phases=((say("take the picture"), 0.3, 2.0), (say("send the picture"), 0.1, 12.0)),
        sleep_a=4e-6,
        source=say(
            "0.6 J to take a small picture and 1.2 J to send it over a short-range radio "
            "({origin})",
            origin=COMMON,
        ),
    ),
    "tracker": Job(
        title=say("Say where it is"), line=say("satellite position, sent far away"),
        phases=((say("find the position"), 0.075, 30.0), (say("send far"), 0.1452, 0.165)),
        sleep_a=5e-6,
        source=say(
            "2.3 J for a satellite receiver that finds its position in half a minute at 25 mA and "
            "3 V (from memory), 24 mJ to send it by a long-range radio"
        ),
        most_cm2=150.0,
    ),
    "valve": Job(
        title=say("Open or close a small valve"),
        line=say("a latching valve, which stays where it is"),
        phases=((say("fill the pulse capacitor"), 0.12, 6.0),), sleep_a=3e-6,
        source=say(
            "0.6 J for one move of a latching solenoid (12 V, 1 A, 50 ms, from published "
            "valve data), charged slowly into its own capacitor at 83 % ({origin})",
            origin=COMMON,
        ),
        actuator="latching_valve", reserve_j=0.72,
    ),
    "motor": Job(
        title=say("Turn or push something small"), line=say("a small gear motor for two seconds"),
        phases=((say("run the motor"), 0.5, 2.0),), sleep_a=3e-6,
        source=say("1 J for one move of a small gear motor ({origin})", origin=COMMON),
        actuator="other_motor", reserve_j=1.0,
    ),
    "other": Job(
        title=say("None of these"), line=say("then the battery it lives on today tells"),
        phases=(), sleep_a=0.0, source=say("what its battery gives today"),
        called=say("A device of your own"),
    ),
}  # fmt: skip

# --- a device that is known by its battery alone ---

BATTERIES: dict[BatteryKey, tuple[str, str, float]] = texts({
    "coin": ("A coin cell", "20 mm across, 3 V, 220 mAh", 2380.0),
    "two_aaa": ("Two AAA batteries", "alkaline, 1.1 Ah each", 9900.0),
    "two_aa": ("Two AA batteries", "alkaline, 2.4 Ah each", 21_600.0),
    "four_aa": ("Four AA batteries", "alkaline, 2.4 Ah each", 43_200.0),
    "pocket": ("A rechargeable one, as in a phone", "lithium, 1000 mAh", 13_300.0),
    "unknown": ("I do not know", "or it has none", 0.0),
})  # fmt: skip
"""The answer, what it stands for, and the energy of a fresh one (from memory). [J]"""
_DAY = 86_400.0
LASTS: dict[LastsKey, tuple[str, str, float]] = texts({
    "day": ("A day", "then it is empty or charged again", _DAY),
    "week": ("A week", "about seven days", 7 * _DAY),
    "month": ("A month", "about thirty days", 30 * _DAY),
    "half_year": ("Half a year", "about 180 days", 182 * _DAY),
    "year": ("A year", "it is changed once a year", 365 * _DAY),
    "three_years": ("Three years", "or longer", 1095 * _DAY),
})  # fmt: skip
"""The answer, what it stands for, and the time. [s]"""


def battery_power_w(battery: BatteryKey, lasts: LastsKey) -> float:
    """Mean power of a device that empties a battery in a time. [W]

    Examples
    --------
    >>> f"{1e6 * battery_power_w('two_aa', 'year'):.0f} µW"
    '685 µW'
    """
    return BATTERIES[battery][2] / LASTS[lasts][2]
