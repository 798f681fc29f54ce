"""The load: a device that sleeps, wakes, does its work and goes back to sleep."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from explorer.quantity import show
from explorer.scenario.fields import MOST_IN_A_LIST, MOST_PHASES, Name, Section, choice, quantity
from explorer.scenario.hours import too_short
from explorer.scenario.origin import FromPart
from explorer.scenario.weekdays import WEEKDAYS, Weekday
from explorer.text import figure, listed, say


class Phase(Section):
    """A stretch of constant draw; exactly one of current, power and resistance is given."""

    name: Name = choice("", "Name", "What the device does in this phase.")
    current_A: float | None = quantity(
        None, "Current", "A", 0, 1000, "Constant current that the device draws."
    )
    power_W: float | None = quantity(
        None, "Power", "W", 0, 10_000, "Constant power that the device draws."
    )
    resistance_ohm: float | None = quantity(
        None, "Resistance", "Ω", 1e-3, 1e9, "Resistance that the device connects."
    )
    duration_s: float = quantity(
        0.05, "Duration", "s", 1e-9, 86_400,
        "Length of the phase; of a run until the store gives out the least that counts.",
    )

    @model_validator(mode="after")
    def _one_kind(self) -> Phase:
        kinds = ("current_A", "power_W", "resistance_ohm")
        given = [k for k in kinds if getattr(self, k) is not None]
        if not given:
            raise ValueError(
                say("give exactly one of current_A, power_W and resistance_ohm, found none")
            )
        if len(given) > 1:
            raise ValueError(
                say(
                    "give exactly one of current_A, power_W and resistance_ohm, found {keys}",
                    keys=listed(given),
                )
            )
        return self

    @property
    def amount_key(self) -> Literal["current_A", "power_W", "resistance_ohm"]:
        """The field that says how much this phase draws."""
        if self.current_A is not None:
            return "current_A"
        return "power_W" if self.power_W is not None else "resistance_ohm"


class Every(Section):
    """Repeat at a fixed interval, at all times or inside a daily window."""

    kind: Literal["every"] = "every"
    interval_s: float = quantity(
        60.0, "Interval", "s", 1e-3, 8_640_000, "From one start to the next."
    )
    days: tuple[Weekday, ...] = choice(WEEKDAYS, "Days", "Days on which it is due.")
    from_h: float = quantity(0.0, "From", "h", 0, 24, "Window opens.")
    to_h: float = quantity(24.0, "To", "h", 0, 24, "Window closes.")

    @model_validator(mode="after")
    def _window_in_order(self) -> Every:
        if self.to_h <= self.from_h:
            raise ValueError(
                say(
                    "to_h ({end}) must be later than from_h ({start})",
                    end=figure(f"{self.to_h:g}"),
                    start=figure(f"{self.from_h:g}"),
                )
            )
        if fault := too_short(self.from_h, self.to_h):
            raise ValueError(fault)
        if not self.days:
            raise ValueError(say("days must name at least one weekday"))
        return self


class WhenReady(Section):
    """Run whenever the store has charged up to a voltage, then wait for it again."""

    kind: Literal["when_ready"] = "when_ready"
    ready_V: float = quantity(4.5, "Start voltage", "V", 0.1, 100, "Store voltage that starts it.")
    wanted_per_day: float = quantity(
        1.0, "Wanted per day", "1/d", 0.001, 1e6, "Runs a day that the design should reach."
    )


class UntilEmpty(Section):
    """Begin with every connect and go on until the store gives out."""

    kind: Literal["until_empty"] = "until_empty"
    wanted_per_day: float = quantity(
        1.0, "Wanted per day", "1/d", 0.001, 1e6,
        "Runs of the least length a day that the design should reach."
    )


Schedule = Annotated[Every | WhenReady | UntilEmpty, Field(discriminator="kind")]


class Operation(Section):
    """One thing that the device does, again and again."""

    name: Name = choice("measure and send", "Name", "What it does.")
    schedule: Schedule = choice(Every(), "Schedule", "When it runs.")
    phases: Annotated[tuple[Phase, ...], Field(max_length=MOST_PHASES)] = choice(
        (Phase(current_A=0.02, duration_s=0.05),), "Phases", "What it draws, one after another."
    )

    @model_validator(mode="after")
    def _fits_its_interval(self) -> Operation:
        if not self.phases:
            raise ValueError(say("phases must hold at least one phase"))
        if isinstance(self.schedule, UntilEmpty) and len(self.phases) > 1:
            raise ValueError(say(
                "what runs until the store gives out has one phase, found {n}; what comes before "
                "it belongs to start_up", n=len(self.phases),
            ))  # fmt: skip
        total = sum(p.duration_s for p in self.phases)
        if isinstance(self.schedule, Every) and total >= self.schedule.interval_s:
            raise ValueError(
                say(
                    "the phases last {length}, which does not fit the interval_s of {interval}",
                    length=show(total, "s", 6), interval=show(self.schedule.interval_s, "s", 6),
                )
            )
        return self


class Regulator(Section):
    """What stands between the store and the device."""

    kind: Literal["none", "linear", "switching"] = choice(
        "none", "Regulator", "None, a linear regulator or a switching one."
    )
    output_V: float = quantity(3.0, "Output voltage", "V", 0.3, 60, "At the device.")
    dropout_V: float = quantity(
        0.15, "Dropout voltage", "V", 0, 5, "Least voltage across a linear regulator."
    )
    ground_A: float = quantity(
        1e-6, "Quiescent current", "A", 0, 0.1, "Ground or quiescent current of the regulator."
    )
    efficiency: float = quantity(
        0.85, "Efficiency", "", 0.05, 1, "Of a switching regulator."
    )
    minimum_input_V: float = quantity(
        1.0, "Minimum input", "V", 0, 60, "Least input of a switching regulator."
    )


class Load(FromPart, Section):
    """Load switch, regulator and device."""

    connect_V: float = quantity(
        3.6, "Connect voltage", "V", 0.05, 100,
        "Rising store voltage at which the device is connected."
    )
    disconnect_V: float = quantity(
        2.4, "Disconnect voltage", "V", 0.0, 100, "Falling voltage at which it is cut off."
    )
    minimum_V: float = quantity(
        2.2, "Minimum operating voltage", "V", 0, 100,
        "Least terminal voltage at which the device works."
    )
    retry_delay_s: float = quantity(
        1.0, "Reconnect delay", "s", 0.001, 86_400, "Least time from a cut-off to the next connect."
    )
    regulator: Regulator = choice(Regulator(), "Regulator", "Between store and device.")
    bulk_capacitance_F: float = quantity(
        1e-5, "Bulk capacitance", "F", 0, 10, "On the device's side; filled at every connect."
    )
    start_up: Annotated[tuple[Phase, ...], Field(max_length=MOST_PHASES)] = choice(
        (Phase(name="start-up", current_A=0.005, duration_s=0.5),),
        "Start-up",
        "What the device draws after every connect, before its first operation.",
    )
    sleep_A: float = quantity(
        2e-6, "Sleep current", "A", 0, 100, "Of the device between operations."
    )
    operations: Annotated[tuple[Operation, ...], Field(max_length=MOST_IN_A_LIST)] = choice(
        (Operation(),), "Operations", "What the device does."
    )
    actuator: Literal[
        "none", "latching_valve", "vent_or_flap", "door_lock", "other_motor"
    ] = choice(
        "none", "Moves", "What the device moves, if anything; brings up the cautions that apply."
    )
    output_limit_A: float | None = quantity(
        None, "Load output limit", "A", 1e-6, 1000,
        "Largest current that the board's load output carries, a rating. Empty: the load sits "
        "directly on the store.",
    )
    indicator_V: float | None = quantity(
        None, "Indicator level", "V", 0.1, 100,
        "Store voltage at which an indicator says that it is charged. Empty: none, or a share.",
    )
    indicator_share: float | None = quantity(
        None, "Indicator, share of energy", "", 0.01, 1,
        "The same as a share of the energy of a full store, where no voltage is given.",
    )
    reserve_J: float = quantity(
        0.0, "Energy for a last action", "J", 0, 1e6,
        "Energy kept for one last safe action, such as closing a valve.",
    )

    @model_validator(mode="after")
    def _nothing_beside_what_empties_the_store(self) -> Load:
        empties = [isinstance(op.schedule, UntilEmpty) for op in self.operations]
        if any(empties) and len(empties) > 1:
            raise ValueError(say(
                "an operation with the schedule until_empty must be the only one, found {n}",
                n=len(empties),
            ))  # fmt: skip
        return self

    @property
    def runs_until_empty(self) -> bool:
        """Whether the device runs from every connect until the store gives out."""
        return any(op.schedule.kind == "until_empty" for op in self.operations)

    @model_validator(mode="after")
    def _thresholds_in_order(self) -> Load:
        if self.connect_V <= self.disconnect_V:
            raise ValueError(
                say(
                    "connect_V ({connect} V) must be higher than disconnect_V ({disconnect} V)",
                    connect=figure(f"{self.connect_V:g}"),
                    disconnect=figure(f"{self.disconnect_V:g}"),
                )
            )
        return self
