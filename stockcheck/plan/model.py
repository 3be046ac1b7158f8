"""A plan as the rest of the program sees it: plain floats in the units their names state.

``None`` means the keeper did not say; defaults that stand for a usual tank are set here and nowhere else.
Volumes are litres, lengths cm, masses g (rock: kg), temperatures degC, flows L/hour, times days
unless a name says otherwise; concentrations mg/L (nitrate as NO3, ammonia as TAN nitrogen), GH dGH, KH dKH.
"""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(slots=True)
class Substrate:
    """A layer, or one terrace of the floor; depths at the front glass, half way and at the back."""

    kind: str
    front_cm: float
    back_cm: float
    middle_cm: float | None = None
    wall_cm: float | None = None  # a retaining wall this far behind the front glass: a step, not a slope
    where: str = ""  # place in the plan: substrate[1]


@dataclass(slots=True)
class Hardscape:
    """Rock or wood, by mass or by size (the size of the box around it)."""

    kind: str
    mass_kg: float | None = None
    size_cm: tuple[float, float, float] | None = None
    count: int = 1


@dataclass(slots=True)
class Tank:
    length_cm: float | None = None
    width_cm: float | None = None
    height_cm: float | None = None
    measured: str = "outside"  # outside | inside
    glass_mm: float | None = None
    fill_gap_cm: float = 3.0
    brace: str = "none"  # none | euro (glass strips along the rim)
    lid: bool = False
    cover: str = "some"  # open | some | dense: how broken the lines of sight are
    caves: int = 0
    equipment_l: float = 0.0  # what filter, heater and pipes displace inside
    water_volume_l: float | None = None  # measured while filling: it wins over geometry
    buckets: tuple[int, float] | None = None  # count, litres each
    fill: tuple[float, float] | None = None  # L/min, minutes
    substrate: list[Substrate] = field(default_factory=list)
    hardscape: list[Hardscape] = field(default_factory=list)

    @property
    def measured_l(self) -> float | None:
        """Water as measured while filling, L: the keeper's own figure, else buckets, else a timed fill."""
        if self.water_volume_l is not None:
            return self.water_volume_l
        pair = self.buckets or self.fill
        return pair[0] * pair[1] if pair else None


@dataclass(slots=True)
class Water:
    """What was measured, of the tank or of the water added at a change."""

    pH: float | None = None
    GH_dgh: float | None = None
    KH_dkh: float | None = None
    nitrate_mg_l: float | None = None
    nitrite_n_mg_l: float | None = None
    tan_mg_l: float | None = None
    chloride_mg_l: float | None = None
    conductivity_us_cm: float | None = None
    chlorine_mg_l: float | None = None
    chloramine_mg_l: float | None = None
    humic: bool = False  # peat, leaves, dark wood, buffers: KH and pH no longer tell CO2


@dataclass(slots=True)
class Room:
    low_c: float | None = None
    high_c: float | None = None
    humidity: float = 0.5


@dataclass(slots=True)
class Heater:
    power_w: float | None = None  # of each; None where the plan does not say
    setpoint_c: float | None = None
    swing_c: float = 0.5
    count: int = 1
    step_c: float = 0.5  # of the dial

    @property
    def total_w(self) -> float | None:
        """Power of all heaters together, W."""
        return None if self.power_w is None else self.power_w * self.count


@dataclass(slots=True)
class Media:
    """One filter medium, in order of flow."""

    kind: str
    volume_l: float | None = None
    mass_kg: float | None = None
    state: str = "in use"  # clean | in use | clogged


@dataclass(slots=True)
class Filter:
    flow_l_h: float
    intake_guard: bool = False
    matured_days: float | None = None  # None: grown in
    seeded: float = 0.0  # share of the media that comes from a mature filter
    surface: str = "ripple"  # still | ripple | strong: how its outlet moves the surface
    media: list[Media] = field(default_factory=list)


@dataclass(slots=True)
class Light:
    hours: float = 8.0
    level: str = "medium"  # low | medium | high
    co2: bool = False
    power_w: float | None = None


@dataclass(slots=True)
class Feeding:
    feed: str = "flake"
    g_per_day: float | None = None  # the keeper's own; None: the ration of the animals


@dataclass(slots=True)
class Routine:
    water_change: float = 0.0  # share of the net volume, 0 to 1
    every_days: float = 7.0
    top_up: str = "tap"  # tap | pure (rain or reverse osmosis)
    conditioner: bool = False


@dataclass(slots=True)
class Animals:
    """One entry of the animal list; ``where`` is its place in the file (``animals[2]``)."""

    species: str  # as written
    where: str
    count: int | None = None  # when not sexed
    males: int = 0
    females: int = 0
    stage: str = "adult"  # juvenile | adult
    length_mm: float | None = None
    raised_together: bool = False

    @property
    def total(self) -> int:
        return self.males + self.females + (self.count or 0)


@dataclass(slots=True)
class Plants:
    """One entry of the plant list; ``cover`` is a share of the floor (of the surface when floating)."""

    species: str
    where: str
    cover: float = 0.1


@dataclass(slots=True)
class Plan:
    """One tank.  ``text`` is the file as written, for the lines of faults; empty where there was none."""

    name: str
    path: str
    tank: Tank
    water: Water = field(default_factory=Water)
    tap: Water = field(default_factory=Water)
    target: Water = field(default_factory=Water)  # hardness wanted from mixing
    room: Room = field(default_factory=Room)
    heater: Heater | None = None
    filter: Filter | None = None
    air_stone: bool = False
    light: Light = field(default_factory=Light)
    feeding: Feeding = field(default_factory=Feeding)
    routine: Routine = field(default_factory=Routine)
    animals: list[Animals] = field(default_factory=list)
    plants: list[Plants] = field(default_factory=list)
    text: str = field(default="", repr=False, compare=False)
