"""One value of a plan file: is it what its key asks for?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from stockcheck.language import say
from stockcheck.plan.schema import Key
from stockcheck.units import FILL_RATE, LENGTH, MINUTES, VOLUME, Dimension, UnitError, parse, write_one


class Invalid(Exception):
    """One value that cannot be used."""

    def __init__(self, problem: str, remedy: str) -> None:
        super().__init__(problem)
        self.problem, self.remedy = problem, remedy


def value_of(key: Key, value: Any) -> Any:
    """The value of a key in the model's unit; raises `Invalid`."""
    match key.kind:
        case "text":
            return _text(value)
        case "choice":
            return _choice(key, value)
        case "flag":
            if not isinstance(value, bool):
                raise Invalid(
                    f"{shown(value)} is neither true nor false", "Write true or false, without quotes."
                )
            return value
        case "count":
            return _count(key.name, value, int(key.low), int(key.high))
        case "number":
            return _number(key, value)
        case "quantity":
            assert key.dimension is not None
            return _quantity(value, key.dimension, key.low, key.high, positive=key.positive)
        case "sizes":
            return _sizes(value)
        case "buckets":
            parts = _parts(value, ("count", "volume"), 'buckets = { count = 21, volume = "9 L" }')
            return _count("count", parts["count"], 1, 5000), _quantity(parts["volume"], VOLUME, 0, 200)
        case "fill":
            parts = _parts(value, ("rate", "time"), 'fill = { rate = "6 L/minute", time = "28 minute" }')
            return _quantity(parts["rate"], FILL_RATE, 0, 1000), _quantity(parts["time"], MINUTES, 0, 10_000)


def _text(value: Any) -> str:
    if not isinstance(value, str) or not value.strip():
        raise Invalid(say("{shown} is not a name", shown=shown(value)), say("Write it between quotes."))
    if len(value) > 200:
        raise Invalid(say("this name is longer than 200 characters"), say("Shorten it."))
    return value.strip()


def _choice(key: Key, value: Any) -> str:
    if isinstance(value, str) and value.strip().lower() in key.choices:
        return value.strip().lower()
    offered = ", ".join(f'"{choice}"' for choice in key.choices)
    raise Invalid(
        say("{shown} is not one of its values", shown=shown(value)),
        say("Write one of {offered}.", offered=offered),
    )


def _count(name: str, value: Any, low: int, high: int) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise Invalid(
            say("{shown} is not a whole number", shown=shown(value)),
            say("Write how many, as {name} = 6.", name=name),
        )
    if not low <= value <= high:
        raise Invalid(
            say("{shown} is out of bounds", shown=shown(value)),
            say("It can be {low} to {high}.", low=low, high=high),
        )
    return value


def _number(key: Key, value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise Invalid(
            say("{shown} is not a number", shown=shown(value)),
            say("Write a plain number, as {key_name} = 7.2.", key_name=key.name),
        )
    if not key.low <= value <= key.high:  # false for NaN as well
        raise Invalid(
            say("{shown} is out of bounds", shown=shown(value)),
            say("It can be {key_low:g} to {key_high:g}.", key_low=key.low, key_high=key.high),
        )
    return float(value)


def _quantity(value: Any, dimension: Dimension, low: float, high: float, *, positive: bool = True) -> float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise Invalid(say("{shown} is not a quantity", shown=shown(value)), write_one(dimension))
    if not isinstance(value, str):
        raise Invalid(say("{shown} is a bare number", shown=shown(value)), write_one(dimension, f"{value:g}"))
    try:
        amount = parse(value, dimension)
    except UnitError as error:
        raise Invalid(error.problem, error.remedy) from error
    share = dimension.unit == ""
    bounds = (low * 100, high * 100, "%") if share else (low, high, dimension.unit)
    if positive and amount <= 0:
        raise Invalid(
            say("{shown} is not above zero", shown=shown(value)),
            say("It can be up to {high:g} {unit}.", high=bounds[1], unit=bounds[2]),
        )
    if not low - 1e-9 <= amount <= high + 1e-9:
        raise Invalid(
            say("{shown} is out of bounds", shown=shown(value)),
            say(
                "It can be {low:g} to {high:g} {unit}.",
                low=bounds[0],
                high=bounds[1],
                unit=bounds[2],
            ),
        )
    return amount


def _sizes(value: Any) -> tuple[float, float, float]:
    if not isinstance(value, list) or len(value) != 3:
        raise Invalid(
            say("{shown} is not three lengths", shown=shown(value)),
            say('Write size = ["20 cm", "12 cm", "10 cm"].'),
        )
    long, wide, high = (_quantity(side, LENGTH, 0, 1000) for side in value)
    return long, wide, high


def _parts(value: Any, names: tuple[str, ...], form: str) -> Mapping[str, Any]:
    if not isinstance(value, Mapping) or set(value) != set(names):
        raise Invalid(
            say("{shown} does not say {parts}", shown=shown(value), parts=" and ".join(names)),
            say("Write {form}.", form=form),
        )
    return value


def shown(value: Any) -> str:
    """A value of the file as it may be quoted in a message: short, printable."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        text = "".join(char if char.isprintable() else "?" for char in value)
        return f'"{text}"' if len(text) <= 40 else f'"{text[:37]}..."'
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, list):
        return "a list"
    return str(value) if len(str(value)) <= 24 else str(value)[:21] + "..."
