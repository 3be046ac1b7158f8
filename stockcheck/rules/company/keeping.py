"""One taxon as it is kept: how many of which sex, in what room; and the pressures that follow from it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stockcheck.facts.model import Facts, Group
from stockcheck.rules.company.pressure import (
    CALM,
    FEMALES_WANTED,
    Pressure,
    Rivals,
    courtship,
    rivalry,
)
from stockcheck.table.model import Species

#: A fighter that is kept in groups at least this large is kept in a crowd on purpose.
CROWD_FROM = 6


def crowds(species: Species) -> bool:
    """Whether a taxon is kept in numbers among which no one is singled out."""
    least = species.group_min or 1
    return species.social == "shoal" or (species.social == "group" and least >= CROWD_FROM)


@dataclass(frozen=True, slots=True)
class Keeping:
    """All animals of one taxon in one tank, entries of the plan merged."""

    species: Species
    males: int
    females: int
    unsexed: int
    cover: str
    floor_cm2: float | None
    length_cm: float | None
    size_spread: float = 0.0
    raised_together: bool = False
    caves: int = 0

    @property
    def count(self) -> int:
        return self.males + self.females + self.unsexed

    @property
    def crowding(self) -> bool:
        return crowds(self.species)

    @property
    def sharing(self) -> bool:
        """Whether they live in a shoal or a group with ranks, and so put up with one another's nearness."""
        species = self.species
        ranks = species.male_male in ("territorial", species.female_female)
        return species.social == "shoal" or (species.social == "group" and ranks)

    @property
    def females_wanted(self) -> float:
        wanted = self.species.females_per_male
        if wanted is not None:
            return float(wanted)
        return float(FEMALES_WANTED) if self.species.male_female == "harass" else 1.0


def keepings(facts: Facts) -> list[Keeping]:
    """Every taxon of the plan as it is kept there, in the plan's order."""
    by_slug: dict[str, list[Group]] = {}
    for group in facts.groups:
        by_slug.setdefault(group.species.slug, []).append(group)
    return [_merged(facts, groups) for groups in by_slug.values()]


def _merged(facts: Facts, groups: list[Group]) -> Keeping:
    lengths = [group.entry.length_mm for group in groups if group.entry.length_mm]
    spread = (max(lengths) - min(lengths)) / max(lengths) if len(lengths) == len(groups) > 1 else 0.0
    return Keeping(
        species=groups[0].species,
        males=sum(group.males for group in groups),
        females=sum(group.females for group in groups),
        unsexed=sum(group.unsexed for group in groups),
        cover=facts.plan.tank.cover,
        floor_cm2=facts.floor_cm2,
        length_cm=facts.length_cm,
        size_spread=spread,
        raised_together=all(group.entry.raised_together for group in groups),
        caves=facts.plan.tank.caves,
    )


def male_pressure(keeping: Keeping) -> Pressure:
    """The pressure among the males."""
    species = keeping.species
    return rivalry(
        Rivals(
            trait=species.male_male,
            count=keeping.males,
            body_cm=_cm(species.adult_male_mm or species.adult_length_mm),
            floor_cm2=keeping.floor_cm2,
            run_cm=keeping.length_cm,
            cover=keeping.cover,
            opposite=keeping.females,
            opposite_wanted=keeping.females_wanted,
            single_sex=species.all_male_group,
            sharing=keeping.sharing,
            crowding=keeping.crowding,
            nipped_fins=species.long_fins,
            size_spread=keeping.size_spread,
            raised_together=keeping.raised_together,
            cave_each=species.reproduction == "cave-spawner" and keeping.caves >= keeping.males,
        )
    )


def female_pressure(keeping: Keeping) -> Pressure:
    """The pressure among the females."""
    species = keeping.species
    return rivalry(
        Rivals(
            trait=species.female_female,
            count=keeping.females,
            body_cm=_cm(species.adult_female_mm or species.adult_length_mm),
            floor_cm2=keeping.floor_cm2,
            run_cm=keeping.length_cm,
            cover=keeping.cover,
            sharing=keeping.sharing or species.social == "harem",
            crowding=keeping.crowding,
            nipped_fins=species.long_fins,
            size_spread=keeping.size_spread,
            raised_together=keeping.raised_together,
        )
    )


def courting_pressure(keeping: Keeping) -> Pressure:
    """The pressure of the males on the females."""
    trait = keeping.species.male_female
    if trait == "lethal" and keeping.species.social != "solitary":
        trait = "risky"
    return courtship(trait, keeping.males, keeping.females, keeping.females_wanted, keeping.cover)


def pressures(keeping: Keeping) -> Iterator[Pressure]:
    """All three pressures of a sexed keeping."""
    yield male_pressure(keeping)
    yield female_pressure(keeping)
    yield courting_pressure(keeping)


def worst_pressure(keeping: Keeping) -> Pressure:
    """The highest of the three."""
    return max(pressures(keeping), key=lambda pressure: pressure.value, default=CALM)


def _cm(length_mm: float | None) -> float | None:
    return None if length_mm is None else length_mm / 10
