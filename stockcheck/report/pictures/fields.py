"""How each field of the table is drawn: its unit and the stretch of its axis.

The stretch is the same in every picture, so that a reader learns where 24 degC lies; it only grows where a
value falls outside.
"""

from __future__ import annotations

from dataclasses import dataclass

from stockcheck.report.pictures.scale import plain
from stockcheck.report.text_catalogue import text


@dataclass(frozen=True, slots=True)
class Field:
    """A drawn field; ``low`` and ``high`` are where its axis usually begins and ends."""

    name: str
    unit: str
    low: float
    high: float

    @property
    def label(self) -> str:
        return text(f"field.{self.name}")

    def value(self, value: float) -> str:
        return f"{plain(value)} {self.unit}".rstrip()

    def interval(self, low: float | None, high: float | None) -> str:
        """``22 to 27 degC``, or the one-sided wording."""
        if low is None and high is None:
            return text("picture.not_known")
        if low is None:
            return text("picture.up_to", value=f"{plain(high or 0.0)} {self.unit}".rstrip())
        if high is None:
            return text("picture.from", value=f"{plain(low)} {self.unit}".rstrip())
        if low == high:
            return self.value(low)
        return f"{plain(low)}–{plain(high)} {self.unit}".rstrip()


WATER_FIELDS = (
    Field("temperature", "°C", 10, 34),
    Field("pH", "", 4.5, 9.0),
    Field("GH", "°dGH", 0, 30),
    Field("KH", "°dKH", 0, 20),
)
PLACE_FIELDS = (
    Field("adult_length", "mm", 0, 200),
    Field("height", "mm", 0, 600),
    Field("min_tank_length", "cm", 0, 200),
    Field("min_tank_volume", "L", 0, 400),
    Field("group_min", "", 0, 12),
    Field("lifespan", text("unit.years"), 0, 15),
)
FIELDS = {field.name: field for field in (*WATER_FIELDS, *PLACE_FIELDS)}
