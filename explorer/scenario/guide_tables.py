"""Places and jobs that the guide offers: what each answer stands for, and how that is known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from explorer.scenario.light import Source
from explorer.text import say

PlaceKey = Literal[
    "corridor", "stairs", "hall", "desk", "meeting_room",
    "shelf", "window", "skylight", "living_room", "dark_corner",
]  # fmt: skip
JobKey = Literal["show", "report_near", "report_far", "count", "sense_co2", "valve", "motor"]

COMMON = say("typical, common practice, no source")


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place, with the light that is assumed there."""

    title: str
    line: str
    """What the place stands for, in a few words."""
    listed: str
    """Name in ``resources/places``; empty where the level is given here."""
    lux: float
    source: Source
    hours: tuple[tuple[float, float], ...]
    facing: float
    """Light on the panel over the listed level."""
    how: str
    """What was assumed of the panel's position, with its source."""


_WORK, _DAY, _EVENING = ((8.0, 18.0),), ((9.0, 16.0),), ((18.0, 23.0),)
_THIRD = 0.33
_WALL = say(
    "it hangs on a wall, which gets about a third of the light on the floor or desk "
    "(common practice, no source)"
)
_FLAT = say("it lies flat on the work surface, facing up, where the design value holds")
_LAMPS = say("only the lamps of the evening count; daylight comes on top")
SPOTS: dict[PlaceKey, Spot] = {
    "corridor": Spot(
        title=say("On a corridor wall"),
        line=say("about 100 lx by design, a third of it on the wall"),
        listed="Corridor", lux=0.0, source="led_4000", hours=_WORK, facing=_THIRD, how=_WALL,
    ),
    "stairs": Spot(
        title=say("On a staircase wall"),
        line=say("about 150 lx by design, a third of it on the wall"),
        listed="Stairs", lux=0.0, source="led_4000", hours=_WORK, facing=_THIRD, how=_WALL,
    ),
    "hall": Spot(
        title=say("In an entrance hall"),
        line=say("about 200 lx by design, on the wall a third"),
        listed="Entrance hall", lux=0.0, source="led_4000", hours=_WORK, facing=_THIRD, how=_WALL,
    ),
    "desk": Spot(
        title=say("On a desk"), line=say("about 500 lx by design on the desk top"),
        listed="Office desk", lux=0.0, source="led_4000", hours=_WORK, facing=1.0, how=_FLAT,
    ),
    "meeting_room": Spot(
        title=say("In a meeting room"), line=say("about 500 lx on the table, a third on the wall"),
        listed="Meeting room", lux=0.0, source="led_4000", hours=((9.0, 12.0), (13.0, 16.0)),
        facing=_THIRD,
        how=say("{where}; the room is lit six hours a day, while it is used", where=_WALL),
    ),
    "shelf": Spot(
        title=say("On a shelf away from the window"),
        line=say("about 75 lx on upright faces in an office"),
        listed="Office wall", lux=0.0, source="led_4000", hours=_WORK, facing=1.0,
        how=say("it stands upright, where the design value for walls holds"),
    ),
    "window": Spot(
        title=say("By a window"), line=say("about 1300 lx by day, nothing at night"),
        listed="Bright workplace near a window", lux=0.0, source="daylight_glass", hours=_DAY,
        facing=1.0, how=say("it faces the window, out of the direct sun"),
    ),
    "skylight": Spot(
        title=say("Under a skylight"), line=say("about 500 lx by day, nothing at night"), listed="",
        lux=500.0, source="daylight_glass", hours=_DAY, facing=1.0,
        how=say(
            "it faces up; a twentieth of the 10 000 lx of an overcast sky gets in (from memory)"
        ),
    ),
    "living_room": Spot(
        title=say("In a living room"), line=say("about 75 lx in the evening"),
        listed="Home, living room in the evening", lux=0.0, source="led_3000", hours=_EVENING,
        facing=1.0, how=_LAMPS,
    ),
    "dark_corner": Spot(
        title=say("In a dark corner at home"), line=say("about 20 lx in the evening"),
        listed="Home, dark corner", lux=0.0, source="led_3000", hours=_EVENING, facing=1.0,
        how=_LAMPS,
    ),
}  # fmt: skip


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
    actuator: Literal["none", "latching_valve", "other_motor"] = "none"
    reserve_j: float = 0.0


_READ = ("read the sensor", 3e-3, 0.05)
_NEAR = ("send nearby, three times", 0.0216, 0.005)
_NEAR_SOURCE = say(
    "a short-range radio takes 36 µJ to send once (a maker's application note on advertising: "
    "12.6 µC at 3 V)"
)
JOBS: dict[JobKey, Job] = {
    "show": Job(
        title=say("Show something on e-paper"),
        line=say("fetch a picture by radio and redraw it"),
        phases=(("fetch the picture", 0.1, 3.7), ("drive the display", 0.02, 0.5)), sleep_a=2e-6,
        source=say(
            "0.37 J to fetch a picture and 0.01 J to draw it (measured on one e-paper tag and "
            "published by who measured it)"
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
        phases=(_READ, ("send far", 0.1452, 0.165)), sleep_a=2e-6,
        source=say(
            "a long-range radio is on the air for 165 ms to send 13 bytes (LoRa formula, "
            "spreading factor 9) at 44 mA and 3.3 V (current from memory): 24 mJ; 0.15 mJ to read "
            "a sensor ({origin})",
            origin=COMMON,
        ),
    ),
    "count": Job(
        title=say("Count"), line=say("people, doors, pulses; reports its count nearby"),
        phases=(("report the count", 0.0216, 0.005),), sleep_a=6e-6,
        source=say(
            "{radio}; 6 µA to watch and count all the time ({origin})",
            radio=_NEAR_SOURCE,
            origin=COMMON,
        ),
    ),
    "sense_co2": Job(
        title=say("Sense carbon dioxide"), line=say("measure the air, report nearby"),
        phases=(("measure the air", 0.06, 5.0), _NEAR), sleep_a=3e-6,
        source=say(
            "0.3 J for a reading (0.25 to 0.35 J by the data sheets of photo-acoustic sensors); "
            "{radio}",
            radio=_NEAR_SOURCE,
        ),
    ),
    "valve": Job(
        title=say("Open or close a small valve"),
        line=say("a latching valve, which stays where it is"),
        phases=(("fill the pulse capacitor", 0.12, 6.0),), sleep_a=3e-6,
        source=say(
            "0.6 J for one move of a latching solenoid (12 V, 1 A, 50 ms by public valve "
            "pages), filled slowly into a capacitor of its own at 83 % ({origin})",
            origin=COMMON,
        ),
        actuator="latching_valve", reserve_j=0.72,
    ),
    "motor": Job(
        title=say("Turn or push something small"), line=say("a small gear motor for two seconds"),
        phases=(("run the motor", 0.5, 2.0),), sleep_a=3e-6,
        source=say("1 J for one move of a small gear motor ({origin})", origin=COMMON),
        actuator="other_motor", reserve_j=1.0,
    ),
}  # fmt: skip
