"""A setpoint as an answer: what is chosen, what it falls short of, and the sentence that says so."""

from __future__ import annotations

from dataclasses import dataclass

from stockcheck.language import say
from stockcheck.rules.bands import Limit, Span, Taxon, name_of


@dataclass(frozen=True, slots=True)
class Choice:
    """A setpoint in a common comfort band (degC), and what there is to say of it."""

    value_c: float
    span: Span
    cramped: bool = False  # the band is narrower than twice the swing
    off_step: bool = False  # no mark of the dial lies in the band


@dataclass(frozen=True, slots=True)
class Shortfall:
    """How far (K) a compromise at ``at_c`` is outside a taxon's comfort: above zero where too cold for it."""

    taxon: Taxon
    kelvin: float
    at_c: float
    tolerated: bool


@dataclass(frozen=True, slots=True)
class PartyChoice:
    """Taxa that share a comfort band, and the setpoint for them alone."""

    taxa: tuple[Taxon, ...]
    choice: Choice


@dataclass(frozen=True, slots=True)
class Setpoint:
    """The answer.  ``value_c`` is None where no common comfort band exists.

    ``low_c`` and ``high_c`` are the common band's ends (None where nobody limits that side); ``low_by`` and
    ``high_by`` the taxa that set them.  ``heated`` is whether the plan has a heater.
    ``left_out`` are plants that the animals' band does not suit; ``unstated`` taxa have no temperature band
    in the table.  ``notes`` are whole sentences.
    """

    value_c: float | None
    low_c: float | None
    high_c: float | None
    low_by: Taxon | None
    high_by: Taxon | None
    swing_c: float
    step_c: float
    prefer: str
    heated: bool = True
    shortfalls: tuple[Shortfall, ...] = ()
    parties: tuple[PartyChoice, ...] = ()
    left_out: tuple[Shortfall, ...] = ()
    unstated: tuple[Taxon, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def value_f(self) -> float | None:
        return None if self.value_c is None else fahrenheit(self.value_c)

    @property
    def sentence(self) -> str:
        """The answer in one sentence."""
        if self.value_c is None:
            if not self.shortfalls:
                return say("No setpoint: the table has no temperature for any of them.")
            return say("No one temperature is comfortable for all of them.")
        start = say("Set the heater to") if self.heated else say("There is no heater; one would be set to")
        return f"{start} {degrees(self.value_c)}: {self._reason()}."

    def _reason(self) -> str:
        low, high = self.low_c, self.high_c
        if low is not None and high is not None:
            if self.low_by is self.high_by and self.low_by is not None:
                return say(
                    "{low_by} is comfortable from {low:.3g} to {high:.3g} °C",
                    low_by=name_of(self.low_by),
                    low=low,
                    high=high,
                )
            ends = say(
                "from {low:.3g} °C ({low_by}) to {high:.3g} °C ({high_by})",
                low=low,
                low_by=named(self.low_by),
                high=high,
                high_by=named(self.high_by),
            )
            return say("all are comfortable {ends}", ends=ends)
        if low is not None:
            return say("all are comfortable from {low:.3g} °C up ({name})", low=low, name=named(self.low_by))
        return say("all are comfortable up to {high:.3g} °C ({name})", high=high, name=named(self.high_by))


def shortfall(limit: Limit, at_c: float) -> Shortfall:
    kelvin = max(limit.comfort.low - at_c, 0.0) - max(at_c - limit.comfort.high, 0.0)
    return Shortfall(limit.taxon, kelvin, at_c, limit.tolerance.holds(at_c))


def fahrenheit(celsius: float) -> float:
    return celsius * 9 / 5 + 32


def degrees(celsius: float) -> str:
    """``24 °C (75.2 °F)``"""
    return f"{celsius:.3g} °C ({fahrenheit(celsius):.1f} °F)"


def named(taxon: Taxon | None) -> str:
    return name_of(taxon) if taxon else "nobody"
