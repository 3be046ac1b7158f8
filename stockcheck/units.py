"""Quantities as people write them, parsed once at the door: ``parse("42 gallon", VOLUME)`` is 158.99.

Inside the program there are only floats, in the unit that their name states.  The units are pint's, from a
definition file of our own (``units.txt``).  Loading pint takes longer than a whole check, so the spellings
that nearly every plan uses carry their factors here; a test holds these to what pint makes of them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import lru_cache
from math import isfinite
from pathlib import Path
from typing import TYPE_CHECKING, Any

from stockcheck.language import say

if TYPE_CHECKING:
    from pint import UnitRegistry

DEFINITIONS = Path(__file__).with_name("units.txt")


@dataclass(frozen=True)
class Dimension:
    """What a key measures.

    Parameters
    ----------
    name : str
        As a person says it; `parse` takes it for the dimension itself.
    unit : str
        The plan model's unit; ``parse`` returns floats in it.
    could_have : tuple of str
        Units to offer where none or a wrong one was written; the first is the usual one.
    everyday : dict of str to float
        Factors of the commonest spellings to ``unit``.
    context : str
        The pint context that gives a concentration its meaning as hardness.
    bases : dict of str to float
        What may follow ``as``: ``"5 mg/L as N"``, with its factor.
    difference : bool
        A difference of temperatures, not a temperature.
    """

    name: str
    unit: str
    could_have: tuple[str, ...]
    everyday: dict[str, float] = field(default_factory=dict)
    context: str = ""
    bases: dict[str, float] = field(default_factory=dict)
    difference: bool = False


class UnitError(ValueError):
    """A text that is no such quantity: what is wrong, and what would be right."""

    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__(f"{problem}. {remedy}")
        self.problem, self.remedy = problem, remedy


# Molar masses (g/mol) by IUPAC's 2021 abridged weights: N 14.007, O 15.999, H 1.008.
_N, _NO2, _NO3, _NH3, _NH4 = 14.007, 46.005, 62.004, 17.031, 18.039
_HARDNESS = {"dGH": 1.0, "dKH": 1.0, "dH": 1.0, "°dH": 1.0, "°dGH": 1.0, "°dKH": 1.0}

LENGTH = Dimension(
    "length", "cm", ("cm", "mm", "inch", "foot"), {"cm": 1.0, "mm": 0.1, "m": 100.0, "inch": 2.54, "in": 2.54}
)
THICKNESS = Dimension(
    "thickness", "mm", ("mm", "cm", "inch"), {"mm": 1.0, "cm": 10.0, "inch": 25.4, "in": 25.4}
)
VOLUME = Dimension(
    "volume",
    "L",
    ("L", "gallon (US)", "imperial_gallon"),
    {"L": 1.0, "l": 1.0, "mL": 1e-3, "ml": 1e-3, "gallon": 3.785411784, "gallons": 3.785411784},
)
MASS = Dimension("mass", "kg", ("kg", "g", "pound"), {"kg": 1.0, "g": 1e-3, "lb": 0.45359237})
TEMPERATURE = Dimension("temperature", "degC", ("degC", "degF"), {"degC": 1.0, "°C": 1.0, "C": 1.0})
TEMPERATURE_STEP = Dimension(
    "temperature_difference",
    "degC",
    ("degC", "degF"),
    {"degC": 1.0, "°C": 1.0, "C": 1.0, "K": 1.0},
    difference=True,
)
POWER = Dimension("power", "W", ("W", "kW"), {"W": 1.0})
FLOW = Dimension(
    "flow",
    "L/hour",
    ("L/hour", "gallon/hour"),
    {"L/hour": 1.0, "L/h": 1.0, "l/h": 1.0, "gallon/hour": 3.785411784, "GPH": 3.785411784},
)
FILL_RATE = Dimension(
    "filling rate", "L/minute", ("L/minute", "gallon/minute"), {"L/minute": 1.0, "L/min": 1.0}
)
HARDNESS = Dimension(
    "GH",
    "dGH",
    ("dGH", "mg/L (as CaCO3)", "ppm", "mmol/L", "meq/L", "fH (French)", "Clark (English)", "gpg"),
    _HARDNESS,
    "hardness",
    {"CaCO3": 1.0, "CaO": 100.0869 / 56.0774},
)
ALKALINITY = Dimension(
    "KH",
    "dKH",
    ("dKH", "mg/L (as CaCO3)", "ppm", "meq/L", "mmol/L (acid capacity)", "fH (French)", "Clark (English)"),
    _HARDNESS,
    "alkalinity",
    {"CaCO3": 1.0, "CaO": 100.0869 / 56.0774, "HCO3": 50.04345 / 61.0168},
)
_MG_L = {"mg/L": 1.0, "mg/l": 1.0, "ppm": 1.0}
CONCENTRATION = Dimension("concentration", "mg/L", ("mg/L", "ppm"), _MG_L)
NITRATE = Dimension("nitrate", "mg/L", ("mg/L", "mg/L as N"), _MG_L, bases={"NO3": 1.0, "N": _NO3 / _N})
NITRITE_N = Dimension(
    "nitrite",
    "mg/L",
    ("mg/L", "mg/L as N"),
    {unit: factor * _N / _NO2 for unit, factor in _MG_L.items()},
    bases={"NO2": 1.0, "N": _NO2 / _N},
)
AMMONIA_N = Dimension(
    "total ammonia",
    "mg/L",
    ("mg/L as N", "mg/L as NH4", "mg/L as NH3"),
    _MG_L,
    bases={"N": 1.0, "NH4": _N / _NH4, "NH3": _N / _NH3},
)
CONDUCTIVITY = Dimension("conductivity", "µS/cm", ("µS/cm", "mS/cm"), {"µS/cm": 1.0, "uS/cm": 1.0})
SHARE = Dimension("share", "", ("%",), {"%": 0.01})
TIME = Dimension("time", "day", ("day", "week", "hour"), {"day": 1.0, "days": 1.0, "week": 7.0, "weeks": 7.0})
HOURS = Dimension("hours", "hour", ("hour", "minute"), {"hour": 1.0, "hours": 1.0, "h": 1.0})
MINUTES = Dimension(
    "minutes", "minute", ("minute", "second", "hour"), {"minute": 1.0, "minutes": 1.0, "min": 1.0}
)
FEED = Dimension("feed", "g/day", ("g/day", "g/week", "mg/day"), {"g/day": 1.0})

PH = Dimension("pH", "pH", ("pH",), {"": 1.0, "pH": 1.0})  # the one quantity that is a plain number

#: The dimensions of questions asked outside a plan, by name.
DIMENSIONS = {
    dimension.name: dimension
    for dimension in (
        LENGTH,
        VOLUME,
        MASS,
        TEMPERATURE,
        TEMPERATURE_STEP,
        POWER,
        FLOW,
        PH,
        HARDNESS,
        ALKALINITY,
    )
}

_NUMBER = re.compile(
    r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?|[+-]?(?:inf(?:inity)?|nan)\b", re.IGNORECASE
)
_FRACTION = re.compile(r"(?:(\d{1,6})[ -]+)?(\d{1,6})\s*/\s*(\d{1,6})(?=\s|[a-zA-Z])")
_UNIT = re.compile(r"[A-Za-zµμ_%/]{1,40}")
_WORDS = (
    (re.compile(r"\s+(?:per|an?)\s+", re.IGNORECASE), "/"),
    (re.compile(r"\bU\.?S\.?\s+(?=gal)", re.IGNORECASE), ""),
    (re.compile(r"\b(?:imp(?:erial)?\.?|UK)\s+gal\w*", re.IGNORECASE), "imperial_gallon"),
    (re.compile(r"(?:°|º|\bdegrees?\b|\bdeg\b)\s*"), "deg"),
    (re.compile(r"\s*/\s*"), "/"),
)


@lru_cache(maxsize=1)
def registry() -> UnitRegistry[Any]:
    """Pint with our definitions; made when first needed."""
    from pint import UnitRegistry

    return UnitRegistry(DEFINITIONS, cache_folder=None)


def parse(text: str, dimension: Dimension | str) -> float:
    """The quantity ``text`` states, in ``dimension.unit``.

    Parameters
    ----------
    text : str
        A number and a unit: ``"160 L"``, ``"3/8 inch"``, ``"73 °F"``, ``"214 mg/L as CaCO3"``.
    dimension : Dimension or str
        One of this module's, or a name in ``DIMENSIONS``.

    Returns
    -------
    float
        Always finite; bounds are the caller's.

    Raises
    ------
    UnitError
        When there is no finite number, no unit, or a unit of another kind.
    """
    if isinstance(dimension, str):
        dimension = DIMENSIONS[dimension]
    value, rest = _number(text, dimension)
    unit, basis = _split_basis(rest, dimension)
    if not unit and "" not in dimension.everyday:
        raise UnitError(
            say('"{written}" has no unit', written=_clip(text)), write_one(dimension, text.strip())
        )
    factor = dimension.everyday.get(unit)
    converted = value * factor if factor is not None else _by_pint(value, unit, dimension)
    if not isfinite(converted):
        raise UnitError(
            say('"{written}" is not a finite quantity', written=_clip(text)), write_one(dimension)
        )
    return converted * basis


def parse_between(text: str, dimension: Dimension | str, low: float, high: float) -> float:
    """As :func:`parse`, for a quantity that must lie from ``low`` to ``high`` (in the dimension's unit).

    Raises
    ------
    UnitError
        As :func:`parse`, or when the quantity is outside.
    """
    value = parse(text, dimension)
    if not low <= value <= high:
        unit = DIMENSIONS[dimension].unit if isinstance(dimension, str) else dimension.unit
        problem = say('"{written}" cannot be meant', written=_clip(text))
        raise UnitError(
            problem,
            say("Write a value from {low:g} to {high:g} {unit}", low=low, high=high, unit=unit).rstrip()
            + ".",
        )
    return value


def write_one(dimension: Dimension, number: str = "") -> str:
    """Advice that names the units a quantity could have had: ``Write it with its unit, as "160 L" ...``."""
    number = number if number and len(number) <= 12 else "..."
    if dimension.unit == "pH":  # a number in itself
        return say("Write a plain number, as {number}.", number=number if number != "..." else "7.2")
    first, *others = dimension.could_have
    also = say("; it may also be in {units}", units=", ".join(others)) if others else ""
    return say('Write it with its unit, as "{number} {first}"{also}.', number=number, first=first, also=also)


def _number(text: str, dimension: Dimension) -> tuple[float, str]:
    stripped = text.strip()
    fraction = _FRACTION.match(stripped)
    if fraction and int(fraction[3]):
        whole, upper, lower = (int(part or 0) for part in fraction.groups())
        return whole + upper / lower, stripped[fraction.end() :].strip()
    number = _NUMBER.match(stripped)
    if not number:
        raise UnitError(
            say('"{written}" does not start with a number', written=_clip(text)), write_one(dimension)
        )
    rest = stripped[number.end() :]
    if re.match(r",\d", rest):
        raise UnitError(
            say('"{written}" has a comma in the number', written=_clip(text)),
            say("Write a point for decimals, nothing for thousands."),
        )
    return float(number[0]), rest.strip()


def _split_basis(rest: str, dimension: Dimension) -> tuple[str, float]:
    """The unit, and the factor of what the amount is counted as (``as CaCO3``)."""
    unit, _, basis = re.sub(r"\s*\(as (\w+)\)$", r" as \1", rest).partition(" as ")
    if not basis and unit.partition(" ")[2] in dimension.bases:  # 214 mg/L CaCO3
        unit, _, basis = unit.partition(" ")
    if basis and basis.strip() not in dimension.bases:
        known = ", ".join(say('"as {name}"', name=name) for name in dimension.bases) or "nothing"
        raise UnitError(
            say(
                '"as {basis}" is not known for {dimension_name}',
                basis=_clip(basis),
                dimension_name=dimension.name,
            ),
            say("Known: {known}.", known=known),
        )
    unit = unit.strip()
    if not basis:
        return unit, 1.0
    # nitrite is kept as nitrogen though it is usually stated as NO2: the basis is relative to what is usual
    return unit, dimension.bases[basis.strip()]


def _spelling(unit: str) -> str:
    """A unit in pint's spelling: ``°F`` is ``degF``, ``gallons per hour`` is ``gallons/hour``."""
    for pattern, replacement in _WORDS:
        unit = pattern.sub(replacement, unit)
    return unit.strip()


def _by_pint(value: float, unit: str, dimension: Dimension) -> float:
    from pint.errors import DimensionalityError, PintError

    spelled = _spelling(unit)
    if not _UNIT.fullmatch(spelled):
        raise UnitError(say('"{unit}" is not a unit', unit=_clip(unit)), write_one(dimension))
    units = registry()
    own = dimension.everyday.get(dimension.unit, 1.0)  # the stated basis, where it is not the kept one
    try:
        try:
            parsed = units.parse_units(spelled)
        except PintError:
            parsed = units.parse_units(spelled.lower())
    except (PintError, ValueError, TypeError, SyntaxError, AttributeError, ZeroDivisionError) as error:
        raise UnitError(
            say('"{unit}" is not a known unit', unit=_clip(unit)), write_one(dimension)
        ) from error
    try:
        contexts = (dimension.context,) if dimension.context else ()
        target = units.parse_units(dimension.unit)
        converted = float(units.Quantity(value, parsed).to(target, *contexts).magnitude)
        if dimension.difference:
            converted -= float(units.Quantity(0.0, parsed).to(target).magnitude)
    except (DimensionalityError, PintError) as error:
        raise UnitError(
            say('"{unit}" is no unit of {kind}', unit=_clip(unit), kind=dimension.name.replace("_", " ")),
            write_one(dimension),
        ) from error
    return converted * own


def _clip(text: str) -> str:
    """A user's text, short and without control characters, fit to be quoted in a message."""
    shown = "".join(char if char.isprintable() else "?" for char in text)
    return shown if len(shown) <= 40 else shown[:37] + "..."
