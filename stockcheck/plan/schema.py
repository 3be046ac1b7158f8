"""What a plan file may hold: every key with its kind, bounds, default and help, in one place.

The reader validates by this table and ``stockcheck`` prints its help from it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stockcheck import units
from stockcheck.language import say
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
    default: str = say("not stated")


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
    say("the plan itself"),
    (
        Key("name", "name", "text", say("what you call the tank"), default=say("the file's name")),
        _flag("air_stone", say("an air pump with a stone runs day and night")),
    ),
)

_TANK = Section(
    "tank",
    "table",
    say("the vessel; give its measures, or the water it holds"),
    (
        _quantity("length", "length_cm", units.LENGTH, 5, 2000, say("left to right")),
        _quantity("width", "width_cm", units.LENGTH, 5, 1000, say("front to back")),
        _quantity("height", "height_cm", units.LENGTH, 5, 500, say("bottom to rim")),
        _choice("measured", ("outside", "inside"), say("where the measures were taken"), "outside"),
        _quantity(
            "glass",
            "glass_mm",
            units.THICKNESS,
            2,
            60,
            say("thickness of the panes"),
            default=say("usual for the size"),
        ),
        _quantity(
            "fill_gap",
            "fill_gap_cm",
            units.LENGTH,
            0,
            100,
            say("water line below the rim"),
            positive=False,
            default="3 cm",
        ),
        _choice("brace", ("none", "euro"), say("euro: glass strips along the rim"), "none"),
        _flag("lid", say("a lid or close-fitting cover glass")),
        _choice("cover", ("open", "some", "dense"), say("how broken the lines of sight are"), "some"),
        _count(
            "caves", say("caves and tubes that one animal can call its own"), low=0, high=500, default="0"
        ),
        _quantity(
            "equipment",
            "equipment_l",
            units.VOLUME,
            0,
            1000,
            say("what filter, heater and pipes displace inside"),
            positive=False,
            default="0 L",
        ),
        _quantity(
            "water_volume",
            "water_volume_l",
            units.VOLUME,
            1,
            100_000,
            say("measured while filling; wins over the measures"),
        ),
        Key("buckets", "buckets", "buckets", say('filled by bucket: { count = 21, volume = "9 L" }')),
        Key("fill", "fill", "fill", say('filled by hose: { rate = "6 L/minute", time = "28 minute" }')),
    ),
    required=True,
)

_SUBSTRATE = Section(
    "substrate",
    "list",
    say("a layer of the floor, or one terrace of it"),
    (
        Key(
            "kind",
            "kind",
            "text",
            say("sand, gravel, planted soil ... (a name of the substrates table)"),
            required=True,
        ),
        _quantity(
            "front",
            "front_cm",
            units.LENGTH,
            0,
            100,
            say("depth at the front glass"),
            positive=False,
            required=True,
        ),
        _quantity(
            "middle",
            "middle_cm",
            units.LENGTH,
            0,
            100,
            say("depth half way"),
            positive=False,
            default=say("straight slope"),
        ),
        _quantity(
            "back",
            "back_cm",
            units.LENGTH,
            0,
            100,
            say("depth at the back"),
            positive=False,
            default=say("as in front"),
        ),
        _quantity(
            "wall", "wall_cm", units.LENGTH, 0, 1000, say("a retaining wall this far behind the front glass")
        ),
    ),
)

_HARDSCAPE = Section(
    "hardscape",
    "list",
    say("rock or wood, by mass or by size"),
    (
        Key(
            "kind",
            "kind",
            "text",
            say("lava rock, slate, driftwood ... (a name of the rocks table)"),
            required=True,
        ),
        _quantity("mass", "mass_kg", units.MASS, 0, 2000, say("dry, all pieces together")),
        Key("size", "size_cm", "sizes", say('the box around one piece: ["20 cm", "12 cm", "10 cm"]')),
        _count("count", say("pieces of this size"), high=1000, default="1"),
    ),
)

_ROOM = Section(
    "room",
    "table",
    say("the room around the tank over a year"),
    (
        _quantity("low", "low_c", units.TEMPERATURE, -20, 50, say("the coldest it gets"), positive=False),
        _quantity("high", "high_c", units.TEMPERATURE, -20, 50, say("the warmest it gets"), positive=False),
        _quantity(
            "humidity",
            "humidity",
            units.SHARE,
            0,
            1,
            say("relative humidity"),
            positive=False,
            default="50 %",
        ),
    ),
)


def _water(name: str, help: str) -> Section:
    return Section(
        name,
        "table",
        help,
        (
            Key("pH", "pH", "number", say("a plain number"), low=3.0, high=11.0),
            _quantity("GH", "GH_dgh", units.HARDNESS, 0, 200, say("general hardness"), positive=False),
            _quantity(
                "KH",
                "KH_dkh",
                units.ALKALINITY,
                0,
                200,
                say("carbonate hardness (alkalinity)"),
                positive=False,
            ),
            _quantity(
                "nitrate",
                "nitrate_mg_l",
                units.NITRATE,
                0,
                1000,
                say("as NO3 unless it says as N"),
                positive=False,
            ),
            _quantity(
                "nitrite",
                "nitrite_n_mg_l",
                units.NITRITE_N,
                0,
                100,
                say("as NO2 unless it says as N"),
                positive=False,
            ),
            _quantity(
                "ammonia",
                "tan_mg_l",
                units.AMMONIA_N,
                0,
                100,
                say("total ammonia, as N unless it says as NH4"),
                positive=False,
            ),
            _quantity(
                "chloride", "chloride_mg_l", units.CONCENTRATION, 0, 40_000, say("as Cl"), positive=False
            ),
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
                "chlorine", "chlorine_mg_l", units.CONCENTRATION, 0, 20, say("free chlorine"), positive=False
            ),
            _quantity(
                "chloramine", "chloramine_mg_l", units.CONCENTRATION, 0, 20, say("as Cl2"), positive=False
            ),
            _flag("humic", say("peat, leaves, dark wood or buffers: KH and pH no longer tell the CO2")),
        ),
    )


_HEATER = Section(
    "heater",
    "table",
    say("leave the section out for an unheated tank"),
    (
        _quantity("power", "power_w", units.POWER, 1, 20_000, say("of each heater")),
        _quantity(
            "setpoint", "setpoint_c", units.TEMPERATURE, 5, 45, say("what the dial says"), positive=False
        ),
        _quantity(
            "swing",
            "swing_c",
            units.TEMPERATURE_STEP,
            0,
            5,
            say("the thermostat's, either way"),
            positive=False,
            default="0.5 degC",
        ),
        _quantity("step", "step_c", units.TEMPERATURE_STEP, 0, 5, say("of the dial"), default="0.5 degC"),
        _count("count", say("heaters of this power"), high=20, default="1"),
    ),
)

_FILTER = Section(
    "filter",
    "table",
    say("the pump and what it runs through"),
    (
        _quantity("flow", "flow_l_h", units.FLOW, 5, 100_000, say("as it runs, loaded"), required=True),
        _flag("intake_guard", say("a sponge or mesh keeps small animals out of the intake")),
        _flag("air_stone", say("an air stone runs day and night (the same as at the top of the file)")),
        _quantity(
            "matured",
            "matured_days",
            units.TIME,
            0,
            36_525,
            say("since it began to run"),
            positive=False,
            default=say("grown in"),
        ),
        _quantity(
            "seeded",
            "seeded",
            units.SHARE,
            0,
            1,
            say("share of the media from a mature filter"),
            positive=False,
            default="0 %",
        ),
        _choice("surface", ("still", "ripple", "strong"), say("how the outlet moves the surface"), "ripple"),
    ),
)

_MEDIA = Section(
    "filter.media",
    "list",
    say("a filter medium; list them in order of flow"),
    (
        Key(
            "kind",
            "kind",
            "text",
            say("ceramic rings, sponge ... (a name of the media table)"),
            required=True,
        ),
        _quantity("volume", "volume_l", units.VOLUME, 0, 5000, say("as it lies in the filter")),
        _quantity("mass", "mass_kg", units.MASS, 0, 5000, "dry"),
        _choice("state", ("clean", "in use", "clogged"), say("how open it is"), "in use"),
    ),
)

_LIGHT = Section(
    "light",
    "table",
    say("the lamp over the tank"),
    (
        _quantity("hours", "hours", units.HOURS, 0, 24, "a day", positive=False, default="8 hour"),
        _choice("level", ("low", "medium", "high"), say("at the plants"), "medium"),
        _flag("co2", say("carbon dioxide is added")),
        _quantity("power", "power_w", units.POWER, 0, 10_000, say("of the lamp")),
    ),
)

_FEEDING = Section(
    "feeding",
    "table",
    say("what is fed; left out, the ration the animals need"),
    (
        Key("feed", "feed", "text", say("flake, pellets ... (a name of the feeds table)"), default="flake"),
        _quantity(
            "amount", "g_per_day", units.FEED, 0, 10_000, say("weigh it: pinches are no unit"), positive=False
        ),
    ),
)

_ROUTINE = Section(
    "routine",
    "table",
    say("the water change"),
    (
        _quantity(
            "water_change",
            "water_change",
            units.SHARE,
            0,
            1,
            say("share of the water"),
            positive=False,
            default="0 %",
        ),
        _quantity("every", "every_days", units.TIME, 0.04, 366, say("the interval"), default="7 day"),
        _choice(
            "top_up", ("tap", "pure"), say("what replaces evaporation; pure: rain or reverse osmosis"), "tap"
        ),
        _flag("conditioner", say("tap water is conditioned against chlorine and chloramine")),
    ),
)

_ANIMALS = Section(
    "animals",
    "list",
    say("one kind of animal; say count, or males and females"),
    (
        Key(
            "species",
            "species",
            "text",
            say("any name in the table: scientific, synonym or common"),
            required=True,
        ),
        _count("count", say("animals whose sex is not known")),
        _count("males", "males", low=0),
        _count("females", "females", low=0),
        _choice("stage", ("juvenile", "adult"), say("as they are today"), "adult"),
        _quantity(
            "length",
            "length_mm",
            units.THICKNESS,
            1,
            3000,
            say("of one animal today"),
            default=say("by stage"),
        ),
        _flag("raised_together", say("kin, or brought up together")),
    ),
    required=True,
)

_PLANTS = Section(
    "plants",
    "list",
    say("one kind of plant"),
    (
        Key("species", "species", "text", say("any name in the table"), required=True),
        _quantity(
            "cover",
            "cover",
            units.SHARE,
            0,
            1,
            say("of the floor; of the surface when floating"),
            default="10 %",
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
        _water("water", say("of the tank, as measured")),
        _water("tap", say("what is added at a water change")),
        _water("target", say("the hardness wanted from mixing tap and pure water")),
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
