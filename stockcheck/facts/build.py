"""From a plan and the table to facts: names resolved, masses and figures computed, in one fixed order."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from stockcheck.facts.breath import breath_figures
from stockcheck.facts.chemistry import chemistry_figures
from stockcheck.facts.groups import group_of
from stockcheck.facts.heat import heat_figures
from stockcheck.facts.model import Facts, Figure, Group, Planting
from stockcheck.facts.volume import overfull, volume_figures
from stockcheck.facts.waste import waste_figures
from stockcheck.language import say
from stockcheck.plan.faults import Fault, PlanError, located
from stockcheck.plan.model import Animals, Plan, Plants
from stockcheck.table.read import Table

#: An animal stated longer than this many times its kind's usual adult length is a slip of the pen.
LONGEST_BEYOND_ADULT = 2.0
#: Each may read what the earlier ones put into ``facts.figures``.
_FIGURES: tuple[Callable[[Facts, Table], dict[str, Figure]], ...] = (
    waste_figures,
    breath_figures,
    heat_figures,
    chemistry_figures,
)


def name_faults(plan: Plan, table: Table) -> list[Fault]:
    """Faults of names: species, plants and materials that the table does not hold or cannot tell apart."""
    return _look_up_all(plan, table)[2]


def build_facts(plan: Plan, table: Table) -> Facts:
    """Everything the rules may ask of one plan.

    Raises
    ------
    PlanError
        Where a species, plant or material is not in the table, or a name fits several taxa, all at once;
        where an animal is said to be longer than its kind grows; where bed and stones fill the tank.
    """
    animals, plants, faults = _look_up_all(plan, table)
    if faults:
        raise PlanError(faults)
    groups = [group_of(entry, table.species(slug)) for entry, slug in animals]
    plantings = [Planting(entry, table.plant(slug)) for entry, slug in plants]
    if too_long := [fault for group in groups if (fault := _too_long(plan, group))]:
        raise PlanError(located(too_long, plan.text))
    figures = volume_figures(plan, table)
    if too_much := overfull(plan, table, figures):
        raise PlanError(located([too_much], plan.text))
    floor = figures.get("floor_cm2")
    facts = Facts(
        plan=plan,
        groups=groups,
        plantings=plantings,
        temperature_c=_water_temperature(plan, groups),
        floor_cm2=floor.interval.value if floor else None,
        length_cm=_inside_length_cm(plan),
        figures=figures,
    )
    for compute in _FIGURES:
        facts.figures.update(compute(facts, table))
    return facts


def _too_long(plan: Plan, group: Group) -> Fault | None:
    """The fault of an animal that is far longer than its kind grows."""
    stated, adult = group.entry.length_mm, group.length_mm
    if not stated or adult is None or stated <= LONGEST_BEYOND_ADULT * adult.value:
        return None
    return Fault(
        plan.path,
        None,
        f"{group.entry.where}.length",
        say(
            "{stated:.3g} cm is far longer than {name} grows ({adult:.3g} cm)",
            stated=stated / 10,
            name=group.species.common_name or group.species.scientific_name,
            adult=adult.value / 10,
        ),
        say("length is that of one animal today."),
    )


def _look_up_all(
    plan: Plan, table: Table
) -> tuple[list[tuple[Animals, str]], list[tuple[Plants, str]], list[Fault]]:
    """Each entry with its slug, and the faults of the names that have none."""
    faults: list[Fault] = []

    def slug_of(entry: Animals | Plants, wanted: str) -> str | None:
        slug, found = _look_up(plan, table, wanted, entry.species, f"{entry.where}.species")
        faults.extend(found)
        return slug

    animals = [(entry, slug) for entry in plan.animals if (slug := slug_of(entry, "animal")) is not None]
    plants = [(entry, slug) for entry in plan.plants if (slug := slug_of(entry, "plant")) is not None]
    faults.extend(_material_faults(plan, table))
    return animals, plants, located(faults, plan.text)


def _look_up(plan: Plan, table: Table, wanted: str, name: str, key: str) -> tuple[str | None, list[Fault]]:
    """The slug of a name, or the fault that says why there is none."""
    matches = table.find(name)
    fitting = [match for match in matches if match.kind == wanted]
    if len(fitting) == 1:
        return fitting[0].slug, []
    if fitting:
        choices = ", ".join(f'"{match.scientific_name}"' for match in fitting)
        problem = say('"{name}" fits several taxa', name=name)
        return None, [
            Fault(plan.path, None, key, problem, say("Write the one you mean: {choices}.", choices=choices))
        ]
    if matches:
        list_name = "[[plants]]" if wanted == "animal" else "[[animals]]"
        problem = say(
            '"{name}" is {found} ({scientific_name}), not {wanted}',
            name=name,
            found=_article(matches[0].kind),
            scientific_name=matches[0].scientific_name,
            wanted=_article(wanted),
        )
        return None, [
            Fault(plan.path, None, key, problem, say("Move it to {list_name}.", list_name=list_name))
        ]
    return None, [
        Fault(
            plan.path, None, key, say('"{name}" is not in the table', name=name), _near(table.nearest(name))
        )
    ]


def _article(kind: str) -> str:
    return say("an animal") if kind == "animal" else say("a plant")


def _near(names: Iterable[str]) -> str:
    listed = ", ".join(f'"{name}"' for name in names)
    if listed:
        return say("Nearest names: {listed}. The list of species has them all.", listed=listed)
    return say("The list of species has every name in the table.")


def _material_faults(plan: Plan, table: Table) -> list[Fault]:
    named = [
        *(
            ("substrates", layer.kind, f"substrate[{i}].kind")
            for i, layer in enumerate(plan.tank.substrate, 1)
        ),
        *(("rocks", piece.kind, f"hardscape[{i}].kind") for i, piece in enumerate(plan.tank.hardscape, 1)),
        *(
            ("media", medium.kind, f"filter.media[{i}].kind")
            for i, medium in enumerate(plan.filter.media if plan.filter else [], 1)
        ),
        ("feeds", plan.feeding.feed, "feeding.feed"),
    ]
    faults = []
    for kind, name, key in named:
        if table.material(kind, name) is None:
            known = ", ".join(material.name for material in table.materials(kind))
            faults.append(
                Fault(
                    plan.path,
                    None,
                    key,
                    say('"{name}" is not among the {kind} of the table', name=name, kind=kind),
                    say("Known: {known}.", known=known),
                )
            )
    return faults


def _inside_length_cm(plan: Plan) -> float | None:
    length = plan.tank.length_cm
    if length is None or plan.tank.measured == "inside":
        return length
    return length - 2 * (plan.tank.glass_mm or 0.0) / 10


def _water_temperature(plan: Plan, groups: list[Group]) -> float | None:
    """The water's temperature for rates: setpoint, room, or the middle of what all the animals share."""
    if plan.heater and plan.heater.setpoint_c is not None:
        return plan.heater.setpoint_c
    if plan.heater is None and plan.room.low_c is not None and plan.room.high_c is not None:
        return (plan.room.low_c + plan.room.high_c) / 2
    bands = [band for group in groups if (band := group.species.band("temperature"))]
    lows = [band.comfort_low for band in bands if band.comfort_low is not None]
    highs = [band.comfort_high for band in bands if band.comfort_high is not None]
    if not lows or not highs:
        return None
    return (max(lows) + min(highs)) / 2
