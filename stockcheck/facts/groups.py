"""From an entry of the animal list to its animals' lengths and masses, at adult size and today."""

from __future__ import annotations

from stockcheck.facts.model import Group
from stockcheck.physics.growth import ADULT_LENGTH, JUVENILE_SHARE, MEASURED_LENGTH, MM_PER_CM
from stockcheck.physics.mass import LengthWeight, body_mass_interval, relation, total_per_standard
from stockcheck.physics.quantity import Interval
from stockcheck.plan.model import Animals
from stockcheck.table.model import Species


def group_of(entry: Animals, species: Species) -> Group:
    """The group of one entry.

    ``length_mm`` is that of the larger sex present, in the table's own measure (``species.length_type``);
    ``mass_g`` is the mean of the animals as sexed.  A species without a length has neither.
    """
    lengths = _adult_lengths(entry, species)
    if not lengths:
        return Group(entry, species, None, None, None, None)
    rule = relation(species.kind, species.family, species.body_shape)
    adult = _spread(max(length for length, _ in lengths))
    mass = _mean_mass(lengths, species, rule)
    if entry.length_mm:
        now = MEASURED_LENGTH.interval.scaled(entry.length_mm)
        mass_now = body_mass_interval(now.scaled(1 / MM_PER_CM), rule)
    elif entry.stage == "juvenile":
        now = JUVENILE_SHARE.interval.scaled(adult.value)
        mass_now = body_mass_interval(_total_cm(now, species), rule)
    else:
        now, mass_now = adult, mass
    return Group(entry, species, adult, now, mass, mass_now)


def _adult_lengths(entry: Animals, species: Species) -> list[tuple[float, int]]:
    """Adult length, mm, and count of each sex as planned; unsexed animals are half of each where both are
    known."""
    male, female = species.adult_male_mm, species.adult_female_mm
    if not male or not female:
        known = male or female
        return [(known, max(1, entry.total))] if known else []
    if entry.males or entry.females:
        unsexed = entry.count or 0
        pairs = [(male, 2 * entry.males + unsexed), (female, 2 * entry.females + unsexed)]
        return [(length, count) for length, count in pairs if count]
    return [(male, 1), (female, 1)]


def _spread(length_mm: float) -> Interval:
    return ADULT_LENGTH.interval.scaled(length_mm)


def _total_cm(length_mm: Interval, species: Species) -> Interval:
    """Total length, cm; a fish given by standard length has a tail fin to add."""
    if species.kind == "fish" and species.length_type == "SL":
        return length_mm.scaled(total_per_standard(species.body_shape) / MM_PER_CM)
    return length_mm.scaled(1 / MM_PER_CM)


def _mean_mass(lengths: list[tuple[float, int]], species: Species, rule: LengthWeight) -> Interval:
    masses = [
        (body_mass_interval(_total_cm(_spread(length), species), rule), count) for length, count in lengths
    ]
    animals = sum(count for _, count in masses)
    low, value, high = (
        sum(getattr(mass, end) * count for mass, count in masses) / animals for end in Interval._fields
    )
    return Interval(low, value, high)
