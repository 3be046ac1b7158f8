"""One taxon: its bands with every source under them, its size, its ways, its company, its evidence."""

from __future__ import annotations

from typing import Any

from datasette.utils.asgi import NotFound, Response

from stockcheck.report.pictures.bands import Stated, one_band
from stockcheck.report.pictures.fields import FIELDS, WATER_FIELDS, Field
from stockcheck.report.pictures.size import size_picture
from stockcheck.report.text_catalogue import term, text
from stockcheck.rules.bands import Taxon, name_of
from stockcheck.rules.wording import sentence
from stockcheck.table.consensus import Evidence
from stockcheck.table.model import PlantSpecies, Species
from stockcheck.web.company import companions
from stockcheck.web.house import house_of
from stockcheck.web.overlap_page import taxon_of_slug
from stockcheck.web.reply import page
from stockcheck.web.spared import animals_at, plants_with

#: Traits told on the page, in order; the others are told in sentences of their own.
ANIMAL_TRAITS = (
    "zone", "activity", "diet", "temperament", "social", "fin_nipper", "eats_shrimp", "eats_snails",
    "piscivore", "eats_plants", "digs", "jumper", "flow", "air_breather", "substrate", "reproduction",
    "breeds_in_community", "copper_sensitive",
)  # fmt: skip
PLANT_TRAITS = (
    "habit", "placement", "light", "co2", "growth", "root_feeder", "transplant_melt", "pet_toxic",
)  # fmt: skip
_SEX_TRAITS = ("male_male", "female_female", "male_female", "all_male_group")


async def taxon(datasette: Any, request: Any) -> Response:
    """The page of one animal or plant."""
    house = house_of(datasette)
    assert house is not None
    found = taxon_of_slug(house.table, request.url_vars["slug"])
    if found is None:
        raise NotFound(text("species.not_found"))
    evidence = house.table.evidence(found.slug)
    names = house.table.names(found.slug)
    context: dict[str, Any] = {
        "taxon": found,
        "name": name_of(found),
        "other_names": [name for name in names["vernacular"] if name != found.common_name],
        "synonyms": names["synonym"],
        "bands": [_band(field, found, evidence) for field in WATER_FIELDS],
        "keeping": _keeping(found),
        "evidence": _by_field(evidence),
        "traits": _traits(found, ANIMAL_TRAITS if isinstance(found, Species) else PLANT_TRAITS),
    }
    if isinstance(found, Species):
        context |= {
            "lead": _lead(found),
            "size": size_picture(
                name_of(found), found.kind, found.body_shape, found.adult_male_mm, found.adult_female_mm
            ),
            "sexes": _sexes(found),
            "company": companions(found, house.table),
            "plants": plants_with(found, house.table),
        }
    else:
        eaters, diggers = animals_at(found, house.table)
        context |= {"lead": _plant_lead(found), "eaters": eaters, "diggers": diggers}
    return await page(datasette, request, "species.html", context)


def _band(field: Field, found: Taxon, evidence: list[Evidence]) -> dict[str, Any]:
    """A field's picture, or the word that nothing is known."""
    band = found.band(field.name)
    rows = [row for row in evidence if row.field == field.name and row.use != "none"]
    stated = [Stated(row.low, row.high, row.source, row.use == "tolerance") for row in rows]
    return {
        "field": field,
        "band": band,
        "picture": one_band(field, band, stated) if band is not None else "",
        "tolerance": field.interval(band.tolerance_low, band.tolerance_high) if band is not None else "",
    }


def _keeping(found: Taxon) -> list[tuple[str, str, str, int]]:
    """The bands that are not of the water: lengths, tanks, groups, ages."""
    told = []
    for name, band in found.bands.items():
        if name in {field.name for field in WATER_FIELDS}:
            continue
        field = FIELDS.get(name, Field(name, "" if band.unit == "count" else band.unit, 0, 1))
        told.append(
            (field.label, field.interval(band.comfort_low, band.comfort_high), band.grade, band.origins)
        )
    return told


def _by_field(evidence: list[Evidence]) -> list[tuple[str, list[Evidence]]]:
    fields = dict.fromkeys(row.field for row in evidence)
    order = {field: n for n, field in enumerate(FIELDS)}
    return [
        (text(f"field.{field}"), [row for row in evidence if row.field == field])
        for field in sorted(fields, key=lambda field: order.get(field, len(order)))
    ]


def _said(name: str, value: object) -> str:
    if isinstance(value, bool):
        return text("answer.yes" if value else "answer.no")
    if isinstance(value, tuple):
        return ", ".join(term(name, part) for part in value)
    return term(name, str(value))


def _basis(found: Taxon, trait: str) -> str:
    basis = found.basis.get(trait, "")
    return term("basis", basis) if basis else ""


def _traits(found: Taxon, names: tuple[str, ...]) -> list[tuple[str, str, str]]:
    """Label, value and basis of each trait that is stated."""
    return [
        (text(f"trait.{name}"), _said(name, value), _basis(found, name))
        for name in names
        if (value := getattr(found, name)) not in (None, "", ())
    ]


def _sexes(found: Species) -> list[tuple[str, str]]:
    """How the sexes deal with one another, in sentences, each with its basis."""
    told = [
        (text(f"sexes.{name}.{value}"), _basis(found, name))
        for name in _SEX_TRAITS
        if (value := getattr(found, name))
    ]
    if found.females_per_male and found.females_per_male > 1:
        ratio = text("sexes.ratio", count=found.females_per_male)
        told.append((ratio, _basis(found, "females_per_male")))
    return told


def _plant_lead(found: PlantSpecies) -> str:
    """The plant in one sentence."""
    return text(
        "species.plant_lead",
        habit=term("habit", found.habit),
        placement=term("placement", found.placement),
        growth=term("growth", found.growth),
        light=term("light", found.light),
        height=text("species.plant_height", cm=f"{found.height_mm / 10:.3g}") if found.height_mm else "",
    )


def _lead(found: Species) -> str:
    """The taxon in one sentence."""
    length = found.adult_length_mm
    lead = text(
        "species.lead",
        temperament=term("temperament", found.temperament),
        group=term("group", found.group),
        zone=" " + term("where", found.zone[0]) if found.zone else "",
        size=text("species.size", cm=f"{length / 10:.3g}") if length else "",
        company=text("species.alone")
        if (found.group_min or 1) < 2
        else text("species.kept_in", count=found.group_min),
    )
    return sentence(lead)
