"""What a plan file may hold: every key with its kind, bounds, default and help, in one place.

The reader validates by this table and ``stockcheck`` prints its help from it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stockcheck import units
from stockcheck.units import Dimension

Kind = Literal["text", "choice", "flag", "count", "number", "quantity", "sizes", "buckets", "fill"]
#: How a section occurs in the file: once, or as a list of tables.
Form = Literal["table", "list"]


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a section.

    ``attribute`` is its name in `stockcheck.plan.model`; ``low`` and ``high`` bound the value (inclusive) in
    the unit of its dimension; ``positive`` excludes zero.  ``default`` is what stands in when it is left out,
    in words.
    """

    name: str
    attribute: str
    kind: Kind
    help: str
    dimension: Dimension | None = None
    low: float = 0.0
    high: float = 0.0
    positive: bool = True
    choices: tuple[str, ...] = ()
    required: bool = False
    default: str = "not stated"


@dataclass(frozen=True, slots=True)
class Section:
    """A table of the file (or a list of tables) and its keys."""

    name: str
    form: Form
    help: str
    keys: tuple[Key, ...]
    required: bool = False

    def key(self, name: str) -> Key | None:
        return next((key for key in self.keys if key.name == name), None)


def _quantity(
    name: str,
    attribute: str,
    dimension: Dimension,
    low: float,
    high: float,
    help: str,
    *,
    positive: bool = True,
    required: bool = False,
    default: str = "not stated",
) -> Key:
    return Key(
        name,
        attribute,
        "quantity",
        help,
        dimension,
        low,
        high,
        positive=positive,
        required=required,
        default=default,
    )


def _flag(name: str, help: str) -> Key:
    return Key(name, name, "flag", help, default="false")


def _choice(name: str, choices: tuple[str, ...], help: str, default: str) -> Key:
    return Key(name, name, "choice", help, choices=choices, default=default)


def _count(name: str, help: str, *, low: float = 1, high: float = 5000, default: str = "not stated") -> Key:
    return Key(name, name, "count", help, low=low, high=high, default=default)


# Bounds are sanity limits: beyond them a unit or a digit has slipped.  They judge no plan.
_PLAN = Section(
    "",
    "table",
    "the plan itself",
    (
        Key("name", "name", "text", "what you call the tank", default="the file's name"),
        _flag("air_stone", "an air pump with a stone runs day and night"),
    ),
)

_TANK = Section(
    "tank",
    "table",
    "the vessel; give its measures, or the water it holds",
    (
        _quantity("length", "length_cm", units.LENGTH, 5, 2000, "left to right"),
        _quantity("width", "width_cm", units.LENGTH, 5, 1000, "front to back"),
        _quantity("height", "height_cm", units.LENGTH, 5, 500, "bottom to rim"),
        _choice("measured", ("outside", "inside"), "where the measures were taken", "outside"),
        _quantity(
            "glass",
            "glass_mm",
            units.THICKNESS,
            2,
            60,
            "thickness of the panes",
            default="usual for the size",
        ),
        _quantity(
            "fill_gap",
            "fill_gap_cm",
            units.LENGTH,
            0,
            100,
            "water line below the rim",
            positive=False,
            default="3 cm",
        ),
        _choice("brace", ("none", "euro"), "euro: glass strips along the rim", "none"),
        _flag("lid", "a lid or close-fitting cover glass"),
        _choice("cover", ("open", "some", "dense"), "how broken the lines of sight are", "some"),
        _count("caves", "caves and tubes that one animal can call its own", low=0, high=500, default="0"),
        _quantity(
            "equipment",
            "equipment_l",
            units.VOLUME,
            0,
            1000,
            "what filter, heater and pipes displace inside",
            positive=False,
            default="0 L",
        ),
        _quantity(
            "water_volume",
            "water_volume_l",
            units.VOLUME,
            1,
            100_000,
            "measured while filling; wins over the measures",
        ),
        Key("buckets", "buckets", "buckets", 'filled by bucket: { count = 21, volume = "9 L" }'),
        Key("fill", "fill", "fill", 'filled by hose: { rate = "6 L/minute", time = "28 minute" }'),
    ),
    required=True,
)

_SUBSTRATE = Section(
    "substrate",
    "list",
    "a layer of the floor, or one terrace of it",
    (
        Key(
            "kind",
            "kind",
            "text",
            "sand, gravel, planted soil ... (a name of the substrates table)",
            required=True,
        ),
        _quantity(
            "front",
            "front_cm",
            units.LENGTH,
            0,
            100,
            "depth at the front glass",
            positive=False,
            required=True,
        ),
        _quantity(
            "middle",
            "middle_cm",
            units.LENGTH,
            0,
            100,
            "depth half way",
            positive=False,
            default="straight slope",
        ),
        _quantity(
            "back",
            "back_cm",
            units.LENGTH,
            0,
            100,
            "depth at the back",
            positive=False,
            default="as in front",
        ),
        _quantity(
            "wall", "wall_cm", units.LENGTH, 0, 1000, "a retaining wall this far behind the front glass"
        ),
    ),
)

_HARDSCAPE = Section(
    "hardscape",
    "list",
    "rock or wood, by mass or by size",
    (
        Key(
            "kind",
            "kind",
            "text",
            "lava rock, slate, driftwood ... (a name of the rocks table)",
            required=True,
        ),
        _quantity("mass", "mass_kg", units.MASS, 0, 2000, "dry, all pieces together"),
        Key("size", "size_cm", "sizes", 'the box around one piece: ["20 cm", "12 cm", "10 cm"]'),
        _count("count", "pieces of this size", high=1000, default="1"),
    ),
)

_ROOM = Section(
    "room",
    "table",
    "the room around the tank over a year",
    (
        _quantity("low", "low_c", units.TEMPERATURE, -20, 50, "the coldest it gets", positive=False),
        _quantity("high", "high_c", units.TEMPERATURE, -20, 50, "the warmest it gets", positive=False),
        _quantity(
            "humidity", "humidity", units.SHARE, 0, 1, "relative humidity", positive=False, default="50 %"
        ),
    ),
)


def _water(name: str, help: str) -> Section:
    return Section(
        name,
        "table",
        help,
        (
            Key("pH", "pH", "number", "a plain number", low=3.0, high=11.0),
            _quantity("GH", "GH_dgh", units.HARDNESS, 0, 200, "general hardness", positive=False),
            _quantity(
                "KH", "KH_dkh", units.ALKALINITY, 0, 200, "carbonate hardness (alkalinity)", positive=False
            ),
            _quantity(
                "nitrate",
                "nitrate_mg_l",
                units.NITRATE,
                0,
                1000,
                "as NO3 unless it says as N",
                positive=False,
            ),
            _quantity(
                "nitrite",
                "nitrite_n_mg_l",
                units.NITRITE_N,
                0,
                100,
                "as NO2 unless it says as N",
                positive=False,
            ),
            _quantity(
                "ammonia",
                "tan_mg_l",
                units.AMMONIA_N,
                0,
                100,
                "total ammonia, as N unless it says as NH4",
                positive=False,
            ),
            _quantity("chloride", "chloride_mg_l", units.CONCENTRATION, 0, 40_000, "as Cl", positive=False),
            _quantity(
                "conductivity",
                "conductivity_us_cm",
                units.CONDUCTIVITY,
                0,
                60_000,
                "at 25 degC",
                positive=False,
            ),
            _quantity(
                "chlorine", "chlorine_mg_l", units.CONCENTRATION, 0, 20, "free chlorine", positive=False
            ),
            _quantity("chloramine", "chloramine_mg_l", units.CONCENTRATION, 0, 20, "as Cl2", positive=False),
            _flag("humic", "peat, leaves, dark wood or buffers: KH and pH no longer tell the CO2"),
        ),
    )


_HEATER = Section(
    "heater",
    "table",
    "leave the section out for an unheated tank",
    (
        _quantity("power", "power_w", units.POWER, 1, 20_000, "of each heater", required=True),
        _quantity("setpoint", "setpoint_c", units.TEMPERATURE, 5, 45, "what the dial says", positive=False),
        _quantity(
            "swing",
            "swing_c",
            units.TEMPERATURE_STEP,
            0,
            5,
            "the thermostat's, either way",
            positive=False,
            default="0.5 degC",
        ),
        _quantity("step", "step_c", units.TEMPERATURE_STEP, 0, 5, "of the dial", default="0.5 degC"),
        _count("count", "heaters of this power", high=20, default="1"),
    ),
)

_FILTER = Section(
    "filter",
    "table",
    "the pump and what it runs through",
    (
        _quantity("flow", "flow_l_h", units.FLOW, 5, 100_000, "as it runs, loaded", required=True),
        _flag("intake_guard", "a sponge or mesh keeps small animals out of the intake"),
        _flag("air_stone", "an air stone runs day and night (the same as at the top of the file)"),
        _quantity(
            "matured",
            "matured_days",
            units.TIME,
            0,
            36_525,
            "since it began to run",
            positive=False,
            default="grown in",
        ),
        _quantity(
            "seeded",
            "seeded",
            units.SHARE,
            0,
            1,
            "share of the media from a mature filter",
            positive=False,
            default="0 %",
        ),
        _choice("surface", ("still", "ripple", "strong"), "how the outlet moves the surface", "ripple"),
    ),
)

_MEDIA = Section(
    "filter.media",
    "list",
    "a filter medium; list them in order of flow",
    (
        Key("kind", "kind", "text", "ceramic rings, sponge ... (a name of the media table)", required=True),
        _quantity("volume", "volume_l", units.VOLUME, 0, 5000, "as it lies in the filter"),
        _quantity("mass", "mass_kg", units.MASS, 0, 5000, "dry"),
        _choice("state", ("clean", "in use", "clogged"), "how open it is", "in use"),
    ),
)

_LIGHT = Section(
    "light",
    "table",
    "the lamp over the tank",
    (
        _quantity("hours", "hours", units.HOURS, 0, 24, "a day", positive=False, default="8 hour"),
        _choice("level", ("low", "medium", "high"), "at the plants", "medium"),
        _flag("co2", "carbon dioxide is added"),
        _quantity("power", "power_w", units.POWER, 0, 10_000, "of the lamp"),
    ),
)

_FEEDING = Section(
    "feeding",
    "table",
    "what is fed; left out, the ration the animals need",
    (
        Key("feed", "feed", "text", "flake, pellets ... (a name of the feeds table)", default="flake"),
        _quantity(
            "amount", "g_per_day", units.FEED, 0, 10_000, "weigh it: pinches are no unit", positive=False
        ),
    ),
)

_ROUTINE = Section(
    "routine",
    "table",
    "the water change",
    (
        _quantity(
            "water_change",
            "water_change",
            units.SHARE,
            0,
            1,
            "share of the water",
            positive=False,
            default="0 %",
        ),
        _quantity("every", "every_days", units.TIME, 0.04, 366, "the interval", default="7 day"),
        _choice("top_up", ("tap", "pure"), "what replaces evaporation; pure: rain or reverse osmosis", "tap"),
        _flag("conditioner", "tap water is conditioned against chlorine and chloramine"),
    ),
)

_ANIMALS = Section(
    "animals",
    "list",
    "one kind of animal; say count, or males and females",
    (
        Key(
            "species",
            "species",
            "text",
            "any name in the table: scientific, synonym or common",
            required=True,
        ),
        _count("count", "animals whose sex is not known"),
        _count("males", "males", low=0),
        _count("females", "females", low=0),
        _choice("stage", ("juvenile", "adult"), "as they are today", "adult"),
        _quantity("length", "length_mm", units.THICKNESS, 1, 3000, "of one animal today", default="by stage"),
        _flag("raised_together", "kin, or brought up together"),
    ),
    required=True,
)

_PLANTS = Section(
    "plants",
    "list",
    "one kind of plant",
    (
        Key("species", "species", "text", "any name in the table", required=True),
        _quantity(
            "cover", "cover", units.SHARE, 0, 1, "of the floor; of the surface when floating", default="10 %"
        ),
    ),
)

#: Every section by the name it has in the file; "" is the top of the file.
SECTIONS: dict[str, Section] = {
    section.name: section
    for section in (
        _PLAN,
        _TANK,
        _SUBSTRATE,
        _HARDSCAPE,
        _ROOM,
        _water("water", "of the tank, as measured"),
        _water("tap", "what is added at a water change"),
        _water("target", "the hardness wanted from mixing tap and pure water"),
        _HEATER,
        _FILTER,
        _MEDIA,
        _LIGHT,
        _FEEDING,
        _ROUTINE,
        _ANIMALS,
        _PLANTS,
    )
}
