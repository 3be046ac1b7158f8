"""What an animal does to plants and which it spares, and which animals a plant does not outlive."""

from __future__ import annotations

from stockcheck.report.text_catalogue import text
from stockcheck.rules.bands import comfort_of, common, name_of
from stockcheck.rules.company.plants import UPROOTS_MM, comes_loose, digs, eats
from stockcheck.table.model import PlantSpecies, Species
from stockcheck.table.read import Table
from stockcheck.web.company import Other


def plants_with(species: Species, table: Table) -> tuple[list[str], list[Other]]:
    """What it does to plants, in sentences, and those it spares that are at ease at its temperature."""
    said = [text(f"spares.eats.{species.eats_plants}")]
    length = species.adult_length_mm or 0.0
    if digs(species, length):
        said.append(text("spares.uproots" if length >= UPROOTS_MM else "spares.lifts"))
    spared = [
        Other(plant.slug, name_of(plant))
        for plant in table.all_plants()
        if not eats(species, plant) and not _dug_up(species, plant) and _same_warmth(species, plant)
    ]
    return said, sorted(spared, key=lambda other: other.name.lower())


def animals_at(plant: PlantSpecies, table: Table) -> tuple[list[Other], list[Other]]:
    """The animals that eat it, and those that dig it up, of the ones that live at its temperature."""
    near = [species for species in table.all_species() if _same_warmth(species, plant)]
    eaters = [species for species in near if eats(species, plant)]
    diggers = [species for species in near if species not in eaters and _dug_up(species, plant)]
    return _linked(eaters), _linked(diggers)


def _linked(found: list[Species]) -> list[Other]:
    others = [Other(species.slug, name_of(species)) for species in found]
    return sorted(others, key=lambda other: other.name.lower())


def _dug_up(species: Species, plant: PlantSpecies) -> bool:
    length = species.adult_length_mm or 0.0
    return digs(species, length) and comes_loose(plant, length >= UPROOTS_MM)


def _same_warmth(species: Species, plant: PlantSpecies) -> bool:
    warmths = species.band("temperature"), plant.band("temperature")
    if warmths[0] is None or warmths[1] is None:
        return False
    return not common([comfort_of(warmths[0]), comfort_of(warmths[1])]).empty
