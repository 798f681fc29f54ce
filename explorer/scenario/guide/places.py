"""Places that the guide offers: what each stands for, and how that is known."""

from __future__ import annotations

from dataclasses import dataclass

from explorer.scenario import parts
from explorer.scenario.guide.answers import PlaceKey
from explorer.scenario.light import Source
from explorer.scenario.weekdays import WEEKDAYS, Weekday
from explorer.text import say

COMMON = say("typical, common practice, no source")
OWN = say("own judgement, no source")
MILDER_DAY = (7.0, 17.0)
"""Hours of light of a day in March or September that count. [h]"""
OVERCAST_LX = 9800.0
"""Mean of these hours out of doors under an overcast sky. [lx]

Under one 300 + 21 000 sin h lx reach the ground (IES recommended practice for daylight
availability, from memory), h the height of the sun; at the equinox at 52° north.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place, with the light that is assumed there."""

    title: str
    line: str
    """What the place stands for, in a few words."""
    source: Source
    how: str
    """What was assumed of the panel's position, with its source."""
    facing: float = 1.0
    """Light on the panel over the level of the place."""
    listed: str = ""
    """Name in ``resources/places``; empty where the level is given here."""
    lux: float = 0.0
    origin: str = OWN
    """Where `lux` comes from."""
    hours: tuple[tuple[float, float], ...] = ((8.0, 18.0),)
    """Lit hours; for daylight those of the season count."""
    days: tuple[Weekday, ...] = WEEKDAYS[:5]
    """Days on which lamps are on."""
    people: tuple[float, float] = (8.0, 18.0)
    """Hours at which people are there, on `days`. [h]"""
    ambient_c: float = 21.0
    soiling: float = 1.0
    most_cm2: float = 2000.0
    """Panels beyond this are absurd there."""
    faces: bool = False
    """Whether the way that it faces decides how much sun it gets."""
    called: str = ""
    """Place of a design that lives there, where the answer's title makes none."""

    @property
    def design_place(self) -> str:
        """What the place of a design that lives there is called."""
        return self.called or self.title

    @property
    def daylight(self) -> bool:
        """Whether its light comes through a window or from the sky."""
        return self.source.startswith("daylight")

    @property
    def outside(self) -> bool:
        """Whether it is out of doors, where winter brings frost."""
        return self.source == "daylight_open"


_EVENING = ((18.0, 23.0),)
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
        listed="Corridor", source="led_4000", facing=_THIRD, how=_WALL,
    ),
    "stairs": Spot(
        title=say("On a staircase wall"),
        line=say("about 150 lx by design, a third of it on the wall"),
        listed="Stairs", source="led_4000", facing=_THIRD, how=_WALL,
    ),
    "hall": Spot(
        title=say("In an entrance hall"),
        line=say("about 200 lx by design, on the wall a third"),
        listed="Entrance hall", source="led_4000", facing=_THIRD, how=_WALL,
    ),
    "desk": Spot(
        title=say("On a desk"), line=say("about 500 lx by design on the desk top"),
        listed="Office desk", source="led_4000", how=_FLAT,
    ),
    "meeting_room": Spot(
        title=say("In a meeting room"), line=say("about 500 lx on the table, a third on the wall"),
        listed="Meeting room", source="led_4000", hours=((9.0, 12.0), (13.0, 16.0)),
        facing=_THIRD,
        how=say("{where}; the room is lit six hours a day, while it is used", where=_WALL),
    ),
    "shelf": Spot(
        title=say("On a shelf away from the window"),
        line=say("about 75 lx on upright faces in an office"),
        listed="Office wall", source="led_4000",
        how=say("it stands upright, where the design value for walls holds"),
    ),
    "shop": Spot(
        title=say("In a shop"), line=say("about 300 lx by design, half on the shelves"),
        lux=300.0, origin=say("EN 12464-1, sales areas, from memory"), source="led_4000",
        facing=0.5, hours=((9.0, 20.0),), days=WEEKDAYS[:6], people=(9.0, 20.0),
        how=say(
            "it stands upright at the edge of a shelf, which gets about half of the light on the "
            "floor (common practice, no source)"
        ),
    ),
    "machine": Spot(
        title=say("Near a machine"), line=say("about 300 lx by design; dusty and warm"),
        listed="Assembly, medium", source="led_5000", facing=_THIRD, soiling=0.8, ambient_c=35.0,
        how=say(
            "it sits on the side of a machine at 35 °C, which gets about a third of the light on "
            "the bench (common practice, no source); dust takes a fifth (own judgement)"
        ),
    ),
    "living_room": Spot(
        title=say("In a living room"), line=say("about 75 lx in the evening"),
        listed="Home, living room in the evening", source="led_3000", hours=_EVENING,
        days=WEEKDAYS, people=(7.0, 23.0), how=_LAMPS,
    ),
    "dark_corner": Spot(
        title=say("In a dark corner at home"), line=say("about 20 lx in the evening"),
        listed="Home, dark corner", source="led_3000", hours=_EVENING, days=WEEKDAYS,
        people=(7.0, 23.0), how=_LAMPS,
    ),
    "cupboard": Spot(
        title=say("In a cupboard or a box"), line=say("dark but for ten minutes a day"),
        lux=100.0, source="led_4000", hours=((12.0, 12.17),), days=WEEKDAYS,
        how=say("the door stands open for ten minutes a day (own judgement)"),
    ),
    "worn": Spot(
        title=say("Worn on the body"), line=say("about 100 lx by day on average"),
        lux=100.0, source="led_4000", days=WEEKDAYS, people=(7.0, 22.0), most_cm2=50.0,
        how=say(
            "it faces forward, in rooms, and is covered by clothes or arms for part of the time"
        ),
    ),
    "window": Spot(
        title=say("By a window"), line=say("about 1300 lx by day, less in winter"),
        listed="Bright workplace near a window", source="daylight_glass",
        faces=True, how=say("it looks out of the window"),
    ),
    "skylight": Spot(
        title=say("Under a skylight"), line=say("about 500 lx by day, less in winter"),
        lux=500.0, source="daylight_glass",
        origin=say("a twentieth of the 10 000 lx of an overcast sky, from memory"),
        how=say("it faces up, below the middle of the skylight"),
    ),
    "facade": Spot(
        title=say("Outside on a wall or a door"), line=say("about 2000 lx on an overcast day"),
        lux=2000.0, source="daylight_open", ambient_c=5.0,
        origin=say(
            "an upright face gets 0.4 of an overcast sky's 9800 lx, and half of that where houses "
            "or trees stand opposite (from memory)"
        ),
        faces=True, how=say("it stands upright on the wall or the door"),
    ),
    "eaves": Spot(
        title=say("Outside under a roof"), line=say("about 1000 lx on an overcast day"),
        lux=1000.0, source="daylight_open", ambient_c=5.0,
        origin=say("a tenth of the 9800 lx of an overcast sky"),
        how=say("it hangs upright under the roof and sees the lower part of the sky"),
    ),
    "elsewhere": Spot(
        title=say("None of these"), line=say("then the light has to be measured"),
        source="led_4000", how=say("the panel faces as the meter did"),
        called=say("Where the light was measured"),
    ),
}  # fmt: skip


def level_lx(place: PlaceKey) -> float:
    """Light level that stands for a place, before the panel's position. [lx]"""
    spot = SPOTS[place]
    if not spot.listed:
        return spot.lux
    return next(p.illuminance_lx for p in parts.places() if p.name == spot.listed)


def origin_of(place: PlaceKey) -> str:
    """Where that level comes from."""
    spot = SPOTS[place]
    listed = next((p for p in parts.places() if p.name == spot.listed), None)
    return listed.source if listed else spot.origin
