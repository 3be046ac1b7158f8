"""What the table says of one taxon, as the rest of the program sees it."""

from __future__ import annotations

from dataclasses import dataclass, field

ANIMAL_KINDS = ("fish", "shrimp", "snail", "crayfish", "crab", "bivalve", "amphibian")
GRADES = ("A", "B", "C", "D")


@dataclass(frozen=True, slots=True)
class Band:
    """The interval a taxon is kept in, for one field; ``None`` is an open end.

    ``comfort`` is what most sources agree on, inside ``tolerance``, the widest that any accepts.
    ``origins`` counts the independent sources; ``sources`` are their keys.
    """

    field: str
    unit: str
    comfort_low: float | None
    comfort_high: float | None
    tolerance_low: float | None
    tolerance_high: float | None
    grade: str
    origins: int
    sources: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Species:
    """One animal taxon.  Traits use the vocabulary of ``data/README.md``; lengths are mm.

    ``basis`` maps a trait's name to ``"seen"`` (rests on a source) or ``"common practice"``.
    """

    slug: str
    scientific_name: str
    common_name: str
    kind: str
    group: str
    family: str
    water_type: str
    body_shape: str
    length_type: str
    adult_male_mm: float | None
    adult_female_mm: float | None
    zone: tuple[str, ...]
    activity: str
    diet: str
    temperament: str
    social: str
    group_min: int | None
    male_male: str
    female_female: str
    male_female: str
    females_per_male: int | None
    all_male_group: str
    fin_nipper: str
    long_fins: bool
    eats_shrimp: str
    eats_snails: bool
    piscivore: str
    eats_plants: str
    digs: bool
    jumper: bool
    flow: str
    air_breather: bool
    substrate: str
    reproduction: str
    breeds_in_community: bool
    copper_sensitive: bool
    restricted: str
    basis: dict[str, str] = field(default_factory=dict)
    bands: dict[str, Band] = field(default_factory=dict)
    grade: str = "D"
    remarks: str = ""

    def band(self, name: str) -> Band | None:
        """The band of ``temperature``, ``pH``, ``GH``, ``KH``, ``adult_length``, ``min_tank_length`` ..."""
        return self.bands.get(name)

    @property
    def adult_length_mm(self) -> float | None:
        """The larger sex's usual adult length."""
        lengths = [x for x in (self.adult_male_mm, self.adult_female_mm) if x]
        return max(lengths) if lengths else None


@dataclass(frozen=True, slots=True)
class PlantSpecies:
    """One plant taxon; ``height_mm`` is the usual height in a tank."""

    slug: str
    scientific_name: str
    common_name: str
    family: str
    habit: str
    placement: str
    light: str
    co2: str
    growth: str
    root_feeder: bool
    height_mm: float | None
    transplant_melt: bool
    pet_toxic: bool
    restricted: str
    basis: dict[str, str] = field(default_factory=dict)
    bands: dict[str, Band] = field(default_factory=dict)
    grade: str = "D"
    remarks: str = ""

    def band(self, name: str) -> Band | None:
        return self.bands.get(name)


@dataclass(frozen=True, slots=True)
class Material:
    """A filter medium, substrate, rock or feed: named properties, each low/value/high with its unit."""

    slug: str
    name: str
    properties: dict[str, tuple[float, float, float]]
    units: dict[str, str]
    source: str
    grade: str
